/* Panels: jacks on them, closure, strips across the bridge, lifting, road, crane, ends
 * of the unit: worked figures on stated inputs and closed forms. */
#include "checks_case.h"
#include "data/jacks_oracle.h"

#include <string.h>

#include "../src/checks/strip.h"

static const char path[] = "tests/data/reference_deck.yaml";
static const double thrust_N = 2040 * 4448.2216152605; /* NIST SP 811 B.8 */
static const char stated[] = "arithmetic on stated inputs: 40 ft by 8.5 in, 2040 kip";

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

/* ---- jacks ---- */

/* 204 kip on 8 by 10 in: 2.55 ksi; 0.7 x 0.85 x 6 = 3.57 ksi; 25 kip of bursting at a/h = 0.5. */
static void test_bearing_and_bursting_of_a_jack(void **state)
{
    (void)state;
    ChecksCase c = with_more("jacks: {count: 10, plate_width: 10 in, plate_height: 8 in}\n");
    const CheckRow *row = checks_row(&c, "bearing of a jack on the panel", NULL);
    check_near(sheet_value(row->sheet, "P_j"), 204, 1e-9, 0, stated);
    check_near(sheet_value(row->sheet, "f_b") / 1.2, 2.55, 1e-9, 0, stated);
    check_near(6 * sheet_value(row->sheet, "f_r") / sheet_value(row->sheet, "f'c") /
                   sheet_value(row->sheet, "m"),
               3.57, 1e-9, 0, "AASHTO LRFD 5.6.5 (from memory), f'c 6 ksi, A2 = A1");
    check_near(sheet_value(row->sheet, "m"), 8.5 / 8, 1e-9, 0,
               "AASHTO LRFD 5.6.5 (from memory): depth over plate governs the spread");
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
    c = with_more("jacks: {count: 10, plate_width: 24 in, plate_height: 8 in}\n");
    check_near(sheet_value(sheet_of(&c, "bursting behind a jack"), "T_u") / 1.2, 25.5, 1e-9, 0,
               "AASHTO LRFD 5.9.5.6.5b (from memory): 0.25 P (1 - a/h)");
    /* through the depth: plate of 8 in in 8.5 in */
    const CheckRow *deep = checks_row(&c, "bursting behind a jack, through the depth", NULL);
    check_near(quantity_in(deep->demand, "kip"), 1.2 * 0.25 * 204 * (1 - 8 / 8.5), 1e-9, 0,
               "AASHTO LRFD 5.9.5.6.5b (from memory): 0.25 P (1 - a/h)");
    assert_int_equal(deep->state, CHECK_UNPROVEN);
    assert_non_null(strstr(deep->why, "panels.depth_bars"));
    checks_close(&c);
    /* 1.2 x 3 kip on 0.31 in^2 of 60 ksi */
    checks_from_example(&c, path, thrust_N, "gap: 6 ft}",
                        "gap: 6 ft, depth_bars: 0.31 in^2}\n"
                        "jacks: {count: 10, plate_width: 24 in, plate_height: 8 in}");
    deep = checks_row(&c, "bursting behind a jack, through the depth", NULL);
    check_near(quantity_in(deep->capacity, "kip"), 0.31 * 60, 1e-9, 0, "closed form: A f_y");
    assert_int_equal(deep->state, CHECK_PASS);
    checks_close(&c);
}

/* 2040 kip x 1 in over W t^2/6: 0.35 ksi; a quarter of an inch: 88 psi. */
static void test_height_of_the_jacks_is_the_most_sensitive(void **state)
{
    (void)state;
    ChecksCase c = with_more("jacks: {off_mid: 0.25 in}\n");
    const CheckRow *row = checks_row(&c, "height of the jacks", NULL);
    check_near(quantity_in(row->demand, "psi"), 88, 0, 0.5, stated);
    check_near(4 * quantity_in(row->demand, "ksi"), 0.35, 0, 0.005, stated);
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

/* Outer one of 10 at 18 ft: e = 2 ft, 0.15 ksi at the edge of 0.50. */
static void test_one_jack_out_bends_the_deck_in_its_plane(void **state)
{
    (void)state;
    ChecksCase c = with_more("jacks: {count: 10, rated: 330 kip}\n");
    const CheckRow *row = checks_row(&c, "an outer jack out: edge of the deck", NULL);
    check_near(sheet_value(row->sheet, "x_o"), 18 * 12, 1e-9, 0, stated);
    check_near(sheet_value(row->sheet, "e"), 24, 1e-9, 0, stated);
    check_near(quantity_in(row->demand, "ksi"), 0.15, 0, 0.0005, stated);
    check_near(quantity_in(row->capacity, "ksi"), 0.50, 1e-9, 0, stated);
    assert_int_equal(row->state, CHECK_PASS);
    row = checks_row(&c, "one jack out: force of the others", NULL);
    check_near(quantity_in(row->demand, "kip"), 1.5 * 2040 / 9, 1e-9, 0, stated); /* 340 */
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

/* Moment midway between supports of width b of a continuous beam: by sums over the free beam. */
static void test_edge_between_jacks_is_a_continuous_beam(void **state)
{
    (void)state;
    ChecksCase c = with_more("jacks: {count: 10, plate_width: 10 in}\n");
    const Sheet *s = sheet_of(&c, "edge of the panel between two jacks");
    const double P = sheet_value(s, "P_u"), a = 10, span = 48, p = P / span;
    /* fixed by symmetry at the plate's middle and midway; slope there zero: mean of M is zero */
    const int n = 20000;
    double sum = 0, shear = 0, moment = 0;
    for (int i = 0; i < n; i++) { /* from midway (M = 0 for now) to the plate's middle */
        const double x = (i + 0.5) * span / 2 / n, dx = span / 2 / n;
        const double up = x > span / 2 - a / 2 ? P / a : 0;
        shear += (up - p) * dx / 2;
        moment += shear * dx;
        shear += (up - p) * dx / 2;
        sum += moment / n;
    }
    check_near(sheet_value(s, "M"), -sum, 1e-3, 0, "closed form: continuous beam, by sums");
    checks_close(&c);
}

static const char plane_stress[] = "CalculiX ccx 2.20: tests/data/jacks_oracle.h";

/* Tension of the row over the force of one jack, factored as both are. */
static double tension_1(const ChecksCase *c, const char *name)
{
    const Sheet *s = sheet_of(c, name);
    return sheet_value(s, "T_u") / sheet_value(s, "P_u");
}

/* Largest bursting behind any jack, and the largest tension of the face between two: at most 1.45 and
 * 1.3 times what a plate in plane stress has, never less. */
static void test_tension_behind_jacks_is_no_less_than_in_plane_stress(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof jacks_ccx_deck / sizeof *jacks_ccx_deck; i++) {
        const double *row = jacks_ccx_deck[i];
        char more[128];
        snprintf(more, sizeof more, "jacks: {count: %.0f, plate_width: %.17g in}\n", row[1],
                 row[0] * 480 / row[1]);
        ChecksCase c = with_more(more);
        const double burst = tension_1(&c, "bursting behind a jack");
        const double edge = tension_1(&c, "edge of the panel between two jacks");
        if (burst < row[2] || burst > 1.45 * row[2])
            fail_msg("bursting, plate %g: %g, %s has %g", row[0], burst, plane_stress, row[2]);
        if (edge < row[3] || edge > 1.3 * row[3])
            fail_msg("face, plate %g: %g, %s has %g", row[0], edge, plane_stress, row[3]);
        checks_close(&c);
    }
}

static void test_tension_over_the_depth_is_no_less_off_the_middle(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof jacks_ccx_depth / sizeof *jacks_ccx_depth; i++) {
        const double *row = jacks_ccx_depth[i];
        char more[128];
        snprintf(more, sizeof more,
                 "jacks: {count: 10, plate_height: %.17g in, above_mid: %.17g in}\n", row[0] * 8.5,
                 row[1] * 8.5);
        ChecksCase c = with_more(more);
        const double burst = tension_1(&c, "bursting behind a jack, through the depth");
        if (burst < row[2] || burst > 1.45 * row[2])
            fail_msg("plate %g at %g: %g, %s has %g", row[0], row[1], burst, plane_stress, row[2]);
        checks_close(&c);
    }
}

/* ---- closure ---- */

static void test_closure_has_the_strength_of_its_age(void **state)
{
    (void)state;
    ChecksCase c = with_more("closure: {fraction: 50 %}\nconcrete: {closure: {strength: 8 ksi, "
                             "strength_alpha: 0.7 day, strength_beta: 0.98}}\n");
    const CheckRow *row = checks_row(&c, "strength of the closure at release", NULL);
    const double age = 3.8; /* one day to set, 2.8 to release */
    check_near(sheet_value(row->sheet, "t_r"), age, 1e-6, 0, "calendar of the defaults");
    check_near(quantity_in(row->capacity, "ksi"), 8 * age / (0.7 + 0.98 * age), 1e-9, 0,
               "ACI 209R-92 2.2.1: t/(alpha + beta t)");
    assert_int_equal(row->state, CHECK_PASS);
    row = checks_row(&c, "stress of the closure at release", NULL);
    /* half of the width carries what was 500 psi on average, less losses, plus its bending */
    assert_true(quantity_in(row->demand, "psi") > 800 && quantity_in(row->demand, "psi") < 1300);
    checks_close(&c);
}

/* ---- strips ---- */

static const char table[] = "AASHTO LRFD table A4-1 (whole table from memory)";

static double positive_at(double S_ft, Arena *arena)
{
    Sheet s = sheet_start("strip", arena);
    sheet_given(&s, "S", S_ft * 0.3048, "ft", "span");
    strip_positive(&s);
    assert_int_equal(s.status, STATUS_OK);
    return sheet_value(&s, "M_L");
}

static double negative_at(double S_ft, double x_in, Arena *arena)
{
    Sheet s = sheet_start("strip", arena);
    sheet_given(&s, "S", S_ft * 0.3048, "ft", "span");
    sheet_given(&s, "x", x_in * 0.0254, "in", "section");
    strip_negative(&s);
    assert_int_equal(s.status, STATUS_OK);
    return sheet_value(&s, "M_L");
}

static void test_table_of_strips_is_read_between_its_places(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)8 << 20);
    check_near(positive_at(4, arena), 4.68, 1e-9, 0, table);
    check_near(positive_at(8, arena), 5.69, 1e-9, 0, table);
    check_near(positive_at(15, arena), 9.47, 1e-9, 0, table);
    check_near(positive_at(9.5, arena), 6.29 + 0.45 * 0.5 / 0.75, 1e-9, 0, table);
    check_near(negative_at(8, 0, arena), 6.48, 1e-9, 0, table);
    check_near(negative_at(8, 4, arena), 5.65 - 0.84 / 3, 1e-9, 0, table);
    check_near(negative_at(12, 24, arena), 5.21, 1e-9, 0, table);
    check_near(negative_at(12, 30, arena), 5.21, 1e-9, 0, table);
    check_near(negative_at(8.5, 3, arena), (5.65 + 5.97) / 2, 1e-9, 0, table);
    assert_true(strip_covers(4 * 0.3048) && strip_covers(15 * 0.3048));
    assert_false(strip_covers(3.9 * 0.3048) || strip_covers(15.1 * 0.3048));
    arena_free(arena);
}

/* A continuous strip under 16 kip wheels, one truck x 1.2 or two, end spans 0.4 S, spread over the
 * widths of 4.6.2.1.3: not the model of the table, but never 3 % below it. */
static void test_table_is_not_above_plain_strips(void **state)
{
    static const double strip[12] = {4.72, 5.30, 5.68, 6.03, 6.32, 6.56,
                                     6.91, 7.46, 7.97, 8.49, 9.21, 9.89};
    (void)state;
    Arena *arena = arena_create((size_t)8 << 20);
    for (int S = 4; S <= 15; S++) {
        const double in_table = positive_at(S, arena);
        assert_true(strip[S - 4] >= 0.97 * in_table && strip[S - 4] <= 1.2 * in_table);
    }
    arena_free(arena);
}

/* S = 8 ft: 106.25 psf on a continuous strip, 0.68 kip ft/ft; 1.25 of it and 1.75 x 5.69. */
static void test_strip_between_girders_adds_up(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "gap: 6 ft",
                        "gap: 6 ft, bottom_bar: 0.31 in^2, bottom_bar_spacing: 6 in, "
                        "bottom_cover: 1 in");
    const CheckRow *row = checks_row(&c, "strip between girders, bottom bars", NULL);
    check_near(sheet_value(row->sheet, "M_D"), 0.68, 1e-9, 0, "arithmetic: 0.10625 x 8^2/10");
    check_near(sheet_value(row->sheet, "M_u"), 1.25 * 0.68 + 1.75 * 5.69, 1e-9, 0, table);
    /* As 0.62 in^2/ft, d 8.5 - 1 - 0.314, a = 0.62 x 60/(0.85 x 6 x 12) */
    const double d = 8.5 - 1 - sqrt(0.31 / 3.14159265), a = 0.62 * 60 / (0.85 * 6 * 12);
    check_near(sheet_value(row->sheet, "M_r"), 0.9 * 0.62 * 60 * (d - a / 2) / 12, 1e-6, 0,
               "AASHTO LRFD 5.6.3.2 (from memory)");
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

/* law: the steel that is said to be needed is just enough. */
static void test_needed_steel_is_just_enough(void **state)
{
    (void)state;
    ChecksCase c = with_more("");
    const Sheet *s = sheet_of(&c, "strip over a girder, top bars");
    const double A = sheet_value(s, "A_req"), d = sheet_value(s, "d_e");
    const double resist = 0.9 * A * 60 * (d - A * 60 / (0.85 * 6 * 12) / 2) / 12;
    check_near(resist, sheet_value(s, "M_u"), 1e-9, 0, "AASHTO LRFD 5.6.3.2 (from memory)");
    checks_close(&c);
}

static void test_overhang_has_its_strip(void **state)
{
    (void)state;
    ChecksCase c = with_more("loads: {barrier: 0.42 kip/ft, barrier_width: 1.5 ft}\n");
    const Sheet *s = sheet_of(&c, "overhang without collision, top bars");
    const double L = 4 - 4.0 / 12, X = L - 2.5; /* quarter of a 16 in flange */
    check_near(sheet_value(s, "b_s"), 45 + 10 * X, 1e-9, 0, "AASHTO LRFD 4.6.2.1.3 (from memory)");
    check_near(sheet_value(s, "M_D"), 0.42 * (L - 0.75) + 0.10625 * L * L / 2, 1e-9, 0,
               "closed form: cantilever");
    check_near(sheet_value(s, "M_L"), 1.2 * 1.33 * 16 * X / ((45 + 10 * X) / 12), 1e-9, 0,
               "AASHTO LRFD 3.6.1.2.2 (from memory)");
    checks_close(&c);
    checks_from_example(&c, path, thrust_N, "gap: 6 ft}",
                        "gap: 6 ft, top_bar: 0.44 in^2, top_bar_spacing: 4 in, top_cover: 2.5 in}");
    const CheckRow *row = checks_row(&c, "overhang without collision, top bars", NULL);
    assert_true(row->ratio_1 < 1);
    assert_int_equal(row->state, CHECK_UNPROVEN); /* collision usually governs */
    assert_non_null(strstr(row->why, "against the barrier"));
    checks_close(&c);
}

/* 0.44 in^2 at 4 in: 1.32 in^2/ft of 60 ksi, 79.2 kip/ft; beside a pull of 7 kip/ft the block has 72.2. */
static void test_overhang_is_stronger_than_the_barrier(void **state)
{
    static const char bars[] = "gap: 6 ft, top_bar: 0.44 in^2, top_bar_spacing: %s, "
                               "top_cover: 2.5 in}\nloads: {barrier_moment: %s, barrier_pull: %s}";
    static const char name[] = "overhang under a vehicle against the barrier";
    (void)state;
    char more[256];
    ChecksCase c;
    snprintf(more, sizeof more, bars, "4 in", "15 kip*ft/ft", "7 kip/ft");
    checks_from_example(&c, path, thrust_N, "gap: 6 ft}", more);
    const CheckRow *row = checks_row(&c, name, NULL);
    const double d = 8.5 - 2.5 - sqrt(4 * 0.44 / 3.14159265) / 2, a = 72.2 / (0.85 * 6 * 12);
    check_near(quantity_in(row->capacity, "kip"), (79.2 * (d - a / 2) - 7 * (8.5 / 2 - a / 2)) / 12,
               1e-6, 0, "law: equilibrium of a section with steel, block and a pull");
    const double L = 4 - 4.0 / 12;
    check_near(quantity_in(row->demand, "kip"), 15 + 0.42 * (L - 0.75) + 0.10625 * L * L / 2, 1e-9,
               0, "AASHTO LRFD A13.4.1 (from memory)");
    assert_int_equal(row->state, CHECK_PASS);
    assert_int_equal(checks_row(&c, "overhang without collision, top bars", NULL)->state,
                     CHECK_PASS);
    checks_close(&c);
    /* a pull above the yield force of the bars leaves nothing */
    snprintf(more, sizeof more, bars, "6 in", "15 kip*ft/ft", "60 kip/ft");
    checks_from_example(&c, path, thrust_N, "gap: 6 ft}", more);
    row = checks_row(&c, name, NULL);
    assert_true(row->capacity == 0);
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
    c = with_more("loads: {barrier_moment: 15 kip*ft/ft, barrier_pull: 7 kip/ft}\n");
    assert_int_equal(checks_row(&c, name, NULL)->state, CHECK_UNPROVEN); /* no bars */
    checks_close(&c);
}

/* With the block over all of d_e the section bears phi 0.85 f'c b d_e^2/2, whatever the steel. */
static void test_strip_that_is_too_thin_fails(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, path, thrust_N,
                        "thickness: 8.5 in, wearing_allowance: 0 in, haunch: 2 in}\npanels: {",
                        "thickness: 6 in, wearing_allowance: 0 in, haunch: 2 in}\n"
                        "panels: {top_cover: 4 in, ");
    const CheckRow *row = checks_row(&c, "strip over a girder, top bars", NULL);
    const double d = sheet_value(row->sheet, "d_e");
    check_near(sheet_value(row->sheet, "M_max"), 0.9 * 0.85 * 6 * 12 * d * d / 2 / 12, 1e-9, 0,
               "closed form: block over the whole depth");
    check_near(row->ratio_1, sheet_value(row->sheet, "M_u") / sheet_value(row->sheet, "M_max"),
               1e-9, 0, "law: no steel bears more");
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

static void test_strips_outside_the_table_prove_nothing(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, path, thrust_N, "count: 5\n  spacing: 8 ft",
                        "count: 2\n  spacing: 14 ft");
    const CheckRow *row = checks_row(&c, "strip between girders, bottom bars", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "three girders"));
    checks_close(&c);
}

/* ---- handling ---- */

/* 8 by 40 ft at 8.5 in and 150 pcf: 34 kip. Two points at 0.207: 0.0214 w L^2. */
static void test_weight_and_stress_of_a_panel_on_the_hook(void **state)
{
    static const char practice[] = "precast design handbook practice (from memory)";
    (void)state;
    ChecksCase c = with_more("handling: {points: 2, sling_degrees: 60, inset_across: 0.207, "
                             "stripping_strength: 3.5 ksi, crane: 70 kip, truck: 40 kip, "
                             "truck_width: 8.5 ft, insert: 75 kip}\n");
    const CheckRow *row = checks_row(&c, "panel lifted off the bed", NULL);
    const Sheet *s = row->sheet;
    check_near(sheet_value(s, "W"), 34, 1e-6, 0, stated);
    check_near(sheet_value(s, "m_a") / 2, 0.0107, 0, 0.0001, practice); /* of half the panel */
    check_near(sheet_value(s, "w_a") * 2 * 480, 1.5 * 34, 1e-9, 0, stated);
    check_near(quantity_in(row->capacity, "psi"), 5 * sqrt(3500), 1e-9, 0, practice);
    const double M = sheet_value(s, "m_a") * 1.5 * 34 / 2 * 480 +
                     1.5 * 34 / 4 / tan(60 * 3.14159265 / 180) * (8.5 / 2 + 3);
    const double width = 48 * (1 - 14.0 / 48);
    check_near(quantity_in(row->demand, "psi"), 1000 * M / (width * 8.5 * 8.5 / 6), 1e-8, 0,
               "closed form: beam with two overhangs");
    assert_int_equal(row->state, CHECK_FAIL); /* 40 ft on two points across crack */
    assert_int_equal(checks_row(&c, "weight of a panel on the road", NULL)->state, CHECK_PASS);
    assert_int_equal(checks_row(&c, "width of a panel on the road", NULL)->state, CHECK_PASS);
    /* 4 x 1.5 x 34/4/sin 60 = 58.9 kip; (1.25 x 34 + 2)/0.75 = 59.3 kip */
    row = checks_row(&c, "lifting inserts", NULL);
    check_near(quantity_in(row->demand, "kip"), 4 * 1.5 * 34 / 4 / sin(60 * 3.14159265 / 180), 1e-8,
               0, "29 CFR 1926.704: four times the load");
    assert_int_equal(row->state, CHECK_PASS);
    row = checks_row(&c, "crane", NULL);
    check_near(quantity_in(row->demand, "kip"), (1.25 * 34 + 2) / 0.75, 1e-8, 0, stated);
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

static void test_lifting_points_that_are_not_chosen_are_counted(void **state)
{
    (void)state;
    ChecksCase c = with_more("");
    const CheckRow *row = checks_row(&c, "panel lifted onto the girders", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "handling.points"));
    assert_true(row->ratio_1 <= 1);
    assert_int_equal(checks_row(&c, "width of a panel on the road", NULL)->state, CHECK_UNPROVEN);
    checks_close(&c);
}

/* ---- ends ---- */

/* 150 ft of steel, 60 degF: 6.5e-6 x 60 x 1800 in = 0.702 in, times 1.2, at both ends of a span half of the
 * length moves, all of it at the free end. */
static void test_ends_move_by_thrust_and_temperature(void **state)
{
    (void)state;
    ChecksCase c = with_more("ends: {clearance: 2 in, bearing: 2 in, rise: 60 delta_degF, "
                             "fall: 60 delta_degF}\n");
    const CheckRow *row = checks_row(&c, "movement at a bearing", NULL);
    check_near(sheet_value(row->sheet, "u_w"), 1.2 * 0.702, 1e-9, 0,
               "closed form: alpha T L, AASHTO LRFD 6.4.1 and table 3.4.1-1 (from memory)");
    assert_true(sheet_value(row->sheet, "u_t") > 0);
    assert_int_equal(row->state, CHECK_PASS);
    /* a girder that may lengthen holds nothing of the thrust: law of equilibrium, one fixed bearing */
    row = checks_row(&c, "held along the bridge while jacking", NULL);
    assert_int_equal(row->state, CHECK_TOLD);
    check_near(row->demand, 0, 0, 1, "law: equilibrium");
    checks_close(&c);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bearing_and_bursting_of_a_jack),
        cmocka_unit_test(test_height_of_the_jacks_is_the_most_sensitive),
        cmocka_unit_test(test_one_jack_out_bends_the_deck_in_its_plane),
        cmocka_unit_test(test_edge_between_jacks_is_a_continuous_beam),
        cmocka_unit_test(test_tension_behind_jacks_is_no_less_than_in_plane_stress),
        cmocka_unit_test(test_tension_over_the_depth_is_no_less_off_the_middle),
        cmocka_unit_test(test_closure_has_the_strength_of_its_age),
        cmocka_unit_test(test_table_of_strips_is_read_between_its_places),
        cmocka_unit_test(test_table_is_not_above_plain_strips),
        cmocka_unit_test(test_strip_between_girders_adds_up),
        cmocka_unit_test(test_needed_steel_is_just_enough),
        cmocka_unit_test(test_overhang_has_its_strip),
        cmocka_unit_test(test_overhang_is_stronger_than_the_barrier),
        cmocka_unit_test(test_strip_that_is_too_thin_fails),
        cmocka_unit_test(test_strips_outside_the_table_prove_nothing),
        cmocka_unit_test(test_weight_and_stress_of_a_panel_on_the_hook),
        cmocka_unit_test(test_lifting_points_that_are_not_chosen_are_counted),
        cmocka_unit_test(test_ends_move_by_thrust_and_temperature),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
