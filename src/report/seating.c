/* The seats as a document: cover, what has to be known, and the order of its chapters. */
#include "seating.h"

#include <math.h>

/* ---- numbers ---- */

static bool us(const Report *r) { return r->source->units == UNITS_US; }

const char *seating_unit(const Report *r, bool small)
{
    return us(r) ? (small ? "in" : "ft") : (small ? "mm" : "m");
}

const char *seating_head(const Report *r, const char *name, bool small)
{
    return arena_printf(r->arena, "%s [%s]", name, seating_unit(r, small));
}

static const char *number(const Report *r, const char *format, double value)
{
    return arena_printf(r->arena, format, value + 0.0);
}

const char *seating_along(const Report *r, double length_m)
{
    return number(r, us(r) ? "%.2f" : "%.3f", quantity_in(length_m, seating_unit(r, false)));
}

const char *seating_level(const Report *r, double level_m)
{
    return number(r, "%.3f", quantity_in(level_m, seating_unit(r, false)));
}

const char *seating_small(const Report *r, double length_m)
{
    return number(r, us(r) ? "%.2f" : "%.1f", quantity_in(length_m, seating_unit(r, true)));
}

const char *seating_moved(const Report *r, double length_m)
{
    const double value = quantity_in(length_m, seating_unit(r, true));
    const bool nothing = fabs(value) < (us(r) ? 0.005 : 0.05);
    return nothing ? "0" : number(r, us(r) ? "%+.2f" : "%+.1f", value);
}

static const char *said(const Report *r, double length_m)
{
    return arena_printf(r->arena, "%s %s", seating_small(r, length_m), seating_unit(r, true));
}

/* Sixteenths and coarser steps of a power of two as fractions. */
const char *seating_shim(const Report *r, const SeatPlan *plan, double shim_m)
{
    const double step = quantity_in(plan->limit.step_m, seating_unit(r, true));
    const double value = quantity_in(shim_m, seating_unit(r, true));
    const double parts = 1 / step;
    if (!us(r) && fabs(step - round(step)) < 1e-6) return number(r, "%.0f", value);
    if (!us(r) || fabs(parts - round(parts)) > 1e-6 || parts > 64.5)
        return number(r, "%.3f", value);
    long top = lround(fabs(value) * parts), under = lround(parts);
    const long whole = top / under;
    top -= whole * under;
    while (top > 0 && top % 2 == 0 && under % 2 == 0) top /= 2, under /= 2;
    const char *sign = value < -1e-9 ? "-" : "";
    if (top == 0) return arena_printf(r->arena, "%s%ld", sign, whole);
    if (whole == 0) return arena_printf(r->arena, "%s%ld/%ld", sign, top, under);
    return arena_printf(r->arena, "%s%ld %ld/%ld", sign, whole, top, under);
}

const char *seating_volume(const Report *r, double volume_m3)
{
    const char *unit = us(r) ? "yd^3" : "m^3";
    return arena_printf(r->arena, "%.1f %s", quantity_in(volume_m3, unit),
                        report_unit(unit, r->arena));
}

const char *seating_chance(const Report *r, double share_1)
{
    if (share_1 > 0.999) return "> 99.9 %";
    if (share_1 < 0.001) return "< 0.1 %";
    return arena_printf(r->arena, "%.1f %%", 100 * share_1);
}

const char *seating_place(const Report *r, const SeatPlan *plan, int place)
{
    const SeatPlace *p = &plan->place[place];
    const char *at =
        arena_printf(r->arena, "%s %s", seating_along(r, p->x_m), seating_unit(r, false));
    if (p->line < 0) return arena_printf(r->arena, "G%d, %s", p->girder + 1, at);
    return arena_printf(r->arena, "G%d, %s (%s)", p->girder + 1, plan->line[p->line].mark, at);
}

/* ---- cover ---- */

static void lead_add(Report *r, const SeatPlan *plan)
{
    double least_m = INFINITY, most_m = -INFINITY;
    for (int i = 0; i < plan->line_count * plan->girders; i++)
        for (int side = 0; side < plan->flanges; side++) {
            least_m = fmin(least_m, plan->seat[i].shim_m[side]);
            most_m = fmax(most_m, plan->seat[i].shim_m[side]);
        }
    const char *force = quantity_unit(r->source->units, DIM_FORCE);
    document_add(
        r, REPORT_LEAD,
        arena_printf(
            r->arena,
            "%d shims of %s to %s %s on %d girders: with a thrust of %s the deck meets the "
            "profile at %s%s.",
            plan->line_count * plan->girders * plan->flanges, seating_shim(r, plan, least_m),
            seating_shim(r, plan, most_m), seating_unit(r, true), plan->girders,
            figure_quantity(r->arena, plan->thrust_N, force), plan->day_words,
            seating_met(plan) ? "" : ", but not within its limits"));
}

static void fact_haunch(Report *r, const SeatPlan *plan)
{
    document_fact(r, "haunch",
                  arena_printf(r->arena,
                               "%s at %s to %s at %s, at the edges of the flanges; %s to %s is "
                               "allowed",
                               said(r, plan->place[plan->thinnest].thin_m),
                               seating_place(r, plan, plan->thinnest),
                               said(r, plan->place[plan->thickest].thick_m),
                               seating_place(r, plan, plan->thickest), said(r, plan->limit.least_m),
                               said(r, plan->limit.most_m)));
}

static void fact_sure(Report *r, const SeatPlan *plan)
{
    const SeatAdjust *a = &plan->adjust;
    const Seat *s = &plan->seat[plan->tightest];
    document_fact(
        r, "how sure",
        arena_printf(r->arena,
                     "all haunches stay within their limits with a chance of %s; the least sure, "
                     "G%d at %s, with %s (one standard deviation: %s by the survey, %s with the "
                     "movement)%s",
                     seating_chance(r, plan->inside_1), plan->tightest % plan->girders + 1,
                     plan->line[plan->tightest / plan->girders].mark,
                     seating_chance(r, s->inside_1), said(r, s->survey_m), said(r, s->off_m),
                     a->wanted && a->fits
                         ? arena_printf(r->arena, "; as proposed all of them with %s",
                                        seating_chance(r, a->inside_1))
                         : ""));
}

static void fact_moves(Report *r, const SeatPlan *plan)
{
    const SeatMove *most = &plan->move[0];
    for (int i = 0; i < plan->move_count; i++)
        if (fabs(plan->move[i].total_m) > fabs(most->total_m)) most = &plan->move[i];
    document_fact(r, "moves later",
                  arena_printf(r->arena,
                               "the deck moves by %s %s (%s line, span %d) until %s, and by %s %s "
                               "more until the end of life there",
                               seating_moved(r, most->total_m), seating_unit(r, true),
                               most->exterior ? "exterior" : "interior", most->span,
                               plan->day_words, seating_moved(r, most->end_m),
                               seating_unit(r, true)));
}

static void fact_shims(Report *r, const SeatPlan *plan)
{
    const Seat *s = &plan->seat[plan->pressed];
    const char *stress = us(r) ? "psi" : "MPa";
    document_fact(
        r, "shims",
        arena_printf(
            r->arena, "at most %s on one, %.1f times its share, at G%d, %s: %.*f of %.*f %s",
            figure_quantity(r->arena, s->load_N, quantity_unit(r->source->units, DIM_FORCE)),
            plan->limit.uneven_1, plan->pressed % plan->girders + 1,
            plan->line[plan->pressed / plan->girders].mark, us(r) ? 0 : 1,
            quantity_in(s->pressure_Pa, stress), us(r) ? 0 : 1,
            quantity_in(plan->limit.strength_Pa, stress), stress));
}

static void fact_facets(Report *r, const SeatPlan *plan)
{
    double facet_m = 0, wedge_m = 0;
    for (int i = 0; i < plan->panel_count; i++)
        if (fabs(plan->panel[i].facet_m) > fabs(facet_m)) facet_m = plan->panel[i].facet_m;
    for (int i = 0; i < plan->line_count; i++)
        if (fabs(plan->line[i].wedge_m) > fabs(wedge_m)) wedge_m = plan->line[i].wedge_m;
    document_fact(
        r, "flat panels",
        arena_printf(r->arena,
                     "a panel's middle lies up to %.*f %s %s the profile; a joint stands wedged by "
                     "up to %.*f %s, wider at the %s",
                     us(r) ? 3 : 1, quantity_in(fabs(facet_m), seating_unit(r, true)),
                     seating_unit(r, true), facet_m > 0 ? "above" : "below", us(r) ? 4 : 2,
                     quantity_in(fabs(wedge_m), seating_unit(r, true)), seating_unit(r, true),
                     wedge_m > 0 ? "top" : "soffit"));
}

static void facts_add(Report *r, const SeatPlan *plan)
{
    fact_haunch(r, plan);
    fact_sure(r, plan);
    fact_moves(r, plan);
    fact_shims(r, plan);
    fact_facets(r, plan);
    document_fact(
        r, "grout",
        arena_printf(r->arena,
                     "%s with %.0f %% waste: %s under anchor panels, %s under the others, "
                     "%s in pockets",
                     seating_volume(r, plan->grout.all_m3), 100 * plan->limit.waste_1,
                     seating_volume(r, plan->grout.anchor_m3),
                     seating_volume(r, plan->grout.run_m3),
                     seating_volume(r, plan->grout.pocket_m3)));
    document_fact(r, "survey",
                  arena_printf(r->arena,
                               "%d points, bare girders on day %.6g; rough by %s about their "
                               "neighbours; between them uncertain by at most %s",
                               plan->reading_count, plan->survey_day, said(r, plan->roughness_m),
                               said(r, plan->doubt_m)));
    for (int i = 0; i < plan->remark_count; i++)
        document_fact(r, plan->alarm[i] ? "NOT KEPT" : "mind", plan->remark[i]);
}

static const char caution[] =
    "Heights rest on the survey, on the thrust and on movements that the program predicts. Before "
    "the "
    "first panel is set the girders are read again at some points; after the first panels the sag "
    "is "
    "held against the levels below. A profile is raised or turned only with the agreement of the "
    "road's engineer.";

static void figures_add(Report *r, const SeatPlan *plan)
{
    enum { AT_ONCE = 3 };
    for (int g = -1; g < plan->girders; g += g < 0 ? 1 : AT_ONCE) {
        const FigureSeats at = {plan, g, AT_ONCE, r->source->units};
        const Figure *wide = figure_seats(&at, REPORT_PAPER_PX, r->arena);
        ReportBlock *const block = document_add(r, REPORT_FIGURE, wide->title);
        block->wide = wide;
        block->narrow = figure_seats(&at, REPORT_NARROW_PX, r->arena);
    }
}

const Report *report_seating(const ReportSource *source, const SeatPlan *plan, bool sheets,
                             Arena *arena)
{
    Report *const r = document_start(source, "Shims and haunches", arena);
    lead_add(r, plan);
    facts_add(r, plan);
    document_add(r, REPORT_CAUTION, caution);
    if (sheets) {
        document_add(r, REPORT_HEADING, "Pictures");
        figures_add(r, plan);
    }
    document_add(r, REPORT_HEADING, "Shims to be set");
    seating_shims(r, plan);
    document_add(r, REPORT_HEADING, "Girder by girder");
    seating_girders(r, plan);
    document_add(r, REPORT_HEADING, "What moves after the survey");
    seating_moves(r, plan);
    document_add(r, REPORT_HEADING, "Flat panels on the profile");
    seating_panels(r, plan);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}
