/* Connectors between anchor panels: strength of a pocket, full composite action of studs, and the
 * connectors of anchor panels at strength; fatigue is in connector_fatigue.c. docs/theory/connections.md. */
#include "pockets.h"
#include "table.h"

#include <math.h>

static const char path_count[] = "connectors.per_cluster";

static double concrete_Pa(const CheckCase *with, const KitLine *k)
{
    return fmin(kit_value(with, "connectors.grout"), k->line->deck_strength_Pa);
}

static const char *where(const CheckCase *with, const KitLine *k, const PocketForce *f)
{
    return kit_x(with, k, line_station(k, (f->from_m + f->to_m) / 2));
}

typedef struct Worst {
    PocketForce strength, fatigue;
} Worst;

/* Pockets from anchor panel to anchor panel. */
static Worst worst_pockets(const CheckCase *with, const KitLine *k)
{
    const double s_m = kit_value(with, "connectors.spacing");
    const StageModel *m = k->model;
    const double anchor_m = line_anchor_m(k), last_m = m->x_m[m->station_count - 1] - anchor_m;
    const double first_m = m->x_m[0] + anchor_m;
    const int count = (int)ceil((last_m - first_m) / s_m - 1e-6);
    Worst worst = {0};
    for (int i = 0; i < count; i++) { /* the last one ends at the anchor panel */
        const double x_m = fmin(first_m + i * s_m, last_m - s_m);
        PocketForce f = pocket_force(with, k, x_m, x_m + s_m);
        pocket_at_least_full(k, &f);
        if (pocket_strength_N(with, &f, false) > pocket_strength_N(with, &worst.strength, false))
            worst.strength = f;
        if (fatigue_measure_N(with, &f) > fatigue_measure_N(with, &worst.fatigue))
            worst.fatigue = f;
    }
    return worst;
}

static void give_force(Sheet *s, const CheckCase *with, const KitLine *k, const PocketForce *f)
{
    sheet_given_from(s, "F_s", f->superimposed_N, "kip", "barrier, overlay, wearing surface",
                     "sum of the links in the stages");
    sheet_given_from(s, "F_a", f->later_most_N, "kip",
                     "creep and shrinkage after grouting, most in service",
                     "sum of the links in the stages");
    sheet_given_from(s, "F_b", f->later_least_N, "kip", "the same, least",
                     "sum of the links in the stages");
    pocket_write_live(s, with, k, f);
    value_give(s, with, "g_s", "criteria.strength_wearing", "", "on superimposed loads");
    value_give(s, with, "g_l", "criteria.strength_live", "", "on live load");
}

/* F_0, locked in, is given above. The same sum as pocket_strength_N. */
static void give_sum(Sheet *s)
{
    static const char source[] = "AASHTO LRFD tables 3.4.1-1 and -2 (from memory)";
    sheet_formula(s, "F_m", "F_0 + max(g_s F_s, 0.65 F_s) + F_a + g_l F_c", "kip",
                  "largest along the bridge", source);
    sheet_formula(s, "F_l", "F_0 + min(g_s F_s, 0.65 F_s) + F_b + g_l F_d", "kip", "smallest",
                  source);
    sheet_formula(s, "P_u", "max(abs(F_m), abs(F_l))", "kip", "on these connectors", source);
}

/* Live load is at least V Q/I whatever the stiffness; creep and shrinkage are not. */
static void needs_stiffness(CheckRow *row, const CheckCase *with)
{
    check_needs(row, with, "shims.connectors",
                "stiff connectors take the restraint of creep and shrinkage over a short length");
}

static void strength(const CheckCase *with, const KitLine *k, const PocketForce *f, CheckList *list)
{
    Sheet s = kit_sheet(with, k, "Strength of a pocket");
    value_give(&s, with, "s", "connectors.spacing", "in", "tributary length");
    sheet_given(&s, "F_0", 0, "kip", "locked in before grouting");
    give_force(&s, with, k, f);
    give_sum(&s);
    connect_give(&s, with, concrete_Pa(with, k), kit_value(with, "connectors.spacing"), true);
    const double need = connect_need(&s, with);
    value_chosen(&s, with, "n", path_count, need);
    const double V_r = connect_resist(&s, with);
    CheckRow *row =
        check_add(list, with, &s, "strength of a pocket", sheet_SI(&s, "P_u"), V_r, DIM_FORCE);
    check_place(row, k->name, where(with, k, f), "Strength I", connect_clause(with));
    connect_needs(row, with, path_count, "connectors.grout", need);
    check_needs(row, with, "connectors.spacing", "the tributary length of a pocket");
    needs_stiffness(row, with);
}

/* ---- full composite action of steel girders ---- */

typedef struct ShearSpan {
    double length_m; /* from the largest moment to the support */
    int station;     /* of the largest moment */
    bool pier;       /* negative moment at that support */
} ShearSpan;

/* The shortest length in each kind of the unit's spans; moment of a uniform load (law: shape). */
static int shear_spans(const CheckCase *with, const KitLine *k, ShearSpan out[2])
{
    const StageModel *m = k->model;
    const int n = m->station_count;
    double *moment = ARENA_NEW(with->arena, double, n),
           *work = ARENA_NEW(with->arena, double, 12 * n);
    stage_uniform_moment(live_structure(k->open_live), moment, work);
    int count = 0, last = -1, top = -1;
    bool found[2] = {false, false};
    ShearSpan best[2] = {{INFINITY, 0, false}, {INFINITY, 0, true}};
    for (int i = 0; i < n; i++) { /* a support is where the moment has a minimum, or an end */
        const bool end = i == 0 || i == n - 1;
        bool held = false;
        for (int q = 0; q < m->support_count; q++)
            held = held || (m->support[q].station == i && m->support[q].vertical_N_per_m > 0);
        if (top < 0 || moment[i] > moment[top]) top = i;
        if (!held && !end) continue;
        if (last >= 0 && top > last && moment[top] > 0 && m->x_m[i] - m->x_m[last] > 3) {
            const int side[2] = {last, i};
            for (int e = 0; e < 2; e++) {
                const int pier = side[e] != 0 && side[e] != n - 1;
                const double length_m = fabs(m->x_m[side[e]] - m->x_m[top]);
                if (length_m >= best[pier].length_m) continue;
                best[pier] = (ShearSpan){length_m, top, pier};
                found[pier] = true;
            }
        }
        last = i;
        top = i;
    }
    for (int pier = 0; pier < 2; pier++)
        if (found[pier]) out[count++] = best[pier];
    return count;
}

static void composite(const CheckCase *with, const KitLine *k, const ShearSpan *span,
                      CheckList *list)
{
    static const char source[] = "AASHTO LRFD 6.10.10.4.2 (from memory)";
    const PartSection *girder = line_girder(k, span->station, NULL);
    if (!girder) return;
    Sheet s = kit_sheet(with, k, "Connectors for full composite action");
    sheet_given_from(&s, "L_p", span->length_m, "in",
                     span->pier ? "from the largest moment to the pier"
                                : "from the largest moment to the end",
                     "between the largest moment of a uniform load on all spans and the support");
    value_give(&s, with, "s", "connectors.spacing", "in", "between pockets");
    connect_give(&s, with, concrete_Pa(with, k), span->length_m, true);
    sheet_given_from(&s, "f'd", k->line->deck_strength_Pa, "ksi", "strength of the panels",
                     "concrete.panel.strength");
    sheet_given_from(&s, "b", k->line->width_m, "in", "deck on this line", from_width(k));
    sheet_given_from(&s, "t", k->model->deck_thickness_m, "in", "deck that carries",
                     from_thickness);
    sheet_given_from(&s, "A_g", girder->area_m2, "in^2", "girder", from_sections);
    value_give(&s, with, "F_y", "girders.steel_yield", "ksi", "its yield stress");
    sheet_formula(&s, "P_p", "min(0.85 f'd b t, F_y A_g)", "kip", "where the moment is positive",
                  source);
    sheet_formula(&s, "P_n", span->pier ? "min(0.45 f'd b t, F_y A_g)" : "0 [kip]", "kip",
                  "at the pier", source);
    sheet_formula(&s, "P_u", "P_p + P_n", "kip", "to be carried over that length", source);
    sheet_formula(&s, "m", "L_p / s", "", "pockets over that length", "closed form");
    const double need = sheet_formula(&s, "n_req", "P_u / (Q_r m)", "",
                                      "studs in a pocket that are needed", source);
    value_chosen(&s, with, "n", path_count, need);
    sheet_formula(&s, "V_r", "n m Q_r", "kip", "resistance over that length", source);
    CheckRow *row = check_add(list, with, &s, "connectors for full composite action",
                              sheet_SI(&s, "P_u"), sheet_SI(&s, "V_r"), DIM_FORCE);
    check_place(row, k->name,
                arena_printf(with->arena, "from %s to the %s", kit_x(with, k, span->station),
                             span->pier ? "pier" : "end"),
                "strength", source);
    connect_needs(row, with, path_count, "connectors.grout", need);
    check_needs(row, with, "connectors.spacing", "the number of pockets hangs on it");
}

/* ---- anchor panels at strength: thrust that is left, superimposed and live load together ---- */

static void anchor_service(const CheckCase *with, const KitLine *k, CheckList *list)
{
    static const char count[] = "connectors.anchor_count";
    const PocketForce left = anchor_force(with, k, false), right = anchor_force(with, k, true);
    const PocketForce worst =
        pocket_strength_N(with, &left, true) >= pocket_strength_N(with, &right, true) ? left
                                                                                      : right;
    Sheet s = kit_sheet(with, k, "Connectors of an anchor panel at strength");
    sheet_given_from(&s, "F_0", worst.thrust_N, "kip", "thrust that is left at grouting, factor 1",
                     "locked-in forces EL, AASHTO LRFD table 3.4.1-1 (from memory)");
    give_force(&s, with, k, &worst);
    give_sum(&s);
    const bool given = connect_is_given(with);
    double need = 0, V_r = 0;
    if (given)
        V_r = connect_resist_given(&s, with);
    else {
        connect_give(&s, with, concrete_Pa(with, k), connect_group_m(with, k), false);
        need = connect_need(&s, with);
        value_chosen(&s, with, "n", count, need);
        V_r = connect_resist(&s, with);
    }
    CheckRow *row = check_add(list, with, &s, "connectors of an anchor panel at strength",
                              sheet_SI(&s, "P_u"), V_r, DIM_FORCE);
    check_place(row, k->name, where(with, k, &worst), "Strength I", connect_clause(with));
    row->part = "anchor panel";
    if (!given) connect_needs(row, with, count, "connectors.anchor_grout", need);
    needs_stiffness(row, with);
}

Status check_connectors(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        const Worst worst = worst_pockets(with, k);
        strength(with, k, &worst.strength, list);
        anchor_service(with, k, list);
        fatigue_of_pocket(with, k, &worst.fatigue, list);
        fatigue_of_anchor(with, k, list);
        if (connect_bars(with)) continue;
        ShearSpan span[2];
        const int count = shear_spans(with, k, span);
        for (int q = 0; q < count; q++) composite(with, k, &span[q], list);
    }
    return STATUS_OK;
}
