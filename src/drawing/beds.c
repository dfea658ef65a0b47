/* The casting beds, filling by filling: where each panel lies, its phase, and against whom it is cast. */
#include <math.h>
#include <string.h>

#include "draw.h"

typedef struct Beds {
    Draw *draw;
    DrawingSheet *sheet;
    int number;
    double scale, top_m;
} Beds;

static Status sheet_next(Beds *b, Error *err)
{
    Draw *d = b->draw;
    b->number++;
    TRY(page_add(d, arena_printf(d->arena, "beds-%d", b->number),
                 arena_printf(d->arena, "Casting beds, sheet %d", b->number), &b->sheet, err));
    const double down_m = pen_words(
        pen_of(d, b->sheet->first, DRAWING_TEXT), (Point){d->left_m, d->high_m},
        (Form){text_m, DRAWING_START, false}, d->right_m - d->left_m,
        "Seen from above, the head of the bed at the left. White: first phase, between bulkheads; "
        "grey: second phase, against the faces of the first. In a panel: its mark, and phase and "
        "day "
        "of casting. Arrows: the face that it is cast against. A star: goes back on a bed in a "
        "later "
        "filling, for its neighbour to be cast against it.");
    b->top_m = d->high_m - down_m - 0.004;
    return STATUS_OK;
}

/* Its corners on the bed: the left end of what it takes at its place. */
static void lay(const PanelPiece *p, double place_m, Point corner[4])
{
    const PanelShape *s = &p->shape;
    const double z[2] = {s->from_z_m, s->to_z_m};
    for (int i = 0; i < 2; i++) {
        corner[i] = (Point){place_m - s->left_m + s->left_m + z[i] * s->left_slope_1, -z[i]};
        corner[3 - i] = (Point){place_m - s->left_m + s->right_m + z[i] * s->right_slope_1, -z[i]};
    }
}

static void against(Pen pen, double from_m, double to_m, double y_m)
{
    const double s = pen.view->scale_1, tip_m = (to_m > from_m ? -0.0015 : 0.0015) * s;
    pen_line(pen, (Point){from_m, y_m}, (Point){to_m, y_m});
    pen_lines(
        pen,
        (Point[]){{to_m + tip_m, y_m + 0.0008 * s}, {to_m, y_m}, {to_m + tip_m, y_m - 0.0008 * s}},
        3);
}

static void panel_draw(Draw *d, DrawingView *view, const PanelPiece *p)
{
    const PanelCast *c = &p->cast;
    const double s = view->scale_1;
    Point corner[4];
    /* skewed joints: a corner lies at its place, mid-width half of what they take behind it */
    lay(p, c->place_m + d->plan->yard.skew_m / 2, corner);
    pen_area(pen_of(d, view, c->phase == 1 ? DRAWING_PHASE : DRAWING_PANEL), corner, 4);
    const double x_m = (corner[0].x_m + corner[1].x_m + corner[2].x_m + corner[3].x_m) / 4;
    const double y_m = (corner[0].y_m + corner[1].y_m) / 2;
    const Pen pen = pen_of(d, view, DRAWING_TEXT);
    const Form form = {text_m, DRAWING_MIDDLE, true};
    pen_text(pen, (Point){x_m - 0.0008 * s, y_m}, form,
             arena_printf(d->arena, "%s%s", p->mark, c->waits ? "*" : ""));
    pen_text(
        pen, (Point){x_m + 0.0034 * s, y_m}, form,
        arena_printf(d->arena, "%d: day %.5g", c->phase + 1, floor(c->cast_day * 10 + 0.5) / 10));
    const Pen arrow = pen_of(d, view, DRAWING_JOINT);
    const double up_m = y_m + 0.020 * s;
    if (c->against_left) against(arrow, corner[0].x_m + 0.004 * s, corner[0].x_m, up_m);
    if (c->against_right) against(arrow, corner[3].x_m - 0.004 * s, corner[3].x_m, up_m);
}

static int count_on(const Draw *d, int cycle, int bed)
{
    int count = 0;
    for (int i = 0; i < d->plan->piece_count; i++)
        count += d->plan->piece[i].cast.cycle == cycle && d->plan->piece[i].cast.bed == bed;
    return count;
}

static double half_m(const Draw *d) { return d->width_m / 2; }

static Status bed_put(Beds *b, int cycle, int bed, Error *err)
{
    Draw *d = b->draw;
    const PanelYard *yard = &d->plan->yard;
    const double need_m = 2 * half_m(d) / b->scale + 0.004 + 0.034;
    if (!b->sheet || b->top_m - need_m < d->low_m) TRY(sheet_next(b, err));
    DrawingView *view = view_add(
        d, b->sheet, b->scale, (Point){d->left_m + 0.010, b->top_m - 0.004 - half_m(d) / b->scale});
    const double over_m = 0.3;
    pen_rect(pen_of(d, view, DRAWING_BED), (Point){0, -half_m(d) - over_m},
             (Point){yard->bed_m, half_m(d) + over_m});
    for (int i = 0; i < d->plan->piece_count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        if (p->cast.cycle == cycle && p->cast.bed == bed) panel_draw(d, view, p);
    }
    const double at[] = {0, yard->bed_m};
    const Dims chain = {view, false, -half_m(d) - over_m, -0.008, 2, at, false};
    chain_draw(d, &chain);
    view_title(d, view, (Point){0, -half_m(d) - over_m - 0.018 * b->scale},
               arena_printf(d->arena, "Filling %d, bed %d: %d panels", cycle + 1, bed + 1,
                            count_on(d, cycle, bed)));
    b->top_m -= need_m;
    return STATUS_OK;
}

Status draw_beds(Draw *d, Error *err)
{
    Beds b = {.draw = d};
    b.scale = fmax(scale_fit(d, d->plan->yard.bed_m, d->right_m - d->left_m - 0.020),
                   scale_fit(d, d->width_m, d->high_m - d->low_m - 0.070));
    for (int cycle = 0; cycle < d->plan->sets.cycles; cycle++)
        for (int bed = 0; bed < d->plan->yard.beds; bed++)
            if (count_on(d, cycle, bed) > 0) TRY(bed_put(&b, cycle, bed, err));
    return STATUS_OK;
}
