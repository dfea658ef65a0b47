/* What was built, from the readings of the jacking day: each rule by hand, the intervals against scipy. */
#include <math.h>
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
    assert_true(fit.gauge_1.high - fit.gauge_1.value >= 0.01); /* the cells' own error */
}

/* The plan's own way back, with the jacks' bores on the gauge: cells show the force, the gauge is below it by
 * twice the bores' friction. */
static void way_back(Log *log, double friction_1, bool cells)
{
    const JackPlan *plan = site_shared.day.plan;
    const JackReturn *back = &plan->back[plan->return_count - 1];
    const double bore_1 = 1 - plan->gear.slope_m2 / plan->gear.area_m2;
    log_climb(log, plan->step_count);
    for (int i = 1; i < log->count && cells; i++)
        log->r[i].cell_N = plan->gear.count * jack_force_N(&plan->gear, log->r[i].pressure_Pa[0]);
    for (int i = 0; i + 1 < back->count; i++) {
        const double true_N = back->force_N[i] - 2 * (friction_1 - 1) * back->loop_N[i];
        SiteReading *r = log_add(log, plan->step_count - i, SITE_BACK, true_N);
        log_force(r, true_N * (1 - bore_1) / (1 + bore_1));
        log_gap(r, back->opening_m[i]);
        if (cells) r->cell_N = true_N;
    }
}

static void test_way_back_gives_friction(void **state)
{
    (void)state;
    for (int more = 0; more < 2; more++) {
        const double friction_1 = more ? 1.3 : 1;
        Log log = {.slope_1 = 1};
        way_back(&log, friction_1, true);
        const SiteFit fit = fitted(&site_shared.day, &log);
        assert_true(fit.loop_N.told && fit.friction_1.told);
        check_near(fit.friction_1.value, friction_1 * fit.friction_1.plan, 0.02, 0,
                   "law: half the loop goes with the coefficient; the plan's points are straight "
                   "between");
        assert_true(fit.friction_1.low < fit.friction_1.value &&
                    fit.friction_1.high > fit.friction_1.value);
    }
}

/* Without cells the bores of the jacks hide the shims: it is said, and what to read. */
static void test_bores_hide_friction_without_cells(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    way_back(&log, 1, false);
    const SiteFit fit = fitted(&site_shared.day, &log);
    assert_false(fit.friction_1.told);
    assert_non_null(strstr(fit.friction_1.why, "bores"));
    assert_non_null(strstr(fit.friction_1.why, "load cells"));
}

/* Girders of 0.9 and panels of 1.08 of the plan's stiffness: rises and gap with that give them back. */
static void test_rises_tell_girders_from_panels(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    const double girder_1 = 0.9, deck_1 = 1.08;
    const JackBand *whole = &plan->step[plan->step_count - 1].opening;
    const double deck_off = 0.15, girder_off = 0.05; /* by which the plan's bands were made */
    const double girder_m = whole->above_m[JACK_BAND_GIRDER] * (1 - girder_off) / girder_off;
    const double deck_m = whole->above_m[JACK_BAND_DECK] * (1 - deck_off) / deck_off;
    SiteDay day = site_shared.day;
    int watches = 0;
    for (int i = 0; i < plan->watch_count && watches < 2; i++)
        if (!plan->watch[i].bearing)
            day.point[day.point_count + watches++] =
                (SitePoint){.kind = SITE_RISE, .watch = i, .division_m = 1e-4};
    day.point_count += watches;
    assert_int_equal(watches, 2);
    const double seat_m = (plan->seating_least_m + plan->seating_most_m) / 2;
    Log log = {.slope_1 = 1};
    log_climb(&log, plan->step_count);
    for (int i = 1; i < log.count; i++) {
        SiteReading *r = &log.r[i];
        const double force_N = plan->gear.count * jack_force_N(&plan->gear, r->pressure_Pa[0]);
        const double open_m = jacking_expect(plan, force_N).opening.expected_m;
        const double softer_m = (1 / girder_1 - 1) * girder_m + (1 / deck_1 - 1) * deck_m;
        log_gap(r, open_m + softer_m * (open_m - seat_m) / (whole->expected_m - seat_m));
        for (int k = 0; k < 2; k++) {
            double below_N = 0, below_m = 0;
            const double *move_m = plan->watch[day.point[6 + k].watch].move_m;
            for (int s = 0; s < r->step - 1; s++) {
                below_N = plan->step[s].force_N;
                below_m = move_m[s];
            }
            const JackStep *step = &plan->step[r->step - 1];
            r->move_m[6 + k] = (below_m + (move_m[r->step - 1] - below_m) * (force_N - below_N) /
                                              (step->force_N - below_N)) /
                               girder_1;
        }
    }
    log.r[0].move_m[6] = log.r[0].move_m[7] = 0;
    SiteFit fit;
    Error err = {0};
    check_status(site_fit(&day, log.r, log.count, (SiteOff){deck_off, girder_off},
                          site_shared.scratch, &fit, &err),
                 STATUS_OK, &err);
    assert_true(fit.girder_1.told && fit.deck_1.told);
    const char *const put_in = "closed form: as it was put in";
    check_near(fit.girder_1.value, girder_1, 1e-6, 0, put_in);
    check_near(fit.deck_1.value, deck_1, 0.01, 0, put_in);
    assert_true(fit.deck_1.low < deck_1 && fit.deck_1.high > deck_1);
    assert_true(fit.girder_1.low < girder_1 && fit.girder_1.high > girder_1);
}

/* Locked on a warm deck, part of the force is the sun's; onto the nuts a part goes. */
static void test_locked_force_without_warmth_and_nuts(void **state)
{
    (void)state;
    const JackPlan *plan = site_shared.day.plan;
    const JackWarmth *w = &plan->warmth;
    const double per_K = (w->locked_warm_N - w->locked_cold_N) / (2 * w->swing_K);
    Log log = {.slope_1 = 1};
    log_climb(&log, plan->step_count);
    log_hold(&log, plan->step_count, 6, 0, 0, 0);
    for (int i = 0; i < log.count; i++) log.r[i].deck_K = log.r[i].girder_K + 1.7;
    SiteFit fit = fitted(&site_shared.day, &log);
    check_near(fit.force_N.value, plan->thrust_N, 1e-9, 0, log_by_plan);
    check_near(fit.even_N.value, plan->thrust_N - 1.7 * per_K, 1e-9, 0,
               "closed form: the plan's force for a kelvin");
    const double gauge_N =
        hypot(plan->gear.count * plan->gear.slope_m2 * plan->gear.accuracy_1 * plan->gear.range_Pa,
              plan->gear.off_1 * plan->thrust_N);
    assert_true(fit.even_N.high - fit.even_N.value > gauge_N);
    assert_true(fit.below_N[SITE_PART_HOLD] > 0 && fit.above_N[SITE_PART_BORE] == 0);
    const double lost_N = 0.02 * plan->thrust_N;
    for (int i = 0; i < 3; i++) {
        SiteReading *r = log_add(&log, plan->step_count, SITE_NUTS, plan->thrust_N);
        for (int p = 0; p < 4; p++)
            r->move_m[p] -= lost_N * plan->step[plan->step_count - 1].slope_m_per_N;
    }
    fit = fitted(&site_shared.day, &log);
    assert_true(fit.force_N.high - plan->thrust_N <
                gauge_N * 1.1 - lost_N + fit.above_N[SITE_PART_HOLD] + 1);
    assert_true(fit.force_N.value <= plan->thrust_N - lost_N * 0.999);
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

static SiteBuilt lived(const SiteLifeWish *wish)
{
    Error err = {0};
    SiteBuilt built;
    Arena *arena = arena_create((size_t)1 << 30);
    check_status(site_life(wish, arena, site_shared.scratch, &built, &err), STATUS_OK, &err);
    arena_free(arena);
    return built;
}

static SiteFit fit_as_planned(void)
{
    SiteFit fit = {.deck_alone_1 = 1};
    fit.even_N.plan = site_shared.answer->thrust_N;
    return fit;
}

/* The life with the plan's own values is the design's; with less force there is less compression. */
static void test_life_as_built(void **state)
{
    (void)state;
    SiteFit fit = fit_as_planned();
    const SiteLifeWish wish = {site_shared.root, site_shared.answer, 0, &fit, NAN};
    const double force_N = 0.95 * wish.design->thrust_N;
    const char *const same = "law: the same bridge; the need is found to 1e-4";
    SiteBuilt built = lived(&wish);
    assert_int_equal(built.count, site_shared.day.plan->line_count);
    assert_int_equal(built.runs, 1);
    for (int k = 0; k < built.count; k++) {
        const SiteBuiltLine *l = &built.line[k];
        check_near(l->least.jacked.mean_Pa, l->design.jacked.mean_Pa, 1e-4, 0, same);
        check_near(l->least.end.fibre_Pa, l->design.end.fibre_Pa, 1e-3, 0, same);
        assert_true(l->design.jacked.mean_Pa > l->design.opening.mean_Pa &&
                    l->design.opening.mean_Pa > l->design.end.mean_Pa);
        assert_true(l->design.end.fibre_Pa < l->design.end.mean_Pa);
    }
    fit.even_N = (SiteValue){true, force_N, force_N, force_N, wish.design->thrust_N, NULL};
    built = lived(&wish);
    check_near(built.line[0].least.jacked.mean_Pa, 0.95 * built.line[0].design.jacked.mean_Pa, 0.02,
               0,
               "law: before release the deck's compression follows the thrust, but for friction "
               "and weight");
    assert_true(built.line[0].least.end.mean_Pa < built.line[0].design.end.mean_Pa);
    assert_false(built.always); /* the design has no more thrust than it needs */
    fit.even_N = (SiteValue){true, 0, force_N, 1.05 * wish.design->thrust_N, 0, NULL};
    fit.even_N.low = 0.97 * wish.design->thrust_N;
    built = lived(&wish);
    assert_int_equal(built.runs, 2);
    assert_true(built.line[0].least.end.mean_Pa < built.line[0].design.end.mean_Pa &&
                built.line[0].most.end.mean_Pa > built.line[0].design.end.mean_Pa);
}

/* Jacked later the panels are older, creep and shrink less afterwards, and keep more; what is given after the
 * jacking moves along. */
static void test_life_with_the_jacking_day_moved(void **state)
{
    (void)state;
    SiteFit fit = fit_as_planned();
    SiteLifeWish wish = {site_shared.root, site_shared.answer, 0, &fit, NAN};
    const SiteBuilt planned = lived(&wish);
    wish.jacking_day = planned.planned_day;
    const SiteBuilt same = lived(&wish);
    check_near(same.line[0].least.end.mean_Pa, planned.line[0].least.end.mean_Pa, 1e-9, 0,
               "law: the same day");
    double before_Pa = planned.line[0].least.end.mean_Pa;
    for (int later = 40; later < 130; later += 40) {
        wish.jacking_day = planned.planned_day + later;
        const SiteBuilt moved = lived(&wish);
        assert_true(moved.jacking_day == planned.planned_day + later);
        assert_true(moved.line[0].least.end.mean_Pa > before_Pa);
        check_near(moved.line[0].least.jacked.mean_Pa, planned.line[0].least.jacked.mean_Pa, 0.01,
                   0, "law: at jacking the deck carries the thrust, whatever the day");
        before_Pa = moved.line[0].least.end.mean_Pa;
    }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_fit_gives_back_what_was_put_in),
        cmocka_unit_test(test_gauge_is_told_by_cells_alone),
        cmocka_unit_test(test_way_back_gives_friction),
        cmocka_unit_test(test_bores_hide_friction_without_cells),
        cmocka_unit_test(test_rises_tell_girders_from_panels),
        cmocka_unit_test(test_locked_force_without_warmth_and_nuts),
        cmocka_unit_test(test_interval_of_the_slope_is_that_of_scipy),
        cmocka_unit_test(test_too_few_readings_are_refused),
        cmocka_unit_test(test_life_as_built),
        cmocka_unit_test(test_life_with_the_jacking_day_moved),
    };
    return cmocka_run_group_tests(tests, log_setup, log_teardown);
}
