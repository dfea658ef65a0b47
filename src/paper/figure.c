/* Display lists with a pen: a role gets its looks from one table. */
#include "paper_data.h"

#include <math.h>

typedef struct Look {
    int fill, stroke;     /* 0xRRGGBB, -1: none */
    double width_px;      /* of the stroke */
    double on_px, off_px; /* dashes; 0: none */
} Look;

enum {
    NONE = -1,
    PAPER = 0xffffff,
    INK = 0x1d2730,
    SOFT = 0x4d5a64,
    LINE = 0xd3d2c8,
    NEED = 0x0b5c8f,
    MOST = 0xa8480a,
    ANCHOR = 0x53636f,
    DECK = 0xb9c6cf
};

/* clang-format off */
static const Look looks[FIGURE_ROLE_COUNT] = {
    [FIGURE_AXIS] = {NONE, INK, 1.2, 0, 0},        [FIGURE_GRID] = {NONE, LINE, 1, 0, 0},
    [FIGURE_LABEL] = {SOFT, NONE, 0, 0, 0},        [FIGURE_STRONG] = {INK, NONE, 0, 0, 0},
    [FIGURE_NOTE] = {SOFT, NONE, 0, 0, 0},         [FIGURE_GIRDER] = {0xe4e3da, SOFT, 1, 0, 0},
    [FIGURE_SUPPORT] = {SOFT, NONE, 0, 0, 0},      [FIGURE_PANEL] = {DECK, PAPER, 1, 0, 0},
    [FIGURE_ANCHOR] = {ANCHOR, PAPER, 1, 0, 0},    [FIGURE_CLOSURE] = {0xe3b26b, PAPER, 1, 0, 0},
    [FIGURE_JACK] = {PAPER, MOST, 1.5, 0, 0},      [FIGURE_SHIM] = {NONE, SOFT, 4, 1.5, 4},
    [FIGURE_BOND] = {NONE, ANCHOR, 5, 0, 0},       [FIGURE_LIFT] = {NONE, MOST, 2, 2, 3},
    [FIGURE_JOINT] = {NONE, SOFT, 1, 0, 0},        [FIGURE_GOVERNS] = {MOST, PAPER, 1.5, 0, 0},
    [FIGURE_FORCE] = {MOST, MOST, 2, 0, 0},        [FIGURE_MOMENT_1] = {PAPER, INK, 1.8, 2, 3},
    [FIGURE_MOMENT_2] = {NONE, 0x7a5195, 1.8, 7, 3}, [FIGURE_MOMENT_3] = {NONE, 0x0b7a75, 1.8, 9, 3},
    [FIGURE_MOMENT_4] = {NONE, NEED, 2.4, 0, 0},   [FIGURE_LIMIT] = {NONE, MOST, 1.5, 10, 4},
    [FIGURE_BAND] = {0xcfe0ea, NONE, 0, 0, 0},     [FIGURE_COMPRESSION] = {NEED, NONE, 0, 0, 0},
    [FIGURE_TENSION] = {MOST, NONE, 0, 0, 0},      [FIGURE_HEAT] = {NONE, NONE, 0, 0, 0},
    [FIGURE_CONTOUR] = {NONE, SOFT, 0.6, 0, 0},    [FIGURE_ZERO] = {NONE, MOST, 2.5, 0, 0},
    [FIGURE_HEAT_TEXT] = {INK, NONE, 0, 0, 0},     [FIGURE_TOTAL] = {ANCHOR, NONE, 0, 0, 0},
    [FIGURE_LOSS] = {MOST, NONE, 0, 0, 0},         [FIGURE_GAIN] = {0x2f7d4f, NONE, 0, 0, 0},
    [FIGURE_NEED] = {NEED, NEED, 3, 0, 0},         [FIGURE_MOST] = {MOST, MOST, 3, 6, 2},
    [FIGURE_PLACED] = {NONE, SOFT, 1, 3, 2},       [FIGURE_TIE] = {NONE, INK, 1.5, 0, 0},
    [FIGURE_OPEN] = {MOST, MOST, 2, 0, 0},         [FIGURE_SEEN] = {NONE, INK, 1, 3, 3},
    [FIGURE_HIT] = {NONE, NONE, 0, 0, 0},
    [FIGURE_WINDOW] = {0xd5e8da, NONE, 0, 0, 0},   [FIGURE_CLASH] = {0xf6d6c4, NONE, 0, 0, 0},
};
static const int heat[] = {0xf0f5f8, 0xe2edf3, 0xd2e3ed, 0xc0d8e6, 0xabcbde, 0x94bcd4,
                           0x7aabc9, 0x5f98bb, 0x4584ab, 0x2f6f99, 0xe07b28};
/* clang-format on */

static void colour_set(cairo_t *cr, int colour)
{
    cairo_set_source_rgb(cr, (colour >> 16 & 255) / 255.0, (colour >> 8 & 255) / 255.0,
                         (colour & 255) / 255.0);
}

static void path_set(cairo_t *cr, const FigureItem *item)
{
    const FigurePoint *const p = item->point;
    cairo_new_path(cr);
    if (item->kind == FIGURE_RECT) {
        cairo_rectangle(cr, p[0].x_px, p[0].y_px, fmax(0, p[1].x_px), fmax(0, p[1].y_px));
    } else if (item->kind == FIGURE_DOT) {
        cairo_new_sub_path(cr);
        cairo_arc(cr, p[0].x_px, p[0].y_px, fmax(0, p[1].x_px), 0, 8 * atan(1));
    } else {
        for (int i = 0; i < item->point_count; i++) cairo_line_to(cr, p[i].x_px, p[i].y_px);
        if (item->kind == FIGURE_POLYGON) cairo_close_path(cr);
    }
}

static void shape_draw(cairo_t *cr, const FigureItem *item)
{
    Look look = looks[item->role];
    if (item->role == FIGURE_HEAT) {
        const int step = (int)(item->heat_1 * 10 + 1e-9);
        look.fill = heat[step < 0 ? 0 : step > 10 ? 10 : step];
    }
    const bool filled = item->kind != FIGURE_POLYLINE && look.fill != NONE;
    /* circles and lines of one role look alike: a line needs a stroke, a dot may go without */
    const bool drawn = look.stroke != NONE && look.width_px > 0;
    path_set(cr, item);
    if (filled) {
        colour_set(cr, look.fill);
        if (drawn)
            cairo_fill_preserve(cr);
        else
            cairo_fill(cr);
    }
    if (drawn) {
        const double dash_px[] = {look.on_px, look.off_px};
        cairo_set_dash(cr, dash_px, look.on_px > 0 && item->kind == FIGURE_POLYLINE ? 2 : 0, 0);
        colour_set(cr, look.stroke);
        cairo_set_line_width(cr, look.width_px);
        cairo_stroke(cr);
    }
    cairo_new_path(cr);
}

/* Letters over lines stand on a rim of paper. */
static void text_draw(Paper *paper, const FigureItem *item)
{
    static const double size_px[] = {10.2, 12, 15}; /* this face runs wider than those of screens */
    cairo_t *const cr = paper->cr;
    const bool bold = item->role == FIGURE_STRONG || item->role == FIGURE_GOVERNS;
    PangoLayout *const layout =
        words_layout(paper, item->text, bold ? FACE_SANS_BOLD : FACE_SANS, size_px[item->size], -1);
    const double width_px = words_width_pt(layout);
    const double back_1 = item->anchor == FIGURE_END ? 1 : item->anchor == FIGURE_MIDDLE ? 0.5 : 0;
    const int fill = looks[item->role].fill;
    cairo_move_to(cr, item->point[0].x_px - back_1 * width_px,
                  item->point[0].y_px - words_baseline_pt(layout));
    if (bold || item->role == FIGURE_NOTE || item->role == FIGURE_HEAT_TEXT) {
        double x_px, y_px;
        cairo_get_current_point(cr, &x_px, &y_px);
        pango_cairo_layout_path(cr, layout);
        colour_set(cr, PAPER);
        cairo_set_dash(cr, NULL, 0, 0);
        cairo_set_line_width(cr, 3);
        cairo_stroke(cr);
        cairo_move_to(cr, x_px, y_px);
    }
    colour_set(cr, fill == NONE || fill == PAPER ? INK : fill);
    pango_cairo_show_layout(cr, layout);
    cairo_new_path(cr);
}

static double scale_of(const Paper *paper, const Figure *figure)
{
    /* two of them share a page */
    return fmin(fmin(paper->measure_pt / figure->width_px, 0.75), 254 / figure->height_px);
}

static void figure_draw(Paper *paper, const Box *box, double y_pt)
{
    const Figure *const figure = box->content;
    const double scale_1 = scale_of(paper, figure);
    cairo_save(paper->cr);
    cairo_translate(paper->cr, paper->left_pt, y_pt);
    cairo_scale(paper->cr, scale_1, scale_1);
    cairo_set_line_join(paper->cr, CAIRO_LINE_JOIN_ROUND);
    for (const FigureItem *item = figure->first; item; item = item->next) {
        if (item->kind == FIGURE_TEXT)
            text_draw(paper, item);
        else
            shape_draw(paper->cr, item);
    }
    cairo_restore(paper->cr);
}

void figure_add(Paper *paper, const Figure *figure)
{
    flow_words(paper, 14, figure->title, FACE_BOLD, 10, 0, INK_TEXT);
    paper->last->keep = true;
    Box *const box = box_add(paper, 6, figure->height_px * scale_of(paper, figure), figure_draw,
                             (void *)(uintptr_t)figure);
    box->keep = true;
    flow_words(paper, 5, figure->description, FACE_PLAIN, 9, 0, INK_SOFT);
}
