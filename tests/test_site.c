/* Verdicts of the jacking day, each rule by hand. */
#include <math.h>
#include <string.h>

#include "site_log.h"

static void test_readings_of_the_plan_go_on(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1}, all = {.slope_1 = 1};
    log_climb(&all, site_shared.day.plan->step_count);
    for (int i = 0; i < all.count; i++) {
        log.r[log.count++] = all.r[i];
        const SiteVerdict v = log_judged(&log);
        if (v.call != SITE_GO) print_error("%d: %s\n", i, v.reason);
        assert_int_equal(v.call, SITE_GO);
        assert_int_equal(v.guess_count, 0);
        if (i == 0) continue;
        check_near(v.opening_m, v.expected_m, 1e-9, 1e-9, log_by_plan);
    }
    const SiteVerdict v = log_judged(&log);
    check_near(v.force_N, site_shared.day.plan->thrust_N, 1e-9, 0, log_by_plan);
    check_near(v.slope_1, 1, 1e-9, 0, log_by_plan);
    assert_true(v.sure_1 > 0.999);
}

static void test_wild_reading_asks_again_and_turns_nothing(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 5);
    const SiteReading good = log.r[log.count - 1];
    log_gap(&log.r[log.count - 1], 0.009 + good.move_m[0] - 0.0123);
    SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    log.r[log.count++] = good; /* read again */
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_GO);
    check_near(v.slope_1, 1, 1e-6, 0, "law: one of many does not turn the median of slopes");
    log.count--;
    log.r[log.count] = log.r[log.count - 1]; /* read again, and so again: it stands */
    log.r[log.count++].time_day += 1e-4;
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD);
    assert_non_null(log_found(&v, SITE_BENT_STEEP));
}

static void test_struck_reading_is_not_there(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1.02}, with;
    log_climb(&log, 4);
    with = log;
    log_force(&with.r[with.count - 1], 9e9);
    with.r[with.count - 1].struck = true;
    with.r[with.count++] = log.r[log.count - 1];
    const SiteVerdict a = log_judged(&log), b = log_judged(&with);
    assert_int_equal(a.call, b.call);
    assert_string_equal(a.reason, b.reason);
    assert_true(a.slope_1 == b.slope_1);
}

static void test_other_units_are_named(void **state)
{
    (void)state;
    static const struct {
        double gauge_1, gap_1;
        const char *words;
    } c[] = {{6.894757, 1, "changed over"},
             {1 / 6.894757, 1, "psi and kPa"},
             {1, 25.4, "inches and millimetres"},
             {1, 1 / 25.4, "inches and millimetres"},
             {10, 1, "digit"}};
    for (size_t i = 0; i < sizeof c / sizeof *c; i++) {
        Log log = {.slope_1 = 1};
        log_climb(&log, 6);
        SiteReading *r = &log.r[log.count - 1];
        for (int k = 0; k < JACK_SETS; k++) r->pressure_Pa[k] *= c[i].gauge_1;
        log_gap(r, (r->move_m[0] - 0.0123) * c[i].gap_1);
        const SiteVerdict v = log_judged(&log);
        assert_int_equal(v.call, SITE_AGAIN);
        assert_non_null(log_found(&v, SITE_IMPOSSIBLE));
        assert_int_equal(v.guess[0].cause, SITE_MISREAD);
        if (!strstr(v.reason, c[i].words)) fail_msg("%s", v.reason);
    }
}

/* Nothing on the gauge and the gap wide open is no unit, and no division. */
static void test_gauge_of_nothing_is_mistyped(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 6);
    for (int k = 0; k < JACK_SETS; k++) log.r[log.count - 1].pressure_Pa[k] = 0;
    const SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    assert_non_null(strstr(v.reason, "mistyped"));
}

/* Twice what one rule forbids; the call and the cause. */
static void test_limits(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    for (int rule = 0; rule < 6; rule++) {
        static const SiteKind kind[] = {SITE_SLIPPED, SITE_SLIPPED, SITE_CELL,
                                        SITE_SIDES,   SITE_WARM,    SITE_SETS};
        static const SiteCall call[] = {SITE_HOLD, SITE_STOP, SITE_HOLD,
                                        SITE_HOLD, SITE_HOLD, SITE_HOLD};
        Log log = {.slope_1 = 1};
        log_climb(&log, 4);
        SiteReading *r = &log.r[log.count - 1];
        const double give_m = plan->step[3].anchor_slip_m[0];
        if (rule == 0) r->move_m[4] = give_m + 1.3 * plan->alarm.slip_m;
        if (rule == 1) r->move_m[4] = give_m + 1.2 * plan->alarm.abort_slip_m;
        if (rule == 2) r->cell_N = plan->step[3].force_N * (1 + 1.6 * plan->alarm.force_1);
        for (int p = 0; rule == 3 && p < 4; p++)
            r->move_m[p] +=
                2 * plan->alarm.sides_m * site_shared.day.point[p].across_m / plan->width_m;
        if (rule == 4) r->deck_K += plan->warmth.window_K;
        if (rule == 5) r->pressure_Pa[0] *= 1.04, r->pressure_Pa[1] *= 0.96;
        assert_int_equal(log_judged(&log).call, SITE_AGAIN);
        log.r[log.count] = *r;
        log.count++;
        const SiteVerdict v = log_judged(&log);
        if (!log_found(&v, kind[rule])) fail_msg("rule %d: %s", rule, v.reason);
        assert_int_equal(v.call, call[rule]);
        if (rule == 2) assert_true(log_may_be(&v, SITE_GAUGE_LOW) || v.guess_count == 0);
        if (rule == 3) assert_true(log_may_be(&v, SITE_ECCENTRIC));
        if (rule == 0) assert_true(log_may_be(&v, SITE_ANCHOR_SLIP));
    }
}

/* A dial of an anchor that shows it going is heard though gauge and gap cannot be, or were not read. */
static void test_slip_stops_whatever_gauge_and_gap_say(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    for (int other = 0; other < 4; other++) {
        Log log = {.slope_1 = 1};
        log_climb(&log, 4);
        SiteReading *r = &log.r[log.count - 1];
        if (other == 0) log_gap(r, 2 * plan->step[3].opening.expected_m + 0.02);
        if (other == 1) r->pressure_Pa[0] = NAN;
        if (other == 2) r->pressure_Pa[0] *= 100;
        if (other == 3) r->deck_K += 100;
        assert_int_equal(log_judged(&log).call, SITE_AGAIN);
        log.r[log.count++] = *r;
        SiteVerdict v = log_judged(&log);
        assert_true(v.call != SITE_STOP && !log_found(&v, SITE_SLIPPED));
        for (int i = log.count - 2; i < log.count; i++)
            log.r[i].move_m[4] = plan->step[3].anchor_slip_m[0] + 1.2 * plan->alarm.abort_slip_m;
        v = log_judged(&log);
        if (v.call != SITE_STOP) fail_msg("%d: %s", other, v.reason);
        assert_non_null(log_found(&v, SITE_SLIPPED));
        assert_non_null(log_found(&v, other == 1 ? SITE_MISSING : SITE_IMPOSSIBLE));
    }
}

static void test_pressure_beyond_the_jacks_stops_at_once(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 7);
    log_force(&log.r[log.count - 1], 1.03 * site_shared.day.plan->gear.highest_Pa *
                                         site_shared.day.plan->gear.slope_m2 *
                                         site_shared.day.plan->gear.count);
    SiteReading *r = &log.r[log.count - 1];
    for (int k = 0; k < JACK_SETS; k++)
        r->pressure_Pa[k] = fmin(r->pressure_Pa[k], 0.999 * site_shared.day.plan->gear.range_Pa);
    SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_STOP); /* the gap says otherwise: at once all the same */
    assert_non_null(log_found(&v, SITE_IMPOSSIBLE));
    assert_non_null(log_found(&v, SITE_PRESSURE));
    log_gap(r, jacking_expect(site_shared.day.plan, r->pressure_Pa[0] *
                                                        site_shared.day.plan->gear.slope_m2 *
                                                        site_shared.day.plan->gear.count)
                   .opening.expected_m);
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_STOP);
    assert_non_null(log_found(&v, SITE_PRESSURE));
}

static void test_missing_readings_are_asked_for(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    log_add(&log, 1, SITE_PUMP, 1e6);
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD); /* no zero reading */
    log.count = 0;
    log_climb(&log, 2);
    log.r[log.count - 1].pressure_Pa[1] = NAN;
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    assert_non_null(log_found(&v, SITE_MISSING));
}

/* ---- holds ---- */
static void test_leak_slip_and_sun_in_a_hold(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 4);
    const int start = log.count;
    log_hold(&log, 4, 7, 0.06, 0.002, 0);
    SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD);
    assert_int_equal(v.guess[0].cause, SITE_LEAK);
    check_near(v.fall_N, 0.06 * site_shared.day.plan->step[3].force_N, 1e-6, 0,
               "closed form: as it was put in");
    log.count = start;
    log_hold(&log, 4, 7, 0.06, -0.002, 0);
    for (int i = start; i < log.count; i++) log.r[i].move_m[4] = log.r[i].move_m[5] = NAN;
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_STOP); /* the gap opens further: something gives */
    assert_true(log_may_be(&v, SITE_ANCHOR_SLIP) && !log_may_be(&v, SITE_LEAK));
    log.count = start;
    log_hold(&log, 4, 7, 0, 0, 2.1); /* sun: the force rises by what the plan says */
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_GO);
    check_near(v.fall_N, 0, 0, 1e-4 * site_shared.day.plan->thrust_N,
               "closed form: all of it is temperature");
    log.count = start;
    log_hold(&log, 4, 7, 0.06, 0, 0);
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD); /* the gap stays: leak past the lock nuts, or slip */
    assert_true(log_may_be(&v, SITE_ANCHOR_SLIP) || log_may_be(&v, SITE_LEAK));
}

/* A day on the locks: what creep takes is the plan's long hold, and goes on. */
static void test_a_day_on_the_locks_falls_by_creep(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    Log log = {.slope_1 = 1};
    log_climb(&log, plan->step_count);
    for (int i = 0; i < plan->hold_count; i++) {
        SiteReading *r = log_add(&log, plan->step_count, SITE_HELD, plan->thrust_N);
        r->time_day = 0.1 + plan->hold[i].after_day;
        log_force(r, (plan->hold[i].force_N + plan->hold[i].quick_N) / 2);
        assert_int_equal(log_judged(&log).call, SITE_GO);
    }
    const SiteVerdict v = log_judged(&log);
    const JackHold *last = &plan->hold[plan->hold_count - 1];
    check_near(v.fall_most_N, plan->thrust_N - last->quick_N, 0.1, 0,
               "closed form: the plan's long hold");
}

static void test_json_has_the_verdict(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1.3};
    log_climb(&log, 6);
    const SiteVerdict v = log_judged(&log);
    Text text = text_start(site_shared.scratch);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    site_verdict_json(&v, &json);
    json_close_map(&json);
    assert_int_equal(v.call, SITE_HOLD);
    assert_non_null(strstr(text.bytes, "\"call\": \"hold\""));
    assert_non_null(strstr(text.bytes, "\"causes\": ["));
}

/* Many readings: cost is bounded, the verdict stands. */
static void test_logger_of_thousands_of_rows(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    enum { ROWS = 5000 };
    SiteReading *r = ARENA_NEW(site_shared.scratch, SiteReading, ROWS);
    Log log = {.slope_1 = 1};
    for (int i = 0; i < ROWS; i++) {
        log.count = 0;
        r[i] = *log_add(&log, i == 0 ? 0 : plan->step_count, SITE_PUMP, plan->thrust_N * i / ROWS);
        r[i].time_day = i / 86400.0;
    }
    SiteVerdict v;
    site_judge(&site_shared.day, r, ROWS, site_shared.scratch, &v);
    if (v.call != SITE_GO) print_error("%s\n", v.reason);
    assert_int_equal(v.call, SITE_GO);
    check_near(v.slope_1, 1, 1e-3, 0, log_by_plan);
}

/* ---- nuts, dials, girders, degrees ---- */

/* The dial of an anchor that was mounted the other way round alarms all the same. */
static void test_slip_dial_the_other_way_round(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    Log log = {.slope_1 = 1};
    log_climb(&log, 4);
    SiteReading *r = &log.r[log.count - 1];
    r->move_m[5] = -plan->step[3].anchor_slip_m[1] - 1.2 * plan->alarm.abort_slip_m;
    assert_int_equal(log_judged(&log).call, SITE_AGAIN);
    log.r[log.count++] = *r;
    const SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_STOP);
    assert_non_null(log_found(&v, SITE_SLIPPED));
    assert_non_null(strstr(v.reason, "other way round"));
}

/* Up, held, and on the nuts: the pressure is nothing, the gap `closes_m` less than in the hold. */
static void on_nuts(Log *log, int readings, double closes_m)
{
    const JackPlan *plan = site_shared.day.plan;
    for (int i = 0; i < readings; i++) {
        SiteReading *r = log_add(log, plan->step_count, SITE_NUTS, plan->thrust_N);
        for (int p = 0; p < 4; p++) r->move_m[p] -= closes_m;
        for (int k = 0; k < JACK_SETS; k++) r->pressure_Pa[k] = i % 2 ? (double)NAN : 0;
    }
}

static void test_on_the_nuts_the_gap_tells(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    Log log = {.slope_1 = 1};
    log_climb(&log, plan->step_count);
    log_hold(&log, plan->step_count, 4, 0, 0, 0);
    const int start = log.count;
    on_nuts(&log, 5, 0.0003);
    SiteVerdict v = log_judged(&log);
    if (v.call != SITE_GO) fail_msg("%s", v.reason);
    assert_true(isnan(v.force_N)); /* no gauge tells it */
    on_nuts(&log, 2, 0.0035);
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD);
    assert_non_null(log_found(&v, SITE_FALL));
    assert_true(log_may_be(&v, SITE_NUTS_GIVE) && !log_may_be(&v, SITE_LEAK));
    log.count -= 2;
    on_nuts(&log, 2, -0.0035);
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_STOP); /* opens further: something gives */
    assert_non_null(log_found(&v, SITE_LATER));
    log.count = start;
    on_nuts(&log, 2, 0.2 * plan->step[plan->step_count - 1].opening.expected_m);
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD); /* lost in going over */
    assert_non_null(strstr(v.reason, "onto the nuts"));
}

static void test_dial_that_was_moved_is_taken_in_anew(void **state)
{
    (void)state;
    Log all = {.slope_1 = 1.03}, log = {.slope_1 = 1.03};
    const double bump_m = 0.0091;
    log_climb(&all, site_shared.day.plan->step_count);
    for (int i = 0; i < 18; i++) log.r[log.count++] = all.r[i];
    for (int again = 0; again < 2; again++) {
        log.r[log.count] = all.r[18];
        log.r[log.count++].move_m[2] += bump_m;
    }
    SiteVerdict v = log_judged(&log);
    assert_int_equal(v.call, SITE_HOLD);
    assert_non_null(log_found(&v, SITE_DIAL));
    assert_non_null(strstr(v.reason, "phase reset"));
    log.r[log.count] = log.r[log.count - 1];
    log.r[log.count++].phase = SITE_RESET;
    v = log_judged(&log);
    if (v.call != SITE_GO) fail_msg("%s", v.reason);
    assert_non_null(strstr(v.reason, "dial 3 by"));
    for (int i = 19; i < all.count; i++) {
        log.r[log.count] = all.r[i];
        log.r[log.count++].move_m[2] += bump_m;
        v = log_judged(&log);
        if (v.call != SITE_GO) fail_msg("%d: %s", i, v.reason);
    }
    const SiteVerdict same = log_judged(&all);
    check_near(v.opening_m, same.opening_m, 1e-9, 1e-9, "law: a dial's origin says nothing");
    check_near(v.slope_1, same.slope_1, 1e-6, 0, "law: a dial's origin says nothing");
}

/* All dials set anew after seating, pump still; and not so: refused. */
static void test_all_dials_set_anew_after_seating(void **state)
{
    (void)state;
    Log all = {.slope_1 = 1.03}, log = {.slope_1 = 1.03};
    log_climb(&all, site_shared.day.plan->step_count);
    for (int i = 0; i < all.count; i++) {
        log.r[log.count++] = all.r[i];
        for (int p = 0; p < 6 && i > 4; p++) log.r[log.count - 1].move_m[p] -= all.r[4].move_m[p];
        if (i != 4) continue;
        log.r[log.count] = all.r[4];
        log.r[log.count].phase = SITE_RESET;
        for (int p = 0; p < 6; p++) log.r[log.count].move_m[p] = 0;
        log.count++;
    }
    SiteVerdict v = log_judged(&log);
    if (v.call != SITE_GO) fail_msg("%s", v.reason);
    check_near(v.opening_m, log_judged(&all).opening_m, 1e-9, 1e-9,
               "law: a dial's origin says nothing");
    log.count = 0;
    for (int i = 0; i < 7; i++) log.r[log.count++] = all.r[i];
    log.r[6].phase = SITE_RESET;
    for (int p = 0; p < 4; p++) log.r[6].move_m[p] -= 0.01;
    v = log_judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    assert_non_null(log_found(&v, SITE_IMPOSSIBLE));
}

/* Girders and bearings stand in a hold, and on the nuts. */
static void test_rise_and_bearing_are_judged_in_a_hold(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    for (int bearing = 0; bearing < 2; bearing++) {
        SiteDay day = site_shared.day;
        int watch = -1;
        for (int i = 0; i < plan->watch_count; i++)
            if (plan->watch[i].bearing == bearing &&
                (watch < 0 || fabs(plan->watch[i].move_m[3]) > fabs(plan->watch[watch].move_m[3])))
                watch = i;
        day.point[day.point_count++] = (SitePoint){
            .kind = bearing ? SITE_BEARING : SITE_RISE, .watch = watch, .division_m = 1e-4};
        for (int off = 0; off < 2; off++) {
            const double move_m = plan->watch[watch].move_m[3];
            const double off_m = bearing ? 1.3 * plan->alarm.bearing_1 * fabs(move_m) + 3e-4
                                         : 1.1 * plan->alarm.camber_m;
            Log log = {.slope_1 = 1};
            SiteVerdict v;
            log_climb(&log, 4);
            log_hold(&log, 4, 5, 0, 0, 0);
            for (int i = 1; i < log.count; i++)
                log.r[i].move_m[6] = plan->watch[watch].move_m[log.r[i].step - 1] *
                                     jack_force_N(&plan->gear, log.r[i].pressure_Pa[0]) *
                                     plan->gear.count / plan->step[log.r[i].step - 1].force_N;
            log.r[0].move_m[6] = 0;
            for (int i = log.count - 2; off && i < log.count; i++) log.r[i].move_m[6] += off_m;
            site_judge(&day, log.r, log.count, site_shared.scratch, &v);
            assert_int_equal(v.call, off ? SITE_STOP : SITE_GO);
            assert_true(!off || log_found(&v, SITE_OFFPLAN));
        }
    }
}

/* A deck that warms at twice the rate is held long before the window is passed, at half of it never. */
static void test_rate_of_warming(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    for (int fast = 0; fast < 2; fast++) {
        const double rate_K = plan->warmth.rate_K * (fast ? 2 : 0.5);
        Log log = {.slope_1 = 1};
        bool held = false;
        log_climb(&log, 4);
        for (int i = 0; i < 24 && !held; i++) {
            log_hold(&log, 4, 2, 0, 0, 0);
            for (int k = log.count - 2; k < log.count; k++)
                log.r[k].deck_K += (log.r[k].time_day - log.r[16].time_day) * 24 * rate_K;
            const SiteVerdict v = log_judged(&log);
            held = v.call == SITE_HOLD && log_found(&v, SITE_WARMING);
            if (v.call != SITE_GO && !log_found(&v, SITE_WARMING)) fail_msg("%s", v.reason);
            assert_true(!held || fabs(v.warm_K) < plan->warmth.window_K);
        }
        assert_int_equal(held, fast);
    }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_readings_of_the_plan_go_on),
        cmocka_unit_test(test_wild_reading_asks_again_and_turns_nothing),
        cmocka_unit_test(test_struck_reading_is_not_there),
        cmocka_unit_test(test_other_units_are_named),
        cmocka_unit_test(test_gauge_of_nothing_is_mistyped),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_slip_stops_whatever_gauge_and_gap_say),
        cmocka_unit_test(test_pressure_beyond_the_jacks_stops_at_once),
        cmocka_unit_test(test_missing_readings_are_asked_for),
        cmocka_unit_test(test_leak_slip_and_sun_in_a_hold),
        cmocka_unit_test(test_a_day_on_the_locks_falls_by_creep),
        cmocka_unit_test(test_slip_dial_the_other_way_round),
        cmocka_unit_test(test_on_the_nuts_the_gap_tells),
        cmocka_unit_test(test_dial_that_was_moved_is_taken_in_anew),
        cmocka_unit_test(test_all_dials_set_anew_after_seating),
        cmocka_unit_test(test_rise_and_bearing_are_judged_in_a_hold),
        cmocka_unit_test(test_rate_of_warming),
        cmocka_unit_test(test_json_has_the_verdict),
        cmocka_unit_test(test_logger_of_thousands_of_rows),
    };
    return cmocka_run_group_tests(tests, log_setup, log_teardown);
}
