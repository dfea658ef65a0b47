/* The deck on its shims until the haunches are grouted: the strip between two shims, lift by curvature
 * under the thrust, lift at the shims, wind and braking against friction, and how long it lasts. */
#include <math.h>

#include "kit.h"
#include "table.h"
#include "values.h"

/* ---- strip between shims ---- */

static const char strip_clause[] =
    "closed form: Euler with a first imperfection; limit AASHTO LRFD 5.9.2.3.1a (from memory)";

static double youngest_modulus_Pa(const KitLine *k)
{
    double least = INFINITY;
    for (int p = 0; p < k->model->part_count; p++) {
        const Part *part = &k->model->part[p];
        const Material *law = &k->model->material[part->material];
        const double age = k->history->day[k->jacked] - law->cast_day;
        if (part->chain != CHAIN_DECK || law->kind != MATERIAL_CONCRETE || age <= 0) continue;
        least = fmin(least, concrete_modulus_Pa(&law->mix, age));
    }
    return least;
}

static void add_strip(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "strip between shims while jacked";
    const KitUnits *u = &with->shared->unit;
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "P", k->answer->thrust_N, u->force, "thrust of the line", from_answer);
    sheet_given_from(&s, "b", k->line->width_m, u->length, "deck on the line", from_width(k));
    sheet_given_from(&s, "t", k->model->deck_thickness_m, u->length, "deck that carries",
                     from_thickness);
    sheet_given_from(&s, "E", youngest_modulus_Pa(k), u->stress, "modulus of the younger panels",
                     from_time);
    value_give(&s, with, "L", "shims.spacing", u->length, "between shims");
    value_give(&s, with, "e", "shims.imperfection", u->length,
               "a shim missed by, or bow of the strip");
    sheet_formula(&s, "P_E", "9.869604 * E b t^3 / 12 / L^2", u->force, "Euler load",
                  "closed form");
    sheet_formula(&s, "q", "1 / max(0.001, 1 - P / P_E)", "", "growth of the bow", "closed form");
    sheet_formula(&s, "f_c", "P / (b t) + 6 * P e q / (b t^2)", u->stress,
                  "largest compression of the strip", "closed form");
    sheet_given_from(&s, "f'c", k->line->deck_jacking_strength_Pa, u->stress,
                     "strength of the younger panels on the day of jacking", from_time);
    value_give(&s, with, "k_c", "criteria.deck_jacking", "", "share of it");
    sheet_formula(&s, "f_lim", "k_c f'c", u->stress, "limit", strip_clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "f_c"), sheet_SI(&s, "f_lim"), DIM_STRESS);
    check_place(row, k->name, "between two shims", "jacked", strip_clause);
}

/* ---- lift by curvature ---- */

static const char crest_clause[] =
    "law: equilibrium of a pressed strip, P times curvature; share of "
    "the weight: common practice, no source";

static double theta_rad(const KitLine *k, int time, int station)
{
    return k->history->move[((size_t)time * (size_t)k->model->station_count + (size_t)station) * 2]
        .theta_rad;
}

typedef struct Lift {
    double hog_per_m, force_N, push_N_per_m;
    int station, time;
    bool there;
} Lift;

/* Hogging that the girder has got since the joints were closed, between two stations. */
static Lift worst_lift(const KitLine *k, double crest_per_m)
{
    const StageModel *model = k->model;
    const int closed = stage_time_named(k->history, "joints closed");
    Lift worst = {.there = false};
    for (int t = k->jacked; t < k->bonded && closed >= 0; t++)
        for (int i = 0; i + 1 < model->station_count; i++) {
            const LinkState *link = &k->history->link[(size_t)t * (size_t)model->station_count];
            if (link[i].state == LINK_BONDED || link[i + 1].state == LINK_BONDED ||
                kit_in_gap(k, i, 1) || kit_girder_part(k, t, i, 1) < 0)
                continue;
            const double turn = theta_rad(k, t, i + 1) - theta_rad(k, closed, i + 1) -
                                theta_rad(k, t, i) + theta_rad(k, closed, i);
            Lift one = {.hog_per_m = -turn / (model->x_m[i + 1] - model->x_m[i]),
                        .force_N = stage_deck_compression_N(k->history, t, i, 1),
                        .station = i,
                        .time = t,
                        .there = true};
            one.push_N_per_m = one.force_N * (one.hog_per_m + crest_per_m);
            if (!worst.there || one.push_N_per_m > worst.push_N_per_m) worst = one;
        }
    return worst;
}

static void add_curvature(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "lift by curvature under the thrust";
    const KitUnits *u = &with->shared->unit;
    const double radius_m = kit_value(with, "deck.crest_radius");
    const double crest_per_m = isnan(radius_m) ? 0 : 1 / radius_m;
    const Lift lift = worst_lift(k, crest_per_m);
    if (!lift.there) return;
    const double weight_N_per_m =
        kit_value(with, "deck.density") * kit_value(with, "deck.thickness") * k->line->width_m;
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "P", lift.force_N, u->force, "compression of the deck there", from_stages);
    sheet_given_from(&s, "k_g", lift.hog_per_m, u->per_length,
                     "hogging of the girder since the joints were closed", from_stages);
    sheet_given_from(&s, "k_p", crest_per_m, u->per_length,
                     "curvature of the profile, 1/R over a crest", "deck.crest_radius");
    sheet_formula(&s, "q_l", "max(P (k_g + k_p), 0)", u->line_load, "lifts the panels",
                  crest_clause);
    sheet_given_from(&s, "w", weight_N_per_m, u->line_load, "weight of the panels on the line",
                     arena_printf(with->arena, "deck.density deck.thickness (%s)", from_width(k)));
    value_give(&s, with, "k_w", "criteria.crest", "", "share that may be lifted");
    sheet_formula(&s, "q_r", "k_w w", u->line_load, "without hold-downs", crest_clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "q_l"), sheet_SI(&s, "q_r"), DIM_LINE_LOAD);
    check_place(row, k->name, kit_x(with, k, lift.station), kit_when(with, k, lift.time),
                crest_clause);
    check_needs(row, with, "deck.crest_radius",
                "a crest lifts the panels; \"none\" if there is none");
}

/* ---- lift at the shims ---- */

static double open_length_m(const KitLine *k, int time)
{
    const StageModel *model = k->model;
    const LinkState *link = &k->history->link[(size_t)time * (size_t)model->station_count];
    double sum = 0;
    for (int i = 0; i < model->station_count; i++) {
        if (link[i].state != LINK_OPEN) continue;
        if (i > 0) sum += (model->x_m[i] - model->x_m[i - 1]) / 2;
        if (i + 1 < model->station_count) sum += (model->x_m[i + 1] - model->x_m[i]) / 2;
    }
    return sum;
}

static void add_open(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "lift of the deck off its shims";
    static const char clause[] =
        "common practice, no source: hundredths of an inch beside anchors and "
        "gap are usual";
    const char *unit = bridge_units(with->bridge) == UNITS_US ? "in" : "mm";
    const int closed = stage_time_named(k->history, "joints closed");
    double most_m = 0, longest_m = 0;
    int at = -1, time = k->jacked;
    for (int t = closed < 0 ? k->jacked : closed; t < k->bonded; t++) {
        longest_m = fmax(longest_m, open_length_m(k, t));
        for (int i = 0; i < k->model->station_count; i++) {
            const LinkState *l =
                &k->history->link[(size_t)t * (size_t)k->model->station_count + (size_t)i];
            if (l->state != LINK_OPEN || l->lift_m <= most_m) continue;
            most_m = l->lift_m;
            at = i;
            time = t;
        }
    }
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "v", most_m, unit, "largest lift", from_stages);
    sheet_given_from(&s, "l_o", longest_m, with->shared->unit.length,
                     "longest part that is lifted, all shims", from_stages);
    sheet_given_from(&s, "l_j", open_length_m(k, k->jacked), with->shared->unit.length,
                     "lifted when jacked", from_stages);
    sheet_given_from(&s, "l_b", open_length_m(k, k->bonded - 1), with->shared->unit.length,
                     "lifted right before the haunches are grouted", from_stages);
    value_give(&s, with, "v_lim", "criteria.lift", unit, "allowed");
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "v"), sheet_SI(&s, "v_lim"), DIM_LENGTH);
    check_place(row, k->name, at < 0 ? "no shim" : kit_x(with, k, at), kit_when(with, k, time),
                clause);
    check_needs(row, with, "shims.vertical", "lift depends on the stiffness of the shims");
}

/* ---- sliding ---- */

static const char slide_clause[] = "law: friction; margin common practice, no source";

static const char slope_clause[] = "law: equilibrium on a slope";

/* A slope of the deck with its key, in the sheet as s; level where it is not said, which makes
 * the row unproven. */
static void give_slope(Sheet *s, const CheckCase *with, const char *path, const char *words)
{
    if (isnan(kit_value(with, path)))
        sheet_given_from(s, "s", 0, "", words, "not said: shown as level");
    else
        value_give(s, with, "s", path, "", words);
}

static void give_friction(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "mu", "shims.friction_least", "", "least friction of the shims");
    value_give(s, with, "g_s", "criteria.sliding", "", "margin");
}

static void needs_friction(CheckRow *row, const CheckCase *with, const char *slope_path)
{
    check_needs(row, with, slope_path, "the panels slide downhill; \"0 %\" if it is level");
    check_needs(row, with, "shims.friction_least", "friction alone holds the panels");
}

static void add_wind(const CheckCase *with, CheckList *list)
{
    static const char name[] = "panels against wind before they are grouted";
    const KitUnits *u = &with->shared->unit;
    Sheet s = sheet_start(name, with->arena);
    value_give(&s, with, "p", "loads.construction_wind", u->stress, "wind on the edge");
    value_give(&s, with, "t", "deck.thickness", u->length, "thickness");
    sheet_given_from(&s, "w",
                     kit_value(with, "deck.density") * kit_value(with, "deck.thickness") *
                         kit_value(with, "deck.width"),
                     u->line_load, "weight of the whole deck",
                     "deck.density deck.thickness deck.width");
    give_slope(&s, with, "deck.crossfall", "slope across the bridge");
    give_friction(&s, with);
    sheet_formula(&s, "H", "g_s (p t + s w)", u->line_load, "sideways, with the margin",
                  slope_clause);
    sheet_formula(&s, "R", "mu w", u->line_load, "friction", slide_clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "H"), sheet_SI(&s, "R"), DIM_LINE_LOAD);
    check_place(row, NULL, "any panel", "panels set", slide_clause);
    needs_friction(row, with, "deck.crossfall");
    check_needs(row, with, "loads.construction_wind", "the wind while building is not given");
}

/* Braking 25 % of the vehicle: AASHTO LRFD 3.6.4 (from memory). */
static void add_braking(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "braking on the deck before its anchors are grouted";
    const KitUnits *u = &with->shared->unit;
    const double vehicle_N = kit_value(with, "loads.construction_vehicle");
    const double length_m = k->model->x_m[k->model->station_count - 1] - k->model->x_m[0] -
                            kit_value(with, "panels.gap");
    const double weight_N = kit_value(with, "deck.density") * kit_value(with, "deck.thickness") *
                            kit_value(with, "deck.width") * length_m / 2;
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "W", weight_N, u->force, "weight of the panels on one side of the gap",
                     "deck.density deck.thickness deck.width, half of the length without the gap");
    give_slope(&s, with, "deck.grade", "slope along the bridge");
    give_friction(&s, with);
    sheet_formula(&s, "R", "mu W", u->force, "friction", slide_clause);
    CheckRow *row;
    if (isnan(vehicle_N)) {
        sheet_formula(&s, "V", "max(R / g_s - s W, 0 R) / (0.25 + s)", u->force,
                      "heaviest vehicle that may brake there", "AASHTO LRFD 3.6.4 (from memory)");
        row = check_tell(list, with, &s,
                         "heaviest vehicle on the deck before its anchors are grouted",
                         sheet_SI(&s, "V"), DIM_FORCE);
        check_place(row, k->name, "one side of the gap", "panels set", slide_clause);
        return;
    }
    value_give(&s, with, "V", "loads.construction_vehicle", u->force, "heaviest vehicle");
    sheet_formula(&s, "H", "g_s (0.25 V + s (W + V))", u->force,
                  "braking downhill, with the margin", "AASHTO LRFD 3.6.4 (from memory)");
    row = check_add(list, with, &s, name, sheet_SI(&s, "H"), sheet_SI(&s, "R"), DIM_FORCE);
    check_place(row, k->name, "one side of the gap", "panels set", slide_clause);
    needs_friction(row, with, "deck.grade");
}

/* Without any vehicle. */
static void add_grade(const CheckCase *with, CheckList *list)
{
    static const char name[] = "panels on the grade before they are grouted";
    const KitUnits *u = &with->shared->unit;
    const double grade_1 = kit_value(with, "deck.grade");
    if (!isnan(grade_1) && grade_1 <= 0) return; /* level: nothing can slide */
    Sheet s = sheet_start(name, with->arena);
    sheet_given_from(&s, "w",
                     kit_value(with, "deck.density") * kit_value(with, "deck.thickness") *
                         kit_value(with, "deck.width"),
                     u->line_load, "weight of the whole deck",
                     "deck.density deck.thickness deck.width");
    give_slope(&s, with, "deck.grade", "slope along the bridge");
    give_friction(&s, with);
    sheet_formula(&s, "H", "g_s s w", u->line_load, "downhill, with the margin", slope_clause);
    sheet_formula(&s, "R", "mu w", u->line_load, "friction", slide_clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "H"), sheet_SI(&s, "R"), DIM_LINE_LOAD);
    check_place(row, NULL, "any panel", "panels set", slide_clause);
    needs_friction(row, with, "deck.grade");
}

static void add_days(const CheckCase *with, CheckList *list)
{
    static const char name[] = "time from jacking to grouted haunches";
    static const char clause[] = "common practice, no source";
    Sheet s = sheet_start(name, with->arena);
    value_give(&s, with, "d_j", "days.jacking", "day", "thrust");
    value_give(&s, with, "d_h", "days.haunch", "day", "haunches grouted and hard");
    sheet_formula(&s, "d", "d_h - d_j", "day", "the deck lies ungrouted under thrust", NULL);
    value_give(&s, with, "d_lim", "criteria.ungrouted", "day", "allowed");
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "d"), sheet_SI(&s, "d_lim"), DIM_TIME);
    check_place(row, NULL, "whole deck", "haunches grouted", clause);
}

Status check_seats(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        add_strip(with, list, k);
        add_curvature(with, list, k);
        add_open(with, list, k);
        if (i == 0 || k->line->start_m > with->shared->line[i - 1].line->start_m)
            add_braking(with, list, k);
    }
    add_wind(with, list);
    add_grade(with, list);
    add_days(with, list);
    return STATUS_OK;
}
