/* Ends of a unit: the thrust lengthens the girders, temperature moves them; clearance to backwalls and
 * neighbours, movement at bearings, and what holds along the bridge while jacking. */
#include "table.h"
#include "values.h"

#include <math.h>

static const char temperature[] = "AASHTO LRFD table 3.4.1-1 and 3.12.2 (from memory)";

/* Along the bridge of node `chain` at `below_m` below it; theta = dv/dx: u(y) = u - theta y. */
static double along_m(const KitLine *k, int time, int station, int chain, double below_m)
{
    const NodeMove *at =
        &k->history->move[((ptrdiff_t)time * k->model->station_count + station) * 2 + chain];
    return at->u_m + at->theta_rad * below_m;
}

/* Bearing nearest to x that holds along the bridge; without one, the middle stands still. */
static double still_m(const KitLine *k, double x_m)
{
    const StageModel *m = k->model;
    double best = 0.5 * (m->x_m[0] + m->x_m[m->station_count - 1]);
    bool found = false;
    for (int s = 0; s < m->support_count; s++) {
        const double at_m = m->x_m[m->support[s].station];
        if (!(m->support[s].horizontal_N_per_m > 0)) continue;
        if (!found || fabs(at_m - x_m) < fabs(best - x_m)) best = at_m;
        found = true;
    }
    return best;
}

typedef struct Move {
    double out_m, still_m; /* most away from the unit's middle; length that warms */
    int station;
} Move;

/* An end of the unit from the panels on: girder top or bottom, whichever goes out most. */
static Move end_move(const KitLine *k, int station, double below_m)
{
    const int start = stage_time_named(k->history, "panels set");
    const double sign = station == 0 ? -1 : 1;
    Move move = {0, fabs(k->model->x_m[station] - still_m(k, k->model->x_m[station])), station};
    for (int t = start < 0 ? 0 : start; t <= k->end; t++)
        for (int low = 0; low < 2; low++)
            move.out_m =
                fmax(move.out_m, sign * (along_m(k, t, station, CHAIN_GIRDER, low ? below_m : 0) -
                                         along_m(k, start < 0 ? 0 : start, station, CHAIN_GIRDER,
                                                 low ? below_m : 0)));
    return move;
}

static void give_warmth(Sheet *s, const CheckCase *with, double length_m)
{
    const bool steel = with->shared->steel;
    sheet_given_from(s, "L_w", length_m, "in", "from where the unit stands still",
                     "spans and fixed bearing");
    value_give(s, with, "alpha", steel ? "girders.steel_expansion" : "concrete.girder.expansion",
               "1/delta_degF", "expansion of the girders");
    value_give(s, with, "q_h", "ends.rise", "delta_degF", "warmest above the day of setting");
    value_give(s, with, "q_c", "ends.fall", "delta_degF", "coldest below it");
    value_give(s, with, "g_TU", "criteria.temperature_movement", "",
               "factor on temperature, movements");
}

static void clearance(const CheckCase *with, const KitLine *k, CheckList *list)
{
    const bool known = !isnan(kit_value(with, "ends.clearance"));
    const PartSection *girder = line_girder(k, 0, NULL);
    const double depth_m = girder ? girder->top_m + girder->bottom_m : 0;
    const Move left = end_move(k, 0, depth_m),
               right = end_move(k, k->model->station_count - 1, depth_m);
    const Move *worst = left.out_m >= right.out_m ? &left : &right;
    Sheet s = kit_sheet(with, k, "Clearance at an end of the unit");
    sheet_given_from(&s, "u_t", worst->out_m, "in",
                     "end outwards since the panels were set: thrust, rotation, creep",
                     "stages, most at any time");
    give_warmth(&s, with, worst->still_m);
    sheet_formula(&s, "u_w", "g_TU alpha q_h L_w", "in", "by warmth", temperature);
    sheet_formula(&s, "u", "u_t + u_w", "in", "together", "closed form");
    if (known) value_give(&s, with, "c", "ends.clearance", "in", "clearance");
    CheckRow *row = check_add(list, with, &s, "clearance at an end of the unit", sheet_SI(&s, "u"),
                              value_known(&s, "c", known), DIM_LENGTH);
    check_place(row, k->name, kit_x(with, k, worst->station), "warm, at any time",
                "closed form: movements added; AASHTO LRFD 3.12.2 (from memory)");
    check_needs(row, with, "ends.clearance",
                text_in(with, "%s is needed at backwalls and expansion joints", sheet_SI(&s, "u"),
                        "in", "mm"));
    check_needs(row, with, "ends.rise", "the temperature on the day of setting");
}

/* Largest movement either way of a bearing that lets the girder go. */
static bool worst_bearing(const KitLine *k, int *support, double *move_m, double *warm_m)
{
    const int start = stage_time_named(k->history, "panels set");
    double most = -1;
    for (int q = 0; q < k->model->support_count; q++) {
        const Support *at = &k->model->support[q];
        if (at->horizontal_N_per_m > 0 || !(at->vertical_N_per_m > 0)) continue;
        double u_m = 0;
        for (int t = start < 0 ? 0 : start; t <= k->end; t++)
            u_m = fmax(u_m, fabs(along_m(k, t, at->station, CHAIN_GIRDER, at->below_top_m) -
                                 along_m(k, start < 0 ? 0 : start, at->station, CHAIN_GIRDER,
                                         at->below_top_m)));
        const double x_m = k->model->x_m[at->station], length_m = fabs(x_m - still_m(k, x_m));
        if (u_m + 5e-4 * length_m <= most) continue; /* about 40 K of steel: which is worst */
        most = u_m + 5e-4 * length_m;
        *support = q;
        *move_m = u_m;
        *warm_m = length_m;
    }
    return most >= 0;
}

static void bearing(const CheckCase *with, const KitLine *k, CheckList *list)
{
    const bool known = !isnan(kit_value(with, "ends.bearing"));
    int support = 0;
    double move_m = 0, warm_m = 0;
    if (!worst_bearing(k, &support, &move_m, &warm_m)) return;
    Sheet s = kit_sheet(with, k, "Movement at a bearing");
    sheet_given_from(&s, "u_t", move_m, "in", "since the panels were set, without temperature",
                     "stages, most at any time");
    give_warmth(&s, with, warm_m);
    sheet_formula(&s, "u_w", "g_TU alpha max(q_h, q_c) L_w", "in", "by temperature", temperature);
    sheet_formula(&s, "u", "u_t + u_w", "in", "together", "closed form");
    if (known) value_give(&s, with, "u_r", "ends.bearing", "in", "movement that it allows");
    CheckRow *row = check_add(list, with, &s, "movement at a bearing", sheet_SI(&s, "u"),
                              value_known(&s, "u_r", known), DIM_LENGTH);
    check_place(row, k->name, kit_x(with, k, k->model->support[support].station), "at any time",
                "closed form: movements added; AASHTO LRFD 3.12.2 (from memory)");
    row->part = "bearing";
    check_needs(row, with, "ends.bearing",
                text_in(with, "%s either way is needed", sheet_SI(&s, "u"), "in", "mm"));
}

static void held_along(const CheckCase *with, const KitLine *k, CheckList *list)
{
    double most_N = 0;
    int at = -1;
    for (int q = 0; q < k->model->support_count; q++) {
        const size_t row = (size_t)k->model->support_count;
        const double change_N =
            fabs(k->history->reaction_x_N[(size_t)k->jacked * row + (size_t)q] -
                 k->history->reaction_x_N[(size_t)k->before_jack * row + (size_t)q]);
        if (change_N <= most_N) continue;
        most_N = change_N;
        at = q;
    }
    Sheet s = kit_sheet(with, k, "What bearings hold of the thrust");
    sheet_given_from(&s, "P", k->answer->thrust_N, "kip", "line thrust", "answer");
    sheet_given_from(&s, "R_x", most_N, "kip", "change at a bearing by jacking", "stages");
    CheckRow *row =
        check_tell(list, with, &s, "held along the bridge while jacking", most_N, DIM_FORCE);
    check_place(row, k->name, at < 0 ? "" : kit_x(with, k, k->model->support[at].station),
                k->line->jacked, "law: equilibrium");
    row->part = "bearing";
}

Status check_ends(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        clearance(with, k, list);
        bearing(with, k, list);
        held_along(with, k, list);
    }
    return STATUS_OK;
}
