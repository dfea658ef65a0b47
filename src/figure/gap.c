/* Force in the gap against its opening: the steps of the jacks, then what becomes of it. */
#include <math.h>

#include "plot.h"

enum { LEFT = 62, RIGHT = 22, PLOT_HEIGHT = 300 };

typedef struct GapPath {
    Plot plot;
    const LineAnswer *line;
    UnitSystem units;
    int from, to; /* times: the first jack event, the end */
} GapPath;

static FigurePoint gap_values(const GapPath *g, int time)
{
    const StageHistory *h = g->line->history;
    const size_t at = (size_t)time * (size_t)h->model->gap_count;
    return (FigurePoint){quantity_in(h->gap_opening_m[at], figure_move_unit(g->units)),
                         quantity_in(h->gap_force_N[at], quantity_unit(g->units, DIM_FORCE))};
}

static FigurePoint gap_point(const GapPath *g, int time)
{
    const FigurePoint value = gap_values(g, time);
    return plot_at(&g->plot, value.x_px, value.y_px);
}

static int first_jack(const StageHistory *h)
{
    for (int t = 0; t < h->time_count; t++)
        if (h->event[t] >= 0 && h->model->event[h->event[t]].kind == EVENT_JACK) return t;
    return -1;
}

static void set_axes(GapPath *g, double top_px)
{
    double x_low = 0, x_high = 0, y_high = 0;
    for (int t = g->from; t <= g->to; t++) {
        const FigurePoint v = gap_values(g, t);
        x_low = fmin(x_low, v.x_px);
        x_high = fmax(x_high, v.x_px);
        y_high = fmax(y_high, v.y_px);
    }
    double y_low = 0;
    plot_widen(&x_low, &x_high, 0.06);
    plot_widen(&y_low, &y_high, 0.08);
    g->plot.x = (Axis){x_low, x_high, LEFT, g->plot.figure->width_px - RIGHT, false};
    g->plot.y = (Axis){0, y_high, top_px + PLOT_HEIGHT, top_px, false};
}

static void draw_path(const GapPath *g)
{
    Figure *f = g->plot.figure;
    const StageHistory *h = g->line->history;
    const int count = g->to - g->from + 1;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, count + 1);
    int jacking = 1; /* the origin, then every time while the jacks push */
    point[0] = plot_at(&g->plot, 0, 0);
    for (int t = g->from; t <= g->to; t++) point[t - g->from + 1] = gap_point(g, t);
    for (int t = g->from; t <= g->to; t++)
        if (h->event[t] >= 0 && h->model->event[h->event[t]].kind == EVENT_JACK)
            jacking = t - g->from + 2;
    figure_lines(f, FIGURE_MOMENT_1, point, jacking)->title = "jacking";
    figure_lines(f, FIGURE_MOMENT_3, point + jacking - 1, count - jacking + 2)->title =
        "from locking to the end of life";
    for (int t = g->from; t <= g->to; t++) {
        if (h->event[t] < 0 || h->model->event[h->event[t]].kind != EVENT_JACK) continue;
        const FigurePoint v = gap_values(g, t);
        figure_dot(f, FIGURE_MOMENT_1, gap_point(g, t), 3.5)->title =
            arena_printf(f->arena, "%.4g %s, %.4g %s", v.y_px, quantity_unit(g->units, DIM_FORCE),
                         v.x_px, figure_move_unit(g->units));
    }
}

/* Numbered dots, and what the numbers mean in the corner that the jacking line leaves free. */
static void draw_moments(const GapPath *g, const FigureMoment *moment, int count)
{
    Figure *f = g->plot.figure;
    const char *force = quantity_unit(g->units, DIM_FORCE);
    for (int i = 0; i < count; i++) {
        const FigurePoint at = gap_point(g, moment[i].time), v = gap_values(g, moment[i].time);
        const char *says = arena_printf(
            f->arena, "%d  %s, %.0f %s", i + 1,
            figure_when(f->arena, g->line, g->line->history->day[moment[i].time]), v.y_px, force);
        figure_dot(f, FIGURE_GOVERNS, at, 4)->title = says;
        const bool right = i % 2 == 0;
        figure_text(f, FIGURE_STRONG,
                    (FigurePoint){at.x_px + (right ? 7 : -7), at.y_px + (right ? -3 : 9)},
                    right ? FIGURE_START : FIGURE_END, arena_printf(f->arena, "%d", i + 1));
        const FigurePoint line = {g->plot.x.from_px + 10, g->plot.y.to_px + 20 + 18 * i};
        figure_text(f, FIGURE_STRONG, line, FIGURE_START, says);
    }
}

static FigureTable *gap_table(const GapPath *g, Arena *arena)
{
    const StageHistory *h = g->line->history;
    FigureTable *t = figure_table_start(arena, "Gap at every event", 4);
    figure_table_column(t, 0, true, "day after first jacking");
    figure_table_column(t, 1, false, "event");
    figure_table_column(t, 2, true,
                        arena_printf(arena, "force [%s]", quantity_unit(g->units, DIM_FORCE)));
    figure_table_column(t, 3, true,
                        arena_printf(arena, "opening [%s]", figure_move_unit(g->units)));
    for (int time = g->from; time <= g->to; time++) {
        if (h->event[time] < 0) continue;
        const FigurePoint v = gap_values(g, time);
        const Event *event = &h->model->event[h->event[time]];
        figure_table_row(
            t, (const char *[]){arena_printf(arena, "%.1f", h->day[time] - h->day[g->from]),
                                figure_event(event), arena_printf(arena, "%.1f", v.y_px),
                                arena_printf(arena, "%.3f", v.x_px)});
    }
    return t;
}

Figure *figure_gap(const FigureView *view, Arena *arena)
{
    const LineAnswer *line = view->line;
    const UnitSystem units = view->units;
    const double width_px = view->width_px;
    Figure *f = figure_start(arena, "gap", width_px, PLOT_HEIGHT + 110);
    f->title = arena_printf(arena, "Force and opening of the jacking gap, %s", line->line->name);
    f->description = "From the first stroke of the jacks through locking, closure and release to "
                     "the end of life; after release the closure carries the force.";
    FigureMoment moment[5];
    const int count = figure_moments(line, moment);
    GapPath g = {{f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}},
                 line,
                 units,
                 first_jack(line->history),
                 line->history->time_count - 1};
    if (g.from < 0 || count < 1 || line->history->model->gap_count < 1) return f;
    static const LegendEntry entry[] = {
        {FIGURE_MOMENT_1, false, "jacking", 0},
        {FIGURE_MOMENT_3, false, "locked, released, in service", 0}};
    const double top = plot_legend(f, 4, 0, entry, 2) + 24;
    set_axes(&g, top);
    plot_y_axis(&g.plot,
                arena_printf(arena, "force of the line [%s]", quantity_unit(units, DIM_FORCE)),
                false);
    plot_x_axis(&g.plot, arena_printf(arena, "opening of the gap [%s]", figure_move_unit(units)));
    draw_path(&g);
    draw_moments(&g, moment, count);
    f->table = gap_table(&g, arena);
    f->height_px = top + PLOT_HEIGHT + 44;
    return f;
}
