/* Distribution of live load to girder lines, and temperature through the depth. */
#include <string.h>

#include "check.h"
#include "clench/traffic.h"

static const double in = 0.0254, ft = 0.3048, in4 = 0.0254 * 0.0254 * 0.0254 * 0.0254;

static DistributionFactors factors(Distribution d)
{
    DistributionFactors f;
    Error err;
    check_status(traffic_distribution(&d, &f, &err), STATUS_OK, &err);
    return f;
}

/* Feet, inches and inches^4. */
static Distribution girders(double S, double L, double ts, double Kg, int count)
{
    return (Distribution){.kind = CROSS_STEEL_I,
                          .span_m = L * ft,
                          .spacing_m = S * ft,
                          .deck_thickness_m = ts * in,
                          .stiffness_Kg_m4 = Kg * in4,
                          .girder_count = count,
                          .overhang_m = 3.9375 * ft,
                          .barrier_width_m = 1.4375 * ft,
                          .roadway_m = ((count - 1) * S + 2 * 2.5) * ft};
}

static void test_steel_girders_match_example(void **state)
{
    (void)state;
    const char *source =
        "FHWA NHI-04-041, steel I-girder example, from memory, confirmed by calculation";
    const DistributionFactors f = factors(girders(9.75, 120, 8, 818611, 5));
    check_near(f.interior_moment_one_1, 0.472, 0, 0.001, source);
    check_near(f.interior_moment_many_1, 0.696, 0, 0.001, source);
    check_near(f.interior_shear_one_1, 0.750, 0, 0.001, source);
    check_near(f.interior_shear_many_1, 0.935, 0, 0.001, source);
    check_near(f.interior_moment_1, f.interior_moment_many_1, 0, 0, "law: the larger governs");
    check_near(f.interior_shear_1, f.interior_shear_many_1, 0, 0, "law: the larger governs");
    assert_true(f.in_range && f.remark[0] == 0);
}

static void test_type_vi_matches_example(void **state)
{
    (void)state;
    const char *source =
        "FHWA NHI-04-043, type VI example: AASHTO LRFD 4.6.2.2 on inputs from memory";
    const double n = 1.225, A = 1085, I = 733320, eg = 39.62, Kg = n * (I + A * eg * eg);
    check_near(Kg, 2984703.5, 0, 0.5, source);
    Distribution d = girders(9.667, 110, 8, Kg, 6);
    d.kind = CROSS_CONCRETE_I;
    d.skew_rad = 20 * acos(-1) / 180;
    const DistributionFactors f = factors(d);
    check_near(f.interior_moment_one_1, 0.5423, 0, 0.001, source);
    check_near(f.interior_moment_many_1, 0.7958, 0, 0.001, source);
    check_near(f.interior_moment_1, 0.7958, 0, 0.001, source);
    check_near(f.interior_shear_one_1, 0.7467, 0, 0.001, source);
    check_near(f.interior_shear_many_1, 0.9293, 0, 0.001, source);
    check_near(f.skew_shear_1, 1.0466, 0, 0.0001, source);
    check_near(f.interior_shear_1, 0.9726, 0, 0.001, source);
    check_near(f.skew_moment_1, 1, 0, 0, "AASHTO LRFD table 4.6.2.2.2e-1: c1 = 0 below 30 degrees");
}

static void test_bulb_tee_matches_calculation(void **state)
{
    (void)state;
    const char *source = "closed form: AASHTO LRFD 4.6.2.2, computed apart from this program";
    const double n = 4887.7 / 3834.3, Kg = n * (545894 + 767 * 39.65 * 39.65);
    check_near(Kg, 2233003, 1e-4, 0, source);
    Distribution d = girders(9, 120, 7.5, 2233003, 6);
    d.kind = CROSS_CONCRETE_I;
    const DistributionFactors f = factors(d);
    check_near(f.interior_moment_one_1, 0.4988, 0, 0.001, source);
    check_near(f.interior_moment_many_1, 0.7318, 0, 0.001, source);
    check_near(f.interior_shear_one_1, 0.720, 0, 0.001, source);
    check_near(f.interior_shear_many_1, 0.8839, 0, 0.001, source);
}

/* de 2.5 ft, S 9.75 ft: wheels 0.5 ft outside and 5.5 ft inside the exterior girder. */
static void test_exterior_girder_takes_the_worst_rule(void **state)
{
    (void)state;
    const DistributionFactors f = factors(girders(9.75, 120, 8, 818611, 5));
    check_near(f.exterior_lever_1, 1.2 * (10.25 + 4.25) / 9.75 / 2, 1e-12, 0,
               "closed form: lever rule, AASHTO LRFD C4.6.2.2.1; 3.6.1.1.2");
    check_near(f.exterior_formula_1, (0.77 + 2.5 / 9.1) * f.interior_moment_many_1, 1e-12, 0,
               "AASHTO LRFD table 4.6.2.2.2d-1 (from memory)");
    check_near(f.exterior_shear_formula_1, (0.6 + 0.25) * f.interior_shear_many_1, 1e-12, 0,
               "AASHTO LRFD table 4.6.2.2.3b-1 (from memory)");
    assert_int_equal(f.lane_count, 3); /* 44 ft */
    const double X = 19.5, sum_x2 = 2 * (9.75 * 9.75 + 19.5 * 19.5), e = X + 2.5 - 5;
    const double one = 1.2 * (1 / 5.0 + X * e / sum_x2);
    const double two = 2 / 5.0 + X * (e + e - 12) / sum_x2;
    const double three = 0.85 * (3 / 5.0 + X * (e + e - 12 + e - 24) / sum_x2);
    check_near(f.exterior_rigid_1, fmax(one, fmax(two, three)), 1e-12, 0,
               "closed form: rigid cross-section, AASHTO LRFD C4.6.2.2.2d-1");
    check_near(f.exterior_moment_1, f.exterior_lever_1, 0, 0, "law: the largest governs");
    check_near(f.exterior_shear_1, f.exterior_lever_1, 0, 0, "law: the largest governs");
}

static void test_without_diaphragms_no_rigid_rule(void **state)
{
    (void)state;
    Distribution d = girders(7, 90, 8, 700000, 4);
    assert_true(factors(d).exterior_rigid_1 > 0.5);
    d.without_diaphragms = true;
    check_near(factors(d).exterior_rigid_1, 0, 0, 0,
               "AASHTO LRFD 4.6.2.2.2d: where diaphragms are");
}

/* S 8 ft: a truck with a wheel on the middle girder 1.2 (1 + 2/8)/2; two trucks, wheels 4 ft apart:
 * wheels at -4, 0 and 6 ft give (1/2 + 1 + 1/4)/2. */
static void test_three_girders_use_the_lever_rule(void **state)
{
    (void)state;
    const DistributionFactors f = factors(girders(8, 100, 8, 700000, 3));
    const char *source = "closed form: lever rule, deck hinged at the middle girder";
    check_near(f.interior_shear_one_1, 1.2 * (1 + 0.25) / 2, 1e-12, 0, source);
    check_near(f.interior_shear_many_1, (0.5 + 1 + 0.25) / 2, 1e-12, 0, source);
    const DistributionFactors four = factors(girders(8, 100, 8, 700000, 4));
    check_near(f.interior_moment_many_1, fmin(four.interior_moment_many_1, 0.875), 1e-12, 0,
               "AASHTO LRFD table 4.6.2.2.2b-1: the lesser of formula and lever rule");
    assert_true(f.in_range);
    assert_false(factors(girders(8, 100, 8, 700000, 2)).in_range);
}

static void test_boxes_match_formula(void **state)
{
    (void)state;
    const struct {
        int boxes, lanes;
        double roadway, factor;
    } row[] = {{2, 3, 40, 0.05 + 0.85 * 1.5 + 0.425 / 3},
               {3, 3, 40, 0.05 + 0.85 + 0.425 / 3},
               {2, 2, 28, 0.05 + 0.85 + 0.425 / 2}};
    for (int i = 0; i < 3; i++) {
        Distribution d = girders(14, 150, 9, 0, row[i].boxes);
        d.kind = CROSS_STEEL_BOX;
        d.overhang_m = 20 * ft;
        d.roadway_m = row[i].roadway * ft;
        const DistributionFactors f = factors(d);
        assert_int_equal(f.lane_count, row[i].lanes);
        check_near(f.interior_moment_1, row[i].factor, 1e-13, 0,
                   "AASHTO LRFD table 4.6.2.2.2b-1, steel boxes (from memory)");
        check_near(f.exterior_shear_1, f.interior_moment_1, 0, 0, "AASHTO LRFD 4.6.2.2.3a");
        check_near(f.interior_shear_one_1, 0.05 + 0.85 / row[i].boxes + 0.425, 1e-13, 0,
                   "AASHTO LRFD table 4.6.2.2.2b-1 with one lane (from memory)");
        assert_true(f.in_range);
    }
}

static void test_skewed_boxes_are_out_of_range(void **state)
{
    (void)state;
    Distribution d = girders(14, 150, 9, 0, 2);
    d.kind = CROSS_STEEL_BOX;
    d.overhang_m = 10 * ft;
    d.roadway_m = 26 * ft;
    assert_true(factors(d).in_range);
    d.skew_rad = 0.2;
    const DistributionFactors f = factors(d);
    assert_false(f.in_range);
    assert_non_null(strstr(f.remark, "skew"));
}

static void test_skew_over_thirty_degrees_lowers_moment(void **state)
{
    (void)state;
    Distribution d = girders(9, 120, 8, 900000, 5);
    const double ratio = 900000 / (12 * 120 * 512.0);
    const DistributionFactors straight = factors(d);
    for (int degrees = 30; degrees < 75; degrees += 15) {
        d.skew_rad = degrees * acos(-1) / 180;
        const DistributionFactors f = factors(d);
        const double tan_skew = fmin(tan(d.skew_rad), sqrt(3));
        const double c1 = 0.25 * pow(ratio, 0.25) * sqrt(9 / 120.0);
        check_near(f.skew_moment_1, 1 - c1 * pow(tan_skew, 1.5), 1e-12, 0,
                   "AASHTO LRFD table 4.6.2.2.2e-1 (from memory)");
        check_near(f.interior_moment_1, f.skew_moment_1 * straight.interior_moment_1, 1e-12, 0,
                   "law: one factor on all");
        check_near(f.exterior_lever_1, straight.exterior_lever_1, 1e-12, 0,
                   "law: the lever rule knows no skew");
        assert_int_equal(f.in_range, degrees <= 60);
    }
}

static void test_narrow_roadways_count_lanes(void **state)
{
    (void)state;
    const struct {
        double roadway;
        int lanes;
    } row[] = {{14, 1}, {19.9, 1}, {20, 2}, {23.9, 2}, {24, 2}, {35.9, 2}, {36, 3}, {48, 4}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        Distribution d = girders(12, 100, 8, 700000, 5);
        d.roadway_m = row[i].roadway * ft;
        const DistributionFactors f = factors(d);
        assert_int_equal(f.lane_count, row[i].lanes);
        if (row[i].lanes == 1)
            check_near(f.interior_moment_1, f.interior_moment_one_1, 0, 0,
                       "AASHTO LRFD 3.6.1.1.1: one lane alone");
    }
}

static void test_out_of_range_is_remarked(void **state)
{
    (void)state;
    const struct {
        double S, L, ts, Kg;
        const char *word;
    } row[] = {{17, 120, 8, 8e5, "spacing"},
               {9, 260, 8, 8e5, "span"},
               {9, 120, 13, 8e5, "thickness"},
               {9, 120, 8, 8e6, "Kg"}};
    for (size_t i = 0; i < sizeof row / sizeof row[0]; i++) {
        const DistributionFactors f = factors(girders(row[i].S, row[i].L, row[i].ts, row[i].Kg, 5));
        assert_false(f.in_range);
        assert_non_null(strstr(f.remark, row[i].word));
    }
    Distribution all = girders(17, 260, 13, 8e6, 2);
    all.overhang_m = 9 * ft;
    all.skew_rad = 1.2;
    const DistributionFactors f = factors(all);
    assert_true(strlen(f.remark) < sizeof f.remark - 1); /* all of it fits */
    assert_non_null(strstr(f.remark, "number of girders"));
}

static void test_bad_cross_section_is_refused(void **state)
{
    (void)state;
    Distribution bad[5];
    for (int i = 0; i < 5; i++) bad[i] = girders(9, 120, 8, 900000, 5);
    bad[0].span_m = 0;
    bad[1].girder_count = 1;
    bad[2].roadway_m = 60 * ft;
    bad[3].barrier_width_m = -1;
    bad[4].stiffness_Kg_m4 = 0;
    for (int i = 0; i < 5; i++) {
        DistributionFactors f = {.lane_count = -7};
        Error err;
        check_status(traffic_distribution(&bad[i], &f, &err), STATUS_BAD_INPUT, &err);
        assert_int_equal(f.lane_count, -7);
    }
}

/* ---- temperature ---- */

static void test_gradient_follows_table(void **state)
{
    (void)state;
    const double T1[] = {54, 46, 41, 38}, T2[] = {14, 12, 11, 9};
    const char *source = "AASHTO LRFD table 3.12.3-1, figure 3.12.3-2 (from memory)";
    for (int zone = 1; zone <= 4; zone++) {
        const Gradient g = traffic_gradient(zone, false, zone % 2, 62 * in);
        assert_int_equal(g.count, 3);
        const double depth[] = {0, 4, 16}, rise[] = {T1[zone - 1], T2[zone - 1], 0};
        const Gradient bare = traffic_gradient(zone, true, false, 62 * in);
        const Gradient paved = traffic_gradient(zone, true, true, 62 * in);
        for (int i = 0; i < 3; i++) {
            check_near(g.depth_m[i], depth[i] * in, 1e-13, 0, source);
            check_near(g.rise_K[i], rise[i] * 5 / 9, 1e-13, 0, source);
            check_near(bare.rise_K[i], -0.30 * rise[i] * 5 / 9, 1e-13, 0, source);
            check_near(paved.rise_K[i], -0.20 * rise[i] * 5 / 9, 1e-13, 0, source);
        }
    }
}

static void test_gradient_in_shallow_sections(void **state)
{
    (void)state;
    const double depth[] = {3, 8, 15, 16, 17}, A[] = {0, 4, 11, 12, 12}; /* in */
    for (int i = 0; i < 5; i++) {
        const Gradient g = traffic_gradient(1, false, false, depth[i] * in);
        check_near(g.depth_m[2], (4 + A[i]) * in, 1e-12, 0,
                   "AASHTO LRFD 3.12.3 (from memory): A = 12 in from 16 in on, else depth - 4 in");
    }
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_steel_girders_match_example),
        cmocka_unit_test(test_type_vi_matches_example),
        cmocka_unit_test(test_bulb_tee_matches_calculation),
        cmocka_unit_test(test_exterior_girder_takes_the_worst_rule),
        cmocka_unit_test(test_without_diaphragms_no_rigid_rule),
        cmocka_unit_test(test_three_girders_use_the_lever_rule),
        cmocka_unit_test(test_boxes_match_formula),
        cmocka_unit_test(test_skewed_boxes_are_out_of_range),
        cmocka_unit_test(test_skew_over_thirty_degrees_lowers_moment),
        cmocka_unit_test(test_narrow_roadways_count_lanes),
        cmocka_unit_test(test_out_of_range_is_remarked),
        cmocka_unit_test(test_bad_cross_section_is_refused),
        cmocka_unit_test(test_gradient_follows_table),
        cmocka_unit_test(test_gradient_in_shallow_sections),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
