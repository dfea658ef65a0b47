/* The panels as a document: cover, what has to be known, and the order of its chapters. */
#include "panels.h"

#include <math.h>
#include <string.h>

/* ---- numbers ---- */

static const char *unit_of(const Report *r, DimensionId dimension)
{
    const bool us = r->source->units == UNITS_US;
    if (dimension == DIM_STRESS) return us ? "psi" : "MPa";
    if (dimension == DIM_VOLUME) return us ? "yd^3" : "m^3";
    if (dimension == DIM_AREA) return us ? "ft^2" : "m^2";
    return quantity_unit(r->source->units, dimension);
}

static const char *unit_shown(const Report *r, DimensionId dimension)
{
    return report_unit(unit_of(r, dimension), r->arena);
}

const char *panels_number(const Report *r, double value_SI, DimensionId dimension, int places)
{
    double value = quantity_in(value_SI, unit_of(r, dimension));
    if (!isfinite(value)) return "-";
    if (fabs(value) < 0.5 * pow(10, -places)) value = 0; /* no minus before a zero */
    return arena_printf(r->arena, "%.*f", places, value);
}

const char *panels_head(const Report *r, const char *name, DimensionId dimension)
{
    return arena_printf(r->arena, "%s [%s]", name, unit_shown(r, dimension));
}

const char *panels_said(const Report *r, double value_SI, DimensionId dimension, int places)
{
    return arena_printf(r->arena, "%s %s", panels_number(r, value_SI, dimension, places),
                        unit_shown(r, dimension));
}

const char *panels_day(const Report *r, double day)
{
    const bool whole = fabs(day - round(day)) < 0.05;
    return arena_printf(r->arena, whole ? "%.0f" : "%.1f", whole ? round(day) + 0.0 : day);
}

const char *panels_minutes(const Report *r, double time_day)
{
    return arena_printf(r->arena, "%.0f min", time_day * 1440);
}

/* US gallons of 231 cubic inches. */
const char *panels_volume(const Report *r, double volume_m3)
{
    if (r->source->units == UNITS_SI) return arena_printf(r->arena, "%.3g l", volume_m3 * 1000);
    const double in3 = quantity_in(volume_m3, "in^3");
    return arena_printf(r->arena, "%.3g gallons (%.3g ft\xC2\xB3)", in3 / 231, in3 / 1728);
}

const char *panels_choice(PanelChoice choice)
{
    static const char *const name[] = {"nominal", "least panels", "least kinds"};
    return name[choice];
}

/* ---- what governs ---- */

const PanelPiece *panels_heaviest(const PanelPlan *plan)
{
    const PanelPiece *most = &plan->piece[0];
    for (int i = 1; i < plan->piece_count; i++)
        if (plan->piece[i].gross_N > most->gross_N * (1 + 1e-9)) most = &plan->piece[i];
    return most;
}

const PanelLiftAnswer *panels_worst(const PanelSource *p, PanelLift lift)
{
    const PanelLiftAnswer *worst = &p->lift[lift];
    for (int k = 1; k < p->plan->kind_count; k++) {
        const PanelLiftAnswer *at = &p->lift[k * (int)PANEL_LIFT_COUNT + (int)lift];
        if (at->points > worst->points ||
            (at->points == worst->points &&
             at->stress_Pa / at->limit_Pa > worst->stress_Pa / worst->limit_Pa))
            worst = at;
    }
    return worst;
}

bool panels_lift_met(const PanelLiftAnswer *lift)
{
    return lift->stress_Pa <= lift->limit_Pa * (1 + 1e-9);
}

bool report_panels_met(const PanelSource *p)
{
    for (int i = 0; i < p->plan->remark_count; i++)
        if (p->plan->alarm[i]) return false;
    for (int k = 0; k < p->plan->kind_count * (int)PANEL_LIFT_COUNT; k++)
        if (!panels_lift_met(&p->lift[k])) return false;
    return true;
}

/* ---- cover ---- */

static const char *many(const Report *r, int count, const char *one)
{
    return arena_printf(r->arena, "%d %s%s", count, one, count == 1 ? "" : "s");
}

static void lead_add(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    document_add(
        r, REPORT_LEAD,
        arena_printf(r->arena,
                     "%s in %s: %s, %s of concrete, %s; cast in %s of the beds, the first on day "
                     "%s, the last "
                     "set on day %s.",
                     many(r, plan->piece_count, "panel"), many(r, plan->run_count, "run"),
                     many(r, plan->kind_count, "kind"), panels_said(r, plan->net_m3, DIM_VOLUME, 1),
                     panels_said(r, plan->weight_N, DIM_FORCE, 0),
                     many(r, plan->sets.cycles, "filling"), panels_day(r, plan->sets.first_day),
                     panels_day(r, plan->yard.set_day)));
}

static void fact_layout(Report *r, const PanelPlan *plan)
{
    const PanelOption *o = &plan->option[plan->chosen];
    document_fact(r, "layout",
                  arena_printf(r->arena, "%s: %s between anchors and gaps of %s, %s to %s long%s",
                               panels_choice(plan->chosen), many(r, o->panels, "panel"),
                               many(r, o->kinds, "length"),
                               panels_number(r, o->shortest_m, DIM_LENGTH, 2),
                               panels_said(r, o->longest_m, DIM_LENGTH, 2),
                               plan->strip_m > 0 ? ", each in two across" : ""));
}

static void facts_yard(Report *r, const PanelPlan *plan)
{
    const PanelSets *s = &plan->sets;
    document_fact(r, "age",
                  arena_printf(r->arena, "%s to %s days when set; at least %s are asked for",
                               panels_day(r, s->youngest_day), panels_day(r, s->oldest_day),
                               panels_day(r, plan->least_age_day)));
    document_fact(r, "storage",
                  arena_printf(r->arena, "%d panels at once on day %s, in %d stacks of %d",
                               s->stored_most, panels_day(r, s->stored_day),
                               (s->stored_most + plan->stack - 1) / plan->stack, plan->stack));
}

static int stress_places(const Report *r) { return r->source->units == UNITS_US ? 0 : 2; }

static void fact_lift(Report *r, const PanelSource *p, PanelLift which, const char *label)
{
    const PanelLiftAnswer *worst = panels_worst(p, which);
    document_fact(r, label,
                  arena_printf(r->arena,
                               "two rows of %d points%s: %s of %s at %.3g times the weight%s",
                               worst->points, worst->chosen ? "" : " (not chosen: are needed)",
                               panels_number(r, worst->stress_Pa, DIM_STRESS, stress_places(r)),
                               panels_said(r, worst->limit_Pa, DIM_STRESS, stress_places(r)),
                               worst->factor_1, panels_lift_met(worst) ? "" : "; THEY CRACK"));
}

static void fact_joints(Report *r, const PanelPlan *plan)
{
    const PanelClosing *c = &plan->closing;
    if (!plan->glued) {
        document_fact(r, "joints", "narrow cast: nothing to be pulled or glued");
        return;
    }
    document_fact(r, "joints",
                  arena_printf(r->arena,
                               "%d, %s each for %s and the panel's drag: %d %s; %s of glue in all",
                               plan->match_joints, panels_said(r, c->force_N, DIM_FORCE, 0),
                               panels_said(r, plan->joint.pressure_Pa, DIM_STRESS,
                                           r->source->units == UNITS_US ? 0 : 2),
                               c->pieces, plan->pullers ? "chain pullers" : "bolts",
                               panels_volume(r, plan->glue_all_m3)));
}

static void facts_add(Report *r, const PanelSource *p)
{
    const PanelPlan *plan = p->plan;
    const PanelPiece *heavy = panels_heaviest(plan);
    fact_layout(r, plan);
    document_fact(r, "heaviest",
                  arena_printf(r->arena, "%s, kind %s: %s without its pockets, %s with them solid",
                               heavy->mark, plan->kind[heavy->kind].name,
                               panels_said(r, heavy->weight_N, DIM_FORCE, 1),
                               panels_said(r, heavy->gross_N, DIM_FORCE, 1)));
    facts_yard(r, plan);
    fact_lift(r, p, PANEL_OFF_BED, "off the bed");
    fact_lift(r, p, PANEL_ON_GIRDERS, "erection");
    fact_joints(r, plan);
    for (int i = 0; i < plan->remark_count; i++)
        document_fact(r, plan->alarm[i] ? "NOT KEPT" : "mind", plan->remark[i]);
}

static const char caution[] =
    "Panels whose faces were cast against each other are no longer interchangeable: a mark belongs "
    "to its place, its arrow up-station. A rejected panel is cast anew against its stored "
    "neighbours, or its joints become cast ones. Weights, calendar and forces rest on inputs that "
    "the yard and the erector must confirm.";

const Report *report_panels(const PanelSource *p, bool sheets, Arena *arena)
{
    Report *const r = document_start(p->report, "Panels", arena);
    lead_add(r, p);
    facts_add(r, p);
    document_add(r, REPORT_CAUTION, caution);
    document_add(r, REPORT_HEADING, "Kinds of panels");
    panels_kinds(r, p);
    document_add(r, REPORT_HEADING, "Layout");
    panels_layout(r, p);
    document_add(r, REPORT_HEADING, "Casting");
    panels_casting(r, p);
    document_add(r, REPORT_HEADING, "Lifting");
    panels_lifting(r, p);
    document_add(r, REPORT_HEADING, "Closing the joints");
    panels_closing(r, p);
    document_add(r, REPORT_HEADING, "Schedule");
    panels_schedule(r, p);
    if (sheets) panels_workings(r, p);
    document_add(r, REPORT_CAUTION, report_caution());
    return r;
}

/* ---- from a bridge to what is reported ---- */

Status report_panels_find(const ReportSource *source, Arena *arena, PanelSource *panels, Error *err)
{
    const PanelPlan *plan;
    TRY(bridge_panels(source->bridge, arena, &plan, err));
    const CheckCase with = {.bridge = source->bridge, .arena = arena};
    PanelLiftAnswer *lift = ARENA_NEW(arena, PanelLiftAnswer, plan->kind_count * PANEL_LIFT_COUNT);
    for (int k = 0; k < plan->kind_count; k++) {
        const PanelPiece *like = &plan->piece[plan->kind[k].like];
        const PanelBody *body = &like->body;
        /* a parallelogram bends along its joints; a wedge as the rectangle round it */
        const double across_m = body->area_m2 / ((body->longest_m + body->shortest_m) / 2);
        const bool parallel = fabs(body->longest_m - body->shortest_m) < 1e-6;
        const double edge_m = body->left_edge_m;
        const PanelLifted lifted = {parallel ? body->area_m2 / edge_m : body->longest_m,
                                    parallel ? edge_m : across_m, body->gross_m3 / body->area_m2};
        for (int which = 0; which < PANEL_LIFT_COUNT; which++)
            TRY(checks_lift(&with, &lifted, (PanelLift)which, &lift[k * PANEL_LIFT_COUNT + which],
                            err));
    }
    *panels = (PanelSource){source, plan, lift};
    return STATUS_OK;
}
