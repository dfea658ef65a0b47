/* What every sheet has: border, title block, scale bars, north arrow; tables. */
#include <math.h>
#include <string.h>

#include "draw.h"

static const char preliminary[] =
    "PRELIMINARY - not for construction until signed by a licensed engineer";
enum { BLOCK_CELLS = 6 };
static const double block_m = 0.042; /* height of the title block */

/* ---- tables ---- */

Table table_start(Draw *d, DrawingView *paper, Point top, int columns, const double *width_m)
{
    Table t = {.draw = d, .view = paper, .top = top, .columns = columns, .row_m = 0.0055};
    memcpy(t.width_m, width_m, sizeof *width_m * (size_t)columns);
    return t;
}

void table_row(Table *t, const char *const *text, bool head)
{
    const Pen lines = pen_of(t->draw, t->view, DRAWING_TABLE);
    const Pen words = pen_of(t->draw, t->view, DRAWING_TEXT);
    const double low_m = t->top.y_m - t->row_m;
    double x_m = t->top.x_m, whole_m = 0;
    for (int c = 0; c < t->columns; c++) whole_m += t->width_m[c];
    if (head) pen_line(lines, t->top, (Point){x_m + whole_m, t->top.y_m});
    pen_line(lines, (Point){x_m, low_m}, (Point){x_m + whole_m, low_m});
    pen_line(lines, t->top, (Point){x_m, low_m});
    for (int c = 0; c < t->columns; c++) {
        const double room_m = t->width_m[c] - 0.002;
        const double width_m = drawing_text_width_1(text[c]) * text_m;
        const double height_m = width_m > room_m ? text_m * room_m / width_m : text_m;
        const double at_m = t->middle[c] ? x_m + t->width_m[c] / 2 : x_m + 0.001;
        if (text[c][0])
            pen_text(words, (Point){at_m, low_m + (t->row_m - height_m) / 2},
                     (Form){height_m, t->middle[c] ? DRAWING_MIDDLE : DRAWING_START, false},
                     text[c]);
        x_m += t->width_m[c];
        pen_line(lines, (Point){x_m, t->top.y_m}, (Point){x_m, low_m});
    }
    t->top.y_m = low_m;
}

void table_pair(Table *t, const char *name, const char *value)
{
    table_row(t, (const char *const[]){name, value}, false);
}

/* ---- under a view ---- */

/* A length of one figure that is 25 to 60 mm long on paper. */
static double bar_length(const Draw *d, double scale_1)
{
    const double unit_m = d->us ? 0.3048 : 1;
    const double least = 0.025 * scale_1 / unit_m;
    double length = pow(10, floor(log10(least)));
    if (length < least) length *= 2;
    if (length < least) length *= 2.5;
    if (length < least) length *= 2;
    return length * unit_m;
}

void view_title(Draw *d, DrawingView *view, Point at, const char *title)
{
    const double s = view->scale_1;
    const Pen words = pen_of(d, view, DRAWING_TITLE);
    const double width_m = drawing_text_width_1(title) * title_m;
    const char *scale = drawing_scale_words(d->set, s, d->arena);
    const double bar_m = bar_length(d, s), up_m = at.y_m - 0.0035 * s;
    view->title = title;
    pen_text(words, at, (Form){title_m, DRAWING_START, false}, title);
    pen_text(words, (Point){at.x_m, at.y_m - 0.006 * s}, (Form){text_m, DRAWING_START, false},
             scale);
    const double from_m =
        at.x_m + (fmax(width_m, drawing_text_width_1(scale) * text_m) + 0.008) * s;
    for (int i = 0; i < 2; i++) /* two halves, one of them doubled */
        pen_line(words, (Point){from_m, up_m + i * 0.001 * s},
                 (Point){from_m + bar_m / (i + 1), up_m + i * 0.001 * s});
    for (int i = 0; i < 3; i++)
        pen_line(words, (Point){from_m + i * bar_m / 2, up_m},
                 (Point){from_m + i * bar_m / 2, up_m + 0.0015 * s});
    pen_text(words, (Point){from_m, up_m + 0.0025 * s}, (Form){0.002, DRAWING_MIDDLE, false}, "0");
    const char *length = d->us ? draw_length(d, bar_m) : arena_printf(d->arena, "%.4g m", bar_m);
    pen_text(words, (Point){from_m + bar_m, up_m + 0.0025 * s},
             (Form){0.002, DRAWING_MIDDLE, false}, length);
}

static Point turned(Point middle, double length_m, double angle_rad)
{
    return (Point){middle.x_m + length_m * cos(angle_rad), middle.y_m + length_m * sin(angle_rad)};
}

static void arrow(Pen pen, Point middle, double half_m, double angle_rad)
{
    const Point tip = turned(middle, half_m, angle_rad);
    pen_line(pen, turned(middle, -half_m, angle_rad), tip);
    pen_lines(pen,
              (Point[]){turned(tip, -0.3 * half_m, angle_rad + 0.4), tip,
                        turned(tip, -0.3 * half_m, angle_rad - 0.4)},
              3);
}

void north_draw(Draw *d, DrawingSheet *sheet, Point at, double turn_rad)
{
    const Pen pen = pen_of(d, sheet->first, DRAWING_TITLE);
    const Form small = {text_m, DRAWING_MIDDLE, false};
    const double radius_m = 0.009;
    const bool said = !isnan(d->of->north_rad);
    arrow(pen, at, radius_m, turn_rad);
    pen_text(pen, (Point){at.x_m, at.y_m - 0.0145}, small, "stations");
    if (said) {
        const double north_rad = turn_rad + d->of->north_rad;
        pen_circle(pen, at, radius_m);
        arrow(pen, at, radius_m, north_rad);
        const Point n = turned(at, radius_m + 0.003, north_rad);
        pen_text(pen, (Point){n.x_m, n.y_m - 0.002}, (Form){title_m, DRAWING_MIDDLE, false}, "N");
    } else {
        pen_text(pen, (Point){at.x_m, at.y_m - 0.0185}, small, "north: not said (--north)");
    }
}

/* ---- the title block ---- */

/* Words in one line, smaller where they would not fit. */
static void fit_text(Pen pen, Point at, double width_m, double height_m, const char *text)
{
    const double long_m = drawing_text_width_1(text) * height_m;
    if (long_m > width_m) height_m *= width_m / long_m;
    pen_text(pen, at, (Form){height_m, DRAWING_START, false}, text);
}

static const char *scales_of(const Draw *d, const DrawingSheet *sheet)
{
    double one = 0;
    for (const DrawingView *v = sheet->first; v; v = v->next) {
        if (v->scale_1 == 1) continue;
        if (one != 0 && v->scale_1 != one) return "as shown";
        one = v->scale_1;
    }
    return one == 0 ? "none" : drawing_scale_words(d->set, one, d->arena);
}

static void cell_names(const Draw *d, Pen pen, Point low, double width_m)
{
    const DrawingSet *set = d->set;
    const double room_m = width_m - 0.004, x_m = low.x_m + 0.002;
    fit_text(pen, (Point){x_m, low.y_m + 0.031}, room_m, 0.006, set->title);
    fit_text(pen, (Point){x_m, low.y_m + 0.023}, room_m, text_m,
             "full-depth precast deck panels, compressed by jacks");
    fit_text(pen, (Point){x_m, low.y_m + 0.012}, room_m, text_m,
             d->us ? "lengths in feet and inches, to a sixteenth; chains add up"
                   : "lengths in millimetres; chains add up");
    fit_text(pen, (Point){x_m, low.y_m + 0.004}, room_m, text_m,
             arena_printf(d->arena, "drawn by clench %s from %s", set->version, d->of->file));
}

static void cell_sheet(const Draw *d, Pen pen, Point low, double width_m, const DrawingSheet *sheet)
{
    const double room_m = width_m - 0.004, x_m = low.x_m + 0.002;
    fit_text(pen, (Point){x_m, low.y_m + 0.031}, room_m, 0.005, sheet->title);
    fit_text(pen, (Point){x_m, low.y_m + 0.020}, room_m, text_m,
             arena_printf(d->arena, "scale: %s", scales_of(d, sheet)));
    fit_text(pen, (Point){x_m, low.y_m + 0.012}, room_m, text_m,
             arena_printf(d->arena, "sheet size %s", d->set->paper));
    fit_text(pen, (Point){x_m, low.y_m + 0.004}, room_m, text_m,
             arena_printf(d->arena, "units: %s", d->us ? "US customary" : "SI"));
}

static void cell_revision(const Draw *d, DrawingView *paper, Point low, double width_m)
{
    Table t = table_start((Draw *)(uintptr_t)d, paper, (Point){low.x_m, low.y_m + block_m}, 3,
                          (const double[]){0.009, 0.024, width_m - 0.033});
    t.row_m = block_m / 5;
    table_row(&t, (const char *const[]){"rev", "date", "what"}, false);
    table_row(&t,
              (const char *const[]){"0", d->set->date,
                                    arena_printf(d->arena, "input %s", d->set->revision)},
              false);
    for (int i = 0; i < 3; i++) table_row(&t, (const char *const[]){"", "", ""}, false);
}

static void cell_signs(Pen pen, Point low, double width_m)
{
    static const char *const who[] = {"licensed engineer", "checked", "designed"};
    for (int i = 0; i < 3; i++) {
        const double y_m = low.y_m + 0.005 + i * 0.013;
        pen_line(pen, (Point){low.x_m + 0.002, y_m}, (Point){low.x_m + width_m - 0.002, y_m});
        pen_text(pen, (Point){low.x_m + 0.002, y_m - 0.0032}, (Form){0.002, DRAWING_START, false},
                 who[i]);
    }
}

static void block_draw(Draw *d, const DrawingSheet *sheet, Point low, double width_m)
{
    static const double share_1[BLOCK_CELLS] = {0.27, 0.22, 0.14, 0.18, 0.11, 0.08};
    DrawingView *const paper = sheet->first;
    const Pen frame = pen_of(d, paper, DRAWING_FRAME), words = pen_of(d, paper, DRAWING_TITLE);
    Point at = low;
    pen_line(frame, (Point){low.x_m, low.y_m + block_m},
             (Point){low.x_m + width_m, low.y_m + block_m});
    for (int i = 0; i < BLOCK_CELLS; i++) {
        const double cell_m = share_1[i] * width_m;
        if (i) pen_line(frame, at, (Point){at.x_m, at.y_m + block_m});
        switch (i) {
        case 0: cell_names(d, words, at, cell_m); break;
        case 1: cell_sheet(d, words, at, cell_m, sheet); break;
        case 2:
            pen_words(words, (Point){at.x_m + 0.002, at.y_m + block_m - 0.002},
                      (Form){0.0032, DRAWING_START, false}, cell_m - 0.004, preliminary);
            break;
        case 3: cell_revision(d, paper, at, cell_m); break;
        case 4: cell_signs(words, at, cell_m); break;
        default:
            fit_text(words, (Point){at.x_m + 0.002, at.y_m + 0.031}, cell_m - 0.004, text_m,
                     "sheet");
            fit_text(words, (Point){at.x_m + 0.002, at.y_m + 0.014}, cell_m - 0.004, 0.009,
                     arena_printf(d->arena, "%d", sheet->number));
            fit_text(words, (Point){at.x_m + 0.002, at.y_m + 0.004}, cell_m - 0.004, text_m,
                     arena_printf(d->arena, "of %d", d->set->sheet_count));
        }
        at.x_m += cell_m;
    }
}

void frame_all(Draw *d)
{
    const double left_m = d->us ? 0.0254 : 0.020, edge_m = d->us ? 0.0127 : 0.010;
    for (int i = 0; i < d->set->sheet_count; i++) {
        const DrawingSheet *s = &d->set->sheet[i];
        const Point low = {left_m, edge_m}, high = {s->width_m - edge_m, s->height_m - edge_m};
        pen_rect(pen_of(d, s->first, DRAWING_FRAME), low, high);
        block_draw(d, s, low, high.x_m - low.x_m);
    }
}
