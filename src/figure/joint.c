/* History of one joint after jacking: stress of both fibres under permanent load, what live load, gradient
 * and wheels of the rule add, and below it the margin that is left. */
#include <math.h>

#include "page.h"
#include "plot.h"

enum { STRESS_HEIGHT = 150, MARGIN_HEIGHT = 110, TOP = 62, BETWEEN = 46, FLAGS = 22 };

typedef struct Life {
    Plot plot;
    const FigureView *view;
    const LineAnswer *line;
    int joint, rule, from, to; /* times: jacked to the end of life */
    int side;                  /* the one nearer to opening at the end */
    double per_Pa;
    double *top, *bottom, *demand, *margin; /* [time - from], display units; NAN without deck */
} Life;

static const double first_day = 0.1;

static double after_day(const Life *l, int time)
{
    const StageHistory *h = l->line->history;
    return fmax(first_day, h->day[time] - h->day[l->from]);
}

static double worse_fibre(const Life *l, int side, int time, bool *top)
{
    double worst_Pa = NAN;
    for (int k = 0; k < 2; k++) {
        Governing at;
        if (!thrust_judge(l->line, l->rule, l->joint, side, k == 0, time, &at)) continue;
        if (!(at.demand - at.limit <= worst_Pa)) {
            worst_Pa = at.demand - at.limit;
            *top = k == 0;
        }
    }
    return worst_Pa;
}

static int worse_side(const Life *l)
{
    const int only = thrust_joint_side(l->line->line, l->joint);
    bool top;
    if (only) return only;
    const double left = worse_fibre(l, -1, l->to, &top), right = worse_fibre(l, 1, l->to, &top);
    return isnan(right) || left > right ? -1 : 1;
}

static void fill(Life *l)
{
    const int n = l->to - l->from + 1;
    Arena *a = l->plot.figure->arena;
    l->top = ARENA_NEW(a, double, n);
    l->bottom = ARENA_NEW(a, double, n);
    l->demand = ARENA_NEW(a, double, n);
    l->margin = ARENA_NEW(a, double, n);
    for (int i = 0; i < n; i++) {
        FibreStress stress;
        bool top = true;
        const int t = l->from + i;
        const bool there = thrust_stress(l->line, l->joint, l->side, t, &stress);
        l->top[i] = there ? l->per_Pa * stress.top_Pa : (double)NAN;
        l->bottom[i] = there ? l->per_Pa * stress.bottom_Pa : (double)NAN;
        const double over_Pa = worse_fibre(l, l->side, t, &top);
        const bool service = t >= thrust_time_open(l->line) && !isnan(over_Pa);
        l->demand[i] =
            service ? l->per_Pa * (over_Pa + l->line->line->rule[l->rule].limit_Pa) : (double)NAN;
        l->margin[i] = l->per_Pa * thrust_margin_Pa(l->line, l->joint, t, NULL);
    }
}

static void range_of(const Life *l, const double *const *row, int rows, double *low, double *high)
{
    for (int r = 0; r < rows; r++)
        for (int i = 0; i <= l->to - l->from; i++) {
            if (isnan(row[r][i])) continue;
            *low = fmin(*low, row[r][i]);
            *high = fmax(*high, row[r][i]);
        }
    plot_widen(low, high, 0.08);
}

static void draw_row(const Life *l, FigureRole role, const double *value, const char *title)
{
    Figure *f = l->plot.figure;
    const int n = l->to - l->from + 1;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, n);
    int count = 0;
    for (int i = 0; i < n; i++)
        if (!isnan(value[i]))
            point[count++] = plot_at(&l->plot, after_day(l, l->from + i), value[i]);
    if (count > 1) figure_lines(f, role, point, count)->title = title;
}

/* The named moments over the plot, where there is room; each can be picked. */
static void draw_flags(const Life *l)
{
    Figure *f = l->plot.figure;
    FigureMoment moment[5];
    const int count = figure_moments(l->line, moment);
    double free_px = -1000;
    for (int i = 0; i < count; i++) {
        const double x = axis_px(&l->plot.x, fmax(first_day, moment[i].after_day));
        figure_segment(f, FIGURE_CONTOUR, (FigurePoint){x, l->plot.y.from_px},
                       (FigurePoint){x, l->plot.y.to_px - 4});
        const double width = figure_text_width_px(moment[i].label, FIGURE_SMALL);
        const bool last = x + width > f->width_px - 4;
        const double left = last ? f->width_px - 4 - width : x - 2;
        if (left < free_px) continue;
        FigureItem *name = figure_text(f, FIGURE_LABEL, (FigurePoint){left, l->plot.y.to_px - 7},
                                       FIGURE_START, moment[i].label);
        name->size = FIGURE_SMALL;
        name->pick = figure_pick(l->view, f->arena, -1, moment[i].time);
        free_px = left + width + 6;
    }
}

static void draw_cursor(const Life *l, const double *const *row, int rows)
{
    Figure *f = l->plot.figure;
    if (l->view->time < l->from) return;
    const double x = axis_px(&l->plot.x, after_day(l, l->view->time));
    figure_segment(f, FIGURE_SEEN, (FigurePoint){x, l->plot.y.from_px},
                   (FigurePoint){x, l->plot.y.to_px});
    for (int r = 0; r < rows; r++) {
        const double value = row[r][l->view->time - l->from];
        if (!isnan(value))
            figure_dot(f, FIGURE_SEEN, (FigurePoint){x, axis_px(&l->plot.y, value)}, 3.5);
    }
}

static void draw_times(const Life *l)
{
    Figure *f = l->plot.figure;
    double left = l->plot.x.from_px;
    for (int t = l->from; t <= l->to; t++) {
        const double here = axis_px(&l->plot.x, after_day(l, t));
        const double next = t < l->to ? axis_px(&l->plot.x, after_day(l, t + 1)) : l->plot.x.to_px;
        const double right = t < l->to ? (here + next) / 2 : next;
        if (right - left < 0.5) continue;
        figure_rect(f, FIGURE_HIT, (FigurePoint){left, l->plot.y.to_px}, right - left,
                    l->plot.y.from_px - l->plot.y.to_px)
            ->pick = figure_pick(l->view, f->arena, l->joint, t);
        left = right;
    }
}

static void draw_stress(Life *l, double top_px)
{
    const JointRule *rule = &l->line->line->rule[l->rule];
    const double limit = l->per_Pa * rule->limit_Pa;
    const double *const row[] = {l->top, l->bottom, l->demand};
    double low = fmin(0, limit), high = fmax(0, limit);
    range_of(l, row, 3, &low, &high);
    l->plot.y = (Axis){low, high, top_px + STRESS_HEIGHT, top_px, false};
    plot_y_axis(&l->plot, "", true);
    Figure *f = l->plot.figure;
    const double y = axis_px(&l->plot.y, limit);
    figure_segment(f, FIGURE_LIMIT, (FigurePoint){l->plot.x.from_px, y},
                   (FigurePoint){l->plot.x.to_px, y})
        ->title = rule->name;
    draw_flags(l);
    draw_row(l, FIGURE_MOMENT_4, l->top, "top fibre, permanent load");
    draw_row(l, FIGURE_MOMENT_3, l->bottom, "bottom fibre, permanent load");
    draw_row(l, FIGURE_MOMENT_1, l->demand, "worse fibre with what the rule adds");
    draw_cursor(l, row, 3);
    draw_times(l);
}

static void draw_margin(Life *l, double top_px)
{
    Figure *f = l->plot.figure;
    const double *const row[] = {l->margin};
    double low = 0, high = 0;
    range_of(l, row, 1, &low, &high);
    l->plot.y = (Axis){low, high, top_px + MARGIN_HEIGHT, top_px, false};
    const double zero = axis_px(&l->plot.y, 0);
    if (low < 0) {
        const double bottom = l->plot.y.from_px;
        figure_rect(f, FIGURE_CLASH, (FigurePoint){l->plot.x.from_px, zero},
                    l->plot.x.to_px - l->plot.x.from_px, bottom - zero)
            ->title = "a limit is passed";
    }
    plot_y_axis(&l->plot,
                arena_printf(f->arena, "margin by all rules that count [%s]",
                             quantity_unit(l->view->units, DIM_STRESS)),
                false);
    plot_time_axis_along(&l->plot, "time after jacking");
    draw_row(l, FIGURE_NEED, l->margin, "margin to the limit");
    draw_cursor(l, row, 1);
    draw_times(l);
}

static const char *cell(Arena *arena, double value)
{
    return isnan(value) ? "" : arena_printf(arena, "%.3f", value + 0.0);
}

static FigureTable *joint_table(const Life *l, Arena *arena)
{
    const char *unit = quantity_unit(l->view->units, DIM_STRESS);
    const StageHistory *h = l->line->history;
    FigureTable *t = figure_table_start(arena, "The joint through its life, tension positive", 6);
    const char *const head[] = {"day after jacking",
                                "event",
                                arena_printf(arena, "top, permanent [%s]", unit),
                                arena_printf(arena, "bottom, permanent [%s]", unit),
                                arena_printf(arena, "worse fibre in service [%s]", unit),
                                arena_printf(arena, "margin [%s]", unit)};
    for (int c = 0; c < 6; c++) figure_table_column(t, c, c != 1, head[c]);
    for (int i = 0; i <= l->to - l->from; i++) {
        const int e = h->event[l->from + i];
        figure_table_row(
            t, (const char *[]){arena_printf(arena, "%.4f", h->day[l->from + i] - h->day[l->from]),
                                e < 0 ? "" : figure_event(&h->model->event[e]),
                                cell(arena, l->top[i]), cell(arena, l->bottom[i]),
                                cell(arena, l->demand[i]), cell(arena, l->margin[i])});
    }
    return t;
}

static double draw_head(const Life *l)
{
    Figure *f = l->plot.figure;
    const Joint *joint = &l->line->line->joint[l->joint];
    const double x_m = l->line->line->model.x_m[joint->station];
    static const LegendEntry entry[] = {{FIGURE_MOMENT_4, false, "top fibre", 0},
                                        {FIGURE_MOMENT_3, false, "bottom fibre", 0},
                                        {FIGURE_MOMENT_1, false, "worse fibre in service", 0},
                                        {FIGURE_LIMIT, false, "limit", 0}};
    figure_text(
        f, FIGURE_STRONG, (FigurePoint){4, 14}, FIGURE_START,
        arena_printf(f->arena, "%s at %s%s", joint->mark,
                     figure_quantity(f->arena, x_m, quantity_unit(l->view->units, DIM_LENGTH)),
                     l->view->predicted ? " (predicted)" : ""));
    const double bottom = plot_legend(f, 4, 20, entry, 4);
    figure_text(f, FIGURE_LABEL, (FigurePoint){4, bottom + 12}, FIGURE_START,
                arena_printf(f->arena, "stress [%s], C compression, T tension",
                             quantity_unit(l->view->units, DIM_STRESS)));
    return bottom + 20;
}

Figure *page_joint(const FigureView *view, Arena *arena)
{
    Figure *f = figure_start(arena, "joint", view->width_px, 60);
    Life l = {.plot = {f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}},
              .view = view,
              .line = view->line,
              .joint = figure_joint(view),
              .rule = figure_service_rule(view->line),
              .from = view->line->moments.jacked,
              .to = view->line->moments.end,
              .per_Pa = plot_per_SI(view->units, DIM_STRESS)};
    if (l.joint < 0 || l.rule < 0) return f;
    const JointRule *rule = &view->line->line->rule[l.rule];
    f->title = arena_printf(arena, "Joint %s through its life, %s",
                            view->line->line->joint[l.joint].mark, view->line->line->name);
    f->description =
        arena_printf(arena,
                     "Stress of the deck at the joint from jacking on, and what is left to "
                     "its limit by the rule %s.",
                     rule->name);
    const double last_day = view->line->history->day[l.to] - view->line->history->day[l.from];
    l.plot.x = (Axis){first_day, fmax(last_day, 2 * first_day), PAGE_LEFT,
                      view->width_px - PAGE_RIGHT, true};
    l.side = worse_side(&l);
    fill(&l);
    const double top = draw_head(&l) + FLAGS;
    draw_stress(&l, top);
    draw_margin(&l, top + STRESS_HEIGHT + BETWEEN);
    f->height_px = top + STRESS_HEIGHT + BETWEEN + MARGIN_HEIGHT + 44;
    f->table = joint_table(&l, arena);
    return f;
}
