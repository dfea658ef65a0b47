/* Items, views, sheets, and what words take. */
#include <math.h>
#include <string.h>

#include "draw.h"

const double text_m = 0.0025, title_m = 0.004;

const DrawingLook *drawing_look(DrawingLayer layer)
{
    static const DrawingLook looks[DRAWING_LAYER_COUNT] = {
#define X(id, name, weight, on, off, colour, tone) \
    {name, (weight) / 1000.0, (on) / 1000.0, (off) / 1000.0, colour, tone},
        DRAWING_LAYER_LIST(X)
#undef X
    };
    return &looks[layer];
}

/* ---- words ---- */

/* Advance over the height of capitals, 0.729 em, of a common sans-serif face: groups of letters; wide
 * enough for every one of a group. */
static double letter_1(unsigned char c)
{
    if (c >= 0x80 && c < 0xC0) return 0; /* goes on with the letter before */
    if (c >= '0' && c <= '9') return 0.873;
    if (strchr("ijl|'I,.:;! ", c)) return 0.44;
    if (strchr("-/()[]\"ftr", c)) return 0.56;
    if (strchr("mwMW@%", c)) return 1.36;
    if (c >= 'A' && c <= 'Z') return 1.0;
    if (c >= 'a' && c <= 'z') return 0.84;
    return 1.15; /* signs */
}

double drawing_text_width_1(const char *text)
{
    double width_1 = 0;
    for (const char *c = text; *c; c++) width_1 += letter_1((unsigned char)*c);
    return width_1;
}

/* ---- sheets ---- */

Status page_add(Draw *d, const char *id, const char *title, DrawingSheet **sheet, Error *err)
{
    DrawingSet *set = d->set;
    if (set->sheet_count == DRAWING_SHEETS_MAX)
        return error_set(err, STATUS_TOO_LARGE, "the drawings need more than %d sheets",
                         (int)DRAWING_SHEETS_MAX);
    DrawingSheet *s = &set->sheet[set->sheet_count++];
    *s = (DrawingSheet){.id = id,
                        .title = title,
                        .number = set->sheet_count,
                        .width_m = d->us ? 34 * 0.0254 : 0.841,
                        .height_m = d->us ? 22 * 0.0254 : 0.594};
    view_add(d, s, 1, (Point){0, 0});
    *sheet = s;
    return STATUS_OK;
}

DrawingView *view_add(Draw *d, DrawingSheet *sheet, double scale_1, Point origin)
{
    DrawingView *v = ARENA_NEW(d->arena, DrawingView, 1);
    *v = (DrawingView){.scale_1 = scale_1, .origin = origin};
    if (sheet->last)
        sheet->last->next = v;
    else
        sheet->first = v;
    sheet->last = v;
    return v;
}

/* ---- items ---- */

Pen pen_of(Draw *d, DrawingView *view, DrawingLayer layer) { return (Pen){d, view, layer}; }

static DrawingItem *item_add(Pen pen, DrawingKind kind, const Point *point, int count)
{
    DrawingItem *item = ARENA_NEW(pen.draw->arena, DrawingItem, 1);
    Point *copy = ARENA_NEW(pen.draw->arena, Point, count);
    memcpy(copy, point, sizeof *point * (size_t)count);
    *item = (DrawingItem){.kind = kind, .layer = pen.layer, .point = copy, .point_count = count};
    if (pen.view->last)
        pen.view->last->next = item;
    else
        pen.view->first = item;
    pen.view->last = item;
    return item;
}

void pen_line(Pen pen, Point a, Point b) { item_add(pen, DRAWING_LINES, (Point[]){a, b}, 2); }

void pen_lines(Pen pen, const Point *point, int count)
{
    item_add(pen, DRAWING_LINES, point, count);
}

void pen_area(Pen pen, const Point *point, int count) { item_add(pen, DRAWING_AREA, point, count); }

void pen_rect(Pen pen, Point a, Point b)
{
    pen_area(pen, (Point[]){a, {b.x_m, a.y_m}, b, {a.x_m, b.y_m}}, 4);
}

void pen_circle(Pen pen, Point middle, double radius_m)
{
    item_add(pen, DRAWING_CIRCLE, &middle, 1)->radius_m = radius_m;
}

void pen_arc(Pen pen, Point middle, double radius_m, double from_rad, double to_rad)
{
    DrawingItem *item = item_add(pen, DRAWING_ARC, &middle, 1);
    item->radius_m = radius_m;
    item->from_rad = from_rad;
    item->to_rad = to_rad;
}

void pen_text(Pen pen, Point at, Form form, const char *text)
{
    DrawingItem *item = item_add(pen, DRAWING_WORDS, &at, 1);
    item->text = text;
    item->height_m = form.height_m;
    item->align = form.align;
    item->upright = form.upright;
}

double pen_words(Pen pen, Point top, Form form, double width_m, const char *text)
{
    const double step_m = 1.7 * form.height_m;
    double down_m = 0;
    while (*text) {
        size_t fits = 0, length = 0;
        for (;;) { /* word by word */
            const size_t next = length + strcspn(text + length + (text[length] == ' '), " \n") +
                                (text[length] == ' ');
            const char *line = arena_textn(pen.draw->arena, text, next);
            if (fits && drawing_text_width_1(line) * form.height_m > width_m) break;
            fits = length = next;
            if (text[length] != ' ') break;
        }
        down_m += step_m;
        pen_text(pen, (Point){top.x_m, top.y_m - down_m * pen.view->scale_1}, form,
                 arena_textn(pen.draw->arena, text, fits));
        text += fits;
        if (*text == ' ' || *text == '\n') text++;
    }
    return down_m;
}

void pen_leader(Pen pen, Point from, Point to)
{
    pen_line(pen, from, to);
    pen_circle(pen, to, 0.0006 * pen.view->scale_1);
}

/* ---- values ---- */

static const BridgeValue *value_at(const Draw *d, const char *path)
{
    return bridge_value_at(d->bridge, path);
}

double draw_value(const Draw *d, const char *path)
{
    const BridgeValue *value = value_at(d, path);
    return value ? value->value : (double)NAN;
}

int draw_count(const Draw *d, const char *path) { return (int)lround(draw_value(d, path)); }

const char *draw_said(const Draw *d, const char *path)
{
    const BridgeValue *value = value_at(d, path);
    return value ? value->text : "none";
}

const char *draw_length(const Draw *d, double length_m)
{
    return drawing_length(length_m, d->of->units, d->arena);
}

const char *draw_quantity(const Draw *d, double value_SI, DimensionId dimension, int places)
{
    const char *unit = quantity_unit(d->of->units, dimension);
    if (dimension == DIM_AREA) unit = d->us ? "ft^2" : "m^2";
    if (dimension == DIM_VOLUME) unit = d->us ? "yd^3" : "m^3";
    if (dimension == DIM_STRESS) unit = d->us ? "psi" : "MPa";
    if (!isfinite(value_SI)) return "not given";
    const double value = quantity_in(value_SI, unit);
    const char *power = strchr(unit, '^');
    const int length = power ? (int)(power - unit) : (int)strlen(unit);
    return arena_printf(d->arena, "%.*f %.*s%s", places, value == 0 ? 0.0 : value, length, unit,
                        !power            ? ""
                        : power[1] == '2' ? "\xC2\xB2"
                                          : "\xC2\xB3");
}
