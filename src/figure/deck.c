/* Stress of the deck along the bridge at the named moments, top and bottom fibre, with the limits
 * and what live load, gradient and wheels add in service. */
#include <math.h>

#include "plot.h"

enum { LEFT = PAGE_LEFT, RIGHT = PAGE_RIGHT, PLOT_HEIGHT = 210, PAGE_HEIGHT = 150, BETWEEN = 74 };

typedef struct Deck {
    Plot plot;
    const LineAnswer *line;
    UnitSystem units;
    bool top;
    FigureMoment moment[5];
    int moment_count;
    const FigureView *view;
    double per_m, per_Pa; /* display units */
} Deck;

static double shown_x(const Deck *d, int station)
{
    return d->per_m * d->line->line->model.x_m[station];
}

static double shown_stress(const Deck *d, double stress_Pa) { return d->per_Pa * stress_Pa; }

static bool fibre_Pa(const Deck *d, int time, int station, int side, double *stress_Pa)
{
    FibreStress stress;
    if (!stage_stress(d->line->history, time, CHAIN_DECK, station, side, &stress)) return false;
    *stress_Pa = d->top ? stress.top_Pa : stress.bottom_Pa;
    return true;
}

/* On the sheet: what runs out of the scale is cut at its edge. */
static FigurePoint on_sheet(const Deck *d, int station, double stress_Pa)
{
    const double shown = shown_stress(d, stress_Pa);
    return plot_at(&d->plot, shown_x(d, station), fmin(d->plot.y.to, fmax(d->plot.y.from, shown)));
}

/* Grouted to the girder while the jacks act. */
static bool anchored(const Deck *d, int station)
{
    const StageHistory *h = d->line->history;
    const size_t at = (size_t)d->line->moments.jacked * (size_t)h->model->station_count;
    return h->link[at + (size_t)station].state == LINK_BONDED;
}

/* The element on that side of a station lies in an anchor panel, where the thrust goes down. */
static bool in_anchor(const Deck *d, int station, int side)
{
    const int left = side < 0 ? station - 1 : station;
    if (left < 0 || left + 1 >= d->line->line->model.station_count) return true;
    return anchored(d, left) && anchored(d, left + 1);
}

/* On a page the moment that is looked at is the strong line, the jacked one a reference. */
static FigureRole moment_role(const Deck *d, int m)
{
    if (d->view->page) return m + 1 == d->moment_count ? FIGURE_MOMENT_4 : FIGURE_MOMENT_1;
    return (FigureRole)(FIGURE_MOMENT_1 + m);
}

/* One moment: a polyline a stretch of living deck, both sides of every station. */
static void draw_moment(const Deck *d, int m)
{
    const int n = d->line->line->model.station_count;
    Figure *f = d->plot.figure;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, 2 * n);
    int count = 0;
    for (int i = 0; i < 2 * n; i++) {
        double stress_Pa;
        const int station = i / 2, side = i % 2 ? 1 : -1;
        if (!in_anchor(d, station, side) &&
            fibre_Pa(d, d->moment[m].time, station, side, &stress_Pa))
            point[count++] = on_sheet(d, station, stress_Pa);
        else if (side > 0 && count) {
            figure_lines(f, moment_role(d, m), point, count)->title = d->moment[m].label;
            count = 0;
        }
    }
    if (count) figure_lines(f, moment_role(d, m), point, count)->title = d->moment[m].label;
}

/* On a page the rule that has live load to show. */
static int shown_rule(const Deck *d)
{
    return d->view->page ? figure_service_rule(d->line) : figure_rule(d->line);
}

/* Stress in service at the last moment at one joint: the side towards `sign`. */
static bool service_Pa(const Deck *d, int joint, int sign, double *stress_Pa)
{
    const int rule = shown_rule(d);
    const int time = d->moment[d->moment_count - 1].time;
    bool any = false;
    for (int side = -1; side <= 1; side += 2) {
        double here_Pa;
        const int only = thrust_joint_side(d->line->line, joint);
        if (only && side != only) continue;
        if (!fibre_Pa(d, time, d->line->line->joint[joint].station, side, &here_Pa)) continue;
        here_Pa += figure_added_Pa(d->line, rule, (FigureFibre){joint, side, d->top}, time, sign);
        if (!any || sign * here_Pa > sign * *stress_Pa) *stress_Pa = here_Pa;
        any = true;
    }
    return any;
}

static void draw_band(const Deck *d)
{
    const BridgeLine *b = d->line->line;
    Figure *f = d->plot.figure;
    FigurePoint *point = ARENA_NEW(f->arena, FigurePoint, 2 * b->joint_count);
    int count = 0;
    for (int k = 0; k < 2 * b->joint_count; k++) {
        const bool back = k >= b->joint_count;
        const int j = back ? 2 * b->joint_count - 1 - k : k;
        double stress_Pa;
        if (service_Pa(d, j, back ? -1 : 1, &stress_Pa))
            point[count++] = on_sheet(d, b->joint[j].station, stress_Pa);
    }
    if (count > 2)
        figure_area(f, FIGURE_BAND, point, count)->title =
            arena_printf(f->arena, "%s in service, as in: %s", d->moment[d->moment_count - 1].label,
                         d->line->line->rule[shown_rule(d)].name);
}

static void draw_limit(const Deck *d, double limit_Pa, const char *name)
{
    Figure *f = d->plot.figure;
    const double at = shown_stress(d, limit_Pa);
    if (at < d->plot.y.from || at > d->plot.y.to) return;
    const FigurePoint from = {d->plot.x.from_px, axis_px(&d->plot.y, at)};
    const FigurePoint to = {d->plot.x.to_px, from.y_px};
    figure_segment(f, FIGURE_LIMIT, from, to)->title = name;
    if (limit_Pa >= 0) return; /* the limit of the joints is in the legend */
    FigureItem *text =
        figure_text(f, FIGURE_NOTE, (FigurePoint){to.x_px - 2, to.y_px - 4}, FIGURE_END, name);
    text->size = FIGURE_SMALL;
}

/* The range over both fibres, all moments and the service band. */
static void range_find(Deck *d, double *low, double *high)
{
    const BridgeLine *b = d->line->line;
    double stress_Pa;
    *low = 0;
    *high = fmax(0, shown_rule(d) < 0 ? 0 : shown_stress(d, b->rule[shown_rule(d)].limit_Pa));
    for (int fibre = 0; fibre < 2; fibre++) {
        d->top = fibre == 0;
        for (int m = 0; m < d->moment_count; m++)
            for (int i = 0; i < 2 * b->model.station_count; i++) {
                if (in_anchor(d, i / 2, i % 2 ? 1 : -1)) continue;
                if (!fibre_Pa(d, d->moment[m].time, i / 2, i % 2 ? 1 : -1, &stress_Pa)) continue;
                *low = fmin(*low, shown_stress(d, stress_Pa));
                *high = fmax(*high, shown_stress(d, stress_Pa));
            }
        for (int j = 0; j < b->joint_count && shown_rule(d) >= 0; j++)
            for (int sign = -1; sign <= 1; sign += 2) {
                if (!service_Pa(d, j, sign, &stress_Pa)) continue;
                *low = fmin(*low, shown_stress(d, stress_Pa));
                *high = fmax(*high, shown_stress(d, stress_Pa));
            }
    }
    plot_widen(low, high, 0.06);
}

static void draw_governing(const Deck *d)
{
    const int j = figure_joint(d->view);
    double stress_Pa;
    if (j < 0 || j >= d->line->line->joint_count || !service_Pa(d, j, 1, &stress_Pa)) return;
    Figure *f = d->plot.figure;
    const Joint *joint = &d->line->line->joint[j];
    const FigurePoint at = on_sheet(d, joint->station, stress_Pa);
    figure_dot(f, FIGURE_GOVERNS, at, 4)->title =
        arena_printf(f->arena, "%s in service, %s: %s", joint->mark,
                     d->view->page ? d->moment[d->moment_count - 1].label : "end of life",
                     figure_stress(f->arena, stress_Pa, d->units));
    const bool right = at.x_px > (d->plot.x.from_px + d->plot.x.to_px) / 2;
    figure_text(f, FIGURE_GOVERNS, (FigurePoint){at.x_px + (right ? -7 : 7), at.y_px - 7},
                right ? FIGURE_END : FIGURE_START, joint->mark);
}

/* Of the rule that is shown; on a page of every rule that counts, the others by name. */
static void draw_joint_limits(const Deck *d)
{
    const BridgeLine *b = d->line->line;
    const int rule = shown_rule(d);
    if (rule >= 0) draw_limit(d, b->rule[rule].limit_Pa, "limit of the joints");
    for (int r = 0; r < b->rule_count && d->view->page; r++)
        if (b->rule[r].counts && r != rule && b->rule[r].average)
            draw_limit(d, b->rule[r].limit_Pa, b->rule[r].name);
}

static double plot_height(const Deck *d) { return d->view->page ? PAGE_HEIGHT : PLOT_HEIGHT; }

static void draw_fibre(Deck *d, bool top, double y_px)
{
    d->top = top;
    d->plot.y.from_px = y_px + plot_height(d);
    d->plot.y.to_px = y_px;
    Figure *f = d->plot.figure;
    const char *unit = quantity_unit(d->units, DIM_STRESS);
    const bool service = !d->view->page || d->view->time >= thrust_time_open(d->line);
    if (shown_rule(d) >= 0 && d->moment_count && service) draw_band(d);
    plot_y_axis(&d->plot,
                arena_printf(f->arena, "%s [%s], C compression, T tension",
                             top ? "top fibre" : "bottom fibre", unit),
                true);
    plot_x_axis(&d->plot,
                arena_printf(f->arena, "station [%s]", quantity_unit(d->units, DIM_LENGTH)));
    plot_supports(&d->plot, d->line, d->units, d->plot.y.from_px - 8);
    draw_joint_limits(d);
    for (int i = 0; i < d->line->line->limit_count && i < 16; i++) {
        const UpperLimit *limit = &d->line->line->limit[i];
        const BridgeLine *line = d->line->line;
        const double strength = limit->kind == LIMIT_DECK_JACKING ? line->deck_jacking_strength_Pa
                                                                  : line->deck_strength_Pa;
        if (limit->kind <= LIMIT_DECK_SERVICE) draw_limit(d, -limit->value * strength, limit->name);
    }
    for (int m = 0; m < d->moment_count; m++) draw_moment(d, m);
    if (shown_rule(d) >= 0 && d->moment_count) draw_governing(d);
    if (d->view->page) plot_hits(&d->plot, d->view);
}

static FigureTable *deck_table(Deck *d, Arena *arena)
{
    const BridgeLine *b = d->line->line;
    FigureTable *t = figure_table_start(
        arena, "Permanent stress of the deck at the joints; C compression, T tension",
        2 + 2 * d->moment_count);
    const char *unit = quantity_unit(d->units, DIM_STRESS);
    figure_table_column(t, 0, false, "joint");
    figure_table_column(t, 1, true,
                        arena_printf(arena, "station [%s]", quantity_unit(d->units, DIM_LENGTH)));
    for (int k = 0; k < 2 * d->moment_count; k++)
        figure_table_column(t, 2 + k, true,
                            arena_printf(arena, "%s %s [%s]", d->moment[k / 2].label,
                                         k % 2 ? "bottom" : "top", unit));
    for (int j = 0; j < b->joint_count; j++) {
        const char **cell = ARENA_NEW(arena, const char *, t->column_count);
        cell[0] = b->joint[j].mark;
        cell[1] = arena_printf(arena, "%.2f", shown_x(d, b->joint[j].station));
        for (int k = 0; k < 2 * d->moment_count; k++) {
            double stress_Pa;
            d->top = k % 2 == 0;
            const int time = d->moment[k / 2].time, station = b->joint[j].station;
            const int side = thrust_joint_side(d->line->line, j) > 0 ? 1 : -1;
            const bool there = fibre_Pa(d, time, station, side, &stress_Pa);
            cell[2 + k] = there ? figure_stress_short(arena, stress_Pa, d->units) : "no deck";
        }
        figure_table_row(t, cell);
    }
    return t;
}

/* Of the moment that is looked at, as numbers: tension positive. */
static FigureTable *page_table(Deck *d, Arena *arena)
{
    const BridgeLine *b = d->line->line;
    const char *unit = quantity_unit(d->units, DIM_STRESS);
    const int time = d->moment[d->moment_count - 1].time;
    FigureTable *t =
        figure_table_start(arena,
                           arena_printf(arena, "Stress of the deck, %s; tension positive",
                                        d->moment[d->moment_count - 1].label),
                           6);
    static const char *const what[] = {"top permanent", "top in service", "bottom permanent",
                                       "bottom in service"};
    figure_table_column(t, 0, false, "joint");
    figure_table_column(t, 1, true,
                        arena_printf(arena, "station [%s]", quantity_unit(d->units, DIM_LENGTH)));
    for (int k = 0; k < 4; k++)
        figure_table_column(t, 2 + k, true, arena_printf(arena, "%s [%s]", what[k], unit));
    for (int j = 0; j < b->joint_count; j++) {
        const char *cell[6] = {b->joint[j].mark,
                               arena_printf(arena, "%.3f", shown_x(d, b->joint[j].station))};
        const int side = thrust_joint_side(b, j) > 0 ? 1 : -1;
        for (int k = 0; k < 4; k++) {
            double stress_Pa = 0;
            d->top = k < 2;
            const bool there = k % 2 ? shown_rule(d) >= 0 && service_Pa(d, j, 1, &stress_Pa)
                                     : fibre_Pa(d, time, b->joint[j].station, side, &stress_Pa);
            cell[2 + k] =
                there ? arena_printf(arena, "%.3f", shown_stress(d, stress_Pa) + 0.0) : "";
        }
        figure_table_row(t, cell);
    }
    return t;
}

/* Jacked, bonded, opening, end: `released` lies close to `bonded` and would only crowd the plot. */
static void pick_moments(Deck *d)
{
    FigureMoment all[5];
    const int count = figure_moments(d->line, all);
    const int released =
        d->line->line->released ? stage_time_named(d->line->history, d->line->line->released) : -1;
    for (int i = 0; i < count; i++)
        if (count <= 4 || all[i].time != released) d->moment[d->moment_count++] = all[i];
}

/* A page shows one moment, and what was jacked; the scale holds all of them, so that it stands still. */
static void look_at_moment(Deck *d)
{
    Arena *arena = d->plot.figure->arena;
    const int jacked = d->line->moments.jacked, time = d->view->time;
    d->moment_count = 0;
    if (time > jacked) d->moment[d->moment_count++] = (FigureMoment){jacked, "jacked", 0};
    const char *words =
        plot_fit(arena, plot_time_words(d->view, arena), FIGURE_PLAIN, d->view->width_px - 44);
    d->moment[d->moment_count++] = (FigureMoment){time, words, 0};
}

static int legend_fill(const Deck *d, LegendEntry entry[6])
{
    int entries = 0;
    for (int m = 0; m < d->moment_count; m++)
        entry[entries++] = (LegendEntry){moment_role(d, m), false, d->moment[m].label, 0};
    entry[entries++] =
        (LegendEntry){FIGURE_BAND, true,
                      d->view->page ? "in service, from opening on" : "end of life in service", 0};
    entry[entries++] = (LegendEntry){FIGURE_LIMIT, false, "limit at the joints", 0};
    return entries;
}

static const char *deck_words(const Deck *d, Arena *arena)
{
    const int rule = shown_rule(d);
    return arena_printf(arena,
                        "Lines: permanent stress at %s. Shaded: the range %s with what the rule "
                        "adds (%s). A joint is "
                        "open where the shade rises above its limit. Inside the anchor panels "
                        "stress is neither judged "
                        "nor drawn.",
                        d->view->page ? "that moment" : "four moments",
                        d->view->page ? "in service" : "at the end of life",
                        rule < 0 ? "none" : d->line->line->rule[rule].name);
}

Figure *figure_deck(const FigureView *view, Arena *arena)
{
    const LineAnswer *line = view->line;
    const UnitSystem units = view->units;
    const double width_px = view->width_px;
    Figure *f = figure_start(arena, "deck", width_px, 0);
    f->title = arena_printf(arena, "Stress of the deck along the bridge, %s", line->line->name);
    Deck d = {.plot = {f, plot_along(line, units, LEFT, width_px - RIGHT), {0, 1, 0, 0, false}},
              .line = line,
              .units = units,
              .view = view,
              .per_m = plot_per_SI(units, DIM_LENGTH),
              .per_Pa = plot_per_SI(units, DIM_STRESS)};
    pick_moments(&d);
    range_find(&d, &d.plot.y.from, &d.plot.y.to);
    if (view->page) look_at_moment(&d);
    f->description = deck_words(&d, arena);
    LegendEntry entry[6];
    const int entries = legend_fill(&d, entry);
    const double top = plot_legend(f, 4, 0, entry, entries) + 24;
    draw_fibre(&d, true, top);
    draw_fibre(&d, false, top + plot_height(&d) + BETWEEN);
    f->height_px = top + 2 * plot_height(&d) + BETWEEN + 42;
    f->table = view->page ? page_table(&d, arena) : deck_table(&d, arena);
    return f;
}
