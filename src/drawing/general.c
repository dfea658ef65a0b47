/* The whole bridge in plan and elevation, notes, and the list of sheets. */
#include <math.h>
#include <string.h>

#include "draw.h"

static const double title_room_m = 0.022; /* under a view */

/* ---- plan ---- */

/* Spans below, the anchor panels, gaps and halves of the runs above. */
static void plan_dimensions(Draw *d, DrawingView *view, const Strip *strip, Point least, Point most)
{
    double at[64];
    int count = 0;
    for (int k = 0; k <= d->span_count; k++)
        at[count++] = strip_point(strip, d->support_m[k], 0).x_m;
    const Dims spans = {view, false, least.y_m, -0.012, count, at, true};
    chain_draw(d, &spans);
    double *run_at = ARENA_NEW(d->arena, double, 3 * d->plan->run_count + 1);
    count = 0;
    for (int r = 0; r < d->plan->run_count; r++) {
        const PanelRun *run = &d->plan->run[r];
        run_at[count++] = strip_point(strip, run->start_m, 0).x_m;
        run_at[count++] = strip_point(strip, run->gap_from_m, 0).x_m;
        run_at[count++] = strip_point(strip, run->gap_to_m, 0).x_m;
    }
    run_at[count++] = strip_point(strip, d->length_m, 0).x_m;
    const Dims gaps = {view, false, most.y_m, 0.010, count, run_at, true};
    chain_draw(d, &gaps);
}

/* True lengths stand on a straight bridge alone. */
static bool straight(const Draw *d) { return isnan(draw_value(d, "deck.plan_radius")); }

static void plan_names(Draw *d, DrawingView *view, const Strip *strip)
{
    const double s = view->scale_1;
    for (int k = 0; k <= d->span_count; k++) {
        const Point p = strip_point(strip, d->support_m[k], d->width_m / 2 + 0.006 * s);
        pen_text(pen_of(d, view, DRAWING_TEXT), (Point){p.x_m + 0.0015 * s, p.y_m - 0.0005 * s},
                 (Form){text_m, DRAWING_START, false}, arena_printf(d->arena, "%d", k + 1));
    }
}

static DrawingView *plan_draw(Draw *d, DrawingSheet *sheet, double scale, double top_m,
                              double *low_m)
{
    const Strip strip = strip_of(d, 0, d->length_m);
    Point least, most;
    strip_box(&strip, &least, &most);
    const double height_m = (most.y_m - least.y_m) / scale;
    DrawingView *view =
        view_add(d, sheet, scale,
                 (Point){d->left_m + 0.030 - least.x_m / scale, top_m - 0.026 - most.y_m / scale});
    strip_draw(d, view, &strip, NULL);
    plan_names(d, view, &strip);
    if (straight(d)) {
        plan_dimensions(d, view, &strip, least, most);
        const double across[] = {-d->width_m / 2, d->width_m / 2};
        const Dims width = {view, true, least.x_m, -0.010, 2, across, false};
        chain_draw(d, &width);
    }
    view_title(d, view, (Point){least.x_m, least.y_m - 0.036 * scale}, "General plan");
    *low_m = top_m - 0.026 - height_m - 0.036 - title_room_m;
    return view;
}

/* ---- elevation: girders, deck, gaps, bearings ---- */

static void elevation_deck(Draw *d, DrawingView *view)
{
    for (int i = 0; i < d->plan->piece_count; i++) {
        const PanelPiece *p = &d->plan->piece[i];
        if (!piece_first_across(p)) continue;
        pen_rect(pen_of(d, view, p->anchor ? DRAWING_ANCHOR : DRAWING_PANEL), (Point){p->from_m, 0},
                 (Point){p->to_m, -d->deck_m});
    }
    for (int r = 0; r < d->plan->run_count; r++) {
        const PanelRun *run = &d->plan->run[r];
        const Pen pen = pen_of(d, view, DRAWING_GAP);
        const Point a = {run->gap_from_m, 0}, b = {run->gap_to_m, -d->deck_m};
        pen_line(pen, a, b);
        pen_line(pen, (Point){a.x_m, b.y_m}, (Point){b.x_m, a.y_m});
    }
}

static double depth_at(const Draw *d, double x_m)
{
    int i = 0;
    while (i + 1 < d->piece_count && x_m > d->piece[i].to_m) i++;
    return d->piece[i].section.depth_m;
}

static void elevation_girders(Draw *d, DrawingView *view)
{
    const double top_m = -d->deck_m - d->haunch_m;
    for (int i = 0; i < d->piece_count; i++)
        pen_rect(pen_of(d, view, DRAWING_GIRDER), (Point){d->piece[i].from_m, top_m},
                 (Point){d->piece[i].to_m, top_m - d->piece[i].section.depth_m});
    const double size_m = 0.0025 * view->scale_1;
    for (int k = 0; k <= d->span_count; k++) {
        const double x_m = d->support_m[k], y_m = top_m - depth_at(d, x_m);
        pen_area(pen_of(d, view, DRAWING_SUPPORT),
                 (Point[]){{x_m, y_m},
                           {x_m - size_m, y_m - 1.6 * size_m},
                           {x_m + size_m, y_m - 1.6 * size_m}},
                 3);
        pen_text(pen_of(d, view, DRAWING_TEXT), (Point){x_m, y_m - 0.0085 * view->scale_1},
                 (Form){text_m, DRAWING_MIDDLE, false}, arena_printf(d->arena, "%d", k + 1));
    }
}

static double deepest_m(const Draw *d)
{
    double most_m = 0;
    for (int i = 0; i < d->piece_count; i++) most_m = fmax(most_m, d->piece[i].section.depth_m);
    return most_m;
}

static void elevation_draw(Draw *d, DrawingSheet *sheet, double scale, double *top_m)
{
    const double low_m = d->deck_m + d->haunch_m + deepest_m(d);
    DrawingView *view = view_add(d, sheet, scale, (Point){d->left_m + 0.030, *top_m - 0.010});
    elevation_girders(d, view);
    elevation_deck(d, view);
    const double depth[] = {-d->deck_m - d->haunch_m - depth_at(d, 0), 0};
    const Dims deep = {view, true, 0, -0.010, 2, depth, false};
    chain_draw(d, &deep);
    double *at = ARENA_NEW(d->arena, double, d->piece_count + 1);
    for (int i = 0; i < d->piece_count; i++) at[i + 1] = d->piece[i].to_m;
    double under_m = 0.014;
    if (d->piece_count > 1) {
        const Dims pieces = {view, false, -low_m, -0.016, d->piece_count + 1, at, true};
        chain_draw(d, &pieces);
        under_m = 0.038;
    }
    view_title(d, view, (Point){0, -low_m - under_m * scale},
               straight(d) ? "Elevation" : "Elevation, along the axis");
    *top_m -= 0.010 + low_m / scale + under_m + title_room_m;
}

/* ---- notes ---- */

static const char *const notes[] = {
    "All lengths along the bridge at mid-width, from the left end; left and right looking along.",
    "Grey: anchor panels, grouted to the girders before jacking. Crossed: jacking gaps, open until "
    "the closure. A panel belongs to its mark; its arrow points along the stations.",
    "No connection of the deck to the girders but at the anchor panels until the jacks are "
    "released "
    "and the gap is filled; then haunches and pockets are grouted.",
    "What the bridge file does not say is not drawn, or is named where it is drawn: barriers, "
    "drains, "
    "bearings and their seats, diaphragms, bars along the bridge, grade and camber.",
    "Sizes are proposals to a licensed engineer, not approvals: no published provision is known "
    "that "
    "covers decks compressed this way.",
};

static double notes_draw(Draw *d, DrawingSheet *sheet, Point top, double width_m)
{
    const Pen pen = pen_of(d, sheet->first, DRAWING_TEXT);
    double down_m = 0.006;
    pen_text(pen, (Point){top.x_m, top.y_m - 0.004}, (Form){title_m, DRAWING_START, false},
             "Notes");
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++)
        down_m +=
            pen_words(pen, (Point){top.x_m, top.y_m - down_m}, (Form){text_m, DRAWING_START, false},
                      width_m, arena_printf(d->arena, "%zu  %s", i + 1, notes[i]));
    if (!straight(d))
        down_m += pen_words(pen, (Point){top.x_m, top.y_m - down_m},
                            (Form){text_m, DRAWING_START, false}, width_m,
                            "Curved in plan: panels stand as chords of the axis, spans are not "
                            "dimensioned in plan.");
    return down_m;
}

/* What the schedule of panels has to say: alarms and remarks. */
static void remarks_draw(Draw *d, DrawingSheet *sheet, Point top, double width_m)
{
    const Pen pen = pen_of(d, sheet->first, DRAWING_TEXT);
    double down_m = 0;
    for (int i = 0; i < d->plan->remark_count; i++) {
        if (top.y_m - down_m < d->low_m + 0.030) return;
        down_m += pen_words(
            pen, (Point){top.x_m, top.y_m - down_m}, (Form){text_m, DRAWING_START, false}, width_m,
            arena_printf(d->arena, "%s: %s", d->plan->alarm[i] ? "NOT KEPT" : "mind",
                         d->plan->remark[i]));
    }
}

/* The largest scale at which plan and elevation share the upper part of a sheet. */
static double scale_of(const Draw *d)
{
    const Strip strip = strip_of(d, 0, d->length_m);
    Point least, most;
    strip_box(&strip, &least, &most);
    double scale = scale_fit(d, most.x_m - least.x_m, d->right_m - d->left_m - 0.040);
    const double high_m = most.y_m - least.y_m + d->deck_m + d->haunch_m + deepest_m(d);
    while (high_m / scale > d->high_m - d->low_m - 0.25) {
        const double next = scale_fit(d, high_m, d->high_m - d->low_m - 0.25);
        if (next <= scale) break;
        scale = next;
    }
    return scale;
}

Status draw_general(Draw *d, Error *err)
{
    DrawingSheet *sheet;
    TRY(page_add(d, "general", "General plan and elevation", &sheet, err));
    const double scale = scale_of(d);
    double top_m = d->high_m;
    plan_draw(d, sheet, scale, top_m, &top_m);
    const Strip strip = strip_of(d, 0, d->length_m);
    north_draw(d, sheet, (Point){d->right_m - 0.020, d->high_m - 0.012},
               strip_of(d, 0, 0).turn_rad - strip.turn_rad);
    elevation_draw(d, sheet, scale, &top_m);
    const double width_m = 0.42 * (d->right_m - d->left_m);
    const double down_m = notes_draw(d, sheet, (Point){d->left_m, top_m}, width_m);
    remarks_draw(d, sheet, (Point){d->left_m, top_m - down_m - 0.002}, width_m);
    return STATUS_OK;
}

/* ---- the list of sheets: two columns beside the notes ---- */

void draw_index(Draw *d)
{
    DrawingSheet *sheet = &d->set->sheet[0];
    const double part_m = 0.26 * (d->right_m - d->left_m);
    const double x_m = d->right_m - 2 * part_m;
    const int count = d->set->sheet_count, rows = (count + 1) / 2;
    const double row_m = 0.0055;
    const double top_m = d->low_m + fmin((rows + 1) * row_m + 0.004, 0.16);
    const int most = (int)floor((top_m - d->low_m) / row_m) - 1;
    for (int c = 0; c < 2; c++) {
        Table t = table_start(d, sheet->first, (Point){x_m + c * part_m, top_m}, 3,
                              (const double[]){0.011, 0.38 * part_m, 0.62 * part_m - 0.015});
        table_row(&t, (const char *const[]){"sheet", "file", "what"}, true);
        for (int i = c * rows; i < count && i < (c + 1) * rows; i++) {
            const DrawingSheet *s = &d->set->sheet[i];
            if (rows > most && i - c * rows == most - 1) {
                table_row(&t, (const char *const[]){"", "", "and so on"}, false);
                break;
            }
            table_row(
                &t, (const char *const[]){arena_printf(d->arena, "%d", s->number), s->id, s->title},
                false);
        }
    }
}
