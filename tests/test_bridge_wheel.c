/* Local bending under a wheel across a joint: closed form against a double series and solids. */
#include "bridge_file.h"
#include "data/wheel_oracle.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Independent of the closed form in the code: Navier's double series for a long rectangle under a
 * load on a square patch of side u = c/0.57 (Timoshenko and Woinowsky-Krieger, from memory). */
static double navier_moment_1(double a, double y, double u)
{
    const double pi = 3.14159265358979323846, b = 8 * a, nu = 0.2;
    double sum = 0;
    for (int m = 1; m < 400; m += 2)
        for (int n = 1; n < 2400; n += 2) {
            const double p = m / a, q = n / b;
            const double load = 16 / (pi * pi * m * n * u * u) * sin(m * pi / 2) * sin(n * pi / 2) *
                                sin(m * pi * u / (2 * a)) * sin(n * pi * u / (2 * b));
            const double shape = sin(m * pi / 2) * sin(n * pi * (b / 2 + y) / b);
            sum += load * (q * q + nu * p * p) / (pi * pi * pow(p * p + q * q, 2)) * shape;
        }
    return sum;
}

static void test_wheel_bending_agrees_with_a_double_series(void **state)
{
    (void)state;
    BridgeFile file;
    Error err = {0};
    int count = 0;
    const BridgeLine *line = NULL;
    bridge_from_example(&file, "examples/causeway.yaml");
    check_status(bridge_lines(file.bridge, 1, file.arena, &line, &count, &err), STATUS_OK, &err);
    const double a = 102, h = 8, patch = sqrt(200 / 3.14159265358979323846); /* in */
    const double c = sqrt(1.6 * patch * patch + h * h) - 0.675 * h;
    const double wheel = 16 * 1.33 / (h * h / 6) * 1000; /* psi per moment of 1 */
    check_near(quantity_in(line->joint[3].wheel_bottom_Pa, "psi"),
               1.2 * wheel * navier_moment_1(a, 0, c / 0.57), 0.01, 0,
               "closed form: Navier's series");
    check_near(quantity_in(line->joint[3].wheel_top_Pa, "psi"), wheel * 0.2 * 10.5 / 32, 1e-9, 0,
               "AASHTO Standard Specifications 3.24.3.1 (from memory), law: My = nu Mx");
    bridge_close(&file);
}

/* Stress at soffit and top under a wheel, as a moment over the wheel, in a bridge of these inches. */
static void wheel_moments(double spacing, double overhang, double thickness, double *under,
                          double *over)
{
    char small[2048], wide[2048], more[128], fresh[128];
    BridgeFile file;
    const BridgeLine *line = NULL;
    int count = 0;
    Error err = {0};
    snprintf(more, sizeof more, "deck: {thickness: %.17g in, wearing_allowance: 0 in}\n",
             thickness);
    snprintf(fresh, sizeof fresh, "spacing: %.17g in\n  overhang: %.17g in", spacing, overhang);
    bridge_replace(bridge_small(more, small, sizeof small), "spacing: 8.5 ft", fresh, wide,
                   sizeof wide);
    bridge_from_text(&file, wide);
    check_status(file.status, STATUS_OK, &err);
    check_status(bridge_lines(file.bridge, 1, file.arena, &line, &count, &err), STATUS_OK, &err);
    const double unit = thickness * thickness / 6 / (16 * 1.33);
    *under = quantity_in(line->joint[0].wheel_bottom_Pa, "ksi") * unit;
    *over = quantity_in(line->joint[0].wheel_top_Pa, "ksi") * unit;
    bridge_close(&file);
}

static const char solids[] = "CalculiX ccx 2.20: tests/data/wheel_oracle.h";

/* One bay on two edges is what the closed form assumes, but for the presence factor. */
static void test_wheel_on_one_bay_agrees_with_solids(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof wheel_ccx_strip / sizeof *wheel_ccx_strip; i++) {
        const double *row = wheel_ccx_strip[i];
        double under, over;
        wheel_moments(row[0], 42, row[1], &under, &over);
        check_near(under / 1.2, row[2], 0.03, 0, solids);
    }
}

/* Whole decks with all wheels of a truck, or of two beside each other: never less, at the soffit at most
 * 16 % more, at the top at most 45 % more. */
static void test_wheels_on_a_deck_open_no_more_than_estimated(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof wheel_ccx_deck / sizeof *wheel_ccx_deck; i++) {
        const double *row = wheel_ccx_deck[i];
        double under, over;
        wheel_moments(row[0], row[1], row[2], &under, &over);
        if (under < row[3] || under > 1.16 * row[3])
            fail_msg("soffit at %g in: %g, %s has %g", row[0], under, solids, row[3]);
        if (over < row[4] || over > 1.45 * row[4])
            fail_msg("top at %g in: %g, %s has %g", row[0], over, solids, row[4]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_wheel_bending_agrees_with_a_double_series),
        cmocka_unit_test(test_wheel_on_one_bay_agrees_with_solids),
        cmocka_unit_test(test_wheels_on_a_deck_open_no_more_than_estimated),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
