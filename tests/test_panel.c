/* Panels: lengths, shapes, casting, closing, and those of whole bridge files. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bridge_file.h"

#include "clench/panel.h"
#include "clench/report.h"

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

static unsigned seed;
static double draw(double from, double to) /* unit: of its bounds */
{
    seed = seed * 1664525u + 1013904223u;
    return from + (to - from) * (seed >> 8) / 16777216.0;
}

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

/* ---- whole bridges ---- */

typedef struct Made {
    BridgeFile file;
    const PanelPlan *plan;
    PanelSource source;
    ReportSource report;
} Made;

static void made_from(Made *m, const char *text)
{
    Error err = {0};
    bridge_from_text(&m->file, text);
    for (int i = 0; i < m->file.found.count; i++) print_error("%s\n", m->file.found.item[i].text);
    assert_int_equal(m->file.status, STATUS_OK);
    m->report = (ReportSource){.bridge = m->file.bridge, .units = bridge_units(m->file.bridge)};
    check_status(report_panels_find(&m->report, m->file.arena, &m->source, &err), STATUS_OK, &err);
    m->plan = m->source.plan;
}

static const char *remark_with(const PanelPlan *plan, const char *words)
{
    for (int i = 0; i < plan->remark_count; i++)
        if (strstr(plan->remark[i], words)) return plan->remark[i];
    return NULL;
}

/* Panels, gap and nothing else make up each run; marks are unique; every mark of a joint is met by the
 * engine's joint of the same number. */
static void check_plan(const Made *m)
{
    const PanelPlan *plan = m->plan;
    for (int r = 0; r < plan->run_count; r++) {
        const PanelRun *run = &plan->run[r];
        double total = run->gap_to_m - run->gap_from_m;
        for (int i = run->first; i < run->first + run->count; i++)
            total += plan->piece[i].to_m - plan->piece[i].from_m;
        check_near(total, run->length_m, 1e-12, 0, "law: panels and gap make up the run");
    }
    int of_kinds = 0;
    for (int k = 0; k < plan->kind_count; k++) of_kinds += plan->kind[k].count;
    assert_int_equal(of_kinds, plan->piece_count);
    for (int i = 0; i < plan->piece_count; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(plan->piece[i].mark, plan->piece[k].mark);
}

/* The first unit's joints of the engine against the same marks of the schedule. */
static void check_engine(const Made *m)
{
    const BridgeLine *line;
    int lines, met = 0;
    Error err = {0};
    check_status(bridge_lines(m->file.bridge, 1, m->file.arena, &line, &lines, &err), STATUS_OK,
                 &err);
    for (int i = 0; i < m->plan->piece_count; i++) {
        const PanelPiece *p = &m->plan->piece[i];
        for (int j = 0; j < line->joint_count && p->run == 0; j++) {
            char mark[32];
            snprintf(mark, sizeof mark, "R1-%s", line->joint[j].mark);
            if (strcmp(mark, p->right_joint) != 0) continue;
            check_near(line->model.x_m[line->joint[j].station], p->to_m, 0, 1e-6,
                       "law: engine and schedule have the same joints");
            met++;
        }
    }
    assert_int_equal(met, line->joint_count - 2 /* faces of the gap */);
}

static void steel_text(char *out, size_t size, int spans, const double *span_m, const char *more)
{
    size_t used = (size_t)snprintf(out, size, "units: SI\nspans:\n");
    for (int i = 0; i < spans; i++)
        used += (size_t)snprintf(out + used, size - used, "  - {length: %.17g m}\n", span_m[i]);
    snprintf(out + used, size - used,
             "girders:\n  count: 5\n  spacing: 2.6 m\n  kind: plate girder\n  plates:\n"
             "    - {top_width: 450 mm, top_thickness: 32 mm, web_depth: 1400 mm, web_thickness: "
             "14 mm, bottom_width: 500 mm, bottom_thickness: 40 mm}\n"
             "climate:\n  humidity: 70 %%\n  gradient_zone: 2\n%s",
             more);
}

static void test_random_bridges_add_up(void **state)
{
    (void)state;
    static const char *const layout[] = {"nominal", "least panels", "least kinds"};
    static char text[8000];
    seed = 41;
    for (int trial = 0; trial < 60; trial++) {
        double span_m[9];
        char more[400];
        const int spans = 1 + (int)draw(0, 8.99);
        for (int i = 0; i < spans; i++) span_m[i] = draw(24, 62);
        snprintf(
            more, sizeof more,
            "piers:\n  connection: %s\npanels:\n  layout: %s\n  length: %.3f m\n  anchor_length: "
            "%.3f m\n  skew: %s\ndeck:\n  skew_degrees: %.2f\n",
            trial % 4 ? "continuous" : "link slab", layout[trial % 3], draw(2, 3.2), draw(3, 4),
            trial % 2 ? "all" : "ends", draw(-9, 9));
        steel_text(text, sizeof text, spans, span_m, more);
        Made m;
        made_from(&m, text);
        check_plan(&m);
        check_engine(&m);
        for (int i = 0; i < m.plan->piece_count; i++) {
            const PanelPiece *p = &m.plan->piece[i];
            check_near(p->body.area_m2, (p->to_m - p->from_m) * m.plan->deck_width_m, 1e-9, 0,
                       "closed form: skewed edges leave length times width");
            if (trial % 3 && !p->anchor)
                assert_true(p->to_m - p->from_m <= m.plan->longest_allowed_m * (1 + 1e-9));
        }
        bridge_close(&m.file);
    }
}

/* A truck of 120 kN and a crane decide how long a panel may be. */
static void test_truck_and_crane_shorten_panels(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[2] = {38, 41};
    Made m;
    steel_text(
        text, sizeof text, 2, span_m,
        "panels:\n  layout: least panels\n  anchor_length: 2 m\nhandling:\n  truck: 120 kN\n");
    made_from(&m, text);
    const double width_m = 4 * 2.6 + 2 * 0.4 * 2.6, weight = 150 * 157.08746 * 8.5 * in * width_m;
    check_near(m.plan->longest_allowed_m, 120e3 / weight, 1e-6, 0,
               "closed form: payload over weight");
    assert_string_equal(m.plan->longest_by, "handling.truck");
    for (int i = 0; i < m.plan->piece_count; i++)
        if (!m.plan->piece[i].anchor) assert_true(m.plan->piece[i].gross_N <= 120e3 * (1 + 1e-9));
    assert_null(remark_with(m.plan, "wider"));
    assert_non_null(remark_with(m.plan, "heavier than the truck")); /* the anchor panels */
    bridge_close(&m.file);
}

static void test_bridges_beyond_the_lines_are_said_to_be(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[2] = {38, 41};
    Made m;
    steel_text(text, sizeof text, 2, span_m, "");
    made_from(&m, text);
    assert_true(report_panels_met(&m.source) || remark_with(m.plan, "nearer than"));
    assert_null(remark_with(m.plan, "skewed"));
    bridge_close(&m.file);
    steel_text(text, sizeof text, 2, span_m, "deck:\n  skew_degrees: 25\n  plan_radius: 300 m\n");
    made_from(&m, text);
    assert_false(report_panels_met(&m.source));
    assert_non_null(remark_with(m.plan, "25 degrees"));
    assert_non_null(remark_with(m.plan, "Beyond 15 to 20 degrees"));
    assert_non_null(remark_with(m.plan, "Beyond 0.06 rad"));
    assert_non_null(remark_with(m.plan, "less than 3 ft")); /* corners of the anchor panels */
    bridge_close(&m.file);
}

/* Shear at the obtuse corner of a skewed bridge: 1 + 0.2 (12 L t^3/Kg)^0.3 tan(skew), on all of a line;
 * moments stay those of the square one. */
static void test_a_skew_makes_shear_alone_larger(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    double shear[3], moment[3], fatigue[3];
    const double degrees[3] = {0, 20, -35};
    for (int i = 0; i < 3; i++) {
        char more[80];
        const BridgeLine *line;
        int lines;
        Error err = {0};
        BridgeFile file;
        snprintf(more, sizeof more, "deck:\n  skew_degrees: %g\n", degrees[i]);
        steel_text(text, sizeof text, 1, span_m, more);
        bridge_from_text(&file, text);
        check_status(bridge_lines(file.bridge, 1, file.arena, &line, &lines, &err), STATUS_OK,
                     &err);
        shear[i] = line->lanes_shear_1;
        moment[i] = line->lanes_1;
        fatigue[i] = line->lanes_fatigue_shear_1;
        assert_true((line->beyond != NULL) == (i > 0));
        bridge_close(&file);
    }
    const double tan20 = tan(20 * acos(-1) / 180), tan35 = tan(35 * acos(-1) / 180);
    check_near((shear[2] / shear[0] - 1) / (shear[1] / shear[0] - 1), tan35 / tan20, 1e-9, 0,
               "AASHTO LRFD table 4.6.2.2.3c-1, from memory: grows with the tangent");
    assert_true(shear[1] > shear[0]);
    check_near(fatigue[1] / fatigue[0], shear[1] / shear[0], 1e-9, 0,
               "AASHTO LRFD table 4.6.2.2.3c-1, from memory");
    check_near(moment[2], moment[0], 1e-12, 0, "what relieves is not taken");
}

/* A drain in the 5th panel makes it a kind of its own and moves its centre; one in the gap is told. */
static void test_blockouts_are_taken_out(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    Made plain, m;
    steel_text(text, sizeof text, 1, span_m, "");
    made_from(&plain, text);
    const double at_m = (plain.plan->piece[4].from_m + plain.plan->piece[4].to_m) / 2;
    char more[400];
    snprintf(
        more, sizeof more,
        "panels:\n  blockouts:\n    - {at: %.6f m, across: 3.6 m, along: 400 mm, wide: 300 mm}\n"
        "    - {at: 20 m, across: 0 m, along: 400 mm, wide: 300 mm}\n",
        at_m);
    steel_text(text, sizeof text, 1, span_m, more);
    made_from(&m, text);
    assert_int_equal(m.plan->kind_count, plain.plan->kind_count + 1);
    assert_int_equal(m.plan->piece[4].blockout_count, 1);
    check_near(plain.plan->net_m3 - m.plan->net_m3, 0.4 * 0.3 * 8.5 * in, 1e-6, 0, "closed form");
    assert_true(m.plan->piece[4].body.net_z_m < -1e-4);
    assert_non_null(remark_with(m.plan, "lie in no panel"));
    bridge_close(&m.file);
    bridge_close(&plain.file);
}

/* Two halves and the closure make up the deck; marks tell them apart. */
static void test_longitudinal_closure_halves_the_panels(void **state)
{
    (void)state;
    static char text[4000];
    const double span_m[1] = {40};
    Made m;
    steel_text(
        text, sizeof text, 1, span_m,
        "panels:\n  crown: longitudinal closure\n  strip: 600 mm\ndeck:\n  crossfall: 2 %\n");
    made_from(&m, text);
    double area_m2 = 0;
    for (int i = 0; i < m.plan->piece_count; i++) area_m2 += m.plan->piece[i].body.area_m2;
    const PanelRun *run = &m.plan->run[0];
    check_near(area_m2,
               (run->length_m - (run->gap_to_m - run->gap_from_m)) * (m.plan->deck_width_m - 0.6),
               1e-12, 0, "law: panels, closure and gap make up the deck");
    for (int i = 0; i < m.plan->piece_count; i++)
        for (int k = 0; k < i; k++)
            assert_string_not_equal(m.plan->piece[i].mark, m.plan->piece[k].mark);
    assert_non_null(remark_with(m.plan, "longitudinal closure"));
    bridge_close(&m.file);
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
        TEST(test_random_bridges_add_up),
        TEST(test_truck_and_crane_shorten_panels),
        TEST(test_bridges_beyond_the_lines_are_said_to_be),
        TEST(test_a_skew_makes_shear_alone_larger),
        TEST(test_blockouts_are_taken_out),
        TEST(test_longitudinal_closure_halves_the_panels),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
