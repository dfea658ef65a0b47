/* Verdicts of the jacking day: each rule by hand, and simulated jackings whose truth is known. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_file.h"
#include "clench/numeric.h"
#include "site_truth.h"

#include "data/robust_oracle.h"

typedef struct Fixture {
    BridgeFile file;
    Arena *arena, *scratch;
    const ThrustAnswer *answer;
    Node *root;
    SiteDay day;
} Fixture;

static Fixture shared;

static const char gear_text[] =
    "jacks: {count: 12, size: 400 ton, sets: 2, stroke: 8 in, gauge_range: 10000 psi, "
    "gauge_division: 50 psi}\n";

static void plan_make(Fixture *f, const char *path, const char *more)
{
    const BridgeLine *line;
    const char *bytes = NULL;
    size_t size = 0;
    int count;
    Error err = {0};
    const JackPlan *plan;
    f->arena = arena_create((size_t)2 << 30);
    f->scratch = arena_create((size_t)1 << 30);
    check_status(file_read(path, YAML_SIZE_MAX, f->arena, &bytes, &size, &err), STATUS_OK, &err);
    const char *text = arena_printf(f->arena, "%s%s", bytes, more);
    bridge_from_text(&f->file, text);
    for (int i = 0; i < f->file.found.count; i++) print_error("%s\n", f->file.found.item[i].text);
    assert_int_equal(f->file.status, STATUS_OK);
    check_status(yaml_read(text, strlen(text), f->arena, &f->root, &f->file.found), STATUS_OK,
                 NULL);
    check_status(bridge_lines(f->file.bridge, 1, f->arena, &line, &count, &err), STATUS_OK, &err);
    const ThrustWish wish = {.settings = stage_settings_default()};
    check_status(thrust_find(line, count, &wish, f->arena, f->scratch, &f->answer, &err), STATUS_OK,
                 &err);
    const JackWish jacks = {f->file.bridge, f->answer, 0};
    check_status(jacking_plan(&jacks, f->arena, f->scratch, &plan, &err), STATUS_OK, &err);
    f->day = (SiteDay){.plan = plan, .units = UNITS_US, .point_count = 6};
    const double across[] = {-0.45, -0.15, 0.15, 0.45};
    for (int p = 0; p < 4; p++)
        f->day.point[p] = (SitePoint){
            .kind = SITE_GAP, .across_m = across[p] * plan->width_m, .division_m = 2.5e-4};
    for (int p = 4; p < 6; p++)
        f->day.point[p] = (SitePoint){.kind = SITE_SLIP, .side = p - 4, .division_m = 2.5e-5};
}

static int setup(void **state)
{
    (void)state;
    plan_make(&shared, "examples/steel-continuous.yaml", gear_text);
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    arena_free(shared.arena);
    arena_free(shared.scratch);
    bridge_close(&shared.file);
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

/* ---- the table ---- */

static void print_job(TruthKind kind, int seed, const TruthResult *r)
{
    printf("JOB %s %d worst %d early %d named %d%d caught %d dep %.2f mm fall %.4f warm %.2f why "
           "%s at %.2f bad %d\n    %s\n",
           truth_name(kind), seed, (int)r->worst, r->early, r->named, r->first_named, r->caught,
           1000 * r->departure_m, r->fall_1, r->warm_K, r->worst ? site_kind_name(r->why) : "-",
           r->at_1, r->bad, r->reason);
}

static void test_tune(void **state)
{
    (void)state;
    const char *jobs = getenv("CLENCH_SITE_TUNE"), *one = getenv("CLENCH_SITE_ONE");
    if (one) {
        static SiteReading r[TRUTH_READINGS];
        Truth t;
        const TruthKind kind = (TruthKind)(atoi(one) / 1000);
        const TruthResult result =
            truth_run(&shared.day, kind, 1000000 + (uint64_t)(atoi(one) % 1000), shared.scratch);
        const int n = truth_last(r, &t);
        print_job(kind, atoi(one), &result);
        for (int i = 0; i < n; i++) {
            SiteVerdict v;
            site_judge(&shared.day, r, i + 1, shared.scratch, &v);
            printf("%2d st %d ph %d p %.0f %.0f m %.2f %.2f %.2f %.2f T %.2f: %d %s\n", i,
                   r[i].step, (int)r[i].phase, r[i].pressure_Pa[0] / 6894.757,
                   r[i].pressure_Pa[1] / 6894.757, 1000 * r[i].move_m[0], 1000 * r[i].move_m[1],
                   1000 * r[i].move_m[2], 1000 * r[i].move_m[3], r[i].deck_K - r[i].girder_K,
                   v.call, v.finding_count ? v.reason : "");
        }
        return;
    }
    if (!jobs) return;
    for (int kind = 0; kind < TRUTH_KINDS; kind++)
        for (int i = 0; i < atoi(jobs); i++) {
            const TruthResult r =
                truth_run(&shared.day, (TruthKind)kind, 1000000 + (uint64_t)i, shared.scratch);
            print_job((TruthKind)kind, i, &r);
        }
}

/* What the readings can show, by the plan's own alarms; the rest is counted apart. */
static bool can_show(const TruthResult *r, TruthKind kind)
{
    const JackPlan *plan = shared.day.plan;
    const double opening_m = plan->step[plan->step_count - 1].opening.expected_m;
    switch (kind) {
    case TRUTH_BINDING:
    case TRUTH_SLIPPING: return r->departure_m >= plan->alarm.movement_1 * opening_m;
    case TRUTH_LEAKING: return r->fall_1 >= plan->alarm.drop_1;
    case TRUTH_SUN: return r->warm_K > plan->warmth.window_K + 0.7;
    case TRUTH_SWAPPED:
    case TRUTH_WILD: return r->bad >= 21; /* from half the thrust on: the line is known */
    default: return false;
    }
}

static bool is_caught(const TruthResult *r, TruthKind kind)
{
    if (kind == TRUTH_SWAPPED || kind == TRUTH_WILD) return r->caught;
    return r->worst >= SITE_HOLD && !r->early;
}

static bool is_false(const TruthResult *r, TruthKind kind)
{
    if (r->worst < SITE_HOLD) return false;
    if (kind == TRUTH_SUN)
        return r->why != SITE_WARM || r->warm_K < shared.day.plan->warmth.window_K - 0.7;
    if (kind == TRUTH_BINDING || kind == TRUTH_SLIPPING || kind == TRUTH_LEAKING) return r->early;
    return true;
}

typedef struct Count {
    int jobs, shows, missed, alarms, named, small, small_caught;
} Count;

static Count count_kind(TruthKind kind, int jobs, uint64_t seed)
{
    Count c = {.jobs = jobs};
    for (int i = 0; i < jobs; i++) {
        const TruthResult r = truth_run(&shared.day, kind, seed + (uint64_t)i, shared.scratch);
        const bool shows = can_show(&r, kind), caught = is_caught(&r, kind);
        c.alarms += is_false(&r, kind);
        c.shows += shows;
        c.missed += shows && !caught;
        c.named += shows && caught && r.named;
        c.small += !shows;
        c.small_caught += !shows && caught;
    }
    return c;
}

static void print_share(int events, int trials)
{
    double low_1, high_1;
    if (trials == 0) {
        printf(" | -");
        return;
    }
    truth_wilson(events, trials, &low_1, &high_1);
    printf(" | %d of %d (%.2f to %.2f %%)", events, trials, 100 * low_1, 100 * high_1);
}

/* At most 0.1 % missed and 1 % false, unless chance explains more (Wilson 1927, 95 %). */
static void test_simulated_jackings(void **state)
{
    (void)state;
    const char *wish = getenv("CLENCH_SITE_JOBS");
    const int jobs = wish ? atoi(wish) : 60;
    double low_1, high_1;
    bool held = true;
    printf("| truth | missed, of those that show | false alarms | cause named | too small to show, "
           "found all the same |\n"
           "| --- | --- | --- | --- | --- |\n");
    for (int k = 0; k < TRUTH_KINDS; k++) {
        const Count c = count_kind((TruthKind)k, jobs, 1);
        printf("| %s", truth_name((TruthKind)k));
        print_share(c.missed, c.shows);
        print_share(c.alarms, c.jobs);
        print_share(c.named, k == TRUTH_SWAPPED || k == TRUTH_WILD ? 0 : c.shows - c.missed);
        print_share(c.small_caught, k == TRUTH_NORMAL || k == TRUTH_GAUGE_LOW ? 0 : c.small);
        printf(" |\n");
        truth_wilson(c.alarms, c.jobs, &low_1, &high_1);
        held = held && low_1 <= 0.01;
        if (c.shows == 0) continue;
        truth_wilson(c.missed, c.shows, &low_1, &high_1);
        held = held && low_1 <= 0.001;
    }
    assert_true(held);
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
        cmocka_unit_test(test_fit_gives_back_what_was_put_in),
        cmocka_unit_test(test_gauge_is_told_by_cells_alone),
        cmocka_unit_test(test_way_back_gives_friction),
        cmocka_unit_test(test_interval_of_the_slope_is_that_of_scipy),
        cmocka_unit_test(test_too_few_readings_are_refused),
        cmocka_unit_test(test_life_as_built),
        cmocka_unit_test(test_json_has_the_verdict),
        cmocka_unit_test(test_logger_of_thousands_of_rows),
        cmocka_unit_test(test_tune),
        cmocka_unit_test(test_simulated_jackings),
    };
    return cmocka_run_group_tests(tests, setup, teardown);
}
