/* Pictures of a jacking plan: the jacks across the deck, and force against opening. */
#include <math.h>

#include "loading.h"

enum { DECK_TOP = 74, DECK_HEIGHT = 52 };

/* ---- across the deck ---- */

static void draw_jack(Figure *f, const JackPlan *plan, const Axis *x, int i)
{
    const double at = axis_px(x, plan->gear.across_m[i]), mid = DECK_TOP + DECK_HEIGHT / 2.0;
    const double half =
        fmin(14, 0.4 * (axis_px(x, plan->width_m) - axis_px(x, 0)) / plan->gear.count);
    figure_rect(f, FIGURE_JACK, (FigurePoint){at - half, mid - half}, 2 * half, 2 * half)->title =
        arena_printf(f->arena, "jack %d, set %d", i + 1, plan->gear.set[i]);
    figure_text(f, FIGURE_STRONG, (FigurePoint){at, DECK_TOP - 8}, FIGURE_MIDDLE,
                arena_printf(f->arena, "%d", i + 1));
    if (plan->gear.sets > 1)
        figure_text(f, FIGURE_LABEL, (FigurePoint){at, DECK_TOP - 24}, FIGURE_MIDDLE,
                    arena_printf(f->arena, "set %d", plan->gear.set[i]))
            ->size = FIGURE_SMALL;
}

static FigureTable *places_table(const JackPlan *plan, UnitSystem units, Arena *arena)
{
    const char *unit = quantity_unit(units, DIM_LENGTH);
    FigureTable *t =
        figure_table_start(arena, "Jacks from the left, from the middle of the deck", 3);
    figure_table_column(t, 0, true, "jack");
    figure_table_column(t, 1, true, arena_printf(arena, "to the right [%s]", unit));
    figure_table_column(t, 2, true, "set");
    for (int i = 0; i < plan->gear.count; i++)
        figure_table_row(
            t,
            (const char *[]){arena_printf(arena, "%d", i + 1),
                             arena_printf(arena, "%.2f", quantity_in(plan->gear.across_m[i], unit)),
                             arena_printf(arena, "%d", plan->gear.set[i])});
    return t;
}

static void draw_sizes(Figure *f, const JackPlan *plan, const Axis *x, UnitSystem units)
{
    const char *unit = quantity_unit(units, DIM_LENGTH);
    const double left = axis_px(x, -plan->width_m / 2), right = axis_px(x, plan->width_m / 2);
    const double middle = (left + right) / 2, under = DECK_TOP + DECK_HEIGHT;
    figure_segment(f, FIGURE_AXIS, (FigurePoint){middle, DECK_TOP - 34},
                   (FigurePoint){middle, under + 14});
    figure_text(f, FIGURE_LABEL, (FigurePoint){middle, under + 28}, FIGURE_MIDDLE,
                arena_printf(f->arena, "middle of the deck, %s wide",
                             figure_quantity(f->arena, plan->width_m, unit)));
    figure_text(f, FIGURE_LABEL, (FigurePoint){left, under + 28}, FIGURE_START, "left");
    figure_text(f, FIGURE_LABEL, (FigurePoint){right, under + 28}, FIGURE_END, "right");
    const double off = axis_px(x, plan->off_m);
    figure_dot(f, FIGURE_GOVERNS, (FigurePoint){off, DECK_TOP + DECK_HEIGHT / 2.0}, 4)->title =
        "resultant of the jacks";
}

Figure *figure_jacks(const JackPlan *plan, UnitSystem units, double width_px, Arena *arena)
{
    Figure *f = figure_start(arena, "jacks", width_px, DECK_TOP + DECK_HEIGHT + 42);
    f->title = "Jacks across the deck, seen along the bridge";
    f->description =
        "Squares are jacks with their numbers from the left; the dot is their resultant, "
        "the line the middle of the deck. Height is not to scale.";
    const double half = plan->width_m / 2;
    const Axis x = {-half, half, 14, width_px - 14, false};
    figure_rect(f, FIGURE_PANEL, (FigurePoint){axis_px(&x, -half), DECK_TOP},
                axis_px(&x, half) - axis_px(&x, -half), DECK_HEIGHT);
    for (int i = 0; i < plan->gear.count; i++) draw_jack(f, plan, &x, i);
    draw_sizes(f, plan, &x, units);
    f->table = places_table(plan, units, arena);
    return f;
}

/* ---- force against opening ---- */

FigurePoint loading_at(const Loading *l, double opening_m, double force_N)
{
    return plot_at(&l->plot, quantity_in(opening_m, figure_move_unit(l->units)),
                   quantity_in(force_N, quantity_unit(l->units, DIM_FORCE)));
}

void loading_band(const Loading *l)
{
    const JackPlan *plan = l->plan;
    const int n = plan->point_count;
    FigurePoint *ring = ARENA_NEW(l->plot.figure->arena, FigurePoint, 2 * n);
    FigurePoint *line = ARENA_NEW(l->plot.figure->arena, FigurePoint, n);
    for (int i = 0; i < n; i++) {
        const JackPoint *p = &plan->point[i];
        ring[i] = loading_at(l, p->opening.low_m, p->force_N);
        ring[2 * n - 1 - i] = loading_at(l, p->opening.high_m, p->force_N);
        line[i] = loading_at(l, p->opening.expected_m, p->force_N);
    }
    figure_area(l->plot.figure, FIGURE_BAND, ring, 2 * n)->title = "band";
    figure_lines(l->plot.figure, FIGURE_LIMIT, ring, n)->title = "least";
    figure_lines(l->plot.figure, FIGURE_LIMIT, ring + n, n)->title = "most";
    figure_lines(l->plot.figure, FIGURE_MOMENT_1, line, n)->title = "expected";
}

void loading_back(const Loading *l)
{
    const JackPlan *plan = l->plan;
    if (plan->return_count == 0) return;
    const JackReturn *back = &plan->back[plan->return_count - 1];
    const JackStep *from = &plan->step[back->from_step];
    FigurePoint line[JACK_STEPS + 2];
    line[0] = loading_at(l, from->opening.expected_m, from->force_N);
    for (int i = 0; i < back->count; i++)
        line[i + 1] = loading_at(l, back->opening_m[i], back->force_N[i]);
    figure_lines(l->plot.figure, FIGURE_MOMENT_3, line, back->count + 1)->title = "the way back";
}

static void draw_steps(const Loading *l)
{
    Figure *f = l->plot.figure;
    for (int i = 0; i < l->plan->step_count; i++) {
        const JackStep *s = &l->plan->step[i];
        const FigurePoint at = loading_at(l, s->opening.expected_m, s->force_N);
        figure_dot(f, FIGURE_GOVERNS, at, s->stage_end ? 5 : 3.5)->title =
            arena_printf(f->arena, "step %d", i + 1);
        figure_text(f, FIGURE_STRONG, (FigurePoint){at.x_px - 9, at.y_px - 5}, FIGURE_END,
                    arena_printf(f->arena, "%d", i + 1));
    }
}

void loading_axes(Loading *l, double top_px, double most_m, double most_N)
{
    const JackPlan *plan = l->plan;
    for (int i = 0; i < plan->point_count; i++) {
        most_m = fmax(most_m, plan->point[i].opening.high_m);
        most_N = fmax(most_N, plan->point[i].force_N);
    }
    double low = 0, high = quantity_in(most_m, figure_move_unit(l->units));
    plot_widen(&low, &high, 0.05);
    l->plot.x = (Axis){low, high, LEFT, l->plot.figure->width_px - RIGHT, false};
    l->plot.y = (Axis){0, 1.08 * quantity_in(most_N, quantity_unit(l->units, DIM_FORCE)),
                       top_px + LOAD_HEIGHT, top_px, false};
    Arena *const arena = l->plot.figure->arena;
    plot_y_axis(&l->plot, arena_printf(arena, "all jacks [%s]", quantity_unit(l->units, DIM_FORCE)),
                false);
    plot_x_axis(&l->plot,
                arena_printf(arena, "opening of the gap [%s]", figure_move_unit(l->units)));
}

static FigureTable *loading_table(const JackPlan *plan, UnitSystem units, Arena *arena)
{
    const char *move = figure_move_unit(units), *force = quantity_unit(units, DIM_FORCE);
    FigureTable *t = figure_table_start(arena, "Force and opening on the way up", 4);
    figure_table_column(t, 0, true, arena_printf(arena, "all jacks [%s]", force));
    figure_table_column(t, 1, true, arena_printf(arena, "least [%s]", move));
    figure_table_column(t, 2, true, arena_printf(arena, "expected [%s]", move));
    figure_table_column(t, 3, true, arena_printf(arena, "most [%s]", move));
    for (int i = 0; i < plan->point_count; i++) {
        const JackPoint *p = &plan->point[i];
        const double move_m[] = {p->opening.low_m, p->opening.expected_m, p->opening.high_m};
        const char *cell[4] = {arena_printf(arena, "%.0f", quantity_in(p->force_N, force))};
        for (int c = 0; c < 3; c++)
            cell[c + 1] = arena_printf(arena, "%.3f", quantity_in(move_m[c], move));
        figure_table_row(t, cell);
    }
    return t;
}

Figure *figure_loading(const JackPlan *plan, UnitSystem units, double width_px, Arena *arena)
{
    static const LegendEntry entry[] = {{FIGURE_MOMENT_1, false, "expected", 0},
                                        {FIGURE_BAND, true, "band: hold outside", 0},
                                        {FIGURE_MOMENT_3, false, "the way back", 0}};
    Figure *f = figure_start(arena, "loading", width_px, LOAD_HEIGHT + 110);
    f->title = "Force of all jacks against the opening of the gap";
    f->description = "Numbers are steps, large dots the ends of stages. The way back is late: "
                     "friction at the shims holds the gap open.";
    Loading l = {{f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}}, plan, units};
    const double top = plot_legend(f, 4, 0, entry, 3) + 24;
    loading_axes(&l, top, 0, 0);
    loading_band(&l);
    loading_back(&l);
    draw_steps(&l);
    f->table = loading_table(plan, units, arena);
    f->height_px = top + LOAD_HEIGHT + 44;
    return f;
}
