/* Fatigue of concrete in compression: Fatigue I and half of prestress, thrust and permanent loads, in the
 * deck at its joints and in pretensioned girders. */
#include <math.h>

#include "cite.h"
#include "fibre.h"
#include "table.h"
#include "values.h"

static const char clause[] = "AASHTO LRFD 5.5.3.1, Fatigue I (from memory)";

/* A fibre; stresses tension positive, the truck's on one lane. */
typedef struct Pressed {
    double permanent_Pa, live_Pa, strength_Pa;
    int station, side, joint, time; /* joint -1: a girder */
    bool top, there;
} Pressed;

static double pressure_Pa(const KitLine *k, double factor_1, const Pressed *p)
{
    return -(0.5 * p->permanent_Pa + factor_1 * k->line->lanes_fatigue_1 * p->live_Pa);
}

static void take(const KitLine *k, double factor_1, Pressed one, Pressed *worst)
{
    if (!(one.strength_Pa > 0)) return;
    one.there = true;
    if (!worst->there || pressure_Pa(k, factor_1, &one) / one.strength_Pa >
                             pressure_Pa(k, factor_1, worst) / worst->strength_Pa)
        *worst = one;
}

static void try_joint(const KitLine *k, int joint, int side, double factor_1, Pressed *worst)
{
    const int station = thrust_joint_station(k->line, joint);
    const StageEffect effect[2] = {{CHAIN_DECK, station, side, true},
                                   {CHAIN_DECK, station, side, false}};
    for (int late = 0; late < 2; late++) {
        LiveRange range[2];
        bool done[2];
        FibreStress at;
        Pressed one = {.station = station,
                       .side = side,
                       .joint = joint,
                       .time = late ? k->end : k->opening,
                       .top = true};
        live_stress(late ? k->end_live : k->open_live, &k->fatigue, effect, 2, range, done);
        if (!done[0] || !done[1] ||
            !stage_stress(k->history, one.time, CHAIN_DECK, station, side, &at))
            continue;
        one.strength_Pa = kit_strength_Pa(k, one.time, CHAIN_DECK, station, side);
        one.permanent_Pa = at.top_Pa;
        one.live_Pa = range[0].least;
        take(k, factor_1, one, worst);
        one.top = false;
        one.permanent_Pa = at.bottom_Pa;
        one.live_Pa = range[1].least;
        take(k, factor_1, one, worst);
    }
}

static void try_girder(const KitLine *k, int station, int side, double factor_1, Pressed *worst)
{
    const KitLive *live = &k->girder_live[2 * station + (side > 0)];
    for (int t = k->opening; t <= k->end && live->there; t++) {
        FibreStress at;
        Pressed one = {.station = station, .side = side, .joint = -1, .time = t, .top = true};
        if (!stage_stress(k->history, t, CHAIN_GIRDER, station, side, &at)) continue;
        one.strength_Pa = kit_strength_Pa(k, t, CHAIN_GIRDER, station, side);
        one.permanent_Pa = at.top_Pa;
        one.live_Pa = live->fatigue_top_Pa.least;
        take(k, factor_1, one, worst);
        one.top = false;
        one.permanent_Pa = at.bottom_Pa;
        one.live_Pa = live->fatigue_bottom_Pa.least;
        take(k, factor_1, one, worst);
    }
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k, const Pressed *p)
{
    const char *name = p->joint >= 0 ? "fatigue of the deck in compression"
                                     : "fatigue of a pretensioned girder in compression";
    const char *unit = with->shared->unit.stress;
    if (!p->there) return;
    Sheet s = kit_sheet(with, k, name);
    const Fibre at = {p->joint >= 0 ? CHAIN_DECK : CHAIN_GIRDER, p->station, p->side, p->time,
                      p->top};
    fibre_write(&s, with, k, &at, "f_p", -1,
                "compression under permanent loads, prestress and thrust");
    const Cite truck = {.k = k,
                        .effect = {at.chain, at.station, at.side, at.top},
                        .late = p->joint >= 0 && p->time == k->end,
                        .load = &k->fatigue,
                        .sign = -1,
                        .positive = -1};
    cite_stress(&s, with, &truck, "f_1", "of the fatigue truck, one lane, 15 % in");
    give_fatigue_lanes(&s, with, k);
    value_give(&s, with, "g_LL", "criteria.fatigue_live", "", "Fatigue I on live load");
    sheet_formula(&s, "f_c", "max(f_p / 2 + g_LL g_f f_1, 0)", unit,
                  "half of what is permanent, and Fatigue I", clause);
    sheet_given_from(&s, "f'c", p->strength_Pa, unit, "strength, at most the specified one",
                     from_time);
    sheet_formula(&s, "f_lim", "0.40 f'c", unit, "limit", clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "f_c"), sheet_SI(&s, "f_lim"), DIM_STRESS);
    const char *place = p->joint >= 0 ? k->line->joint[p->joint].mark : kit_x(with, k, p->station);
    check_place(row, k->name, arena_printf(with->arena, "%s, %s", place, p->top ? "top" : "bottom"),
                kit_when(with, k, p->time), clause);
    row->part = p->joint >= 0 ? "deck" : "girder";
    if (p->joint < 0)
        check_needs(row, with, "girders.strand_area",
                    "the prestress hangs on the size of the strand");
    kit_needs_fatigue_truck(with, row);
}

Status check_fatigue(const CheckCase *with, CheckList *list, Error *err)
{
    const double factor_1 = kit_value(with, "criteria.fatigue_live");
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        Pressed deck = {.there = false}, girder = {.there = false};
        for (int j = 0; j < k->line->joint_count; j++)
            for (int side = -1; side <= 1; side += 2)
                if (thrust_joint_side(k->line, j) != -side) try_joint(k, j, side, factor_1, &deck);
        for (int s = 0; s < k->model->station_count && !with->shared->steel; s++)
            for (int side = -1; side <= 1; side += 2) try_girder(k, s, side, factor_1, &girder);
        add_row(with, list, k, &deck);
        add_row(with, list, k, &girder);
    }
    return STATUS_OK;
}
