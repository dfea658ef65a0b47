/* The stress block of AASHTO LRFD 5.6.2.2 in every check that bends a section to its strength: 0.85 f'c up to
 * 10 ksi, 0.02 less for each ksi above, at least 0.75. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "checks_case.h"

static const double kip_N = 4448.2216152605; /* NIST SP 811 B.8 */
static const char block[] = "AASHTO LRFD 5.6.2.2, 8th edition (from memory); by hand";

typedef struct Strength {
    double fc_ksi, stress_1, depth_1;
} Strength;
static const Strength strong[] = {
    {10, 0.85, 0.65}, {12.5, 0.80, 0.65}, {15, 0.75, 0.65}, {18, 0.75, 0.65}};
enum { STRONG = 4 };

static const Sheet *sheet_of(const ChecksCase *c, const char *name)
{
    const CheckRow *row = checks_row(c, name, NULL);
    assert_non_null(row);
    return row->sheet;
}

static void check_block(const Sheet *s, const Strength *of)
{
    check_near(sheet_value(s, "f'k"), of->fc_ksi, 1e-9, 0, "as the file has it");
    check_near(sheet_value(s, "a_1"), of->stress_1, 1e-9, 0, block);
}

static double product(const Sheet *s, const char *a, const char *b, const char *c)
{
    return sheet_value(s, a) * sheet_value(s, b) * (c ? sheet_value(s, c) : 1);
}

/* Panels, closure, diaphragm and girder of one strength. */
static void tied_of(ChecksCase *c, double fc_ksi)
{
    char text[512];
    snprintf(text, sizeof text,
             "tie_yield: 75 ksi\nconcrete:\n  panel: {strength: %g ksi}\n"
             "  closure: {strength: %g ksi}\n  diaphragm: {strength: %g ksi}\n"
             "  girder: {strength: %g ksi}",
             fc_ksi, fc_ksi, fc_ksi, fc_ksi);
    checks_from_example(c, "examples/made-continuous.yaml", 3000 * kip_N, "tie_yield: 75 ksi",
                        text);
}

/* The axis was found with the same stress as the sheet prints: only then forces balance. */
static void test_ties_and_girders_of_strong_concrete(void **state)
{
    (void)state;
    static const char *const name[] = {"ties and diaphragm in negative moment",
                                       "ties and deck in positive moment at a pier",
                                       "pretensioned girder in negative moment"};
    for (int i = 0; i < STRONG; i++) {
        ChecksCase c;
        tied_of(&c, strong[i].fc_ksi);
        for (int k = 0; k < 3; k++) {
            const Sheet *s = sheet_of(&c, name[k]);
            const double area = k < 2 ? product(s, "b", "a", NULL) : sheet_value(s, "A_c");
            check_block(s, &strong[i]);
            check_near(sheet_value(s, "b_1"), strong[i].depth_1, 1e-9, 0, block);
            check_near(sheet_value(s, "C"), strong[i].stress_1 * strong[i].fc_ksi * area, 1e-9, 0,
                       block);
            check_near(sheet_value(s, "C"), sheet_value(s, "T"), 1e-6, 0, "law: equilibrium");
        }
        const Sheet *s = sheet_of(&c, "composite section in positive moment");
        check_block(s, &strong[i]);
        const double press = strong[i].stress_1 * strong[i].fc_ksi;
        const double pull = product(s, "A_ps", "f_pu", NULL);
        const double c_r = pull / (press * strong[i].depth_1 * sheet_value(s, "b") +
                                   sheet_value(s, "k") * pull / sheet_value(s, "d_p"));
        check_near(sheet_value(s, "c_r"), c_r, 1e-9, 0, "AASHTO LRFD 5.6.3.1.1; by hand");
        checks_close(&c);
    }
}

/* Steel girders under a deck of that strength. */
static void test_slab_and_strips_of_strong_concrete(void **state)
{
    (void)state;
    static const char *const strip[] = {"strip over a girder, top bars",
                                        "strip between girders, bottom bars",
                                        "overhang without collision, top bars"};
    for (int i = 0; i < STRONG; i++) {
        ChecksCase c;
        char text[256];
        snprintf(text, sizeof text, "closure: {strength: %g ksi}\n  panel: {strength: %g ksi}",
                 strong[i].fc_ksi, strong[i].fc_ksi);
        checks_from_example(&c, "examples/steel-continuous.yaml", 3000 * kip_N,
                            "panel: {strength: 7 ksi}", text);
        const Sheet *s = sheet_of(&c, "composite section in positive moment");
        check_block(s, &strong[i]);
        const double press = strong[i].stress_1 * strong[i].fc_ksi;
        check_near(sheet_value(s, "P_s"), press * product(s, "b", "t", NULL), 1e-9, 0, block);
        for (int k = 0; k < 3; k++) {
            s = sheet_of(&c, strip[k]);
            check_block(s, &strong[i]);
            check_near(sheet_value(s, "k_f"), press * 12 / sheet_value(s, "f_y"), 1e-9, 0, block);
        }
        checks_close(&c);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_ties_and_girders_of_strong_concrete),
        cmocka_unit_test(test_slab_and_strips_of_strong_concrete),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
