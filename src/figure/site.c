/* Pictures of the jacking day: readings on the plan's band, and a hold. */
#include <math.h>

#include "loading.h"

enum { HOLD_HEIGHT = 210 };

static bool drawn(double value) { return isfinite(value); }

static void draw_cross(Figure *f, FigurePoint at, const char *title)
{
    const double r = 5;
    figure_segment(f, FIGURE_OPEN, (FigurePoint){at.x_px - r, at.y_px - r},
                   (FigurePoint){at.x_px + r, at.y_px + r})
        ->title = title;
    figure_segment(f, FIGURE_OPEN, (FigurePoint){at.x_px - r, at.y_px + r},
                   (FigurePoint){at.x_px + r, at.y_px - r});
}

/* A ring and a cross of hairlines around it: found at arm's length in the sun. */
static void draw_last(Figure *f, const Plot *plot, FigurePoint at, const char *title)
{
    figure_segment(f, FIGURE_AXIS, (FigurePoint){plot->x.from_px, at.y_px},
                   (FigurePoint){at.x_px - 10, at.y_px});
    figure_segment(f, FIGURE_AXIS, (FigurePoint){at.x_px, at.y_px + 10},
                   (FigurePoint){at.x_px, plot->y.from_px});
    figure_dot(f, FIGURE_MOMENT_1, at, 10);
    figure_dot(f, FIGURE_GOVERNS, at, 6.5)->title = title;
}

/* ---- force against movement ---- */

typedef struct Shown {
    Loading load;
    const FigureSite *site;
    const SiteSeen *seen;
    int count, last; /* of seen; -1: none */
} Shown;

static const char *reading_title(const Shown *s, const SiteSeen *seen)
{
    const SiteReading *r = &s->site->reading[seen->index];
    const UnitSystem units = s->load.units;
    Arena *arena = s->load.plot.figure->arena;
    return arena_printf(arena, "reading %d, step %d%s: %s, %s", seen->index + 1, r->step,
                        r->struck ? ", struck" : "",
                        figure_quantity(arena, seen->force_N, quantity_unit(units, DIM_FORCE)),
                        figure_quantity(arena, seen->opening_m, figure_move_unit(units)));
}

/* Beyond the axes: at their end, so that it is not missed. */
static FigurePoint reading_at(const Shown *s, const SiteSeen *seen)
{
    const Plot *plot = &s->load.plot;
    FigurePoint at = loading_at(&s->load, seen->opening_m, seen->force_N);
    at.x_px = fmax(plot->x.from_px, fmin(plot->x.to_px, at.x_px));
    at.y_px = fmax(plot->y.to_px, fmin(plot->y.from_px, at.y_px));
    return at;
}

static void draw_readings(const Shown *s)
{
    Figure *f = s->load.plot.figure;
    for (int i = 0; i < s->count; i++) {
        const SiteSeen *seen = &s->seen[i];
        const SiteReading *r = &s->site->reading[seen->index];
        if (!drawn(seen->force_N) || !drawn(seen->opening_m) || i == s->last) continue;
        const FigurePoint at = reading_at(s, seen);
        if (r->struck) {
            draw_cross(f, at, reading_title(s, seen));
            continue;
        }
        figure_dot(f, r->phase == SITE_BACK ? FIGURE_MOMENT_1 : FIGURE_SEEN, at, 3.5)->title =
            reading_title(s, seen);
    }
    if (s->last < 0) return;
    const SiteSeen *seen = &s->seen[s->last];
    draw_last(f, &s->load.plot, reading_at(s, seen), reading_title(s, seen));
}

static const char *number_cell(Arena *arena, double value_SI, const char *unit, int places)
{
    return drawn(value_SI) ? arena_printf(arena, "%.*f", places, quantity_in(value_SI, unit)) : "-";
}

static FigureTable *readings_table(const Shown *s, Arena *arena)
{
    const char *move = figure_move_unit(s->load.units);
    const char *force = quantity_unit(s->load.units, DIM_FORCE);
    const int places = s->load.units == UNITS_SI ? 1 : 3;
    static const char *const name[] = {"reading", "step",  "",    "all jacks",
                                       "opening", "least", "most"};
    FigureTable *t = figure_table_start(
        arena, "Readings, temperature taken out of the opening; the band at that force", 7);
    for (int c = 0; c < 7; c++)
        figure_table_column(t, c, c != 2,
                            c < 3 ? name[c]
                                  : arena_printf(arena, "%s [%s]", name[c], c == 3 ? force : move));
    for (int i = s->count - 1; i >= 0; i--) { /* the last first */
        const SiteSeen *seen = &s->seen[i];
        const SiteReading *r = &s->site->reading[seen->index];
        JackBand band = {.low_m = NAN, .high_m = NAN};
        if (drawn(seen->force_N))
            band = jacking_expect(s->load.plan, fmax(0, seen->force_N)).opening;
        figure_table_row(t, (const char *[]){arena_printf(arena, "%d", seen->index + 1),
                                             arena_printf(arena, "%d", r->step),
                                             r->struck ? "struck" : site_phase_name(r->phase),
                                             number_cell(arena, seen->force_N, force, 0),
                                             number_cell(arena, seen->opening_m, move, places),
                                             number_cell(arena, band.low_m, move, places),
                                             number_cell(arena, band.high_m, move, places)});
    }
    return t;
}

static void shown_find(Shown *s, Arena *arena, double *most_m, double *most_N)
{
    s->count = site_see(s->site->day, s->site->reading, s->site->count, arena, &s->seen);
    s->last = -1;
    for (int i = 0; i < s->count; i++) {
        const SiteSeen *seen = &s->seen[i];
        if (!drawn(seen->force_N) || !drawn(seen->opening_m)) continue;
        *most_m = fmax(*most_m, seen->opening_m);
        *most_N = fmax(*most_N, seen->force_N);
        if (!s->site->reading[seen->index].struck) s->last = i;
    }
}

/* Half as much again as the plan: one mistyped reading must not shrink all others to a dot. */
static double within(double most, double plan) { return fmin(most, 1.5 * plan); }

Figure *figure_site_force(const FigureSite *site, Arena *arena)
{
    static const LegendEntry entry[] = {{FIGURE_MOMENT_1, false, "expected", 0},
                                        {FIGURE_BAND, true, "band: hold outside", 0},
                                        {FIGURE_OPEN, false, "struck", 0}};
    const JackPlan *plan = site->day->plan;
    Figure *f = figure_start(arena, "force", site->width_px, LOAD_HEIGHT + 110);
    f->title = "Force against movement: readings on the plan's band";
    f->description =
        "Dots are readings, hollow on the way back, crosses are struck; the large dot is "
        "the last one. Temperature is taken out of the opening.";
    Shown s = {.load = {{f, {0, 1, 0, 0, false}, {0, 1, 0, 0, false}}, plan, site->day->units},
               .site = site};
    double most_m = 0, most_N = 0;
    shown_find(&s, arena, &most_m, &most_N);
    const JackPoint *end = &plan->point[plan->point_count - 1];
    const double top = plot_legend(f, 4, 0, entry, 3) + 24;
    loading_axes(&s.load, top, within(most_m, end->opening.high_m), within(most_N, end->force_N));
    loading_band(&s.load);
    draw_readings(&s);
    f->table = readings_table(&s, arena);
    f->height_px = top + LOAD_HEIGHT + 44;
    return f;
}

/* ---- a hold ---- */

typedef struct HoldShown {
    Plot plot;
    SiteHold hold;
    const char *force;
} HoldShown;

static FigurePoint hold_at(const HoldShown *h, double after_day, double force_N)
{
    return plot_at(&h->plot, after_day * 1440, quantity_in(force_N, h->force));
}

static void hold_axes(HoldShown *h, double top_px)
{
    const SiteHold *hold = &h->hold;
    double low_N = hold->from_N, high_N = hold->from_N;
    for (int i = 0; i < hold->count; i++) {
        low_N = fmin(low_N, fmin(hold->point[i].force_N, hold->point[i].still_N));
        high_N = fmax(high_N, fmax(hold->point[i].force_N, hold->point[i].still_N));
    }
    const double beyond_N = drawn(hold->beyond_N) ? hold->beyond_N : 0;
    low_N = fmin(low_N, hold->from_N - hold->curve_N[SITE_HOLD_CURVE - 1] - beyond_N);
    double low = quantity_in(low_N, h->force), high = quantity_in(high_N, h->force);
    plot_widen(&low, &high, 0.12);
    h->plot.x = (Axis){0, hold->curve_day[SITE_HOLD_CURVE - 1] * 1440, LEFT,
                       h->plot.figure->width_px - RIGHT, false};
    plot_widen(&h->plot.x.from, &h->plot.x.to, 0.03);
    h->plot.y = (Axis){low, high, top_px + HOLD_HEIGHT, top_px, false};
    plot_y_axis(&h->plot, arena_printf(h->plot.figure->arena, "all jacks [%s]", h->force), false);
    plot_x_axis(&h->plot, "minutes of the hold");
}

static void draw_explained(const HoldShown *h)
{
    const SiteHold *hold = &h->hold;
    FigurePoint ring[2 * SITE_HOLD_CURVE], beyond[SITE_HOLD_CURVE];
    for (int i = 0; i < SITE_HOLD_CURVE; i++) {
        ring[i] = hold_at(h, hold->curve_day[i], hold->from_N);
        ring[2 * SITE_HOLD_CURVE - 1 - i] =
            hold_at(h, hold->curve_day[i], hold->from_N - hold->curve_N[i]);
        if (drawn(hold->beyond_N))
            beyond[i] =
                hold_at(h, hold->curve_day[i], hold->from_N - hold->curve_N[i] - hold->beyond_N);
    }
    figure_area(h->plot.figure, FIGURE_BAND, ring, 2 * SITE_HOLD_CURVE)->title =
        "fall that creep explains";
    if (drawn(hold->beyond_N))
        figure_lines(h->plot.figure, FIGURE_LIMIT, beyond, SITE_HOLD_CURVE)->title =
            "hold below, in more than one reading";
}

static void draw_hold(const HoldShown *h, const FigureSite *site)
{
    const SiteHold *hold = &h->hold;
    Figure *f = h->plot.figure;
    for (int i = 0; i < hold->count; i++) {
        const SiteHoldPoint *p = &hold->point[i];
        const char *title = arena_printf(f->arena, "reading %d", p->index + 1);
        if (drawn(p->force_N))
            figure_dot(f, FIGURE_MOMENT_1, hold_at(h, p->after_day, p->force_N), 3.5)->title =
                arena_printf(f->arena, "%s as read", title);
        if (!drawn(p->still_N)) continue;
        const FigurePoint at = hold_at(h, p->after_day, p->still_N);
        const bool last = i + 1 == hold->count && p->index + 1 == site->count;
        if (last)
            draw_last(f, &h->plot, at, title);
        else
            figure_dot(f, FIGURE_SEEN, at, 4)->title = title;
    }
}

static FigureTable *hold_table(const HoldShown *h, Arena *arena)
{
    FigureTable *t = figure_table_start(arena, "The hold, temperature taken out and as read", 4);
    figure_table_column(t, 0, true, "reading");
    figure_table_column(t, 1, true, "after [min]");
    figure_table_column(t, 2, true, arena_printf(arena, "all jacks [%s]", h->force));
    figure_table_column(t, 3, true, arena_printf(arena, "as read [%s]", h->force));
    for (int i = h->hold.count - 1; i >= 0; i--) {
        const SiteHoldPoint *p = &h->hold.point[i];
        figure_table_row(t, (const char *[]){arena_printf(arena, "%d", p->index + 1),
                                             arena_printf(arena, "%.1f", p->after_day * 1440),
                                             number_cell(arena, p->still_N, h->force, 1),
                                             number_cell(arena, p->force_N, h->force, 1)});
    }
    return t;
}

Figure *figure_site_hold(const FigureSite *site, Arena *arena)
{
    static const LegendEntry entry[] = {{FIGURE_BAND, true, "fall that creep explains", 0},
                                        {FIGURE_LIMIT, false, "hold below", 0}};
    HoldShown h = {.force = quantity_unit(site->day->units, DIM_FORCE)};
    if (!site_hold(site->day, site->reading, site->count, arena, &h.hold) || !drawn(h.hold.from_N))
        return NULL;
    Figure *f = h.plot.figure = figure_start(arena, "hold", site->width_px, HOLD_HEIGHT + 110);
    f->title = arena_printf(arena, "Force in the hold of step %d", h.hold.step);
    f->description = "Full dots have the temperature since the start of the hold taken out, hollow "
                     "dots are as read.";
    const double top = plot_legend(f, 4, 0, entry, 2) + 24;
    hold_axes(&h, top);
    draw_explained(&h);
    draw_hold(&h, site);
    f->table = hold_table(&h, arena);
    f->height_px = top + HOLD_HEIGHT + 44;
    return f;
}
