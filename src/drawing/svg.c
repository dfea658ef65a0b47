/* A sheet as SVG, in millimetres of the full size. */
#include <math.h>
#include <string.h>

#include "clench/drawing.h"

/* ---- numbers ---- */

/* To a thousandth, without needless zeros. */
static void number(Text *out, double value)
{
    char text[32];
    int length = snprintf(text, sizeof text, "%.3f", value);
    while (length > 0 && text[length - 1] == '0') length--;
    if (length > 0 && text[length - 1] == '.') length--;
    if (length == 2 && strncmp(text, "-0", 2) == 0) text[0] = '0', length = 1;
    text_addn(out, text, (size_t)length);
}

typedef struct Paper {
    const DrawingSheet *sheet;
    const DrawingView *view;
    Text *out;
} Paper;

static double x_mm(const Paper *p, double x_m)
{
    return 1000 * (p->view->origin.x_m + x_m / p->view->scale_1);
}

static double y_mm(const Paper *p, double y_m)
{
    return 1000 * (p->sheet->height_m - p->view->origin.y_m - y_m / p->view->scale_1);
}

static void attribute(const Paper *p, const char *name, double value)
{
    text_printf(p->out, " %s=\"", name);
    number(p->out, value);
    text_add(p->out, "\"");
}

static void escaped(Text *out, const char *piece)
{
    for (const char *c = piece; *c; c++) {
        if (*c == '&')
            text_add(out, "&amp;");
        else if (*c == '<')
            text_add(out, "&lt;");
        else if (*c == '>')
            text_add(out, "&gt;");
        else if (*c == '"')
            text_add(out, "&quot;");
        else if ((unsigned char)*c >= 0x20)
            text_addn(out, c, 1);
    }
}

/* ---- items ---- */

static void points_add(const Paper *p, const DrawingItem *item)
{
    text_add(p->out, " points=\"");
    for (int i = 0; i < item->point_count; i++) {
        if (i) text_add(p->out, " ");
        number(p->out, x_mm(p, item->point[i].x_m));
        text_add(p->out, ",");
        number(p->out, y_mm(p, item->point[i].y_m));
    }
    text_add(p->out, "\"/>\n");
}

static void arc_add(const Paper *p, const DrawingItem *item)
{
    const double r_mm = 1000 * item->radius_m / p->view->scale_1;
    const DrawingPoint m = item->point[0];
    text_add(p->out, " d=\"M");
    for (int end = 0; end < 2; end++) {
        const double angle_rad = end ? item->to_rad : item->from_rad;
        if (end) {
            text_add(p->out, " A");
            number(p->out, r_mm);
            text_add(p->out, " ");
            number(p->out, r_mm);
            text_add(p->out, item->to_rad - item->from_rad > acos(-1) ? " 0 1 0 " : " 0 0 0 ");
        }
        number(p->out, x_mm(p, m.x_m + item->radius_m * cos(angle_rad)));
        text_add(p->out, " ");
        number(p->out, y_mm(p, m.y_m + item->radius_m * sin(angle_rad)));
    }
    text_add(p->out, "\"/>\n");
}

static void words_add(const Paper *p, const DrawingItem *item)
{
    static const char *const anchor[] = {"start", "middle", "end"};
    const double x = x_mm(p, item->point[0].x_m), y = y_mm(p, item->point[0].y_m);
    attribute(p, "x", x);
    attribute(p, "y", y);
    attribute(p, "font-size", 1000 * item->height_m / 0.729);
    if (item->align != DRAWING_START)
        text_printf(p->out, " text-anchor=\"%s\"", anchor[item->align]);
    if (item->upright) {
        text_add(p->out, " transform=\"rotate(-90 ");
        number(p->out, x);
        text_add(p->out, " ");
        number(p->out, y);
        text_add(p->out, ")\"");
    }
    text_add(p->out, ">");
    escaped(p->out, item->text);
    text_add(p->out, "</text>\n");
}

static void item_add(const Paper *p, const DrawingItem *item)
{
    static const char *const element[] = {"polyline", "polygon", "circle", "path", "text"};
    text_printf(p->out, "<%s class=\"%s%s\"", element[item->kind], drawing_look(item->layer)->name,
                item->kind == DRAWING_LINES || item->kind == DRAWING_ARC ? " open" : "");
    switch (item->kind) {
    case DRAWING_CIRCLE:
        attribute(p, "cx", x_mm(p, item->point[0].x_m));
        attribute(p, "cy", y_mm(p, item->point[0].y_m));
        attribute(p, "r", 1000 * item->radius_m / p->view->scale_1);
        text_add(p->out, "/>\n");
        break;
    case DRAWING_ARC: arc_add(p, item); break;
    case DRAWING_WORDS: words_add(p, item); break;
    default: points_add(p, item);
    }
}

/* ---- the sheet ---- */

static void style_add(Text *out)
{
    text_add(out,
             "<style>\nsvg{background:#fff}\npolyline,polygon,circle,path{fill:none;stroke:#000;"
             "stroke-linejoin:round}\ntext{font-family:\"DejaVu Sans\",Verdana,sans-serif;"
             "fill:#000;stroke:#fff;stroke-width:.5;paint-order:stroke}\n");
    for (int i = 0; i < DRAWING_LAYER_COUNT; i++) {
        const DrawingLook *look = drawing_look((DrawingLayer)i);
        text_printf(out, ":not(text).%s{stroke-width:%.2f", look->name, 1000 * look->weight_m);
        if (look->on_m > 0)
            text_printf(out, ";stroke-dasharray:%.1f %.1f", 1000 * look->on_m, 1000 * look->off_m);
        const int grey = (int)lround(255 * look->tone_1);
        if (look->tone_1 >= 0) text_printf(out, ";fill:#%02x%02x%02x", grey, grey, grey);
        text_add(out, "}\n");
    }
    text_add(out, ".open{fill:none}\n</style>\n");
}

void drawing_svg(const DrawingSet *set, const DrawingSheet *sheet, Text *out)
{
    const double print_1 = set->half ? 0.5 : 1;
    Paper p = {sheet, NULL, out};
    text_add(out,
             "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\""
             " viewBox=\"0 0 ");
    number(out, 1000 * sheet->width_m);
    text_add(out, " ");
    number(out, 1000 * sheet->height_m);
    text_add(out, "\" width=\"");
    number(out, 1000 * print_1 * sheet->width_m);
    text_add(out, "mm\" height=\"");
    number(out, 1000 * print_1 * sheet->height_m);
    text_add(out, "mm\">\n<title>");
    escaped(out, set->title);
    text_add(out, ": ");
    escaped(out, sheet->title);
    text_add(out, "</title>\n");
    style_add(out);
    for (p.view = sheet->first; p.view; p.view = p.view->next) {
        text_add(out, "<g>\n");
        for (const DrawingItem *item = p.view->first; item; item = item->next) item_add(&p, item);
        text_add(out, "</g>\n");
    }
    text_add(out, "</svg>\n");
}
