/* What was built, from the readings of the jacking day: each rule by hand, the intervals against scipy. */
#include <string.h>

#include "clench/numeric.h"
#include "data/robust_oracle.h"
#include "site_log.h"

static SiteFit fitted(const SiteDay *day, const Log *log)
{
    SiteFit fit;
    Error err = {0};
    check_status(
        site_fit(day, log->r, log->count, (SiteOff){0.1, 0.05}, site_shared.scratch, &fit, &err),
        STATUS_OK, &err);
    return fit;
}

static void test_fit_gives_back_what_was_put_in(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    Log log = {.slope_1 = 1.07};
    log_climb(&log, plan->step_count);
    log_hold(&log, plan->step_count, 6, 0.01, 0, 0);
    const SiteFit fit = fitted(&site_shared.day, &log);
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    check_near(fit.slope_1.value, 1.07, 1e-9, 0, log_by_plan);
    check_near(fit.seating_m.value, 1.07 * seat_m, 1e-7, 0, log_by_plan);
    assert_true(fit.slope_1.low < 1.07 && fit.slope_1.high > 1.07);
    check_near(fit.gauge_alone_1, 1.07, 1e-9, 0, log_by_plan);
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
    log_climb(&log, 7);
    for (int i = 1; i < log.count; i++)
        log.r[i].cell_N = 1.031 * site_shared.day.plan->gear.count *
                          jack_force_N(&site_shared.day.plan->gear, log.r[i].pressure_Pa[0]);
    const SiteFit fit = fitted(&site_shared.day, &log);
    assert_true(fit.gauge_1.told);
    check_near(fit.gauge_1.value, 1.031, 1e-9, 0, "closed form: as it was put in");
}

static void test_way_back_gives_friction(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    const JackReturn *back = &plan->back[plan->return_count - 1];
    Log log = {.slope_1 = 1};
    log_climb(&log, plan->step_count);
    for (int i = 0; i + 1 < back->count; i++) {
        SiteReading *r = log_add(&log, plan->step_count - i, SITE_BACK, back->force_N[i]);
        const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
        log_gap(r, back->opening_m[i] +
                       (back->opening_m[0] < plan->step[5].opening.expected_m - seat_m / 2 ? seat_m
                                                                                           : 0));
    }
    const SiteFit fit = fitted(&site_shared.day, &log);
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
    const JackPlan *plan = site_shared.day.plan;
    const double size_m = 0.0075, shift_m = 0.011;
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    Log log = {.slope_1 = 1};
    log_add(&log, 0, SITE_PUMP, 0);
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
        SiteReading *r = log_add(&log, plan->step_count, SITE_PUMP, low_N);
        log_gap(r, size_m * (c->y[i] - 0.83 * c->x[i]) + shift_m);
    }
    const SiteFit fit = fitted(&site_shared.day, &log);
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
    log_climb(&log, 1);
    check_status(site_fit(&site_shared.day, log.r, log.count, (SiteOff){0.1, 0.05},
                          site_shared.scratch, &fit, &err),
                 STATUS_BAD_INPUT, &err);
}

/* The life with the plan's own values is the design's; with less force there is less compression. */
static void test_life_as_built(void **state)
{
    (void)state;
    Error err = {0};
    SiteBuilt built;
    SiteFit fit = {.deck_alone_1 = 1};
    fit.force_N.plan = site_shared.answer->thrust_N;
    fit.friction_1.plan = 0.1;
    const SiteLifeWish wish = {site_shared.root, site_shared.answer, &fit, NAN};
    Arena *arena = arena_create((size_t)1 << 30);
    const char *const same = "law: the same bridge; the need is found to 1e-4";
    check_status(site_life(&wish, arena, site_shared.scratch, &built, &err), STATUS_OK, &err);
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
    check_status(site_life(&wish, arena, site_shared.scratch, &built, &err), STATUS_OK, &err);
    check_near(built.least.jacked_Pa, 0.95 * built.design.jacked_Pa, 0.02, 0,
               "law: before release the deck's compression follows the thrust, but for friction "
               "and weight");
    assert_true(built.least.end_Pa < built.design.end_Pa);
    arena_free(arena);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fit_gives_back_what_was_put_in),
        cmocka_unit_test(test_gauge_is_told_by_cells_alone),
        cmocka_unit_test(test_way_back_gives_friction),
        cmocka_unit_test(test_interval_of_the_slope_is_that_of_scipy),
        cmocka_unit_test(test_too_few_readings_are_refused),
        cmocka_unit_test(test_life_as_built),
    };
    return cmocka_run_group_tests(tests, log_setup, log_teardown);
}
