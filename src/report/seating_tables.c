/* Tables of the seats' report. */
#include <math.h>

#include "seating.h"

static FigureTable *table_of(const Report *r, const char *caption, int columns,
                             const char *const *head, int words)
{
    FigureTable *t = figure_table_start(r->arena, caption, columns);
    for (int c = 0; c < columns; c++) figure_table_column(t, c, c >= words, head[c]);
    return t;
}

/* ---- the crew's table ---- */

enum { COLUMNS_AT_ONCE = 8 };

static void shims_part(Report *r, const SeatPlan *plan, int from, int to)
{
    const int columns = 2 + (to - from) * plan->flanges;
    FigureTable *t = figure_table_start(
        r->arena,
        arena_printf(r->arena,
                     "Shims [%s] under girders G%d to G%d, numbered from the left looking along",
                     seating_unit(r, true), from + 1, to),
        columns);
    t->look = FIGURE_TABLE_LARGE;
    figure_table_column(t, 0, false, "line");
    figure_table_column(t, 1, true, seating_head(r, "at mid-width", false));
    for (int c = 2; c < columns; c++) {
        const int girder = from + (c - 2) / plan->flanges;
        static const char *const side[] = {" left", " right"};
        figure_table_column(t, c, true,
                            arena_printf(r->arena, "G%d%s", girder + 1,
                                         plan->flanges > 1 ? side[(c - 2) % 2] : ""));
    }
    const char **cell = ARENA_NEW(r->arena, const char *, columns);
    for (int l = 0; l < plan->line_count; l++) {
        cell[0] = plan->line[l].mark;
        cell[1] = seating_along(r, plan->line[l].x_m);
        for (int c = 2; c < columns; c++) {
            const int girder = from + (c - 2) / plan->flanges;
            const Seat *s = &plan->seat[l * plan->girders + girder];
            cell[c] = seating_shim(r, plan, s->shim_m[(c - 2) % plan->flanges]);
        }
        figure_table_row(t, cell);
    }
    document_table(r, t);
}

void seating_shims(Report *r, const SeatPlan *plan)
{
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "Height from the girder's top to the soffit at the middle of the girder's "
            "flange, to the nearest %s %s, a half up. A shim at a joint carries the edges "
            "of both panels. Heights hold whatever the order of setting: they are measured "
            "from the girder, which sags under them. Left and right are seen looking along; "
            "R1 is the first run, R1-left and R1-right are its ends.",
            seating_shim(r, plan, plan->limit.step_m), seating_unit(r, true)));
    const int at_once = COLUMNS_AT_ONCE / plan->flanges;
    for (int g = 0; g < plan->girders; g += at_once)
        shims_part(r, plan, g, g + at_once < plan->girders ? g + at_once : plan->girders);
}

/* ---- girder by girder ---- */

static const char *mean_shim(const Report *r, const SeatPlan *plan, const Seat *s)
{
    if (plan->flanges == 1) return seating_shim(r, plan, s->shim_m[0]);
    return arena_printf(r->arena, "%s; %s", seating_shim(r, plan, s->shim_m[0]),
                        seating_shim(r, plan, s->shim_m[1]));
}

static const char *mark_of(const Report *r, const SeatPlan *plan, const Seat *s)
{
    if (s->thin_m < plan->limit.least_m - 1e-9) return "thin";
    if (s->thick_m > plan->limit.most_m + 1e-9) return "deep";
    return s->inside_1 < 0.9 ? arena_printf(r->arena, "%.0f %%", 100 * s->inside_1) : "";
}

static void girder_table(Report *r, const SeatPlan *plan, int girder)
{
    FigureTable *t = table_of(
        r, arena_printf(r->arena, "Girder G%d", girder + 1), 10,
        (const char *[]){"line", "", seating_head(r, "at", false), seating_head(r, "top", false),
                         seating_head(r, "wanted", false), seating_head(r, "moves", true),
                         seating_head(r, "height", true), seating_head(r, "±", true),
                         seating_head(r, "shim", true), seating_head(r, "set at", false)},
        2);
    for (int l = 0; l < plan->line_count; l++) {
        const Seat *s = &plan->seat[l * plan->girders + girder];
        figure_table_row(
            t, (const char *[]){plan->line[l].mark, mark_of(r, plan, s), seating_along(r, s->x_m),
                                seating_level(r, s->top_m), seating_level(r, s->grade_m),
                                seating_moved(r, s->later_m), seating_small(r, s->height_m),
                                seating_small(r, s->off_m), mean_shim(r, plan, s),
                                seating_level(r, s->set_m)});
    }
    document_table(r, t);
}

void seating_girders(Report *r, const SeatPlan *plan)
{
    document_add(
        r, REPORT_TEXT,
        arena_printf(
            r->arena,
            "height = wanted - panel - top - moves: top of the girder as surveyed; wanted: "
            "the panel's top as cast, by profile and cross slope; panel: its thickness, %s "
            "%s at the deck's edge; moves: of the deck from the survey to %s, upwards "
            "positive. ±: one standard deviation. Set at: level of the shim's top right "
            "before its first panel comes on, panels set from left to right in each run; "
            "the girder sags under that panel and the next ones. Thin, deep: the haunch "
            "passes a limit at an edge of the flange; a share: the chance that it does not.",
            seating_small(r, plan->thickness_m), seating_unit(r, true), plan->day_words));
    for (int g = 0; g < plan->girders; g++) girder_table(r, plan, g);
}

/* ---- movement ---- */

void seating_moves(Report *r, const SeatPlan *plan)
{
    FigureTable *t = table_of(
        r,
        arena_printf(
            r->arena,
            "Deck in the middle of the spans [%s], upwards positive, by the stages: weight of "
            "the panels; thrust; shims, locks, closure and grout; barrier and overlay; creep "
            "and shrinkage",
            seating_unit(r, true)),
        10,
        (const char *[]){"span", "line", seating_head(r, "at", false), "panels", "thrust", "other",
                         "barrier", "time", arena_printf(r->arena, "until %s", plan->day_words),
                         "then, to the end"},
        2);
    for (int i = 0; i < plan->move_count; i++) {
        const SeatMove *m = &plan->move[i];
        figure_table_row(
            t, (const char *[]){arena_printf(r->arena, "%d", m->span),
                                m->exterior ? "exterior" : "interior", seating_along(r, m->x_m),
                                seating_moved(r, m->panels_m), seating_moved(r, m->thrust_m),
                                seating_moved(r, m->other_m), seating_moved(r, m->later_m),
                                seating_moved(r, m->time_m), seating_moved(r, m->total_m),
                                seating_moved(r, m->end_m)});
    }
    document_table(r, t);
}

/* ---- flat panels ---- */

static double wedge_after_m(const SeatPlan *plan, int unit, int panel)
{
    for (int l = 0; l < plan->line_count; l++)
        if (plan->line[l].unit == unit && plan->line[l].joint && plan->line[l].left_panel == panel)
            return plan->line[l].wedge_m;
    return 0;
}

void seating_panels(Report *r, const SeatPlan *plan)
{
    const bool us = r->source->units == UNITS_US;
    const char *unit = seating_unit(r, true), *form = us ? "%+.3f" : "%+.2f";
    FigureTable *t = table_of(
        r,
        "A panel is flat between its joints. Off: how far its middle lies above (+) or below the "
        "profile on the day; wedge: at its right joint, over the thickness, wider at the top "
        "positive; plane: how far its seats are from lying in one plane",
        4,
        (const char *[]){"panel", seating_head(r, "off", true), seating_head(r, "wedge", true),
                         seating_head(r, "plane", true)},
        1);
    t->look = FIGURE_TABLE_PLAIN;
    int unit_now = -1, panel = 0;
    for (int i = 0; i < plan->panel_count; i++) {
        const SeatPanel *p = &plan->panel[i];
        panel = p->unit == unit_now ? panel + 1 : 0;
        unit_now = p->unit;
        figure_table_row(
            t, (const char *[]){
                   p->mark, arena_printf(r->arena, form, quantity_in(p->facet_m, unit) + 0.0),
                   arena_printf(r->arena, us ? "%+.4f" : "%+.2f",
                                quantity_in(wedge_after_m(plan, p->unit, panel), unit) + 0.0),
                   arena_printf(r->arena, us ? "%.3f" : "%.2f", quantity_in(p->plane_m, unit))});
    }
    document_table(r, t);
}
