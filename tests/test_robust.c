/* Robust lines, fits and quantiles against scipy on the same data; what wild values may not do. */
#include <string.h>

#include "check.h"
#include "clench/numeric.h"
#include "data/robust_oracle.h"

static const char scipy[] = "scipy 1.10.1, stored by tools/oracle/robust_scipy.py";

enum { CASES = sizeof robust_case / sizeof *robust_case };

static void test_lines_agree_with_scipy(void **state)
{
    (void)state;
    for (int i = 0; i < CASES; i++) {
        const RobustCase *c = &robust_case[i];
        RobustLine line;
        assert_true(robust_line(c->n, c->x, c->y, 0.95, &line));
        check_near(line.slope, c->slope, 1e-12, 0, scipy);
        check_near(line.level, c->level, 1e-12, 1e-12, scipy);
        check_near(line.low, c->low, 1e-12, 0, scipy);
        check_near(line.high, c->high, 1e-12, 0, scipy);
        assert_true(line.bounded);
    }
}

static void test_medians_and_spreads_agree_with_scipy(void **state)
{
    (void)state;
    for (int i = 0; i < CASES; i++) {
        const RobustCase *c = &robust_case[i];
        double y[ROBUST_LINE_MAX];
        memcpy(y, c->y, sizeof y);
        check_near(robust_median(c->n, y), c->median, 1e-14, 0, scipy);
        memcpy(y, c->y, sizeof y);
        check_near(robust_spread(c->n, y), c->spread, 1e-12, 0, scipy);
    }
}

static void test_huber_fits_agree_with_scipy(void **state)
{
    (void)state;
    for (int i = 0; i < CASES; i++) {
        const RobustCase *c = &robust_case[i];
        double x[2 * ROBUST_LINE_MAX];
        RobustFit fit;
        for (int k = 0; k < c->n; k++) {
            x[(size_t)2 * (size_t)k] = 1;
            x[(size_t)2 * (size_t)k + 1] = c->x[k];
        }
        assert_true(robust_fit(c->n, 2, x, c->y, 0, &fit));
        check_near(fit.value[0], c->huber_level, 1e-7, 1e-7, scipy);
        check_near(fit.value[1], c->huber_slope, 1e-7, 0, scipy);
        check_near(fit.spread, c->huber_spread, 1e-6, 0, scipy);
        check_near(sqrt(fit.covariance[0][0]), c->huber_level_off, 1e-6, 0, scipy);
        check_near(sqrt(fit.covariance[1][1]), c->huber_slope_off, 1e-6, 0, scipy);
        assert_int_equal(fit.freedom, c->n - 2);
    }
}

static void test_quantiles_agree_with_scipy(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof robust_quantile / sizeof *robust_quantile; i++) {
        const double share_1 = robust_quantile[i][0], freedom_1 = robust_quantile[i][1];
        if (freedom_1 == 0) {
            check_near(normal_quantile(share_1), robust_quantile[i][2], 1e-12, 1e-13, scipy);
            check_near(normal_share(robust_quantile[i][2]), share_1, 1e-12, 0, scipy);
        } else if (share_1 > 0.01 && share_1 < 0.99) {
            check_near(student_quantile(share_1, freedom_1), robust_quantile[i][2], 3e-3, 0, scipy);
        } else { /* the series' own error, 5 degrees at 0.1 %: 2.6 % too small */
            check_near(student_quantile(share_1, freedom_1), robust_quantile[i][2], 3e-2, 0, scipy);
        }
    }
}

/* A fifth of the values thrown anywhere leaves the slope within the spread of the rest. */
static void test_wild_values_do_not_turn_a_line(void **state)
{
    (void)state;
    double x[25], y[25], rows[50];
    RobustLine line;
    RobustFit fit;
    for (int i = 0; i < 25; i++) {
        x[i] = 0.31 * i;
        y[i] = 2.17 + 0.83 * x[i] + (i % 5 == 3 ? 1e6 : 0.001 * (i % 3 - 1));
        rows[(size_t)2 * (size_t)i] = 1;
        rows[(size_t)2 * (size_t)i + 1] = x[i];
    }
    assert_true(robust_line(25, x, y, 0.95, &line));
    check_near(line.slope, 0.83, 0, 1e-3, "law: breakdown of the median of slopes is 29 %");
    assert_true(robust_fit(25, 2, rows, y, 0, &fit));
    check_near(fit.value[1], 0.83, 0, 2e-3, "law: Huber's influence is bounded");
}

static void test_exact_and_degenerate_data(void **state)
{
    (void)state;
    const double x[] = {1, 2, 3, 4}, y[] = {3.5, 5.5, 7.5, 9.5}, same[] = {2, 2, 2, 2};
    const double rows[] = {1, 1, 1, 2, 1, 3, 1, 4}, twice[] = {1, 2, 1, 2, 1, 2, 1, 2};
    RobustLine line;
    RobustFit fit;
    assert_true(robust_line(4, x, y, 0.95, &line));
    check_near(line.slope, 2, 1e-15, 0, "closed form: a line");
    check_near(line.level, 1.5, 1e-15, 0, "closed form: a line");
    assert_false(line.bounded); /* four values bound nothing at 95 % */
    assert_false(robust_line(4, same, y, 0.95, &line));
    assert_true(robust_fit(4, 2, rows, y, 0, &fit));
    check_near(fit.value[1], 2, 1e-12, 0, "closed form: a line");
    assert_false(robust_fit(4, 2, twice, y, 0, &fit));
    assert_true(robust_fit(4, 2, rows, y, 0.2, &fit)); /* the least spread is what readings show */
    assert_true(fit.spread == 0.2);
    const double alike[] = {3.1, 3.1, 3.1, 3.1}, paired[] = {0.7, 0.7, 1.9, 1.9};
    assert_true(robust_line(4, paired, alike, 0.99, &line)); /* ties in both */
    check_near(line.low, 0, 0, 0, "law: equal values have no slope");
    check_near(line.high, 0, 0, 0, "law: equal values have no slope");
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_lines_agree_with_scipy),
        cmocka_unit_test(test_medians_and_spreads_agree_with_scipy),
        cmocka_unit_test(test_huber_fits_agree_with_scipy),
        cmocka_unit_test(test_quantiles_agree_with_scipy),
        cmocka_unit_test(test_wild_values_do_not_turn_a_line),
        cmocka_unit_test(test_exact_and_degenerate_data),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
