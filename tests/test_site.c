/* Verdicts of the jacking day, each rule by hand. */
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
    assert_true(v.call == SITE_AGAIN); /* the gap says otherwise: read again */
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

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_readings_of_the_plan_go_on),
        cmocka_unit_test(test_wild_reading_asks_again_and_turns_nothing),
        cmocka_unit_test(test_struck_reading_is_not_there),
        cmocka_unit_test(test_other_units_are_named),
        cmocka_unit_test(test_limits),
        cmocka_unit_test(test_slip_stops_whatever_gauge_and_gap_say),
        cmocka_unit_test(test_pressure_beyond_the_jacks_stops_at_once),
        cmocka_unit_test(test_missing_readings_are_asked_for),
        cmocka_unit_test(test_leak_slip_and_sun_in_a_hold),
        cmocka_unit_test(test_a_day_on_the_locks_falls_by_creep),
        cmocka_unit_test(test_json_has_the_verdict),
        cmocka_unit_test(test_logger_of_thousands_of_rows),
    };
    return cmocka_run_group_tests(tests, log_setup, log_teardown);
}
