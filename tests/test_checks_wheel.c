/* Wheel on a joint: the row, and the moment against a plate's double series. */
#include "checks_case.h"

#include <string.h>

static const char path[] = "tests/data/reference_deck.yaml";
static const double thrust_N = 2040 * 4448.2216152605; /* NIST SP 811 B.8 */

static ChecksCase with_more(const char *more)
{
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "# more", more);
    return c;
}

static const Sheet *sheet_of(const ChecksCase *c, const char *name)
{
    const CheckRow *row = checks_row(c, name, NULL);
    assert_non_null(row);
    return row->sheet;
}

/* The sheet prints what the bridge computes for its joints. */
static void test_wheel_on_a_joint_is_worked_out(void **state)
{
    (void)state;
    ChecksCase c = with_more("criteria: {joints: [permanent and wheel]}\n");
    const CheckRow *row = checks_row(&c, "wheel on a joint", NULL);
    check_near(row->demand, c.answer->line[0].line->joint[0].wheel_bottom_Pa, 1e-9, 0,
               "law: one estimate, worked out twice");
    assert_int_equal(row->state, row->demand > row->capacity * 1.001 ? CHECK_FAIL : CHECK_PASS);
    checks_close(&c);
    c = with_more("");
    row = checks_row(&c, "wheel on a joint", NULL);
    /* a limit that is exceeded fails although no rule counts the wheel */
    assert_int_equal(row->state, row->ratio_1 > 1.001 ? CHECK_FAIL : CHECK_UNPROVEN);
    if (row->why) assert_non_null(strstr(row->why, "criteria.joints"));
    checks_close(&c);
    checks_from_example(&c, "examples/single-tub.yaml", 0, NULL, NULL);
    row = checks_row(&c, "wheel on a joint", NULL);
    assert_true(row->ratio_1 > 1.001);
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

/* Moment along a simply supported strip of width a under a patch u (across) by v at its middle, over the
 * load: Navier's double series, Poisson's ratio 0.2, 8 a long. */
static double navier(double a, double u, double v)
{
    const double pi = 3.14159265358979323846, b = 8 * a;
    double sum = 0;
    for (int m = 1; m < 600; m += 2)
        for (int n = 1; n < 4800; n += 2) {
            const double p =
                16 / (pi * pi * m * n * u * v) * sin(m * pi * u / 2 / a) * sin(n * pi * v / 2 / b);
            const double x = m * m / (a * a), y = n * n / (b * b);
            sum += p / (pi * pi) * (y + 0.2 * x) / ((x + y) * (x + y));
        }
    return sum; /* at the middle sin(m pi/2)^2 = sin(n pi/2)^2 = 1 */
}

/* The closed form of the estimate has a circle; the real patch, as much wider as Westergaard makes the
 * circle, gives 2 % more. */
static void test_moment_under_the_wheel_is_that_of_a_plate(void **state)
{
    (void)state;
    ChecksCase c = with_more("");
    const Sheet *s = sheet_of(&c, "wheel on a joint");
    const double wider = sheet_value(s, "c_w") / sheet_value(s, "c_0");
    check_near(sheet_value(s, "m_y"), navier(sheet_value(s, "S"), 20 * wider, 10 * wider), 0.03, 0,
               "closed form: Navier's double series of a simply supported plate");
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_wheel_on_a_joint_is_worked_out),
        cmocka_unit_test(test_moment_under_the_wheel_is_that_of_a_plate),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
