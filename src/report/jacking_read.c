/* A jacking plan back from its JSON (jacking_json.c): the log of a job keeps the plan it was started with. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "clench/report.h"

/* Where a wanted value is missing the first one is told. */
typedef struct Taker {
    Arena *arena;
    const char *missing;
} Taker;

static const Node *take(Taker *t, const Node *map, const char *key)
{
    const Node *const node = map && map->kind == NODE_MAP ? node_find(map, key) : NULL;
    if (!node && !t->missing) t->missing = key;
    return node;
}

/* null: not a number, as json_number writes it. */
static double number_of(Taker *t, const Node *node, const char *key)
{
    if (!node || node->kind != NODE_TEXT) {
        if (!t->missing) t->missing = key;
        return NAN;
    }
    if (strcmp(node->text, "null") == 0) return NAN;
    char *end;
    const double value = strtod(node->text, &end);
    if ((*end || end == node->text) && !t->missing) t->missing = key;
    return value;
}

static double number(Taker *t, const Node *map, const char *key)
{
    return number_of(t, take(t, map, key), key);
}

static int whole(Taker *t, const Node *map, const char *key)
{
    const double value = number(t, map, key);
    if (value >= -1e6 && value <= 1e6) return (int)value;
    if (!t->missing) t->missing = key;
    return 0;
}

static bool truth(Taker *t, const Node *map, const char *key)
{
    const Node *const node = take(t, map, key);
    return node && node->kind == NODE_TEXT && strcmp(node->text, "true") == 0;
}

static const char *word(Taker *t, const Node *map, const char *key)
{
    const Node *const node = take(t, map, key);
    if (!node || node->kind != NODE_TEXT || (node->plain && strcmp(node->text, "null") == 0))
        return NULL;
    return arena_text(t->arena, node->text);
}

/* Items of a list, at most `most`: more is told as missing. */
static const Node *items(Taker *t, const Node *map, const char *key, int most, int *count)
{
    const Node *const list = take(t, map, key);
    *count = 0;
    if (!list || list->kind != NODE_LIST || list->count > most) {
        if (!t->missing) t->missing = key;
        return NULL;
    }
    *count = list->count;
    return list->first;
}

static void numbers(Taker *t, const Node *map, const char *key, double *value, int most, int *count)
{
    int found;
    const Node *node = items(t, map, key, most, &found);
    for (int i = 0; i < found; i++, node = node->next) value[i] = number_of(t, node, key);
    if (count) *count = found;
}

static JackBand band(Taker *t, const Node *map, const char *key)
{
    const Node *const node = take(t, map, key);
    JackBand b = {.expected_m = number(t, node, "expected_m"),
                  .low_m = number(t, node, "low_m"),
                  .high_m = number(t, node, "high_m")};
    numbers(t, node, "below_m", b.below_m, JACK_BAND_PARTS, NULL);
    numbers(t, node, "above_m", b.above_m, JACK_BAND_PARTS, NULL);
    return b;
}

static void gear_take(Taker *t, const Node *map, JackGear *g)
{
    int places;
    g->size = word(t, map, "size");
    g->proposed = truth(t, map, "proposed");
    g->certificate = word(t, map, "certificate");
    g->certificate_date = word(t, map, "certificate_date");
    g->sets = whole(t, map, "sets");
    g->rated_N = number(t, map, "rated_N");
    g->area_m2 = number(t, map, "area_m2");
    g->stroke_m = number(t, map, "stroke_m");
    g->closed_m = number(t, map, "closed_height_m");
    g->packing_m = number(t, map, "packing_m");
    g->highest_Pa = number(t, map, "highest_pressure_Pa");
    g->zero_N = number(t, map, "calibration_zero_N");
    g->slope_m2 = number(t, map, "calibration_slope_m2");
    g->off_1 = number(t, map, "calibration_off_1");
    g->division_Pa = number(t, map, "gauge_division_Pa");
    g->range_Pa = number(t, map, "gauge_range_Pa");
    g->accuracy_1 = number(t, map, "gauge_accuracy_1");
    g->use_1 = number(t, map, "use_1");
    const Node *place = items(t, map, "places", JACKS_MAX, &places);
    g->count = places;
    for (int i = 0; i < places; i++, place = place->next) {
        g->across_m[i] = number(t, place, "across_m");
        g->set[i] = whole(t, place, "set");
        if ((g->set[i] < 1 || g->set[i] > g->sets) && !t->missing) t->missing = "set";
    }
    if ((g->sets < 1 || g->sets > JACK_SETS) && !t->missing) t->missing = "sets";
}

static void steps_take(Taker *t, const Node *map, JackPlan *plan)
{
    const Node *node = items(t, map, "steps", JACK_STEPS, &plan->step_count);
    for (int i = 0; i < plan->step_count; i++, node = node->next) {
        JackStep *const s = &plan->step[i];
        s->stage = whole(t, node, "stage");
        s->stage_end = truth(t, node, "stage_end");
        s->last = i == plan->step_count - 1;
        s->share_1 = number(t, node, "share_1");
        s->force_N = number(t, node, "force_N");
        s->jack_N = number(t, node, "jack_N");
        s->pressure_Pa = number(t, node, "pressure_Pa");
        s->gauge_error_N = number(t, node, "force_error_N");
        s->pump_day = number(t, node, "pump_day");
        s->reached_day = number(t, node, "reached_day");
        s->hold_day = number(t, node, "hold_day");
        s->opening = band(t, node, "opening");
        s->left_m = number(t, node, "left_m");
        s->right_m = number(t, node, "right_m");
        s->slope_m_per_N = number(t, node, "slope_m_per_N");
        s->division_N = number(t, node, "division_N");
        s->division_m = number(t, node, "division_m");
        s->drop_N = number(t, node, "drop_in_hold_N");
        s->drop_quick_N = number(t, node, "drop_in_hold_quick_N");
        numbers(t, node, "anchor_N", s->anchor_N, 2, NULL);
        numbers(t, node, "anchor_slip_m", s->anchor_slip_m, 2, NULL);
        s->energy_Nm = number(t, node, "energy_Nm");
    }
    node = items(t, map, "loading", JACK_POINTS, &plan->point_count);
    for (int i = 0; i < plan->point_count; i++, node = node->next)
        plan->point[i] = (JackPoint){number(t, node, "force_N"), band(t, node, "opening"),
                                     number(t, node, "left_m"), number(t, node, "right_m")};
    if ((plan->step_count < 1 || plan->point_count < 2) && !t->missing) t->missing = "loading";
}

static void returns_take(Taker *t, const Node *map, JackPlan *plan)
{
    const Node *node = items(t, map, "ways_back", JACK_RETURNS, &plan->return_count);
    for (int i = 0; i < plan->return_count; i++, node = node->next) {
        JackReturn *const back = &plan->back[i];
        const int most = JACK_STEPS + 1;
        back->from_step = whole(t, node, "from_step") - 1;
        numbers(t, node, "share_1", back->share_1, most, &back->count);
        numbers(t, node, "force_N", back->force_N, most, NULL);
        numbers(t, node, "pressure_Pa", back->pressure_Pa, most, NULL);
        numbers(t, node, "opening_m", back->opening_m, most, NULL);
        numbers(t, node, "friction_N", back->loop_N, most, NULL);
        back->again_1 = number(t, node, "again_from_share_1");
        back->again_m = number(t, node, "again_opening_m");
    }
}

static void after_take(Taker *t, const Node *map, JackPlan *plan)
{
    const Node *node = items(t, map, "hold", JACK_HOLDS, &plan->hold_count);
    for (int i = 0; i < plan->hold_count; i++, node = node->next)
        plan->hold[i] = (JackHold){number(t, node, "after_day"), number(t, node, "force_N"),
                                   number(t, node, "force_quick_N")};
    node = take(t, map, "temperature");
    plan->warmth = (JackWarmth){.window_K = number(t, node, "window_K"),
                                .rate_K = number(t, node, "rate_K_per_hour"),
                                .swing_K = number(t, node, "swing_K"),
                                .locked_warm_N = number(t, node, "locked_warm_N"),
                                .locked_cold_N = number(t, node, "locked_cold_N"),
                                .later_warm_N = number(t, node, "later_if_locked_warm_N"),
                                .later_cold_N = number(t, node, "later_if_locked_cold_N"),
                                .move_warm_m = number(t, node, "opening_warm_m"),
                                .move_cold_m = number(t, node, "opening_cold_m")};
}

static void outs_take(Taker *t, const Node *map, JackPlan *plan)
{
    const Node *node = items(t, map, "shut_off", 2 * JACKS_MAX, &plan->out_count);
    plan->out = ARENA_NEW(t->arena, JackOut, plan->out_count + 1);
    for (int i = 0; i < plan->out_count; i++, node = node->next) {
        const double with = number(t, node, "with");
        plan->out[i] = (JackOut){.jack = whole(t, node, "jack") - 1,
                                 .partner = isnan(with) ? -1 : whole(t, node, "with") - 1,
                                 .jack_N = number(t, node, "jack_N"),
                                 .pressure_Pa = number(t, node, "pressure_Pa"),
                                 .off_m = number(t, node, "off_middle_m"),
                                 .edge_least_Pa = number(t, node, "edge_least_Pa"),
                                 .edge_most_Pa = number(t, node, "edge_most_Pa"),
                                 .tilt_m = number(t, node, "tilt_m"),
                                 .may = truth(t, node, "may")};
    }
}

static void watch_take(Taker *t, const Node *map, JackPlan *plan)
{
    const Node *node = items(t, map, "watched", JACK_WATCHED, &plan->watch_count);
    for (int i = 0; i < plan->watch_count; i++, node = node->next) {
        const char *const what = word(t, node, "what");
        plan->watch[i].bearing = what && strcmp(what, "bearing") == 0;
        plan->watch[i].number = whole(t, node, "number");
        plan->watch[i].x_m = number(t, node, "x_m");
        numbers(t, node, "move_m", plan->watch[i].move_m, JACK_STEPS, NULL);
    }
    node = items(t, map, "lines", JACK_LINES, &plan->line_count);
    for (int i = 0; i < plan->line_count; i++, node = node->next) {
        plan->line[i].name = word(t, node, "name");
        plan->line[i].girders = whole(t, node, "girders");
        plan->line[i].thrust_N = number(t, node, "thrust_N");
        numbers(t, node, "opening_m", plan->line[i].opening_m, JACK_STEPS, NULL);
    }
}

static void alarms_take(Taker *t, const Node *map, JackAlarms *alarm)
{
    *alarm = (JackAlarms){.movement_1 = number(t, map, "movement_1"),
                          .sides_m = number(t, map, "sides_m"),
                          .force_1 = number(t, map, "force_1"),
                          .drop_1 = number(t, map, "drop_in_15_minutes_1"),
                          .slip_m = number(t, map, "anchor_slip_m"),
                          .abort_slip_m = number(t, map, "abort_slip_m"),
                          .camber_m = number(t, map, "camber_m"),
                          .bearing_1 = number(t, map, "bearing_1"),
                          .exclusion_m = number(t, map, "exclusion_m")};
}

Status report_jacking_plan_read(const Node *map, Arena *arena, JackPlan *plan, Error *err)
{
    Taker taker = {.arena = arena}, *const t = &taker;
    *plan = (JackPlan){.unit = word(t, map, "unit"),
                       .thrust_N = number(t, map, "thrust_N"),
                       .highest_1 = number(t, map, "highest_share_1"),
                       .width_m = number(t, map, "deck_width_m"),
                       .thickness_m = number(t, map, "deck_thickness_m"),
                       .gap_m = number(t, map, "gap_m"),
                       .seating_least_m = number(t, map, "seating_least_m"),
                       .seating_most_m = number(t, map, "seating_most_m"),
                       .seated_N = number(t, map, "seated_N"),
                       .friction_least_1 = number(t, map, "friction_least_1"),
                       .friction_most_1 = number(t, map, "friction_most_1"),
                       .off_m = number(t, map, "resultant_off_m"),
                       .tilt_m = number(t, map, "tilt_m"),
                       .height_off_m = number(t, map, "height_off_m"),
                       .height_Pa = number(t, map, "height_off_Pa"),
                       .energy_Nm = number(t, map, "energy_Nm"),
                       .work_day = number(t, map, "work_day"),
                       .stroke_need_m = number(t, map, "stroke_needed_m"),
                       .gap_need_m = number(t, map, "gap_needed_m")};
    gear_take(t, take(t, map, "jacks"), &plan->gear);
    steps_take(t, map, plan);
    returns_take(t, map, plan);
    after_take(t, map, plan);
    outs_take(t, map, plan);
    watch_take(t, map, plan);
    alarms_take(t, take(t, map, "alarms"), &plan->alarm);
    if (taker.missing)
        return error_set(err, STATUS_BAD_INPUT, "the plan does not read: '%.60s'", taker.missing);
    return STATUS_OK;
}
