/* Verdicts of the jacking day and the fit of what was built, each rule by hand. */
#include <string.h>

#include "clench/numeric.h"
#include "data/robust_oracle.h"
#include "site_case.h"

static SiteCase shared;

static int setup(void **state)
{
    (void)state;
    site_case_open(&shared);
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    site_case_close(&shared);
    return 0;
}

/* ---- a log by hand: readings as the plan has them, without noise ---- */

typedef struct Log {
    SiteReading r[200];
    int count;
    double slope_1, minute;
} Log;

static const char by_plan[] = "closed form: the plan's own line";

static void set_force(SiteReading *r, double force_N)
{
    const JackGear *gear = &shared.day.plan->gear;
    for (int k = 0; k < JACK_SETS; k++)
        r->pressure_Pa[k] = jack_pressure_Pa(gear, force_N / gear->count);
}

static void set_gap(SiteReading *r, double open_m)
{
    for (int p = 0; p < 4; p++) r->move_m[p] = 0.0123 * (p + 1) + open_m; /* dials start anywhere */
}

static SiteReading *add(Log *log, int step, SitePhase phase, double force_N)
{
    SiteReading *r = &log->r[log->count++];
    const double open_m = jacking_expect(shared.day.plan, force_N).opening.expected_m;
    *r = (SiteReading){.time_day = (log->minute += 1) / 1440,
                       .step = step,
                       .phase = phase,
                       .deck_K = 287.6,
                       .girder_K = 287.1,
                       .cell_N = NAN};
    for (int p = 0; p < SITE_POINTS; p++) r->move_m[p] = NAN;
    set_force(r, force_N);
    set_gap(r, step == 0 ? 0 : log->slope_1 * open_m);
    r->move_m[4] = r->move_m[5] = 0;
    return r;
}

/* Up to the end of a step: four readings each. */
static void climb(Log *log, int to_step)
{
    const JackPlan *plan = shared.day.plan;
    add(log, 0, SITE_PUMP, 0);
    for (int i = 0; i < to_step; i++) {
        const double from_N = i ? plan->step[i - 1].force_N : 0;
        for (int k = 1; k <= 4; k++)
            add(log, i + 1, SITE_PUMP, from_N + (plan->step[i].force_N - from_N) * k / 4);
    }
}

static SiteVerdict judged(const Log *log)
{
    SiteVerdict v;
    site_judge(&shared.day, log->r, log->count, shared.scratch, &v);
    return v;
}

static const SiteFinding *found(const SiteVerdict *v, SiteKind kind)
{
    for (int i = 0; i < v->finding_count; i++)
        if (v->finding[i].kind == kind) return &v->finding[i];
    return NULL;
}

static bool may_be(const SiteVerdict *v, SiteCause cause)
{
    for (int i = 0; i < v->guess_count; i++)
        if (v->guess[i].cause == cause) return true;
    return false;
}

static void test_readings_of_the_plan_go_on(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1}, all = {.slope_1 = 1};
    climb(&all, shared.day.plan->step_count);
    for (int i = 0; i < all.count; i++) {
        log.r[log.count++] = all.r[i];
        const SiteVerdict v = judged(&log);
        if (v.call != SITE_GO) print_error("%d: %s\n", i, v.reason);
        assert_int_equal(v.call, SITE_GO);
        assert_int_equal(v.guess_count, 0);
        if (i == 0) continue;
        check_near(v.opening_m, v.expected_m, 1e-9, 1e-9, by_plan);
    }
    const SiteVerdict v = judged(&log);
    check_near(v.force_N, shared.day.plan->thrust_N, 1e-9, 0, by_plan);
    check_near(v.slope_1, 1, 1e-9, 0, by_plan);
    assert_true(v.sure_1 > 0.999);
}

static void test_wild_reading_asks_again_and_turns_nothing(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    climb(&log, 5);
    const SiteReading good = log.r[log.count - 1];
    set_gap(&log.r[log.count - 1], 0.009 + good.move_m[0] - 0.0123);
    SiteVerdict v = judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    log.r[log.count++] = good; /* read again */
    v = judged(&log);
    assert_int_equal(v.call, SITE_GO);
    check_near(v.slope_1, 1, 1e-6, 0, "law: one of many does not turn the median of slopes");
    log.count--;
    log.r[log.count] = log.r[log.count - 1]; /* read again, and so again: it stands */
    log.r[log.count++].time_day += 1e-4;
    v = judged(&log);
    assert_int_equal(v.call, SITE_HOLD);
    assert_non_null(found(&v, SITE_BENT_STEEP));
}

static void test_struck_reading_is_not_there(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1.02}, with;
    climb(&log, 4);
    with = log;
    set_force(&with.r[with.count - 1], 9e9);
    with.r[with.count - 1].struck = true;
    with.r[with.count++] = log.r[log.count - 1];
    const SiteVerdict a = judged(&log), b = judged(&with);
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
        climb(&log, 6);
        SiteReading *r = &log.r[log.count - 1];
        for (int k = 0; k < JACK_SETS; k++) r->pressure_Pa[k] *= c[i].gauge_1;
        set_gap(r, (r->move_m[0] - 0.0123) * c[i].gap_1);
        const SiteVerdict v = judged(&log);
        assert_int_equal(v.call, SITE_AGAIN);
        assert_non_null(found(&v, SITE_IMPOSSIBLE));
        assert_int_equal(v.guess[0].cause, SITE_MISREAD);
        if (!strstr(v.reason, c[i].words)) fail_msg("%s", v.reason);
    }
}

/* Twice what one rule forbids; the call and the cause. */
static void test_limits(void **state)
{
    (void)state;
    const JackPlan *plan = shared.day.plan;
    for (int rule = 0; rule < 6; rule++) {
        static const SiteKind kind[] = {SITE_SLIPPED, SITE_SLIPPED, SITE_CELL,
                                        SITE_SIDES,   SITE_WARM,    SITE_SETS};
        static const SiteCall call[] = {SITE_HOLD, SITE_STOP, SITE_HOLD,
                                        SITE_HOLD, SITE_HOLD, SITE_HOLD};
        Log log = {.slope_1 = 1};
        climb(&log, 4);
        SiteReading *r = &log.r[log.count - 1];
        const double give_m = plan->step[3].anchor_slip_m[0];
        if (rule == 0) r->move_m[4] = give_m + 1.3 * plan->alarm.slip_m;
        if (rule == 1) r->move_m[4] = give_m + 1.2 * plan->alarm.abort_slip_m;
        if (rule == 2) r->cell_N = plan->step[3].force_N * (1 + 1.6 * plan->alarm.force_1);
        for (int p = 0; rule == 3 && p < 4; p++)
            r->move_m[p] += 2 * plan->alarm.sides_m * shared.day.point[p].across_m / plan->width_m;
        if (rule == 4) r->deck_K += plan->warmth.window_K;
        if (rule == 5) r->pressure_Pa[0] *= 1.04, r->pressure_Pa[1] *= 0.96;
        assert_int_equal(judged(&log).call, SITE_AGAIN);
        log.r[log.count] = *r;
        log.count++;
        const SiteVerdict v = judged(&log);
        if (!found(&v, kind[rule])) fail_msg("rule %d: %s", rule, v.reason);
        assert_int_equal(v.call, call[rule]);
        if (rule == 2) assert_true(may_be(&v, SITE_GAUGE_LOW) || v.guess_count == 0);
        if (rule == 3) assert_true(may_be(&v, SITE_ECCENTRIC));
        if (rule == 0) assert_true(may_be(&v, SITE_ANCHOR_SLIP));
    }
}

static void test_pressure_beyond_the_jacks_stops_at_once(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    climb(&log, 7);
    set_force(&log.r[log.count - 1], 1.03 * shared.day.plan->gear.highest_Pa *
                                         shared.day.plan->gear.slope_m2 *
                                         shared.day.plan->gear.count);
    SiteReading *r = &log.r[log.count - 1];
    for (int k = 0; k < JACK_SETS; k++)
        r->pressure_Pa[k] = fmin(r->pressure_Pa[k], 0.999 * shared.day.plan->gear.range_Pa);
    SiteVerdict v = judged(&log);
    assert_true(v.call == SITE_AGAIN); /* the gap says otherwise: read again */
    set_gap(r, jacking_expect(shared.day.plan, r->pressure_Pa[0] * shared.day.plan->gear.slope_m2 *
                                                   shared.day.plan->gear.count)
                   .opening.expected_m);
    v = judged(&log);
    assert_int_equal(v.call, SITE_STOP);
    assert_non_null(found(&v, SITE_PRESSURE));
}

static void test_missing_readings_are_asked_for(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    SiteVerdict v = judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    add(&log, 1, SITE_PUMP, 1e6);
    v = judged(&log);
    assert_int_equal(v.call, SITE_HOLD); /* no zero reading */
    log.count = 0;
    climb(&log, 2);
    log.r[log.count - 1].pressure_Pa[1] = NAN;
    v = judged(&log);
    assert_int_equal(v.call, SITE_AGAIN);
    assert_non_null(found(&v, SITE_MISSING));
}

/* ---- holds ---- */

static void hold_for(Log *log, int step, int readings, double fall_1, double closes_m,
                     double warms_K)
{
    const JackPlan *plan = shared.day.plan;
    for (int i = 0; i < readings; i++) {
        const double part_1 = (double)i / (readings - 1);
        const double warm_N = ((plan->warmth.locked_warm_N - plan->warmth.locked_cold_N) /
                               (2 * plan->warmth.swing_K)) *
                              warms_K * part_1;
        SiteReading *r = add(log, step, SITE_HELD, plan->step[step - 1].force_N);
        log->minute += 1;
        set_force(r, plan->step[step - 1].force_N * (1 - fall_1 * part_1) + warm_N);
        for (int p = 0; p < 4; p++) r->move_m[p] -= closes_m * part_1;
        r->deck_K += warms_K * part_1;
    }
}

static void test_leak_slip_and_sun_in_a_hold(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    climb(&log, 4);
    const int start = log.count;
    hold_for(&log, 4, 7, 0.06, 0.002, 0);
    SiteVerdict v = judged(&log);
    assert_int_equal(v.call, SITE_HOLD);
    assert_int_equal(v.guess[0].cause, SITE_LEAK);
    check_near(v.fall_N, 0.06 * shared.day.plan->step[3].force_N, 1e-6, 0,
               "closed form: as it was put in");
    log.count = start;
    hold_for(&log, 4, 7, 0.06, -0.002, 0);
    for (int i = start; i < log.count; i++) log.r[i].move_m[4] = log.r[i].move_m[5] = NAN;
    v = judged(&log);
    assert_int_equal(v.call, SITE_STOP); /* the gap opens further: something gives */
    assert_true(may_be(&v, SITE_ANCHOR_SLIP) && !may_be(&v, SITE_LEAK));
    log.count = start;
    hold_for(&log, 4, 7, 0, 0, 2.1); /* sun: the force rises by what the plan says */
    v = judged(&log);
    assert_int_equal(v.call, SITE_GO);
    check_near(v.fall_N, 0, 0, 1e-4 * shared.day.plan->thrust_N,
               "closed form: all of it is temperature");
    log.count = start;
    hold_for(&log, 4, 7, 0.06, 0, 0);
    v = judged(&log);
    assert_int_equal(v.call, SITE_HOLD); /* the gap stays: leak past the lock nuts, or slip */
    assert_true(may_be(&v, SITE_ANCHOR_SLIP) || may_be(&v, SITE_LEAK));
}

/* A day on the locks: what creep takes is the plan's long hold, and goes on. */
static void test_a_day_on_the_locks_falls_by_creep(void **state)
{
    (void)state;
    const JackPlan *plan = shared.day.plan;
    Log log = {.slope_1 = 1};
    climb(&log, plan->step_count);
    for (int i = 0; i < plan->hold_count; i++) {
        SiteReading *r = add(&log, plan->step_count, SITE_HELD, plan->thrust_N);
        r->time_day = 0.1 + plan->hold[i].after_day;
        set_force(r, (plan->hold[i].force_N + plan->hold[i].quick_N) / 2);
        assert_int_equal(judged(&log).call, SITE_GO);
    }
    const SiteVerdict v = judged(&log);
    const JackHold *last = &plan->hold[plan->hold_count - 1];
    check_near(v.fall_most_N, plan->thrust_N - last->quick_N, 0.1, 0,
               "closed form: the plan's long hold");
}

/* ---- as built ---- */

static SiteFit fitted(const SiteDay *day, const Log *log)
{
    SiteFit fit;
    Error err = {0};
    check_status(site_fit(day, log->r, log->count, 0.1, 0.05, shared.scratch, &fit, &err),
                 STATUS_OK, &err);
    return fit;
}

static void test_fit_gives_back_what_was_put_in(void **state)
{
    (void)state;
    const JackPlan *plan = shared.day.plan;
    Log log = {.slope_1 = 1.07};
    climb(&log, plan->step_count);
    hold_for(&log, plan->step_count, 6, 0.01, 0, 0);
    const SiteFit fit = fitted(&shared.day, &log);
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    check_near(fit.slope_1.value, 1.07, 1e-9, 0, by_plan);
    check_near(fit.seating_m.value, 1.07 * seat_m, 1e-7, 0, by_plan);
    assert_true(fit.slope_1.low < 1.07 && fit.slope_1.high > 1.07);
    check_near(fit.gauge_alone_1, 1.07, 1e-9, 0, by_plan);
    assert_false(fit.gauge_1.told);
    assert_non_null(strstr(fit.gauge_1.why, "load cells"));
    assert_false(fit.girder_1.told || fit.deck_1.told || fit.friction_1.told);
    check_near(fit.force_N.value, plan->thrust_N, 0.011, 0, "closed form: a fall of 1 %");
    assert_true(fit.force_N.low < plan->thrust_N && fit.force_N.high > 0.99 * plan->thrust_N);
}

/* A gauge 3 % low looks like 3 % more movement: told once there are cells, else said that it cannot be. */
static void test_gauge_is_told_by_cells_alone(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    climb(&log, 7);
    for (int i = 1; i < log.count; i++)
        log.r[i].cell_N = 1.031 * shared.day.plan->gear.count *
                          jack_force_N(&shared.day.plan->gear, log.r[i].pressure_Pa[0]);
    const SiteFit fit = fitted(&shared.day, &log);
    assert_true(fit.gauge_1.told);
    check_near(fit.gauge_1.value, 1.031, 1e-9, 0, "closed form: as it was put in");
}

static void test_way_back_gives_friction(void **state)
{
    (void)state;
    const JackPlan *plan = shared.day.plan;
    const JackReturn *back = &plan->back[plan->return_count - 1];
    Log log = {.slope_1 = 1};
    climb(&log, plan->step_count);
    for (int i = 0; i + 1 < back->count; i++) {
        SiteReading *r = add(&log, plan->step_count - i, SITE_BACK, back->force_N[i]);
        const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
        set_gap(r, back->opening_m[i] +
                       (back->opening_m[0] < plan->step[5].opening.expected_m - seat_m / 2 ? seat_m
                                                                                           : 0));
    }
    const SiteFit fit = fitted(&shared.day, &log);
    assert_true(fit.loop_N.told);
    if (fit.friction_1.told) /* the plan's own way back: the plan's own friction, within reading */
        assert_true(fit.friction_1.low <= fit.friction_1.plan &&
                    fit.friction_1.high >= fit.friction_1.plan);
}

/* The slope's interval on the very data that scipy fitted: Huber's fit is equivariant. */
static void test_interval_of_the_slope_is_that_of_scipy(void **state)
{
    (void)state;
    const RobustCase *c = &robust_case[0];
    const JackPlan *plan = shared.day.plan;
    const double size_m = 0.0075, shift_m = 0.011;
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    Log log = {.slope_1 = 1};
    add(&log, 0, SITE_PUMP, 0);
    for (int i = 0; i < c->n; i++) {
        const double expect_m = size_m * c->x[i] + shift_m + seat_m;
        double low_N = 0, high_N = plan->thrust_N;
        for (int k = 0; k < 80; k++) {
            const double mid_N = (low_N + high_N) / 2;
            if (jacking_expect(plan, mid_N).opening.expected_m < expect_m)
                low_N = mid_N;
            else
                high_N = mid_N;
        }
        SiteReading *r = add(&log, plan->step_count, SITE_PUMP, low_N);
        set_gap(r, size_m * (c->y[i] - 0.83 * c->x[i]) + shift_m);
    }
    const SiteFit fit = fitted(&shared.day, &log);
    const double t = student_quantile(0.975, c->n - 2);
    assert_int_equal(fit.used, c->n);
    check_near(fit.slope_1.value, c->huber_slope - 0.83, 1e-6, 0,
               "scipy 1.10.1, tools/oracle/robust_scipy.py");
    check_near(fit.slope_1.high - fit.slope_1.value, t * c->huber_slope_off, 1e-5, 0,
               "scipy 1.10.1, tools/oracle/robust_scipy.py");
}

static void test_too_few_readings_are_refused(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    SiteFit fit;
    Error err = {0};
    climb(&log, 1);
    check_status(site_fit(&shared.day, log.r, log.count, 0.1, 0.05, shared.scratch, &fit, &err),
                 STATUS_BAD_INPUT, &err);
}

/* The life with the plan's own values is the design's; with less force there is less compression. */
static void test_life_as_built(void **state)
{
    (void)state;
    Error err = {0};
    SiteBuilt built;
    SiteFit fit = {.deck_alone_1 = 1};
    fit.force_N.plan = shared.answer->thrust_N;
    fit.friction_1.plan = 0.1;
    const SiteLifeWish wish = {shared.root, shared.answer, &fit, NAN};
    Arena *arena = arena_create((size_t)1 << 30);
    const char *const same = "law: the same bridge; the need is found to 1e-4";
    check_status(site_life(&wish, arena, shared.scratch, &built, &err), STATUS_OK, &err);
    check_near(built.least.jacked_Pa, built.design.jacked_Pa, 1e-4, 0, same);
    check_near(built.least.end_Pa, built.design.end_Pa, 1e-4, 0, same);
    assert_true(built.design.jacked_Pa > built.design.opening_Pa &&
                built.design.opening_Pa > built.design.end_Pa);
    fit.force_N = (SiteValue){true,
                              0.95 * wish.design->thrust_N,
                              0.95 * wish.design->thrust_N,
                              0.95 * wish.design->thrust_N,
                              wish.design->thrust_N,
                              NULL};
    check_status(site_life(&wish, arena, shared.scratch, &built, &err), STATUS_OK, &err);
    check_near(built.least.jacked_Pa, 0.95 * built.design.jacked_Pa, 0.02, 0,
               "law: before release the deck's compression follows the thrust, but for friction "
               "and weight");
    assert_true(built.least.end_Pa < built.design.end_Pa);
    arena_free(arena);
}

static void test_json_has_the_verdict(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1.3};
    climb(&log, 6);
    const SiteVerdict v = judged(&log);
    Text text = text_start(shared.scratch);
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
    const JackPlan *plan = shared.day.plan;
    enum { ROWS = 5000 };
    SiteReading *r = ARENA_NEW(shared.scratch, SiteReading, ROWS);
    Log log = {.slope_1 = 1};
    for (int i = 0; i < ROWS; i++) {
        log.count = 0;
        r[i] = *add(&log, i == 0 ? 0 : plan->step_count, SITE_PUMP, plan->thrust_N * i / ROWS);
        r[i].time_day = i / 86400.0;
    }
    SiteVerdict v;
    site_judge(&shared.day, r, ROWS, shared.scratch, &v);
    if (v.call != SITE_GO) print_error("%s\n", v.reason);
    assert_int_equal(v.call, SITE_GO);
    check_near(v.slope_1, 1, 1e-3, 0, by_plan);
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
        cmocka_unit_test(test_pressure_beyond_the_jacks_stops_at_once),
        cmocka_unit_test(test_missing_readings_are_asked_for),
        cmocka_unit_test(test_leak_slip_and_sun_in_a_hold),
        cmocka_unit_test(test_a_day_on_the_locks_falls_by_creep),
        cmocka_unit_test(test_fit_gives_back_what_was_put_in),
        cmocka_unit_test(test_gauge_is_told_by_cells_alone),
        cmocka_unit_test(test_way_back_gives_friction),
        cmocka_unit_test(test_interval_of_the_slope_is_that_of_scipy),
        cmocka_unit_test(test_too_few_readings_are_refused),
        cmocka_unit_test(test_life_as_built),
        cmocka_unit_test(test_json_has_the_verdict),
        cmocka_unit_test(test_logger_of_thousands_of_rows),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
