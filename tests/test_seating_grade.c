/* seating without a bridge: vertical curves, cross slope, between readings, raise and tilt. */
#include "seating_case.h"

/* ---- the profile ---- */

/* Crest of 600 ft, +3.00 % to -2.40 %, PVI at 46+70, elevation 853.48: Ghilani and Wolf, Elementary
 * Surveying, example of equal-tangent curves (from memory; the printed two digits come out). */
static void test_vertical_curve_gives_handbook_elevations(void **state)
{
    (void)state;
    const GradePoint point[] = {{foot(4000), foot(853.48 - 670 * 0.03), 0},
                                {foot(4670), foot(853.48), foot(600)},
                                {foot(5200), foot(853.48 - 530 * 0.024), 0}};
    const Grade g = {.point_count = 3, .point = point};
    static const double station_ft[] = {4370, 4400, 4500, 4600, 4700, 4800, 4900, 4970};
    static const double printed_ft[] = {844.48, 845.34, 847.62, 849.00,
                                        849.48, 849.06, 847.74, 846.28};
    for (int i = 0; i < 8; i++)
        check_near(grade_elevation_m(&g, foot(station_ft[i])) / 0.3048, printed_ft[i], 0, 0.0051,
                   "Ghilani and Wolf, Elementary Surveying, equal-tangent crest (from memory)");
    check_near(grade_slope_1(&g, foot(4370 + 600 * 3 / 5.4)), 0, 0, 1e-12,
               "closed form: high point at g1 L / (g1 - g2)");
    check_near(grade_bend_per_m(&g, foot(4700)) * 0.3048, -0.054 / 600, 1e-9, 0,
               "closed form: (g2 - g1) / L");
    check_near((853.48 - grade_elevation_m(&g, foot(4670)) / 0.3048), 5.4 * 6 / 8, 1e-9, 0,
               "surveying handbooks: external distance A L / 800, L in ft, A in % (from memory)");
}

static void test_curve_meets_its_tangents(void **state)
{
    (void)state;
    const GradePoint point[] = {{0, 10, 0}, {137, 8.3, 81}, {311, 12.9, 150}, {523, 11.7, 0}};
    const Grade g = {.point_count = 4, .point = point};
    static const double end[] = {137 - 40.5, 137 + 40.5, 311 - 75, 311 + 75};
    for (int i = 0; i < 4; i++) {
        check_near(grade_elevation_m(&g, end[i] - 1e-7), grade_elevation_m(&g, end[i] + 1e-7), 0,
                   1e-7, "law: the profile is continuous");
        check_near(grade_slope_1(&g, end[i] - 1e-7), grade_slope_1(&g, end[i] + 1e-7), 0, 1e-9,
                   "law: tangents touch their curve");
    }
    check_near(grade_elevation_m(&g, -50), 10 + 50 * 1.7 / 137, 1e-12, 0,
               "closed form: the first tangent goes on");
    check_near(grade_elevation_m(&g, 600), 11.7 - 77 * 1.2 / 212, 1e-12, 0,
               "closed form: the last tangent goes on");
}

static void test_cross_slope_falls_from_the_crown(void **state)
{
    (void)state;
    const GradePoint point[] = {{0, 100, 0}, {1000, 100, 0}};
    Grade g = {.point_count = 2,
               .point = point,
               .line_m = -6.2,
               .crown_m = 1.4,
               .left_slope_1 = -0.021,
               .right_slope_1 = -0.034,
               .above_m = 0.013,
               .raise_m = 0.027,
               .tilt_1 = 0.001,
               .middle_m = 500};
    check_near(grade_across_m(&g, -6.2), 0, 0, 1e-15, "law: nothing on the profile's own line");
    check_near(grade_across_m(&g, 1.4), 0.021 * 7.6, 1e-12, 0, "closed form: slope times width");
    check_near(grade_across_m(&g, 5.9), 0.021 * 7.6 - 0.034 * 4.5, 1e-12, 0,
               "closed form: slope times width");
    check_near(grade_top_m(&g, 620, 1.4), 100 + 0.021 * 7.6 + 0.013 + 0.027 + 0.12, 1e-12, 0,
               "law: sum of profile, cross slope, surface, raise and tilt");
}

/* ---- between readings ---- */

static double cubic(double x) { return 2.1 - 0.37 * x + 0.049 * x * x - 0.0023 * x * x * x; }

static void test_between_is_exact_for_a_cubic(void **state)
{
    (void)state;
    double x[9], y[9];
    for (int i = 0; i < 9; i++) {
        x[i] = 1.7 * i + 0.21 * (i % 3);
        y[i] = cubic(x[i]);
    }
    for (int k = 0; k < 43; k++) {
        const double at = 0.317 * k;
        const Between b = survey_between(x, 9, at, true);
        double sum = 0;
        for (int i = 0; i < b.count; i++) sum += b.weight_1[i];
        check_near(sum, 1, 1e-12, 0, "law: weights add up to one");
        check_near(survey_value(&b, y), cubic(at), 0, 1e-11, "closed form: the cubic itself");
        check_near(survey_doubt(x, y, 9, at, true), 0, 0, 1e-11,
                   "closed form: both cubics are one");
    }
}

static void test_between_weights_are_lagranges(void **state)
{
    (void)state;
    static const double x[] = {0, 1, 2, 3, 4, 5};
    const Between b = survey_between(x, 6, 2.5, true);
    static const double wanted[] = {-1.0 / 16, 9.0 / 16, 9.0 / 16, -1.0 / 16};
    assert_int_equal(b.count, 4);
    assert_int_equal(b.index[0], 1);
    for (int i = 0; i < 4; i++)
        check_near(b.weight_1[i], wanted[i], 1e-12, 0,
                   "Abramowitz and Stegun 25.2.13, four points, p = 1/2");
    const Between line = survey_between(x, 6, 2.25, false);
    assert_int_equal(line.count, 2);
    check_near(line.weight_1[1], 0.25, 1e-12, 0, "closed form: straight");
}

/* The doubt of straight lines between points of a parabola is what they miss, h^2/8 f''. */
static void test_doubt_of_straight_lines_is_their_error(void **state)
{
    (void)state;
    double x[9], y[9];
    for (int i = 0; i < 9; i++) {
        x[i] = 3.1 * i;
        y[i] = 0.0047 * x[i] * x[i];
    }
    check_near(survey_doubt(x, y, 9, 4.5 * 3.1, false), 0.0047 * 3.1 * 3.1 / 4, 1e-9, 0,
               "closed form: h^2 f'' / 8");
}

/* ---- raise and tilt ---- */

static void test_raise_is_least_squares_where_there_is_room(void **state)
{
    (void)state;
    const AdjustPlace place[] = {
        {-10, 0.02, 0.03, 0.025}, {0, 0.04, 0.05, 0.045}, {10, 0.03, 0.04, 0.035}};
    const AdjustWish wish = {0.03, 0.1, 0.06, false};
    const AdjustAnswer a = seating_adjust(place, 3, &wish);
    assert_true(a.fits);
    check_near(a.raise_m, 0.06 - 0.035, 1e-12, 0, "closed form: mean of what is missing");
    const AdjustWish low = {0.03, 0.055, 0.06, false};
    check_near(seating_adjust(place, 3, &low).raise_m, 0.0075, 0, 1e-12,
               "law: what is too much is shared, 0.03 - 0.02 and 0.055 - 0.05");
    assert_false(seating_adjust(place, 3, &low).fits);
    const AdjustWish narrow = {0.03, 0.06, 0.06, false};
    const AdjustAnswer edge = seating_adjust(place, 3, &narrow);
    assert_true(edge.fits);
    check_near(edge.raise_m, 0.01, 0, 1e-12, "closed form: the only raise that fits");
}

static void test_tilt_is_the_regression(void **state)
{
    (void)state;
    AdjustPlace place[21];
    double dd = 0, dy = 0, mean = 0;
    for (int i = 0; i < 21; i++) {
        const double d = 3.7 * (i - 10), h = 0.05 + 0.0011 * d + 0.004 * sin(1.3 * i);
        place[i] = (AdjustPlace){d, h, h, h};
        dd += d * d;
        dy += d * h;
        mean += h / 21;
    }
    const AdjustWish wish = {0, 0.3, 0.05, true};
    const AdjustAnswer a = seating_adjust(place, 21, &wish);
    assert_true(a.fits);
    check_near(a.tilt_1, -dy / dd, 1e-5, 0, "closed form: slope of the regression");
    check_near(a.raise_m, 0.05 - mean, 0, 1e-8, "closed form: level of the regression");
    const AdjustWish level = {0.04, 0.08, 0.06, false}, turned = {0.04, 0.08, 0.06, true};
    assert_false(seating_adjust(place, 21, &level).fits);
    assert_true(seating_adjust(place, 21, &turned).fits);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_vertical_curve_gives_handbook_elevations),
        cmocka_unit_test(test_curve_meets_its_tangents),
        cmocka_unit_test(test_cross_slope_falls_from_the_crown),
        cmocka_unit_test(test_between_is_exact_for_a_cubic),
        cmocka_unit_test(test_between_weights_are_lagranges),
        cmocka_unit_test(test_doubt_of_straight_lines_is_their_error),
        cmocka_unit_test(test_raise_is_least_squares_where_there_is_room),
        cmocka_unit_test(test_tilt_is_the_regression),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
