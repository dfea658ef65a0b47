/* Pictures of the seats: the haunch along each girder with its limits; the profile and its facets. */
#include <math.h>

#include "plot.h"

enum { LEFT = 62, RIGHT = 22, STRIP = 92, SPACE = 40, GRADE = 190, FACET = 120 };

typedef struct Seats {
    Plot plot;
    const FigureSeats *at;
    double per_m, per_small; /* feet or metres of a metre; inches or millimetres */
} Seats;

static const char *along_unit(const Seats *s) { return quantity_unit(s->at->units, DIM_LENGTH); }
static const char *small_unit(const Seats *s) { return figure_move_unit(s->at->units); }

static FigurePoint at(const Seats *s, double x_m, double small_m)
{
    return plot_at(&s->plot, x_m * s->per_m, small_m * s->per_small);
}

static Axis along(const Seats *s)
{
    const SeatPlan *plan = s->at->plan;
    const double side_m = fabs(plan->skew_1) * fabs(plan->piece[0].z_m);
    return (Axis){-side_m * s->per_m, (plan->length_m + side_m) * s->per_m, LEFT,
                  s->plot.figure->width_px - RIGHT, false};
}

/* ---- haunches ---- */

/* Of one girder between two gaps: thin and thick edge as a band, middle as a line. */
static int stretch_draw(const Seats *s, int from)
{
    const SeatPlan *plan = s->at->plan;
    const SeatPlace *p = plan->place;
    int to = from;
    while (to + 1 < plan->place_count && p[to + 1].girder == p[from].girder &&
           p[to + 1].unit == p[from].unit &&
           !(to > from && p[to].line >= 0 && plan->line[p[to].line].right_panel < 0))
        to++;
    const int n = to - from + 1;
    Figure *f = s->plot.figure;
    FigurePoint *ring = ARENA_NEW(f->arena, FigurePoint, 2 * n);
    FigurePoint *line = ARENA_NEW(f->arena, FigurePoint, n);
    for (int i = 0; i < n; i++) {
        ring[i] = at(s, p[from + i].x_m, p[from + i].thin_m);
        ring[2 * n - 1 - i] = at(s, p[from + i].x_m, p[from + i].thick_m);
        line[i] = at(s, p[from + i].x_m, p[from + i].height_m);
    }
    figure_area(f, FIGURE_BAND, ring, 2 * n);
    figure_lines(f, FIGURE_MOMENT_4, line, n);
    for (int i = from; i <= to; i++) {
        const bool thin = p[i].thin_m < plan->limit.least_m - 1e-9;
        const bool thick = p[i].thick_m > plan->limit.most_m + 1e-9;
        if (thin) figure_dot(f, FIGURE_OPEN, at(s, p[i].x_m, p[i].thin_m), 2.5);
        if (thick) figure_dot(f, FIGURE_OPEN, at(s, p[i].x_m, p[i].thick_m), 2.5);
        if (p[i].line >= 0 && !thin && !thick)
            figure_dot(f, FIGURE_SHIM, at(s, p[i].x_m, p[i].height_m), 1.8)->title =
                plan->line[p[i].line].mark;
    }
    return to + 1;
}

static void limit_draw(const Seats *s, double limit_m)
{
    const Axis *x = &s->plot.x;
    const double y = at(s, 0, limit_m).y_px;
    figure_segment(s->plot.figure, FIGURE_LIMIT, (FigurePoint){x->from_px, y},
                   (FigurePoint){x->to_px, y});
}

static void girder_draw(Seats *s, int girder, double top_px, bool last)
{
    const SeatPlan *plan = s->at->plan;
    double least_m = 0, most_m = plan->limit.most_m;
    for (int i = 0; i < plan->place_count; i++) {
        least_m = fmin(least_m, plan->place[i].thin_m);
        most_m = fmax(most_m, plan->place[i].thick_m);
    }
    s->plot.y =
        (Axis){least_m * s->per_small, 1.1 * most_m * s->per_small, top_px + STRIP, top_px, false};
    Plot quiet = s->plot;
    if (!last) { /* the grid alone: numbers stand under the last one */
        double tick[16];
        const int count =
            figure_ticks(quiet.x.from, quiet.x.to, plot_narrow(quiet.figure) ? 5 : 11, tick);
        for (int i = 0; i < count; i++) {
            const double x = axis_px(&quiet.x, tick[i]);
            figure_segment(quiet.figure, FIGURE_GRID, (FigurePoint){x, top_px},
                           (FigurePoint){x, top_px + STRIP});
        }
    } else
        plot_x_axis(&s->plot, arena_printf(s->plot.figure->arena,
                                           "from the left end of the bridge [%s]", along_unit(s)));
    plot_y_axis(&s->plot,
                arena_printf(s->plot.figure->arena, "G%d, haunch [%s]", girder + 1, small_unit(s)),
                false);
    limit_draw(s, plan->limit.least_m);
    limit_draw(s, plan->limit.most_m);
    for (int i = 0; i < plan->place_count;)
        i = plan->place[i].girder == girder ? stretch_draw(s, i) : i + 1;
}

static Figure *haunches(const FigureSeats *seats, double width_px, Arena *arena)
{
    static const LegendEntry entry[] = {{FIGURE_MOMENT_4, false, "middle of the flange", 0},
                                        {FIGURE_BAND, true, "between its edges", 0},
                                        {FIGURE_LIMIT, false, "limits", 0}};
    const int last = seats->girder + seats->count < seats->plan->girders
                         ? seats->girder + seats->count
                         : seats->plan->girders;
    Figure *f =
        figure_start(arena, arena_printf(arena, "haunch-%d", seats->girder + 1), width_px, 0);
    f->title = arena_printf(arena, "Haunch along girders G%d to G%d", seats->girder + 1, last);
    f->description =
        "Gap between the top of the girder and the soffit of the panels. Small dots are "
        "shims; dots that stand out pass a limit. The jacking gap is left out.";
    Seats s = {{f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}},
               seats,
               plot_per_SI(seats->units, DIM_LENGTH),
               quantity_in(1, figure_move_unit(seats->units))};
    double top = plot_legend(f, 4, 0, entry, 3) + 24;
    s.plot.x = along(&s);
    for (int g = seats->girder; g < last; g++, top += STRIP + SPACE - 8)
        girder_draw(&s, g, top, g == last - 1);
    f->height_px = top + 22;
    return f;
}

/* ---- profile ---- */

static void profile_draw(Seats *s, double top_px)
{
    enum { POINTS = 201 };
    const SeatPlan *plan = s->at->plan;
    const Grade *g = &plan->grade;
    FigurePoint line[POINTS];
    double level[POINTS], low = INFINITY, high = -INFINITY;
    for (int i = 0; i < POINTS; i++) {
        const double x_m = plan->length_m * i / (POINTS - 1);
        level[i] = s->per_m * (grade_elevation_m(g, g->left_end_m + x_m) + g->raise_m +
                               g->tilt_1 * (x_m - g->middle_m));
        low = fmin(low, level[i]);
        high = fmax(high, level[i]);
    }
    plot_widen(&low, &high, 0.12);
    s->plot.y = (Axis){low, high, top_px + GRADE, top_px, false};
    plot_y_axis(&s->plot, arena_printf(s->plot.figure->arena, "profile [%s]", along_unit(s)),
                false);
    for (int i = 0; i < POINTS; i++)
        line[i] = plot_at(&s->plot, s->per_m * plan->length_m * i / (POINTS - 1), level[i]);
    figure_lines(s->plot.figure, FIGURE_MOMENT_4, line, POINTS);
    for (int i = 1; i + 1 < g->point_count; i++) {
        const double x_m = g->point[i].station_m - g->left_end_m;
        const double y = s->per_m * g->point[i].elevation_m;
        if (x_m < 0 || x_m > plan->length_m || y < low || y > high) continue;
        figure_dot(s->plot.figure, FIGURE_GOVERNS, plot_at(&s->plot, x_m * s->per_m, y), 3.5)
            ->title = "point of vertical intersection";
    }
    for (int u = 0; u < plan->unit_count; u++)
        for (int k = 0; k < plan->unit[u].support_count; k++) {
            const double x = axis_px(
                &s->plot.x, s->per_m * (plan->unit[u].start_m + plan->unit[u].support_m[k]));
            const FigurePoint corner[] = {
                {x, top_px + GRADE}, {x - 5, top_px + GRADE + 8}, {x + 5, top_px + GRADE + 8}};
            figure_area(s->plot.figure, FIGURE_SUPPORT, corner, 3)->title = "support";
        }
}

/* Where the middle of each panel lies off the profile: a bar from joint to joint. */
static void facets_draw(Seats *s, double top_px)
{
    const SeatPlan *plan = s->at->plan;
    double most_m = 1e-5;
    for (int i = 0; i < plan->panel_count; i++) most_m = fmax(most_m, fabs(plan->panel[i].facet_m));
    s->plot.y = (Axis){-1.2 * most_m * s->per_small, 1.2 * most_m * s->per_small, top_px + FACET,
                       top_px, false};
    plot_x_axis(&s->plot, arena_printf(s->plot.figure->arena,
                                       "from the left end of the bridge [%s]", along_unit(s)));
    plot_y_axis(&s->plot,
                arena_printf(s->plot.figure->arena, "middle of the panels above the profile [%s]",
                             small_unit(s)),
                false);
    int panel = 0;
    for (int l = 0; l + 1 < plan->line_count && panel < plan->panel_count; l++) {
        if (!plan->line[l].joint || plan->line[l].right_panel < 0) continue;
        int next = l + 1;
        while (!plan->line[next].joint) next++;
        const FigurePoint zero = at(s, plan->line[l].x_m, 0);
        const FigurePoint end = at(s, plan->line[next].x_m, plan->panel[panel].facet_m);
        figure_rect(s->plot.figure, FIGURE_PANEL,
                    (FigurePoint){zero.x_px + 0.5, fmin(zero.y_px, end.y_px)},
                    fmax(end.x_px - zero.x_px - 1, 0.5), fmax(fabs(end.y_px - zero.y_px), 0.5))
            ->title = plan->panel[panel].mark;
        panel++;
    }
}

static Figure *profile(const FigureSeats *seats, double width_px, Arena *arena)
{
    Figure *f = figure_start(arena, "profile", width_px, 0);
    f->title = "Profile, and what flat panels leave of it";
    f->description = "Above: the profile along its line, heights not to scale; dots are points of "
                     "vertical intersection. Below: how far the middle of each panel lies off it.";
    Seats s = {{f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}},
               seats,
               plot_per_SI(seats->units, DIM_LENGTH),
               quantity_in(1, figure_move_unit(seats->units))};
    s.plot.x = along(&s);
    profile_draw(&s, 26);
    facets_draw(&s, 26 + GRADE + SPACE + 10);
    f->height_px = 26 + GRADE + SPACE + 10 + FACET + 46;
    return f;
}

Figure *figure_seats(const FigureSeats *seats, double width_px, Arena *arena)
{
    return seats->girder < 0 ? profile(seats, width_px, arena) : haunches(seats, width_px, arena);
}
