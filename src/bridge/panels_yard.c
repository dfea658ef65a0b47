/* Casting and closing with the numbers of the bridge file: docs/theory/panels.md. */
#include <math.h>
#include <string.h>

#include "model.h"
#include "panels.h"
#include "read.h"

/* Age at which the panels have that strength; not-a-number where they never do within a year. */
static double age_of_strength_day(const ConcreteMix *mix, double strength_Pa)
{
    double low_day = 0.25, high_day = 365;
    if (concrete_strength_Pa(mix, high_day) < strength_Pa) return NAN;
    while (high_day - low_day > 1e-3) {
        const double middle_day = (low_day + high_day) / 2;
        if (concrete_strength_Pa(mix, middle_day) < strength_Pa)
            low_day = middle_day;
        else
            high_day = middle_day;
    }
    return high_day;
}

static PanelYard yard_of(const PanelWork *w, double strip_day)
{
    const Bridge *b = w->bridge;
    const double width_m =
        w->plan->strip_m > 0 ? (b->deck.width_m - w->plan->strip_m) / 2 : b->deck.width_m;
    const bool two = b->panels.phases == 2;
    return (PanelYard){
        .bed_m = b->casting.bed_m,
        .clear_m = b->casting.clear_m,
        .skew_m = width_m * fabs(tan(w->plan->skew_rad)),
        .beds = b->casting.beds,
        .phase_day = {b->days.phase_1_cast, two ? b->days.phase_2_cast : b->days.phase_1_cast},
        .strip_day = strip_day,
        .reset_day = b->casting.reset_day,
        .set_day = b->days.panels_set,
        .per_day = b->casting.per_day};
}

Status panels_add_yard(PanelWork *w, Error *err)
{
    const Bridge *b = w->bridge;
    PanelPlan *plan = w->plan;
    const int count = plan->piece_count;
    const ConcreteMix mix = model_mix(b, CONCRETE_PANEL);
    const double strip_day = age_of_strength_day(&mix, b->handling.strip_strength_Pa);
    if (isnan(strip_day))
        return bridge_refuse(b, err, "handling.stripping_strength|concrete.panel.strength",
                             "the panels never reach the strength with which they are lifted off "
                             "the bed");
    double *length_m = ARENA_NEW(w->arena, double, count);
    PanelCast *cast = ARENA_NEW(w->arena, PanelCast, count);
    for (int i = 0; i < count; i++) length_m[i] = w->piece[i].cast_m;
    plan->yard = yard_of(w, strip_day);
    Error why = {0};
    const PanelList list = {w->line_count, count, w->line, length_m, w->phase};
    const Status status = panel_sets(&plan->yard, &list, cast, &plan->sets, &why);
    if (status != STATUS_OK)
        return bridge_refuse(b, err, "casting.bed|casting.clear", "%s", why.text);
    for (int i = 0; i < count; i++) w->piece[i].cast = cast[i];
    plan->lag_day = fabs(plan->yard.phase_day[1] - plan->yard.phase_day[0]);
    plan->cure_day = b->concrete[CONCRETE_PANEL].cure_day;
    plan->least_age_day = b->casting.least_age_day;
    plan->strip_Pa = b->handling.strip_strength_Pa;
    plan->face_strength_Pa = plan->lag_day > 0 ? concrete_strength_Pa(&mix, plan->lag_day) : 0;
    plan->early_day[0] = plan->yard.phase_day[0];
    plan->early_day[1] = plan->yard.phase_day[1];
    plan->stack = b->casting.stack;
    return STATUS_OK;
}

/* ---- joints ---- */

/* Types VI and VII of ASTM C881 by temperature (from memory, by edition): D 40 to 65, E 60 to 80, F 75 to
 * 105 degF. */
static const char *glue_class(double temperature_K)
{
    static const struct {
        double to_degF;
        const char *name;
    } up_to[] = {{40, NULL}, {60, "D"}, {65, "D or E"}, {75, "E"}, {80, "E or F"}, {105, "F"}};
    const double degF = quantity_in(temperature_K, "degF");
    for (size_t i = 0; i < sizeof up_to / sizeof *up_to; i++)
        if (degF < up_to[i].to_degF - 1e-9) return up_to[i].name;
    return degF < 105 + 1e-9 ? "F" : NULL;
}

static bool between_panels(const char *joint) { return strncmp(joint, "R", 1) == 0; }

void panels_add_closing(PanelWork *w)
{
    const Bridge *b = w->bridge;
    const ClosingData *c = &b->closing;
    PanelPlan *plan = w->plan;
    double edge_m = 0, weight_N = 0, all_m2 = 0;
    for (int i = 0; i < plan->piece_count; i++) {
        const PanelPiece *p = &plan->piece[i];
        weight_N = fmax(weight_N, p->gross_N);
        if (!between_panels(p->left_joint)) continue;
        edge_m = fmax(edge_m, p->body.left_edge_m);
        all_m2 += p->body.left_edge_m * (p->body.gross_m3 / p->body.area_m2);
    }
    plan->glued = b->panels.joint == PANEL_JOINT_MATCH_CAST;
    plan->matched = plan->glued && b->panels.phases == 2;
    plan->pullers = c->means == CLOSING_PULLERS;
    const double face_m2 = edge_m * (b->deck.thickness_m + layout_rise_1(b) * b->deck.width_m / 4);
    plan->joint = (PanelSeam){.face_m2 = face_m2,
                              .glued_m2 = face_m2,
                              .pressure_Pa = c->pressure_Pa,
                              .pulled_N = weight_N,
                              .friction_1 = b->shims.friction_1,
                              .grade_1 = isnan(b->deck.grade_1) ? 0 : b->deck.grade_1,
                              .piece_N = plan->pullers ? c->puller_N : c->bolt_N,
                              .piece_most = plan->pullers ? c->pullers : 0,
                              .film_m = c->film_m,
                              .waste_1 = c->waste_1,
                              .open_day = c->open_day,
                              .open_at_K = c->open_at_K,
                              .glue_K = c->temperature_K,
                              .spread_day = c->spread_day,
                              .place_day = c->place_day,
                              .pull_day = c->pull_day};
    PanelSeam practice = plan->joint;
    practice.pressure_Pa = 10 / quantity_in(1, "psi"); /* common practice, no source */
    plan->closing = panel_closing(&plan->joint);
    plan->practice = panel_closing(&practice);
    plan->glue_class = glue_class(c->temperature_K);
    plan->glue_all_m3 = all_m2 * c->film_m * (1 + c->waste_1);
    if (plan->closing.work_day > 0)
        plan->joints_in_pot = (int)floor(plan->closing.open_day / plan->closing.work_day + 1e-9);
}
