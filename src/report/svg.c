/* Figures as SVG: true text, roles as classes, colours from style sheets. */
#include <math.h>
#include <string.h>

#include "document.h"

void report_escape(Text *text, const char *piece)
{
    for (const char *c = piece ? piece : ""; *c; c++) {
        switch (*c) {
        case '&': text_add(text, "&amp;"); break;
        case '<': text_add(text, "&lt;"); break;
        case '>': text_add(text, "&gt;"); break;
        case '"': text_add(text, "&quot;"); break;
        case '\'': text_add(text, "&#39;"); break;
        default:
            if ((unsigned char)*c >= 0x20 || *c == '\n' || *c == '\t') text_addn(text, c, 1);
        }
    }
}

/* A coordinate with a tenth of a px, without needless zeros. A page draws thousands of them at every
 * move of the hand: by hand, ten times as fast as printf. */
static void coordinate(Text *out, double value_px)
{
    char digits[24], *c = digits + sizeof digits;
    long left = lround(fmax(-1e7, fmin(1e7, value_px)) * 10);
    const bool below = left < 0;
    if (below) left = -left;
    const long tenth = left % 10;
    left /= 10;
    if (tenth) {
        *--c = (char)('0' + tenth);
        *--c = '.';
    }
    do *--c = (char)('0' + left % 10);
    while (left /= 10);
    if (below) *--c = '-';
    text_addn(out, c, (size_t)(digits + sizeof digits - c));
}

static void attribute(Text *out, const char *name, double value_px)
{
    text_add(out, " ");
    text_add(out, name);
    text_add(out, "=\"");
    coordinate(out, value_px);
    text_add(out, "\"");
}

static void points(Text *out, const FigureItem *item)
{
    text_add(out, " points=\"");
    for (int i = 0; i < item->point_count; i++) {
        if (i) text_add(out, " ");
        coordinate(out, item->point[i].x_px);
        text_add(out, ",");
        coordinate(out, item->point[i].y_px);
    }
    text_add(out, "\"");
}

static void class_add(Text *out, const FigureItem *item)
{
    text_add(out, " class=\"");
    text_add(out, figure_role_name(item->role));
    if (item->role == FIGURE_HEAT) text_printf(out, " h%d", (int)(item->heat_1 * 10 + 1e-9));
    if (item->kind == FIGURE_TEXT && item->size == FIGURE_SMALL) text_add(out, " small");
    if (item->kind == FIGURE_TEXT && item->size == FIGURE_LARGE) text_add(out, " large");
    text_add(out, "\"");
}

static const char *element(const FigureItem *item)
{
    static const char *const name[] = {"polyline", "polygon", "rect", "circle", "text"};
    return name[item->kind];
}

static void geometry(Text *out, const FigureItem *item)
{
    const FigurePoint *p = item->point;
    switch (item->kind) {
    case FIGURE_RECT:
        attribute(out, "x", p[0].x_px);
        attribute(out, "y", p[0].y_px);
        attribute(out, "width", fmax(0, p[1].x_px));
        attribute(out, "height", fmax(0, p[1].y_px));
        break;
    case FIGURE_DOT:
        attribute(out, "cx", p[0].x_px);
        attribute(out, "cy", p[0].y_px);
        attribute(out, "r", p[1].x_px);
        break;
    case FIGURE_TEXT:
        attribute(out, "x", p[0].x_px);
        attribute(out, "y", p[0].y_px);
        if (item->anchor != FIGURE_START)
            text_printf(out, " text-anchor=\"%s\"", item->anchor == FIGURE_END ? "end" : "middle");
        break;
    default: points(out, item);
    }
}

static void item_add(Text *out, const FigureItem *item)
{
    text_add(out, "<");
    text_add(out, element(item));
    class_add(out, item);
    geometry(out, item);
    if (item->pick) {
        text_add(out, " data-pick=\"");
        report_escape(out, item->pick);
        text_add(out, "\"");
    }
    if (!item->title && item->kind != FIGURE_TEXT) {
        text_add(out, "/>\n");
        return;
    }
    text_add(out, ">");
    if (item->title) {
        text_add(out, "<title>");
        report_escape(out, item->title);
        text_add(out, "</title>");
    }
    if (item->kind == FIGURE_TEXT) report_escape(out, item->text);
    text_add(out, "</");
    text_add(out, element(item));
    text_add(out, ">\n");
}

void report_svg(const Figure *f, const char *prefix, bool alone, Text *out)
{
    if (alone) text_add(out, "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n");
    text_add(out, "<svg");
    if (alone) text_add(out, " xmlns=\"http://www.w3.org/2000/svg\"");
    text_printf(out, " role=\"img\" aria-labelledby=\"%s-%s-t %s-%s-d\" viewBox=\"0 0 ", prefix,
                f->id, prefix, f->id);
    coordinate(out, f->width_px);
    text_add(out, " ");
    coordinate(out, f->height_px);
    text_add(out, "\"");
    attribute(out, "width", f->width_px);
    attribute(out, "height", f->height_px);
    text_printf(out, ">\n<title id=\"%s-%s-t\">", prefix, f->id);
    report_escape(out, f->title);
    text_printf(out, "</title>\n<desc id=\"%s-%s-d\">", prefix, f->id);
    report_escape(out, f->description);
    text_add(out, "</desc>\n");
    if (alone) text_printf(out, "<style>\n%s</style>\n", document_svg_style);
    for (const FigureItem *item = f->first; item; item = item->next) item_add(out, item);
    text_add(out, "</svg>\n");
}
