/* Joints under permanent load and Fatigue I: a joint that decompresses then opens about once a day. */
#include <math.h>

#include "cite.h"
#include "decompression.h"
#include "fibre.h"
#include "table.h"
#include "values.h"

static const char clause[] = "AASHTO LRFD 5.5.3.1 and 3.6.1.4, Fatigue I (from memory)";

typedef struct Open {
    double permanent_Pa, live_Pa; /* one lane */
    int joint, side, time;
    bool top, there;
} Open;

static double left_over(const KitLine *k, double factor_1, const Open *o)
{
    return -o->permanent_Pa - factor_1 * k->line->lanes_fatigue_1 * o->live_Pa;
}

static void try_moment(const KitLine *k, bool late, Open one, double factor_1, Open *worst)
{
    const int station = thrust_joint_station(k->line, one.joint);
    const StageEffect effect[2] = {{CHAIN_DECK, station, one.side, true},
                                   {CHAIN_DECK, station, one.side, false}};
    LiveRange range[2];
    bool done[2];
    FibreStress at;
    one.time = late ? k->end : k->opening;
    live_stress(late ? k->end_live : k->open_live, &k->fatigue, effect, 2, range, done);
    if (!done[0] || !done[1] ||
        !stage_stress(k->history, one.time, CHAIN_DECK, station, one.side, &at))
        return;
    for (int top = 0; top < 2; top++) {
        one.top = top;
        one.there = true;
        one.permanent_Pa = top ? at.top_Pa : at.bottom_Pa;
        one.live_Pa = range[top ? 0 : 1].most;
        if (!worst->there || left_over(k, factor_1, &one) < left_over(k, factor_1, worst))
            *worst = one;
    }
}

static Open worst_joint(const CheckCase *with, const KitLine *k)
{
    const double factor_1 = kit_value(with, "criteria.fatigue_live");
    Open worst = {.there = false};
    for (int j = 0; j < k->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int late = 0; late < 2; late++)
                if (thrust_joint_side(k->line, j) != -side)
                    try_moment(k, late, (Open){.joint = j, .side = side}, factor_1, &worst);
    return worst;
}

bool joints_stay_pressed(const CheckCase *with, const KitLine *k)
{
    const Open worst = worst_joint(with, k);
    return !worst.there || left_over(k, kit_value(with, "criteria.fatigue_live"), &worst) >= 0;
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "joints under Fatigue I";
    const char *unit = with->shared->unit.stress;
    const Open worst = worst_joint(with, k);
    if (!worst.there) return;
    Sheet s = kit_sheet(with, k, name);
    const Fibre at = {CHAIN_DECK, thrust_joint_station(k->line, worst.joint), worst.side,
                      worst.time, worst.top};
    fibre_write(&s, with, k, &at, "f_p", -1, "compression under permanent loads");
    const Cite truck = {.k = k,
                        .effect = {CHAIN_DECK, at.station, at.side, at.top},
                        .late = worst.time == k->end,
                        .load = &k->fatigue,
                        .sign = 1,
                        .positive = 1};
    cite_stress(&s, with, &truck, "f_1", "tension of the fatigue truck, one lane, 15 % in");
    give_fatigue_lanes(&s, with, k);
    value_give(&s, with, "g_LL", "criteria.fatigue_live", "", "Fatigue I on live load");
    sheet_formula(&s, "f_f", "g_LL g_f f_1", unit, "tension under Fatigue I", clause);
    sheet_formula(&s, "m", "f_p - f_f", unit, "compression that is left", NULL);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "f_f"), sheet_SI(&s, "f_p"), DIM_STRESS);
    check_place(row, k->name,
                arena_printf(with->arena, "%s, %s", k->line->joint[worst.joint].mark,
                             worst.top ? "top" : "soffit"),
                kit_when(with, k, worst.time), clause);
    check_needs(row, with, "days.phase_1_cast",
                "the age of the panels at jacking decides what creep and shrinkage leave");
    kit_needs_fatigue_truck(with, row);
}

Status check_decompression(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) add_row(with, list, &with->shared->line[i]);
    return STATUS_OK;
}
