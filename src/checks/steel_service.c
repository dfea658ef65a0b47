/* Steel flanges of the composite section in service: Service II, and the fatigue of their details. */
#include <math.h>

#include "cite.h"
#include "fibre.h"
#include "steel.h"
#include "table.h"
#include "values.h"

/* Stress of one flange in service: permanent, and live load on one lane. */
typedef struct Served {
    double permanent_Pa, live_Pa;
    int station, side, time;
    bool top, there;
} Served;

static double both_signs(const Served *s, double factor_1)
{
    return fabs(s->permanent_Pa + factor_1 * s->live_Pa);
}

static void try_fibre(const KitLine *k, Served one, double factor_1, Served *worst)
{
    const KitLive *live = &k->girder_live[2 * one.station + (one.side > 0)];
    const LiveRange range = one.top ? live->top_Pa : live->bottom_Pa;
    for (int most = 0; most < 2; most++) {
        one.live_Pa = k->line->lanes_1 * (most ? range.most : range.least);
        if (!worst->there || both_signs(&one, factor_1) > both_signs(worst, factor_1)) *worst = one;
    }
}

static Served worst_service(const KitLine *k, double factor_1)
{
    Served worst = {.there = false};
    for (int t = k->opening; t <= k->end; t++)
        for (int i = 0; i < k->model->station_count; i++)
            for (int side = -1; side <= 1; side += 2) {
                FibreStress at;
                if (!k->girder_live[2 * i + (side > 0)].there ||
                    !stage_stress(k->history, t, CHAIN_GIRDER, i, side, &at))
                    continue;
                try_fibre(k, (Served){at.top_Pa, 0, i, side, t, true, true}, factor_1, &worst);
                try_fibre(k, (Served){at.bottom_Pa, 0, i, side, t, false, true}, factor_1, &worst);
            }
    return worst;
}

static Cite truck_or_lane(const KitLine *k, const Fibre *at, const LiveLoad *load, int sign)
{
    return (Cite){.k = k,
                  .effect = {at->chain, at->station, at->side, at->top},
                  .load = load,
                  .sign = sign,
                  .positive = 1};
}

static void add_service(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "steel flanges in service";
    static const char clause[] = "AASHTO LRFD 6.10.4.2.2, Service II (from memory)";
    const char *unit = with->shared->unit.stress;
    const double factor_1 = kit_value(with, "criteria.steel_service_live");
    const Served w = worst_service(k, factor_1);
    if (!w.there) return;
    Sheet s = kit_sheet(with, k, name);
    const Fibre at = {CHAIN_GIRDER, w.station, w.side, w.time, w.top};
    fibre_write(&s, with, k, &at, "f_p", 1, "permanent stress, thrust and losses in");
    const Cite live = truck_or_lane(k, &at, &k->line->live, w.live_Pa >= 0 ? 1 : -1);
    cite_stress(&s, with, &live, "f_1", "of one lane of live load with impact");
    give_lanes(&s, with, k);
    value_give(&s, with, "g_LL", "criteria.steel_service_live", "", "Service II on live load");
    sheet_formula(&s, "f_f", "abs(f_p + g_LL g_m f_1)", unit, "stress of the flange", NULL);
    value_give(&s, with, "F_y", "girders.steel_yield", unit, "yield stress");
    value_give(&s, with, "k_y", "criteria.steel_service", "", "share of it");
    sheet_formula(&s, "f_lim", "k_y F_y", unit, "limit of the flange", clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "f_f"), sheet_SI(&s, "f_lim"), DIM_STRESS);
    check_place(row, k->name,
                arena_printf(with->arena, "%s, %s flange", kit_x(with, k, w.station),
                             w.top ? "top" : "bottom"),
                kit_when(with, k, w.time), clause);
    steel_needs_yield(with, row);
}

/* ---- fatigue ---- */

typedef struct Range {
    double permanent_Pa, most_Pa, least_Pa; /* of the fatigue truck on one lane */
    int station, side;
    bool there;
} Range;

/* A detail counts where Fatigue I can bring tension: AASHTO LRFD 6.6.1.2.1 (from memory). */
static Range worst_range(const KitLine *k, bool top, double factor_1)
{
    Range worst = {.there = false};
    for (int i = 0; i < k->model->station_count; i++)
        for (int side = -1; side <= 1; side += 2) {
            FibreStress at;
            const KitLive *live = &k->girder_live[2 * i + (side > 0)];
            if (!live->there || !stage_stress(k->history, k->opening, CHAIN_GIRDER, i, side, &at))
                continue;
            const LiveRange r = top ? live->fatigue_top_Pa : live->fatigue_bottom_Pa;
            const Range one = {top ? at.top_Pa : at.bottom_Pa, r.most, r.least, i, side, true};
            const double peak = k->line->lanes_fatigue_1 * factor_1 * one.most_Pa;
            if (one.permanent_Pa + peak <= 0) continue;
            if (!worst.there || one.most_Pa - one.least_Pa > worst.most_Pa - worst.least_Pa)
                worst = one;
        }
    return worst;
}

static void add_fatigue(const CheckCase *with, CheckList *list, const KitLine *k, bool top)
{
    static const char clause[] = "AASHTO LRFD 6.6.1.2, Fatigue I (from memory)";
    const char *unit = with->shared->unit.stress;
    const char *name = top ? "fatigue of top flange details" : "fatigue of bottom flange details";
    const double factor_1 = kit_value(with, "criteria.fatigue_live");
    const Range w = worst_range(k, top, factor_1);
    if (!w.there) return;
    Sheet s = kit_sheet(with, k, name);
    const Fibre at = {CHAIN_GIRDER, w.station, w.side, k->opening, top};
    fibre_write(&s, with, k, &at, "f_p", 1,
                "permanent stress: the detail counts, since the truck brings tension");
    const Cite most = truck_or_lane(k, &at, &k->fatigue, 1);
    const Cite least = truck_or_lane(k, &at, &k->fatigue, -1);
    cite_stress(&s, with, &most, "f_max", "fatigue truck with 15 %, one lane, largest");
    cite_stress(&s, with, &least, "f_min", "and smallest");
    give_fatigue_lanes(&s, with, k);
    value_give(&s, with, "g_LL", "criteria.fatigue_live", "", "Fatigue I on live load");
    sheet_formula(&s, "df", "g_LL g_f (f_max - f_min)", unit, "range of stress", clause);
    value_give(&s, with, "dF_TH", "girders.detail_threshold", unit,
               "threshold of the detail, infinite life");
    sheet_formula(&s, "r", "df / dF_TH", "", "demand over capacity", NULL);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "df"), sheet_SI(&s, "dF_TH"), DIM_STRESS);
    check_place(row, k->name, kit_x(with, k, w.station), "in service", clause);
    check_needs(row, with, "girders.detail_threshold",
                "the worst detail of the flanges decides its threshold");
    kit_needs_fatigue_truck(with, row);
}

Status check_steel_service(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (!with->shared->steel) return STATUS_OK;
    for (int i = 0; i < with->shared->count; i++) {
        add_service(with, list, &with->shared->line[i]);
        add_fatigue(with, list, &with->shared->line[i], true);
        add_fatigue(with, list, &with->shared->line[i], false);
    }
    return STATUS_OK;
}
