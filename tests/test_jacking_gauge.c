/* Force and pressure of jacks, and the push of a deck, against handbook figures. */
#include <string.h>

#include "jacking_case.h"

static void test_generic_sizes_are_pressure_times_area(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double area_in2, kip, ton;
    } row[] = {{"10 ton", 2.24, 22.4, 10},     {"25 ton", 5.16, 51.6, 25},
               {"50 ton", 11.05, 110.5, 50},   {"75 ton", 15.90, 159.0, 75},
               {"100 ton", 20.63, 206.3, 100}, {"150 ton", 30.68, 306.8, 150},
               {"200 ton", 41.28, 412.8, 200}, {"250 ton", 56.75, 567.5, 250},
               {"400 ton", 86.59, 865.9, 400}, {"500 ton", 113.10, 1131.0, 500}};
    assert_int_equal(bridge_jack_size_count(), sizeof row / sizeof *row);
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        const JackSize *size = bridge_jack_size((int)i);
        const JackGear gear = {.count = 1, .slope_m2 = size->area_m2};
        const double force_N = jack_force_N(&gear, ksi(10));
        assert_string_equal(size->name, row[i].name);
        check_near(size->area_m2, row[i].area_in2 * inch(1) * inch(1), 1e-12, 0,
                   "generic trade sizes (from memory)");
        check_near(force_N, kip(row[i].kip), 1e-4, 0, "closed form: pressure times area");
        check_near(size->rated_N, kip(2 * row[i].ton), 1e-12, 0, "2 kip a ton");
        assert_true(force_N > size->rated_N); /* the rated force is the safe side */
        check_near(jack_pressure_Pa(&gear, force_N), ksi(10), 1e-12, 0, "law: inverse");
    }
}

static void test_calibration_line_goes_before_area_and_friction(void **state)
{
    (void)state;
    Case c;
    open_plan(&c, kip(3072),
              (const char *[]){jacking_span, jacking_rigid_shims,
                               "jacks: {count: 8, size: 200 ton, calibration_zero: -3.5 kip, "
                               "calibration_slope: 40.7 in^2, certificate: K-17}\n"},
              3);
    /* (384 + 3.5) / 40.7 = 9.5209 ksi */
    check_near(whole(c.plan)->pressure_Pa, ksi(387.5 / 40.7), 1e-12, 0, "closed form");
    check_near(8 * jack_force_N(&c.plan->gear, whole(c.plan)->pressure_Pa), kip(3072), 1e-12, 0,
               "law: inverse");
    assert_string_equal(c.plan->gear.certificate, "K-17");
    close_plan(&c);
}

/* Accuracy 1 % of 10,000 psi on 8 jacks of 41.28 in^2. */
static void test_gauge_of_grade_1A_carries_33_kip(void **state)
{
    (void)state;
    const JackGear gear = {
        .count = 8, .slope_m2 = 41.28 * inch(1) * inch(1), .range_Pa = ksi(10), .accuracy_1 = 0.01};
    check_near(jack_force_error_N(&gear, kip(3000)), kip(33.0), 0, kip(0.05),
               "ASME B40.100 (from memory), grade 1A");
    const JackGear off = {.count = 8, .slope_m2 = 0.01, .off_1 = 0.02};
    check_near(jack_force_error_N(&off, kip(3000)), kip(60), 1e-12, 0, "closed form");
}

/* ---- the push of a deck: 0.80 ksi, 100 ft, friction 0.30 ---- */

static void test_deck_push_of_hand_calculation(void **state)
{
    (void)state;
    static const char law[] =
        "closed form: deck of 40 ft by 8 in under 0.80 ksi, 100 ft, E 4696 ksi";
    Case c;
    open_plan(
        &c, kip(3072),
        (const char *[]){jacking_span, "shims: {friction: 0.3, friction_least: 0.3}\n", jacking_8},
        3);
    const CheckRow *row = row_named(c.plan, "the deck's own shortening");
    check_near(sheet_value(row->sheet, "H"), 120, 0, 0.05, law);
    check_near(row->demand, 2 * inch(0.2004), 0, 2 * inch(1e-4), law); /* two halves */
    check_near(whole(c.plan)->pressure_Pa / 6894.757293168361, 9302, 0, 1, law);
    close_plan(&c);
    open_plan(&c, kip(3072),
              (const char *[]){jacking_span, jacking_rigid_shims,
                               "jacks: {count: 20, size: 100 ton, bore_friction: 0}\n"},
              3);
    row = row_named(c.plan, "the deck's own shortening");
    check_near(row->demand, 2 * inch(0.2044), 0, 2 * inch(1e-4), law);
    check_near(whole(c.plan)->pressure_Pa / 6894.757293168361, 7445, 0, 1, law);
    close_plan(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_generic_sizes_are_pressure_times_area),
        cmocka_unit_test(test_calibration_line_goes_before_area_and_friction),
        cmocka_unit_test(test_gauge_of_grade_1A_carries_33_kip),
        cmocka_unit_test(test_deck_push_of_hand_calculation),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
