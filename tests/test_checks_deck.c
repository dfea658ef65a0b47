/* Deck and joints: the strip between shims, lift, sliding, joints by rules and fatigue, removal. */
#include <stdio.h>
#include <string.h>

#include "checks_case.h"

static const double kip_N = 4448.2216152605; /* NIST SP 811 B.8 */

/* One span of steel without friction or time, panels of 8 in and 4030 ksi: the strip of the buckling
 * figures. Thrust of four lines: 96 in^2 a foot of width at 1 ksi. */
static const char bare[] =
    "time_model: elastic\n"
    "spans:\n"
    "  - length: 120 ft\n"
    "girders:\n"
    "  count: 4\n"
    "  spacing: 8 ft\n"
    "  overhang: 4 ft\n"
    "  kind: plate girder\n"
    "  plates:\n"
    "    - {top_width: 16 in, top_thickness: 1 in, web_depth: 54 in, web_thickness: 0.5 in,\n"
    "       bottom_width: 18 in, bottom_thickness: 1.5 in}\n"
    "deck: {thickness: 8 in, wearing_allowance: 0 in}\n"
    "panels: {length: 10 ft}\n"
    "concrete:\n"
    "  panel: {measured_modulus: 4030 ksi}\n"
    "  closure: {measured_modulus: 4030 ksi}\n"
    "climate: {humidity: 70 %, gradient_zone: 2}\n"
    "# more\n";

static void from_bare(ChecksCase *c, const char *more, double thrust_kip)
{
    char text[2048];
    bridge_replace(bare, "# more", more, text, sizeof text);
    checks_from_text(c, text, thrust_kip * kip_N);
}

static const CheckRow *row_of(const ChecksCase *c, const char *name, const char *line)
{
    const CheckRow *row = checks_row(c, name, line);
    assert_non_null(row);
    return row;
}

/* ---- on the shims ---- */

/* Strip 8 in thick, E 4030 ksi, hinged at shims L apart: 1414 kip/ft at 10 ft, 3928 at 6 ft; growth of a
 * bow at 1 ksi (96 kip/ft) 1.0728 and 1.0251. */
static void test_strip_between_shims_by_euler(void **state)
{
    (void)state;
    static const char source[] = "closed form: Euler, hinged at discrete supports";
    const char *const more[] = {"shims: {spacing: 10 ft}", "shims: {spacing: 6 ft}"};
    const double euler[] = {1414, 3928}, growth[] = {1.0728, 1.0251};
    for (int i = 0; i < 2; i++) {
        ChecksCase c;
        from_bare(&c, more[i], 96.0 * 32);
        const Sheet *s = row_of(&c, "strip between shims while jacked", "interior line")->sheet;
        check_near(sheet_value(s, "P") / 8, 96, 1e-9, 0, "a fourth of the thrust on 8 ft of 32 ft");
        check_near(sheet_value(s, "P_E") / 8, euler[i], 4e-4, 0, source);
        check_near(sheet_value(s, "q"), growth[i], 1e-4, 0, source);
        check_near(sheet_value(s, "f_c"), 1 + 6 * 96 * 0.25 * growth[i] / (12 * 64), 1e-4, 0,
                   "closed form: P/A + P e q/S, e 1/4 in");
        checks_close(&c);
    }
}

/* Over a crest of radius R the pressed panels are lifted by P/R besides what the girder's hogging does. */
static void test_crest_lifts_by_thrust_over_radius(void **state)
{
    (void)state;
    ChecksCase c;
    char text[2048], crest[2048];
    bridge_replace(bare, "wearing_allowance: 0 in",
                   "wearing_allowance: 0 in, crest_radius: 5000 ft", crest, sizeof crest);
    checks_from_text(&c, crest, 96.0 * 32 * kip_N);
    const CheckRow *row = row_of(&c, "lift by curvature under the thrust", "interior line");
    const double P = sheet_value(row->sheet, "P"), hog = sheet_value(row->sheet, "k_g");
    check_near(sheet_value(row->sheet, "k_p"), 1 / 60000.0, 1e-9, 0, "closed form: 1/R");
    check_near(quantity_in(row->demand, "kip/in"), P * (hog + 1 / 60000.0), 1e-9, 0,
               "law: equilibrium of a pressed curved strip");
    check_near(quantity_in(row->capacity, "lbf/ft"), 0.5 * 100 * 8, 1e-9, 0,
               "half of 100 psf on 8 ft");
    /* between anchors the girder hogs by P e/(E I), deck and girder bending alike */
    const double A = 16 + 27 + 27, y = (16 * 56 + 27 * 28.5 + 27 * 0.75) / A;
    const double I = 16 / 12.0 + 27 * 54 * 54 / 12.0 + 27 * 1.5 * 1.5 / 12 +
                     16 * (56 - y) * (56 - y) + 27 * (28.5 - y) * (28.5 - y) +
                     27 * (0.75 - y) * (0.75 - y);
    const double e = 56.5 - y + 2 + 4, EI = 29000 * I + 4030 * 96 * 512 / 12.0;
    check_near(hog, P * e / EI, 0.02, 0,
               "closed form: P e/(E_g I_g + E_d I_d); beside the gap the girder bends alone");
    assert_true(row->state != CHECK_UNPROVEN);
    checks_close(&c);
    bridge_replace(bare, "# more", "", text, sizeof text);
    checks_from_text(&c, text, 96.0 * 32 * kip_N);
    assert_int_equal(row_of(&c, "lift by curvature under the thrust", NULL)->state, CHECK_UNPROVEN);
    checks_close(&c);
}

static void test_wind_against_friction(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "loads: {construction_wind: 25 psf}\nshims: {friction_least: 0.15}", 1500);
    const CheckRow *row = row_of(&c, "panels against wind before they are grouted", NULL);
    check_near(quantity_in(row->demand, "lbf/ft"), 1.5 * 25 * 8 / 12, 1e-9, 0,
               "closed form: margin 1.5, wind on the edge");
    check_near(quantity_in(row->capacity, "lbf/ft"), 0.15 * 150 * 8 / 12 * 32, 1e-9, 0,
               "closed form: friction of 32 ft of deck");
    assert_int_equal(row->state, CHECK_UNPROVEN); /* deck.crossfall is not given */
    assert_non_null(strstr(row->why, "deck.crossfall"));
    checks_close(&c);
}

/* The deck weighs 100 psf. Friction 0.1, margin 1.5: each 2 % of slope takes 1.5 x 0.02/0.1 = 0.3 of it. */
static void test_crossfall_slides_the_panels(void **state)
{
    (void)state;
    const char *const slope[] = {"2 %", "4 %", "6 %", "7 %"};
    for (int i = 0; i < 4; i++) {
        ChecksCase c;
        char text[2048], sloped[2048], key[80];
        snprintf(key, sizeof key, "wearing_allowance: 0 in, crossfall: %s", slope[i]);
        bridge_replace(bare, "wearing_allowance: 0 in", key, text, sizeof text);
        bridge_replace(text, "# more",
                       "loads: {construction_wind: 25 psf}\nshims: {friction_least: 0.1}", sloped,
                       sizeof sloped);
        checks_from_text(&c, sloped, 1500 * kip_N);
        const CheckRow *row = row_of(&c, "panels against wind before they are grouted", NULL);
        const double s = i < 3 ? 0.02 * (i + 1) : 0.07;
        check_near(row->ratio_1, 1.5 * (25 * 8 / 12.0 + s * 100 * 32) / (0.1 * 100 * 32), 1e-9, 0,
                   "closed form: wind and weight down the slope over friction");
        assert_int_equal(row->state, i < 3 ? CHECK_PASS : CHECK_FAIL);
        checks_close(&c);
    }
}

static void test_friction_that_is_not_measured_is_half(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "shims: {friction: 0.15}", 1500);
    const CheckRow *row = row_of(&c, "panels against wind before they are grouted", NULL);
    check_near(sheet_value(row->sheet, "mu"), 0.075, 1e-12, 0, "common practice, no source: half");
    checks_close(&c);
}

static void test_braking_vehicle_by_friction(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "loads: {construction_vehicle: 60 kip}\nshims: {friction_least: 0.15}", 1500);
    const CheckRow *row = row_of(&c, "braking on the deck before its anchors are grouted", NULL);
    check_near(quantity_in(row->demand, "kip"), 1.5 * 0.25 * 60, 1e-9, 0,
               "AASHTO LRFD 3.6.4 (from memory): a quarter of the vehicle, margin 1.5");
    check_near(quantity_in(row->capacity, "kip"), 0.15 * 0.1 * 32 * (120 - 6) / 2, 1e-9, 0,
               "closed form: friction of half the run, 0.1 ksf");
    assert_int_equal(row->state, CHECK_UNPROVEN); /* deck.grade is not given */
    checks_close(&c);
}

/* 182.4 kip of deck on 5 %: 1.5 (0.25 x 60 + 0.05 (182.4 + 60)) kip downhill; without the vehicle
 * 1.5 x 0.05/0.15 of the friction. */
static void test_braking_downhill_adds_the_weight(void **state)
{
    (void)state;
    ChecksCase c;
    char text[2048], graded[2048];
    bridge_replace(bare, "wearing_allowance: 0 in", "wearing_allowance: 0 in, grade: 5 %", text,
                   sizeof text);
    bridge_replace(text, "# more",
                   "loads: {construction_vehicle: 60 kip}\nshims: {friction_least: 0.15}", graded,
                   sizeof graded);
    checks_from_text(&c, graded, 1500 * kip_N);
    const CheckRow *row = row_of(&c, "braking on the deck before its anchors are grouted", NULL);
    check_near(quantity_in(row->demand, "kip"), 1.5 * (0.25 * 60 + 0.05 * (182.4 + 60)), 1e-9, 0,
               "closed form: braking and weights down the slope");
    assert_int_equal(row->state, CHECK_FAIL);
    row = row_of(&c, "panels on the grade before they are grouted", NULL);
    check_near(row->ratio_1, 1.5 * 0.05 / 0.15, 1e-9, 0, "closed form: slope over friction");
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

/* AASHTO LRFD 5.5.3.1 (from memory): half of what is permanent and Fatigue I against 0.40 f'c. */
static void test_fatigue_of_the_deck_in_compression(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "", 1500);
    const CheckRow *row = row_of(&c, "fatigue of the deck in compression", "interior line");
    const Sheet *s = row->sheet;
    check_near(quantity_in(row->demand, "ksi"),
               sheet_value(s, "f_p") / 2 + 1.75 * sheet_value(s, "g_f") * sheet_value(s, "f_1"),
               1e-9, 0, "AASHTO LRFD 5.5.3.1 (from memory)");
    check_near(quantity_in(row->capacity, "ksi"), 0.4 * 6, 1e-9, 0, "0.40 of 6 ksi");
    /* 375 kip on 96 x 8 in, with what bending adds: well above its average */
    assert_true(sheet_value(s, "f_p") > 375 / (96 * 8.0) && sheet_value(s, "f_1") > 0);
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

static void test_time_without_grout_counts_days(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "days: {jacking: 120 day, haunch: 140.5 day}", 1500);
    const CheckRow *row = row_of(&c, "time from jacking to grouted haunches", NULL);
    check_near(row->demand, 20.5, 1e-12, 0, "closed form: days of the calendar");
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

/* ---- joints ---- */

static void test_average_is_held_against_what_the_rule_asks(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "criteria: {average: 260 psi}", 1500);
    const CheckRow *row = row_of(&c, "joints: average after losses", "interior line");
    check_near(quantity_in(row->demand, "psi"), 260, 1e-9, 0, "the rule's own figure");
    const LineAnswer *line = &c.answer->line[0];
    FibreStress at;
    double least = INFINITY; /* compression, both sides of every joint at the end of life */
    for (int j = 0; j < line->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            if (thrust_joint_side(line->line, j) != -side &&
                stage_stress(line->history, thrust_time_end(line), CHAIN_DECK,
                             thrust_joint_station(line->line, j), side, &at))
                least = fmin(least, -0.5 * (at.top_Pa + at.bottom_Pa));
    assert_true(row->capacity <= least * (1 + 1e-9));
    checks_close(&c);
}

static void test_rules_that_do_not_count_are_told(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "criteria: {joints: [permanent]}", 1500);
    assert_int_equal(row_of(&c, "joints: average after losses", NULL)->state, CHECK_TOLD);
    assert_int_not_equal(row_of(&c, "joints: permanent", NULL)->state, CHECK_TOLD);
    checks_close(&c);
}

/* The fatigue truck is an HL-93 truck with its rear axles 30 ft apart: never more tension than the design
 * live load, and a joint that fails under it is one that the truck opens. */
static void test_fatigue_truck_takes_less_than_live_load(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/steel-continuous.yaml", 0, NULL, NULL);
    const Sheet *fatigue = row_of(&c, "joints under Fatigue I", "exterior line")->sheet;
    const Sheet *live =
        row_of(&c, "joints: Service I with half the gradient", "exterior line")->sheet;
    const double lanes = c.answer->line[1].line->lanes_1;
    assert_true(sheet_value(fatigue, "f_1") > 0);
    assert_true(sheet_value(fatigue, "f_1") * lanes < sheet_value(live, "f_LL"));
    checks_close(&c);
    checks_from_example(&c, "examples/steel-continuous.yaml", 1500 * kip_N, NULL, NULL);
    const CheckRow *row = row_of(&c, "joints under Fatigue I", "exterior line");
    assert_int_equal(row->state, CHECK_FAIL);
    assert_true(row->demand > row->capacity);
    checks_close(&c);
}

/* ---- told ---- */

static void test_cut_releases_what_the_deck_has(void **state)
{
    (void)state;
    ChecksCase c;
    from_bare(&c, "shims: {friction: 0}", 1500);
    const Sheet *s =
        row_of(&c, "force that a cut through the deck releases", "interior line")->sheet;
    check_near(sheet_value(s, "N_t"), 1500 / 4.0, 1e-6, 0, "law: equilibrium, no friction");
    checks_close(&c);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_strip_between_shims_by_euler),
        cmocka_unit_test(test_crest_lifts_by_thrust_over_radius),
        cmocka_unit_test(test_wind_against_friction),
        cmocka_unit_test(test_crossfall_slides_the_panels),
        cmocka_unit_test(test_friction_that_is_not_measured_is_half),
        cmocka_unit_test(test_braking_vehicle_by_friction),
        cmocka_unit_test(test_braking_downhill_adds_the_weight),
        cmocka_unit_test(test_fatigue_of_the_deck_in_compression),
        cmocka_unit_test(test_time_without_grout_counts_days),
        cmocka_unit_test(test_average_is_held_against_what_the_rule_asks),
        cmocka_unit_test(test_rules_that_do_not_count_are_told),
        cmocka_unit_test(test_fatigue_truck_takes_less_than_live_load),
        cmocka_unit_test(test_cut_releases_what_the_deck_has)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
