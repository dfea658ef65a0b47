/* Panels: lengths, shapes, casting, closing. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"
#include "draw.h"

#include "clench/panel.h"

static const double ft = 0.3048, in = 0.0254, kip = 4448.2216152605;

static int set_up(void **state)
{
    *state = arena_create((size_t)1 << 28);
    return 0;
}
static int tear_down(void **state)
{
    arena_free(*state);
    return 0;
}

/* ---- shape ---- */

static PanelShape square_shape(double length_m, double width_m, double thickness_m)
{
    return (PanelShape){.right_m = length_m,
                        .from_z_m = -width_m / 2,
                        .to_z_m = width_m / 2,
                        .edge_m = thickness_m,
                        .half_m = width_m / 2};
}

/* Trade figure: 8.5 in at 150 pcf is 106 psf, 8 x 40 ft weighs 34 kip, 10 x 40 ft 42.5 kip. */
static void test_square_panel_has_the_weight_of_its_box(void **state)
{
    (void)state;
    const double pcf = 157.08746;
    PanelShape s = square_shape(8 * ft, 40 * ft, 8.5 * in);
    PanelBody b = panel_body(&s, NULL, 0);
    check_near(b.gross_m3 * 150 * pcf / kip, 34, 0, 0.05, "closed form: 8 x 40 ft, 106.25 psf");
    check_near(b.net_x_m, 4 * ft, 1e-12, 0, "law: symmetry");
    check_near(b.net_z_m, 0, 0, 1e-12, "law: symmetry");
    check_near(b.haul_m, 8 * ft, 1e-12, 0, "closed form: rectangle");
    check_near(b.diagonal_1_m, hypot(8, 40) * ft, 1e-12, 0, "closed form: rectangle");
    s = square_shape(10 * ft, 40 * ft, 8.5 * in);
    b = panel_body(&s, NULL, 0);
    check_near(b.gross_m3 * 150 * pcf / kip, 42.5, 0, 0.05, "closed form: 10 x 40 ft");
}

/* Left edge skewed, right one square: a trapezoid, a long side, b short side, across B. Its centroid
 * lies B (a + 2 b)/(3 (a + b)) from the long side, and (a^2 + a b + b^2)/(3 (a + b)) from the square
 * edge. */
static void test_end_panel_of_a_skewed_deck_is_a_trapezoid(void **state)
{
    (void)state;
    const double B = 12.192, L = 6.23, slope = 0.371;
    PanelShape s = square_shape(L, B, 0.22);
    s.left_slope_1 = slope;
    const PanelBody body = panel_body(&s, NULL, 0);
    const double a = L + slope * B / 2, b = L - slope * B / 2;
    check_near(body.longest_m, a, 1e-12, 0, "closed form: trapezoid");
    check_near(body.shortest_m, b, 1e-12, 0, "closed form: trapezoid");
    check_near(body.area_m2, (a + b) / 2 * B, 1e-12, 0, "closed form: trapezoid");
    check_near(body.net_z_m, B * (a + 2 * b) / (3 * (a + b)) - B / 2, 1e-12, 0,
               "closed form: centroid of a trapezoid, from its long side at z = -B/2");
    check_near(L - body.net_x_m, (a * a + a * b + b * b) / (3 * (a + b)), 1e-12, 0,
               "closed form: centroid of a right trapezoid");
    check_near(body.left_edge_m, B * sqrt(1 + slope * slope), 1e-12, 0, "closed form");
    assert_true(panel_pinched(&s, b + 0.01));
    assert_false(panel_pinched(&s, b - 0.01));
}

static void test_skewed_panel_travels_square_to_its_joints(void **state)
{
    (void)state;
    const double skew_rad = 0.347, L = 2.385, B = 11.3;
    PanelShape s = square_shape(L, B, 0.21);
    s.left_slope_1 = s.right_slope_1 = tan(skew_rad);
    const PanelBody body = panel_body(&s, NULL, 0);
    check_near(body.area_m2, L * B, 1e-12, 0, "closed form: parallelogram");
    check_near(body.net_x_m, L / 2, 1e-12, 0, "law: symmetry");
    check_near(body.net_z_m, 0, 0, 1e-12, "law: symmetry");
    check_near(body.haul_m, L * cos(skew_rad), 1e-12, 0, "closed form: height of a parallelogram");
    const double x = L + B * tan(skew_rad), y = L - B * tan(skew_rad);
    check_near(body.diagonal_1_m, hypot(x, B), 1e-12, 0, "closed form: parallelogram");
    check_near(body.diagonal_2_m, hypot(y, B), 1e-12, 0, "closed form: parallelogram");
}

/* The wedge of a curve: sides L (1 +- z/R), no change in area. */
static void test_wedge_of_a_curve_keeps_its_area(void **state)
{
    (void)state;
    const double R = 214, L = 3.05, B = 12.4, half = L / 2 / R;
    PanelShape s = square_shape(L, B, 0.22);
    s.left_slope_1 = tan(half);
    s.right_slope_1 = -tan(half);
    const PanelBody body = panel_body(&s, NULL, 0);
    check_near(body.area_m2, L * B, 1e-12, 0, "closed form: symmetric trapezoid");
    check_near(body.longest_m - body.shortest_m, L * B / R, 1e-4, 0,
               "closed form: L B / R, small angle");
    check_near(body.net_z_m, -B * B / 12 / R, 1e-4, 0, "closed form: integral of z (1 - z/R)");
}

static void test_crown_thickens_the_middle(void **state)
{
    (void)state;
    const double L = 2.9, B = 11.7, t = 0.2032, rise = 0.02;
    PanelShape s = square_shape(L, B, t);
    s.rise_1 = rise;
    const PanelBody body = panel_body(&s, NULL, 0);
    check_near(body.gross_m3, L * B * (t + rise * B / 4), 1e-12, 0, "closed form: a roof on a box");
    s.to_z_m = 0; /* one half: its centre moves towards the crown */
    const PanelBody half = panel_body(&s, NULL, 0);
    const double b = B / 2, box = t * b, roof = rise * b * b / 2;
    check_near(half.gross_z_m, -(box * b / 2 + roof * b / 3) / (box + roof), 1e-12, 0,
               "closed form: rectangle and triangle");
}

static void test_holes_move_the_centre(void **state)
{
    (void)state;
    const double L = 3, B = 12, t = 0.2;
    const PanelShape s = square_shape(L, B, t);
    const PanelHole hole[2] = {{0.8, 4.1, 0.5, 0.7, INFINITY}, {2.2, -3.3, 0.4, 0.3, 0.05}};
    const PanelBody body = panel_body(&s, hole, 2);
    const double v1 = 0.5 * 0.7 * t, v2 = 0.4 * 0.3 * 0.05, v = L * B * t - v1 - v2;
    check_near(body.net_m3, v, 1e-12, 0, "closed form");
    check_near(body.net_x_m, (L * B * t * L / 2 - v1 * 0.8 - v2 * 2.2) / v, 1e-12, 0,
               "law: moments of volumes");
    check_near(body.net_z_m, (-v1 * 4.1 + v2 * 3.3) / v, 1e-12, 0, "law: moments of volumes");
    check_near(body.gross_m3, L * B * t, 1e-12, 0, "closed form");
    assert_true(panel_holds(&s, &hole[0], 0.1));
    const PanelHole cut = {0.2, 0, 0.5, 0.5, INFINITY}, over = {1.5, 5.9, 0.3, 0.5, INFINITY};
    assert_false(panel_holds(&s, &cut, 0));
    assert_false(panel_holds(&s, &over, 0));
}

static void test_pockets_stand_no_farther_apart_than_allowed(void **state)
{
    (void)state;
    assert_int_equal(panel_pocket_rows(9.5 * ft, 4 * ft), 3);
    assert_int_equal(panel_pocket_rows(8 * ft, 4 * ft), 2); /* exactly */
    assert_int_equal(panel_pocket_rows(0.4, 1.2), 1);
}

/* ---- lengths ---- */

static double sum(const PanelSplit *split) /* unit: m */
{
    double total = 0;
    for (int i = 0; i < split->count; i++) total += split->length_m[i];
    return total;
}

/* Stretches, limits and piers by chance. */
static void test_panels_fill_their_stretch_within_limits(void **state)
{
    Arena *arena = *state;
    seed = 7;
    for (int trial = 0; trial < 3000; trial++) {
        enum { COUNT = 4 };
        const size_t mark = arena_mark(arena);
        PanelKeep keep[2];
        PanelStretch stretch[COUNT];
        PanelSplit split[COUNT];
        Error err;
        const double longest = draw(2.2, 4), shortest = draw(0.7, 0.5 * longest);
        keep[0] = (PanelKeep){draw(10, 60), draw(0, 0.4)};
        keep[1] = (PanelKeep){draw(10, 60), draw(0, 0.4)};
        for (int i = 0; i < COUNT; i++) {
            const double from = draw(0, 20);
            stretch[i] = (PanelStretch){from, from + draw(4, 90), trial % 2, 2, keep};
        }
        for (int choice = 0; choice < PANEL_CHOICE_COUNT; choice++) {
            const PanelRule rule = {(PanelChoice)choice, draw(1.5, 3.5), shortest, longest};
            check_status(panel_split(stretch, COUNT, &rule, arena, split, &err), STATUS_OK, &err);
            for (int i = 0; i < COUNT; i++) {
                check_near(sum(&split[i]), stretch[i].to_m - stretch[i].from_m, 1e-12, 0,
                           "law: panels fill the stretch");
                for (int k = 0; k < split[i].count; k++) {
                    const double most = choice == PANEL_NOMINAL ? 1.25 * rule.nominal_m : longest;
                    assert_true(split[i].length_m[k] <= most * (1 + 1e-9));
                    if (choice != PANEL_NOMINAL)
                        assert_true(split[i].length_m[k] >= shortest * (1 - 1e-9));
                }
            }
        }
        arena_reset(arena, mark);
    }
}

/* No choice that asks for few panels may be beaten by counting: ceil(length / longest). */
static void test_least_panels_is_the_least(void **state)
{
    Arena *arena = *state;
    Error err;
    seed = 11;
    for (int trial = 0; trial < 500; trial++) {
        const PanelStretch stretch = {0, draw(6, 80), false, 0, NULL};
        const PanelRule rule = {PANEL_LEAST_PANELS, 2.9, 1.2, draw(2.4, 4)};
        PanelSplit split;
        check_status(panel_split(&stretch, 1, &rule, arena, &split, &err), STATUS_OK, &err);
        assert_int_equal(split.count, (int)ceil(stretch.to_m / rule.longest_m));
        assert_true(isinf(split.over_m));
    }
}

/* Two sides of 24 and 36 m divide by 4, 3, 2.4, 2: one kind; 12 + 12 gives the fewest panels of it
 * that are no longer than 3.1 m, 3 m each. */
static void test_least_kinds_finds_the_common_length(void **state)
{
    const PanelStretch stretch[2] = {{0, 24, false, 0, NULL}, {0, 36, true, 0, NULL}};
    const PanelRule rule = {PANEL_LEAST_KINDS, 2.5, 1.5, 3.1};
    PanelSplit split[2];
    Error err;
    check_status(panel_split(stretch, 2, &rule, *state, split, &err), STATUS_OK, &err);
    assert_int_equal(panel_split_kinds(split, 2), 1);
    assert_int_equal(split[0].count, 8);
    assert_int_equal(split[1].count, 12);
    check_near(split[0].length_m[3], 3, 1e-12, 0, "closed form: 24 / 8");
}

/* 12 m in panels of 3 m has a joint at 6 m, on a pier: 5 panels have none near. */
static void test_a_joint_leaves_the_pier(void **state)
{
    const PanelKeep pier = {6, 0.305};
    const PanelStretch stretch = {0, 12, false, 1, &pier};
    const PanelRule rule = {PANEL_NOMINAL, 3, 1.5, 3.7};
    PanelSplit split;
    Error err;
    check_status(panel_split(&stretch, 1, &rule, *state, &split, &err), STATUS_OK, &err);
    assert_int_equal(split.count, 5);
    check_near(split.over_m, 1.2 - 0.305, 1e-12, 0, "closed form: joints at 4.8 and 7.2 m");
    /* four panels can stay where one of them may be shorter */
    const PanelRule least = {PANEL_LEAST_PANELS, 3, 1.5, 3.7};
    check_status(panel_split(&stretch, 1, &least, *state, &split, &err), STATUS_OK, &err);
    assert_int_equal(split.count, 4);
    assert_true(split.over_m >= 0);
    check_near(sum(&split), 12, 1e-12, 0, "law: panels fill the stretch");
    /* nothing helps: said, not hidden */
    const PanelKeep wide = {6, 7};
    const PanelStretch hopeless = {0, 12, false, 1, &wide};
    check_status(panel_split(&hopeless, 1, &least, *state, &split, &err), STATUS_OK, &err);
    assert_true(split.over_m < 0);
}

static void test_too_many_panels_are_refused(void **state)
{
    const PanelStretch stretch = {0, 1e5, false, 0, NULL};
    const PanelRule rule = {PANEL_NOMINAL, 3, 1.5, 3.7};
    PanelSplit split;
    Error err = {0};
    check_status(panel_split(&stretch, 1, &rule, *state, &split, &err), STATUS_TOO_LARGE, &err);
}

/* ---- casting ---- */

enum { CAST_MOST = 400 };
typedef struct Casting {
    PanelYard yard;
    PanelLine line[40];
    int line_count, count;
    double length_m[CAST_MOST];
    int phase[CAST_MOST];
    PanelCast cast[CAST_MOST];
    PanelSets sets;
} Casting;

static Status casting_run(Casting *c, Error *err)
{
    const PanelList list = {c->line_count, c->count, c->line, c->length_m, c->phase};
    return panel_sets(&c->yard, &list, c->cast, &c->sets, err);
}

static void casting_random(Casting *c)
{
    *c = (Casting){.yard = {.bed_m = draw(20, 80),
                            .clear_m = draw(0.2, 1.5),
                            .beds = 1 + (int)draw(0, 3),
                            .phase_day = {draw(-10, 10), 0},
                            .strip_day = draw(1, 5),
                            .reset_day = draw(0.5, 3),
                            .set_day = 120,
                            .per_day = 12}};
    c->yard.phase_day[1] = c->yard.phase_day[0] + draw(1, 5);
    for (c->line_count = 0; c->line_count < 12; c->line_count++) {
        const int panels = 1 + (int)draw(0, 30);
        c->line[c->line_count] = (PanelLine){c->count, panels};
        for (int i = 0; i < panels; i++, c->count++) {
            c->length_m[c->count] = draw(1.5, 4);
            c->phase[c->count] = i % 2;
        }
    }
}

/* Two panels on one bed in one filling do not overlap, and stay inside it. */
static void check_places(const Casting *c)
{
    for (int i = 0; i < c->count; i++) {
        const PanelCast *a = &c->cast[i];
        assert_true(a->place_m >= c->yard.clear_m - 1e-9);
        assert_true(a->place_m + c->length_m[i] <= c->yard.bed_m - c->yard.clear_m + 1e-9);
        assert_in_range(a->bed, 0, c->yard.beds - 1);
        for (int k = 0; k < i; k++) {
            const PanelCast *b = &c->cast[k];
            if (a->cycle != b->cycle || a->bed != b->bed) continue;
            const bool behind = a->place_m >= b->place_m + c->length_m[k] - 1e-9;
            const bool before = b->place_m >= a->place_m + c->length_m[i] - 1e-9;
            assert_true(behind || before);
        }
    }
}

static void check_pairs(const Casting *c)
{
    for (int l = 0; l < c->line_count; l++)
        for (int i = c->line[l].first; i + 1 < c->line[l].first + c->line[l].count; i++) {
            const PanelCast *a = &c->cast[i], *b = &c->cast[i + 1];
            assert_true(a->against_right != b->against_left); /* one face had hardened */
            assert_true((b->cast_day > a->cast_day) == b->against_left);
            if (a->cycle == b->cycle)
                check_near(b->place_m, a->place_m + c->length_m[i], 0, 1e-9, "law: faces touch");
            else
                assert_true(a->waits && b->cycle > a->cycle); /* it lies at the bed's head again */
        }
}

static void test_every_joint_is_cast_against_a_hard_face(void **state)
{
    (void)state;
    static Casting c;
    Error err = {0};
    seed = 23;
    for (int trial = 0; trial < 300; trial++) {
        casting_random(&c);
        check_status(casting_run(&c, &err), STATUS_OK, &err);
        check_places(&c);
        check_pairs(&c);
        for (int i = 0; i < c.count; i++) {
            /* never younger than the engine takes it; a cycle ends before the next one begins */
            assert_true(c.cast[i].cast_day <= c.yard.phase_day[c.phase[i]] + 1e-9);
            assert_true(c.cast[i].strip_day >= c.cast[i].cast_day + c.yard.strip_day - 1e-9);
            assert_true(c.cast[i].set_day <= c.yard.set_day);
        }
        assert_true(c.sets.stored_most <= c.count);
    }
}

/* Seven panels of 3 m on a bed of 14 m with 1 m at its ends: 4, then the fourth again with 3 more. Phases
 * 2 days apart, lifted 3 days later, bed ready a day after: 6 days a filling. */
static void test_a_long_line_goes_on_with_its_last_panel(void **state)
{
    (void)state;
    static Casting c;
    Error err = {0};
    c = (Casting){.yard = {.bed_m = 14,
                           .clear_m = 1,
                           .beds = 2,
                           .phase_day = {10, 12},
                           .strip_day = 3,
                           .reset_day = 1,
                           .set_day = 50,
                           .per_day = 3},
                  .line = {{0, 7}},
                  .line_count = 1,
                  .count = 7};
    for (int i = 0; i < 7; i++) {
        c.length_m[i] = 3;
        c.phase[i] = i % 2;
    }
    check_status(casting_run(&c, &err), STATUS_OK, &err);
    assert_int_equal(c.sets.cycles, 2);
    assert_int_equal(c.cast[3].cycle, 0);
    assert_true(c.cast[3].waits);
    assert_int_equal(c.cast[4].cycle, 1);
    check_near(c.cast[4].place_m, 4, 1e-12, 0, "closed form: behind the fourth at the head");
    check_near(c.cast[0].cast_day, 4, 1e-12, 0, "closed form: 10 - 6");
    check_near(c.cast[3].cast_day, 6, 1e-12, 0, "closed form: 12 - 6");
    check_near(c.cast[6].cast_day, 10, 1e-12, 0, "the last filling has the given days");
    check_near(c.cast[3].strip_day, 9, 1e-12, 0, "closed form: 12 + 3 - 6");
    assert_true(c.cast[4].against_left && c.cast[5].against_left && c.cast[5].against_right);
    check_near(c.cast[0].set_day, 48, 1e-12, 0,
               "closed form: 3 a day, 7 panels, the last on day 50");
    check_near(c.sets.youngest_day, 50 - 12, 1e-12, 0, "closed form: the sixth");
    check_near(c.sets.oldest_day, 49 - 4, 1e-12, 0,
               "closed form: the third, set a day after the first");
    assert_int_equal(c.sets.stored_most, 7);
}

static void test_a_bed_that_is_too_short_is_refused(void **state)
{
    (void)state;
    static Casting c;
    Error err = {0};
    seed = 5;
    casting_random(&c);
    c.yard.bed_m = 3;
    check_status(casting_run(&c, &err), STATUS_BAD_INPUT, &err);
    assert_non_null(strstr(err.text, "bed"));
}

/* ---- closing ---- */

/* Trade figure: 40 psi over 40 ft x 8.5 in is 163 kip; 40 kip of pullers press with about 10 psi. */
static void test_closing_force_of_the_trade(void **state)
{
    (void)state;
    const double psi = 6894.757293;
    PanelSeam seam = {.face_m2 = 40 * ft * 8.5 * in,
                      .glued_m2 = 40 * ft * 8.5 * in,
                      .pressure_Pa = 40 * psi,
                      .piece_N = 20 * kip,
                      .film_m = 0.125 * in,
                      .open_day = 60 / 1440.0,
                      .open_at_K = 293.15,
                      .glue_K = 293.15,
                      .spread_day = 15 / 1440.0,
                      .place_day = 7 / 1440.0,
                      .pull_day = 10 / 1440.0};
    PanelClosing c = panel_closing(&seam);
    check_near(c.force_N / kip, 163, 0, 0.5, "common practice, no source: 163 kip");
    assert_int_equal(c.pieces, 9);
    check_near(c.glue_m3, 40 * ft * 8.5 * in * 0.125 * in, 1e-12, 0, "closed form");
    assert_true(c.pressed && c.in_time);
    seam.piece_N = 40 * kip / 6;
    seam.piece_most = 6;
    c = panel_closing(&seam);
    assert_false(c.pressed);
    check_near(c.given_Pa / psi, 10, 0, 0.3, "common practice, no source: about 10 psi");
    seam.pulled_N = 42.5 * kip;
    seam.friction_1 = 0.2;
    seam.grade_1 = -0.03;
    c = panel_closing(&seam);
    check_near(c.drag_N, 42.5 * kip * 0.23, 1e-12, 0, "law: equilibrium of a sliding panel");
    check_near(c.given_Pa, (40 * kip - c.drag_N) / seam.face_m2, 1e-12, 0, "law: equilibrium");
    seam.glue_K = 313.15; /* 20 K more: a quarter of the time */
    c = panel_closing(&seam);
    check_near(c.open_day * 1440, 15, 1e-12, 0, "from memory: half for each 10 K");
    assert_false(c.in_time);
    seam.glue_K = 278.15;
    c = panel_closing(&seam);
    check_near(c.open_day * 1440, 60, 1e-12, 0,
               "cold gives no more time: common practice, no source");
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, set_up, tear_down)
    const struct CMUnitTest tests[] = {
        TEST(test_square_panel_has_the_weight_of_its_box),
        TEST(test_end_panel_of_a_skewed_deck_is_a_trapezoid),
        TEST(test_skewed_panel_travels_square_to_its_joints),
        TEST(test_wedge_of_a_curve_keeps_its_area),
        TEST(test_crown_thickens_the_middle),
        TEST(test_holes_move_the_centre),
        TEST(test_pockets_stand_no_farther_apart_than_allowed),
        TEST(test_panels_fill_their_stretch_within_limits),
        TEST(test_least_panels_is_the_least),
        TEST(test_least_kinds_finds_the_common_length),
        TEST(test_a_joint_leaves_the_pier),
        TEST(test_too_many_panels_are_refused),
        TEST(test_every_joint_is_cast_against_a_hard_face),
        TEST(test_a_long_line_goes_on_with_its_last_panel),
        TEST(test_a_bed_that_is_too_short_is_refused),
        TEST(test_closing_force_of_the_trade),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
