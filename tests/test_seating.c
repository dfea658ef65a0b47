/* seating against closed forms: simple beams, creep of one concrete, skew, facets, the noise of a survey. */
#include "seating_case.h"

#include <string.h>

#include "stage_make.h"

/* ---- a simple span, worked by hand ---- */

static const char flat_grade[] = "profile:\n"
                                 "  points:\n"
                                 "    - {station: 0 ft, elevation: 100 ft}\n"
                                 "    - {station: 230 ft, elevation: 100 ft}\n";

static double level_top_ft(double x_ft, int girder)
{
    (void)x_ft;
    return 100 - 11.0 / 12 - 0.01 * girder;
}

/* E 29000 ksi; plates 40 x 3, 100 x 1, 40 x 3 in. */
static double stiffness_Nm2(void)
{
    const double I_in4 = 1e6 / 12 + 2 * (40 * 27 / 12.0 + 120 * 51.5 * 51.5);
    return 29000 * 6894757.293168361 * I_in4 * pow(0.0254, 4);
}

/* 150 pcf, 8 in, half of a deck of 40 ft. */
static double panel_load_N_per_m(void)
{
    return 150 * 4.4482216152605 / pow(0.3048, 3) * inch(8) * foot(20);
}

/* Middle of a simple span under q on all but c in the middle: 5 q L^4 / 384 EI less the integral of the
 * influence line x (3 L^2 - 4 x^2) / 48 EI over c. */
static double sag_m(double q, double L, double c)
{
    const double a = (L - c) / 2, b = L / 2;
    const double missing =
        2 * ((1.5 * L * L * b * b - b * b * b * b) - (1.5 * L * L * a * a - a * a * a * a)) / 48;
    return q * (5 * pow(L, 4) / 384 - missing) / stiffness_Nm2();
}

static void test_panels_sag_the_girder_by_5wL4_over_384EI(void **state)
{
    (void)state;
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    seat_open(&c, flat_grade, seat_survey(arena, 2, 230, 10, level_top_ft), 1e3, (double)NAN);
    assert_int_equal(c.plan->move_count, 1);
    const double L = foot(230), u = foot(112); /* beside the gap */
    /* the beside-gap place: by the influence line of x = u, numerically fine */
    double at = 0;
    const int n = 20000;
    for (int i = 0; i < n; i++) {
        const double s = (i + 0.5) * L / n;
        if (fabs(s - L / 2) < foot(3)) continue;
        const double x = s < u ? s : L - s, b = s < u ? L - u : u;
        at += L / n * b * x * (L * L - b * b - x * x) / (6 * L * stiffness_Nm2());
    }
    check_near(c.plan->move[0].panels_m, -panel_load_N_per_m() * at, 2e-4, 0,
               "closed form: influence line of a simple beam, P b x (L^2 - b^2 - x^2) / 6 L E I");
    check_near(sag_m(panel_load_N_per_m(), L, 0),
               5 * panel_load_N_per_m() * pow(L, 4) / 384 / stiffness_Nm2(), 1e-12, 0,
               "closed form: 5 w L^4 / 384 E I");
    check_near(c.plan->move[0].panels_m, -sag_m(panel_load_N_per_m(), L, foot(6)), 2e-3, 0,
               "closed form: 5 w L^4 / 384 E I, the gap left out; 3 ft beside the middle");
    arena_free(arena);
    seat_close(&c);
}

/* Height = profile - panel - girder - movement; a girder that sinks wants a higher shim. */
static void test_shim_takes_what_moves_later(void **state)
{
    (void)state;
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    seat_open(&c, flat_grade, seat_survey(arena, 2, 230, 10, level_top_ft), 1e3, (double)NAN);
    for (int g = 0; g < 2; g++) {
        const Seat *end = seat_at(c.plan, "R1-left", g), *mid = seat_at(c.plan, "R1-J11", g);
        check_near(end->height_m, inch(3) + foot(0.01) * g, 0, 2e-6,
                   "closed form: nothing moves at a bearing");
        check_near(mid->height_m - end->height_m, end->later_m - mid->later_m, 1e-9, 0,
                   "law: profile, panel and girder are level");
        assert_true(mid->later_m < -sag_m(panel_load_N_per_m(), foot(230), foot(6)) * 0.99);
        assert_true(mid->height_m > end->height_m);
        check_near(mid->shim_m[0], inch(1.0 / 16) * floor(mid->height_m / inch(1.0 / 16) + 0.5),
                   1e-12, 0, "law: nearest step, a half up");
    }
    arena_free(arena);
    seat_close(&c);
}

/* Panels from the left end to a on a simple beam, at x beyond a: q a^2 (L - x)(4 x L - 2 x^2 - a^2) / 24 EI L. */
static void test_level_when_set_leaves_room_for_the_panels_to_come(void **state)
{
    (void)state;
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    seat_open(&c, flat_grade, seat_survey(arena, 2, 230, 10, level_top_ft), 1e3, (double)NAN);
    const double L = foot(230), q = panel_load_N_per_m(), EI = stiffness_Nm2();
    static const int joint[] = {2, 5, 9};
    for (int i = 0; i < 3; i++) {
        const Seat *s = seat_at(c.plan, arena_printf(arena, "R1-J%02d", joint[i]), 0);
        const double a = foot(12 + 10 * (joint[i] - 2)), x = foot(12 + 10 * (joint[i] - 1));
        const double sag = q * a * a * (L - x) * (4 * x * L - 2 * x * x - a * a) / (24 * EI * L);
        check_near(s->x_m, x, 0, 1e-6, "law: joints of 10 ft behind the anchor");
        check_near(
            s->top_m + s->shim_m[0] - s->set_m, sag, 5e-3, 1e-6,
            "closed form: simple beam, uniform load on its left part (beam tables, from memory)");
    }
    const Seat *first = seat_at(c.plan, "R1-left", 1);
    check_near(first->set_m, first->top_m + first->shim_m[0], 0, 1e-9,
               "law: nothing is set before");
    arena_free(arena);
    seat_close(&c);
}

/* Thrust bends a simple girder upwards between its anchors; without friction the moment is even. */
static void test_thrust_lifts_a_simple_span(void **state)
{
    (void)state;
    SeatCase less, more;
    Arena *arena = arena_create((size_t)1 << 26);
    char *survey = seat_survey(arena, 2, 230, 10, level_top_ft);
    seat_open(&less, flat_grade, survey, 1e3, (double)NAN);
    seat_open(&more, flat_grade, survey, 8e6, (double)NAN);
    const double P = 8e6 / 2, e = inch(2 + 4 + 53), a = foot(12), L = foot(230);
    const double EId = 4696 * 6894757.293168361 * foot(20) * pow(inch(8), 3) / 12;
    /* even curvature P e / (EI + EId) from anchor to anchor, none beyond: at the middle
     * kappa (L^2/8 - a^2/2); the gap has no deck and bends a little more */
    const double kappa = P * e / (stiffness_Nm2() + EId);
    check_near(more.plan->move[0].thrust_m, kappa * (L * L / 8 - a * a / 2), 0.02, 0,
               "closed form: even moment between the inner edges of the anchors");
    assert_true(more.plan->move[0].thrust_m > 0);
    const Seat *low = seat_at(less.plan, "R1-J11", 0), *high = seat_at(more.plan, "R1-J11", 0);
    assert_true(high->height_m < low->height_m);
    arena_free(arena);
    seat_close(&less);
    seat_close(&more);
}

/* ---- creep ---- */

/* A girder of one concrete under its own weight from day 28 and panels from day 90: between the survey
 * on day 60 and day 1500 it sags by 5 L^4 / 384 I (w (J(1500, 28) - J(60, 28)) + q J(1500, 90)). The deck
 * has next to no stiffness. */
static void test_creep_after_the_survey_is_superposed(void **state)
{
    (void)state;
    Arena *arena = arena_create((size_t)1 << 30);
    const double L = 31.7, b = 0.9, h = 1.6, w = 21e3, q = 17e3, mark[] = {0, L / 2, L};
    ConcreteMix mix = concrete_mix_default(TIME_AASHTO2015);
    mix.fc28_Pa = 45e6;
    mix.fci_Pa = 36e6;
    mix.volume_to_surface_m = 0.14;
    mix.humidity_ratio = 0.7;
    mix.shrinkage_factor_1 = 0;
    Make make = make_start(arena, L / 40, mark, 3);
    const int girder = make_material(&make, (Material){.kind = MATERIAL_CONCRETE, .mix = mix});
    const int soft = make_elastic(&make, 1e3);
    make_parts(&make, 0, L,
               (Part){.chain = CHAIN_GIRDER,
                      .material = girder,
                      .section = make_section(&make, make_rectangle(b, h)),
                      .phase = 0,
                      .from_height_m = -h / 2,
                      .to_height_m = -h / 2});
    make_parts(&make, 0, L,
               (Part){.chain = CHAIN_DECK,
                      .material = soft,
                      .section = make_section(&make, make_rectangle(1, 0.2)),
                      .phase = 1});
    make_links(&make, (Link){.shim_vertical_N_per_m = 1e10,
                             .shim_horizontal_N_per_m = 1,
                             .bond_vertical_N_per_m = 1e10,
                             .bond_horizontal_N_per_m = 1,
                             .two_way = true});
    make_support(&make, 0, true);
    make_support(&make, L, false);
    make_birth(&make, 28, 0);
    make_load(&make, 28, 0, L, CHAIN_GIRDER, w);
    make_load(&make, 90, 0, L, CHAIN_GIRDER, q);
    ((Event *)make.model.event)[make.model.event_count - 1].on_deck = true;
    make_birth(&make, 90, 1);
    make_event(&make, 90, EVENT_SHIMS, CAUSE_FRICTION);
    make_note(&make, 1500, "looked at");
    make_note(&make, 3000, "end of life");
    const StageHistory *history = make_run(&make);
    SeatMarch march;
    Error err = {0};
    check_status(seating_march(history, 60, 1500, false, &march, &err), STATUS_OK, &err);
    const double beam = 5 * pow(L, 4) / 384 / (b * pow(h, 3) / 12);
    const double sag = beam * (w * (concrete_compliance_per_Pa(&mix, 1500, 28) -
                                    concrete_compliance_per_Pa(&mix, 60, 28)) +
                               q * concrete_compliance_per_Pa(&mix, 1500, 90));
    check_near(
        -seating_moved_m(&march, L / 2), sag, 5e-3, 0,
        "closed form: a beam of one concrete, 5 w L^4 / 384 I times its compliance, superposed");
    const double elastic = beam * q * concrete_compliance_per_Pa(&mix, 90 + 1e-6, 90);
    assert_true(sag > 1.5 * elastic); /* creep matters here */
    arena_free(arena);
}

/* ---- flat panels ---- */

/* On a crest of radius R a flat panel's middle lies Lp^2 / 8 R low, and joints open by Lp t / R at the top;
 * what the girder moves later adds its own curvature, so it is kept small here. */
static double crest_top_ft(double x_ft, int girder)
{
    (void)girder;
    const double d = x_ft - 115;
    return 100 - d * d / 20000 - 11.0 / 12;
}

static void test_facets_and_wedges_on_a_crest(void **state)
{
    (void)state;
    static const char crest[] = "profile:\n"
                                "  points:\n"
                                "    - {station: -285 ft, elevation: 92 ft}\n"
                                "    - {station: 115 ft, elevation: 108 ft, curve: 800 ft}\n"
                                "    - {station: 515 ft, elevation: 92 ft}\n"
                                "seats: {wedge: 0.5 in}\n";
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    seat_open(&c, crest, seat_survey(arena, 2, 230, 10, crest_top_ft), 1e3, (double)NAN);
    /* panel R1-03 from 22 to 32 ft; its movement is read off the seats: second differences */
    const double at_m[] = {
        seat_at(c.plan, "R1-J01", 0)->later_m, seat_at(c.plan, "R1-J02", 0)->later_m,
        seat_at(c.plan, "R1-J03", 0)->later_m, seat_at(c.plan, "R1-J04", 0)->later_m};
    const double before_m = at_m[0] - 2 * at_m[1] + at_m[2],
                 bent_m = at_m[1] - 2 * at_m[2] + at_m[3];
    const double R = foot(10000), L = foot(10);
    check_near(
        c.plan->line[3].wedge_m, (L / R + bent_m / L) * inch(8), 1e-3, 0,
        "closed form: panel length over radius, times the thickness (10 ft, 10000 ft: 0.0085 in "
        "at 8.5 in), with the later movement's curvature");
    check_near(c.plan->panel[2].facet_m, -(L * L / 8 / R + (before_m + bent_m) / 16), 0.005, 0,
               "closed form: chord ordinate L^2 / 8 R (10 ft, 10000 ft: 0.015 in)");
    check_near(L * L / 8 / R, inch(0.015), 0, inch(1e-9), "closed form");
    arena_free(arena);
    seat_close(&c);
}

/* ---- skew ---- */

static void test_skewed_joint_meets_each_girder_elsewhere(void **state)
{
    (void)state;
    static const char skew[] = "profile:\n"
                               "  points:\n"
                               "    - {station: 900 ft, elevation: 90 ft}\n"
                               "    - {station: 1400 ft, elevation: 105 ft}\n"
                               "  left_end: 1000 ft\n"
                               "survey: {spacing: 60 ft}\n";
    char bridge[4096], with[4096];
    bridge_replace(seat_span, "  density: 150 pcf\n", "  density: 150 pcf\n  skew_degrees: 20\n",
                   bridge, sizeof bridge);
    bridge_replace(bridge, "  gap: 6 ft\n", "  gap: 6 ft\n  skew: all\n", with, sizeof with);
    Arena *arena = arena_create((size_t)1 << 30), *scratch = arena_create((size_t)1 << 30);
    Text text = text_start(arena), csv = text_start(arena);
    text_add(&text, with);
    text_add(&text, skew);
    BridgeFile file;
    bridge_from_text(&file, text.bytes);
    assert_int_equal(file.status, STATUS_OK);
    const double by_ft = 12 * tan(20 * acos(-1) / 180);
    text_add(&csv, "span,distance [ft],girder,elevation [ft]\n");
    for (int g = 0; g < 2; g++)
        for (int i = 0; i <= 5; i++)
            text_printf(&csv, "1,%d,%d,%.9f\n", 46 * i, g + 1,
                        93 + 0.03 * (46 * i + (g ? by_ft : -by_ft)) - 11.0 / 12);
    Survey survey;
    Diagnostics found = {0};
    Error err = {0};
    const SeatPlan *plan;
    check_status(survey_read(csv.bytes, csv.length, 2, arena, &survey, &found), STATUS_OK,
                 found.item);
    const SeatWish wish = {file.bridge, &survey, NULL, 1e3, (double)NAN};
    check_status(seating_plan(&wish, arena, scratch, &plan, &found, &err), STATUS_OK, &err);
    const Seat *left = seat_at(plan, "R1-J05", 0), *right = seat_at(plan, "R1-J05", 1);
    check_near(right->x_m - left->x_m, foot(2 * by_ft), 1e-9, 0,
               "closed form: width times tangent");
    check_near(right->grade_m - left->grade_m, 0.03 * foot(2 * by_ft), 1e-9, 0,
               "closed form: grade");
    check_near(right->later_m, left->later_m, 1e-9, 0,
               "law: both girders are the same distance from their bearing");
    check_near(right->height_m, left->height_m, 0, 1e-8, "law: the girders follow the grade");
    arena_free(arena);
    arena_free(scratch);
    bridge_close(&file);
}

/* ---- how sure ---- */

static void test_noise_goes_through_the_weights(void **state)
{
    (void)state;
    static const char noise[] = "survey: {deviation: 0.08 in, benchmark: 0.05 in}\n"
                                "seats: {movement_off: 0, haunch_most: 20 in}\n";
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    seat_open(&c, arena_printf(arena, "%s%s", flat_grade, noise),
              seat_survey(arena, 2, 230, 10, level_top_ft), 1e3, (double)NAN);
    const Seat *end = seat_at(c.plan, "R1-left", 0);
    check_near(end->off_m, hypot(inch(0.08), inch(0.05)), 1e-6, 0, "closed form: a reading itself");
    double x[11], square = inch(0.05) * inch(0.05);
    for (int i = 0; i < 11; i++) x[i] = foot(23) * i;
    const Seat *s = seat_at(c.plan, "R1-J05", 0);
    const Between b = survey_between(x, 11, s->x_m, true);
    for (int i = 0; i < b.count; i++) square += pow(inch(0.08) * b.weight_1[i], 2);
    check_near(s->off_m, sqrt(square), 1e-6, 0, "closed form: weights squared, and what is shared");
    const double low = (s->thin_m - c.plan->limit.least_m) / s->off_m;
    assert_true(low > 5 && s->inside_1 > 0.999);
    arena_free(arena);
    seat_close(&c);
}

/* Haunch right at its least one: a half; all of them hang on what they share. */
static double tight_top_ft(double x_ft, int girder)
{
    (void)girder;
    const double L = 230, q = x_ft * (L - x_ft) / (L * L);
    (void)q;
    return 100 - 9.0 / 12;
}

static void test_shared_error_makes_all_places_one(void **state)
{
    (void)state;
    static const char noise[] =
        "survey: {deviation: 0 in, benchmark: 0.25 in}\n"
        "seats: {movement_off: 0, haunch_least: 1 in, haunch_most: 20 in}\n";
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    seat_open(&c, arena_printf(arena, "%s%s", flat_grade, noise),
              seat_survey(arena, 2, 230, 10, tight_top_ft), 1e3, (double)NAN);
    /* the ends have 1 in exactly, the middle more: every place fails when the ends do */
    check_near(c.plan->inside_1, 0.5, 0, 0.04,
               "closed form: one normal number, 2000 draws, 3.5 sigma");
    check_near(seat_at(c.plan, "R1-left", 0)->inside_1, 0.5, 0, 2e-4,
               "closed form: at the limit; the bearing gives by 5e-5 in");
    arena_free(arena);
    seat_close(&c);
}

/* 2 % from an edge of 8 in: over half of a deck of 40 ft 8 + 0.02 * 120 = 10.4 in on the mean. */
static void test_thickened_crown_presses_the_shims_and_is_told(void **state)
{
    (void)state;
    SeatCase c = {.arena = arena_create((size_t)1 << 30), .scratch = arena_create((size_t)1 << 30)};
    const size_t size = 4096;
    char *text = ARENA_NEW(c.arena, char, size);
    bridge_replace(seat_span, "panels:\n", "  crossfall: 2 %\npanels:\n  crown: thickened\n", text,
                   size);
    bridge_from_text(&c.file, arena_printf(c.arena, "%s%s", text, flat_grade));
    assert_int_equal(c.file.status, STATUS_OK);
    const char *survey = seat_survey(c.arena, 2, 230, 10, level_top_ft);
    check_status(survey_read(survey, strlen(survey), 2, c.arena, &c.survey, &c.found), STATUS_OK,
                 NULL);
    const SeatWish wish = {c.file.bridge, &c.survey, NULL, 1e3, (double)NAN};
    check_status(seating_plan(&wish, c.arena, c.scratch, &c.plan, &c.found, &c.err), STATUS_OK,
                 &c.err);
    const double density = bridge_value_at(c.file.bridge, "deck.density")->value;
    const double crew = bridge_value_at(c.file.bridge, "loads.construction")->value;
    const double one_N = (density * inch(10.4) + crew) * foot(10) * foot(20);
    check_near(seat_at(c.plan, "R1-J05", 0)->load_N, 2 * one_N, 0.02, 0,
               "closed form: weight of two half panels of 10.4 in, twice its share");
    bool told = false;
    for (int i = 0; i < c.plan->remark_count; i++)
        told = told || (c.plan->alarm[i] && strstr(c.plan->remark[i], "30 % heavier"));
    assert_true(told);
    assert_false(seating_met(c.plan));
    seat_close(&c);
}

/* Whoever writes the proposal over an agreed raise would lose it. */
static void test_proposal_comes_on_top_of_the_raise_in_the_file(void **state)
{
    (void)state;
    SeatCase c;
    Arena *arena = arena_create((size_t)1 << 26);
    const char *more =
        arena_printf(arena, "%s  raise: 6 in\nseats: {haunch_most: 8 in}\n", flat_grade);
    seat_open(&c, more, seat_survey(arena, 2, 230, 10, level_top_ft), 1e3, (double)NAN);
    assert_true(c.plan->adjust.wanted && c.plan->adjust.fits && c.plan->adjust.raise_m < 0);
    const double sum_in = (inch(6) + c.plan->adjust.raise_m) / inch(1);
    const char *words = arena_printf(arena, "profile.raise is then %.2f in", sum_in);
    bool told = false;
    for (int i = 0; i < c.plan->remark_count; i++) told = told || strstr(c.plan->remark[i], words);
    assert_true(told);
    arena_free(arena);
    seat_close(&c);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_panels_sag_the_girder_by_5wL4_over_384EI),
        cmocka_unit_test(test_shim_takes_what_moves_later),
        cmocka_unit_test(test_level_when_set_leaves_room_for_the_panels_to_come),
        cmocka_unit_test(test_thrust_lifts_a_simple_span),
        cmocka_unit_test(test_creep_after_the_survey_is_superposed),
        cmocka_unit_test(test_facets_and_wedges_on_a_crest),
        cmocka_unit_test(test_skewed_joint_meets_each_girder_elsewhere),
        cmocka_unit_test(test_noise_goes_through_the_weights),
        cmocka_unit_test(test_shared_error_makes_all_places_one),
        cmocka_unit_test(test_thickened_crown_presses_the_shims_and_is_told),
        cmocka_unit_test(test_proposal_comes_on_top_of_the_raise_in_the_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
