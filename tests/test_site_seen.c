/* What pictures of the jacking day show, against the readings they were made from. */
#include <string.h>

#include "clench/figure.h"
#include "site_log.h"

static FigureSite site_of(const Log *log)
{
    return (FigureSite){&site_shared.day, log->r, log->count, 360};
}

static int items(const Figure *f, FigureKind kind, FigureRole role)
{
    int count = 0;
    for (const FigureItem *i = f->first; i; i = i->next)
        count += i->kind == kind && i->role == role;
    return count;
}

static const FigureItem *item_last(const Figure *f, FigureKind kind, FigureRole role)
{
    const FigureItem *found = NULL;
    for (const FigureItem *i = f->first; i; i = i->next)
        if (i->kind == kind && i->role == role) found = i;
    return found;
}

static void test_all_readings_are_seen_in_order(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1.03};
    const SiteSeen *seen;
    log_climb(&log, 3);
    log.r[4].struck = true;
    const int count = site_see(&site_shared.day, log.r, log.count, site_shared.scratch, &seen);
    assert_int_equal(count, log.count);
    for (int i = 1; i < count; i++) {
        const JackExpect e = jacking_expect(site_shared.day.plan, seen[i].force_N);
        assert_int_equal(seen[i].index, i);
        check_near(seen[i].opening_m, 1.03 * e.opening.expected_m, 1e-9, 1e-9, log_by_plan);
    }
}

static void test_more_readings_than_are_looked_at_are_sampled(void **state)
{
    (void)state;
    static SiteReading many[2000];
    Log log = {.slope_1 = 1};
    const SiteSeen *seen;
    log_climb(&log, 2);
    for (int i = 0; i < 2000; i++) {
        many[i] = log.r[i < log.count ? i : log.count - 1];
        many[i].struck = i % 3 == 2;
    }
    const int count = site_see(&site_shared.day, many, 2000, site_shared.scratch, &seen);
    assert_in_range(count, SITE_LOOK / 2, 2 * SITE_LOOK);
    for (int i = 1; i < count; i++) assert_true(seen[i].index > seen[i - 1].index);
    assert_int_equal(seen[count - 1].index, 1999);
}

static void test_degrees_are_taken_out_of_the_hold(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    SiteHold hold;
    const int step = 4;
    log_climb(&log, step);
    assert_false(site_hold(&site_shared.day, log.r, log.count, site_shared.scratch, &hold));
    log_hold(&log, step, 7, 0.013, 0, 1.7);
    assert_true(site_hold(&site_shared.day, log.r, log.count, site_shared.scratch, &hold));
    assert_int_equal(hold.step, step);
    assert_int_equal(hold.count, 7);
    const double force_N = site_shared.day.plan->step[step - 1].force_N;
    check_near(hold.from_N, force_N, 1e-9, 0, log_by_plan);
    for (int i = 0; i < 7; i++) {
        check_near(hold.point[i].after_day * 1440, 2.0 * i, 1e-9, 1e-9, log_by_plan);
        check_near(
            hold.point[i].still_N, force_N * (1 - 0.013 * i / 6.0), 2e-4, 0,
            "closed form: the fall without the degrees; stiffness at a force below the whole");
    }
    assert_true(hold.point[6].force_N > hold.point[6].still_N);
}

/* The line of the picture says the same as the verdict. */
static void test_below_the_line_of_the_hold_is_a_finding(void **state)
{
    (void)state;
    const int step = 4;
    const JackStep *s = &site_shared.day.plan->step[step - 1];
    for (int beyond = 0; beyond < 2; beyond++) {
        Log log = {.slope_1 = 1};
        SiteHold hold;
        log_climb(&log, step);
        log_hold(&log, step, 9, 0, 0, 0);
        assert_true(site_hold(&site_shared.day, log.r, log.count, site_shared.scratch, &hold));
        const double creep_N =
            s->drop_quick_N * pow(hold.point[8].after_day / s->hold_day,
                                  hold.point[8].after_day > s->hold_day ? 0.7 : 0.3);
        const double fall_N = creep_N + hold.beyond_N * (beyond ? 1.01 : 0.99);
        Log falls = {.slope_1 = 1};
        log_climb(&falls, step);
        log_hold(&falls, step, 9, fall_N / s->force_N, 0, 0);
        const SiteVerdict v = log_judged(&falls);
        assert_int_equal(log_found(&v, SITE_FALL) != NULL, beyond);
    }
}

static void test_the_last_reading_is_strong_and_the_struck_is_crossed(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 3);
    log.r[5].struck = log.r[6].struck = true;
    const FigureSite site = site_of(&log);
    const Figure *f = figure_site_force(&site, site_shared.scratch);
    assert_int_equal(items(f, FIGURE_DOT, FIGURE_GOVERNS), 1);
    assert_int_equal(items(f, FIGURE_DOT, FIGURE_SEEN), log.count - 3);
    assert_int_equal(items(f, FIGURE_POLYLINE, FIGURE_OPEN), 2 * 2 + 1); /* and the legend's */
    const FigureItem *last = item_last(f, FIGURE_DOT, FIGURE_GOVERNS);
    const FigureItem *before = item_last(f, FIGURE_DOT, FIGURE_SEEN);
    assert_true(last->point[0].x_px > before->point[0].x_px);
    assert_true(last->point[0].y_px < before->point[0].y_px);
    assert_true(last->point[0].x_px < 360 && last->point[0].y_px > 0);
    assert_int_equal(f->table->row_count, log.count);
    assert_string_equal(f->table->cell[0], "13");
    assert_string_equal(f->table->cell[(log.count - 1 - 5) * 7 + 2], "struck");
    assert_null(figure_site_hold(&site, site_shared.scratch));
}

/* Width of a picture that a typing error of a hundredfold leaves to the others. */
static void test_one_wild_reading_shrinks_no_picture(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 3);
    const FigureSite site = site_of(&log);
    const Figure *tame = figure_site_force(&site, site_shared.scratch);
    const double before_px = item_last(tame, FIGURE_DOT, FIGURE_SEEN)->point[0].x_px;
    log_gap(log_add(&log, 4, SITE_PUMP, site_shared.day.plan->step[3].force_N), 9.7);
    const FigureSite wild = site_of(&log);
    const Figure *f = figure_site_force(&wild, site_shared.scratch);
    assert_true(item_last(f, FIGURE_DOT, FIGURE_SEEN)->point[0].x_px > 0.6 * before_px);
}

static void test_a_hold_is_drawn_with_what_was_read(void **state)
{
    (void)state;
    Log log = {.slope_1 = 1};
    log_climb(&log, 4);
    log_hold(&log, 4, 6, 0.004, 0, 1.1);
    const FigureSite site = site_of(&log);
    const Figure *f = figure_site_hold(&site, site_shared.scratch);
    assert_non_null(f);
    assert_int_equal(items(f, FIGURE_DOT, FIGURE_SEEN), 5);
    assert_int_equal(items(f, FIGURE_DOT, FIGURE_GOVERNS), 1);
    assert_int_equal(items(f, FIGURE_DOT, FIGURE_MOMENT_1), 6 + 1); /* as read, and the ring */
    assert_non_null(item_last(f, FIGURE_POLYGON, FIGURE_BAND));
    assert_int_equal(f->table->row_count, 6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_all_readings_are_seen_in_order),
        cmocka_unit_test(test_more_readings_than_are_looked_at_are_sampled),
        cmocka_unit_test(test_degrees_are_taken_out_of_the_hold),
        cmocka_unit_test(test_below_the_line_of_the_hold_is_a_finding),
        cmocka_unit_test(test_the_last_reading_is_strong_and_the_struck_is_crossed),
        cmocka_unit_test(test_one_wild_reading_shrinks_no_picture),
        cmocka_unit_test(test_a_hold_is_drawn_with_what_was_read)};
    return cmocka_run_group_tests(tests, log_setup, log_teardown);
}
