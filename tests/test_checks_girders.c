/* Girders: sections, resistance of flanges, strength and stages, each against a handbook's numbers or a
 * formula worked out here. */
#include <stdio.h>
#include <string.h>

#include "checks_case.h"

static const double kip_N = 4448.2216152605; /* NIST SP 811 B.8 */
static const double pi = 3.14159265358979;

/* Steel section, slab and modular ratio of FHWA NHI-04-041 (2003), positive region: 14 x 5/8, 54 x 1/2 and
 * 14 x 7/8 in, slab 103 x 8 in with its middle 62.375 in above the soffit, n = 8. */
static const char handbook[] =
    "time_model: elastic\n"
    "spans:\n"
    "  - length: 120 ft\n"
    "girders:\n"
    "  count: 4\n"
    "  spacing: 103 in\n"
    "  overhang: 51.5 in\n"
    "  kind: plate girder\n"
    "  # more\n"
    "  plates:\n"
    "    - {top_width: 14 in, top_thickness: 0.625 in, web_depth: 54 in, web_thickness: 0.5 in,\n"
    "       bottom_width: 14 in, bottom_thickness: 0.875 in}\n"
    "deck: {thickness: 8 in, wearing_allowance: 0 in, haunch: 2.875 in}\n"
    "panels: {length: 10 ft}\n"
    "concrete:\n"
    "  panel: {strength: 4 ksi, measured_modulus: 3625 ksi}\n"
    "  closure: {strength: 4 ksi, measured_modulus: 3625 ksi}\n"
    "climate: {humidity: 70 %, gradient_zone: 2}\n";

static const char section_source[] =
    "FHWA NHI-04-041 LRFD design example, positive region (recalled, then recomputed)";

static void from_handbook(ChecksCase *c, const char *more)
{
    char text[2048];
    bridge_replace(handbook, "# more", more, text, sizeof text);
    checks_from_text(c, text, 1200 * kip_N);
}

static const Sheet *sheet_of(const ChecksCase *c, const char *name, const char *line)
{
    const CheckRow *row = checks_row(c, name, line);
    assert_non_null(row);
    return row->sheet;
}

/* ---- steel ---- */

static void test_steel_and_composite_section_are_the_handbooks(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const Sheet *s = sheet_of(&c, "composite section in positive moment", NULL);
    check_near(sheet_value(s, "A"), 48.000, 0, 0.0005, section_source);
    check_near(sheet_value(s, "y_s"), 25.852, 0, 0.0005, section_source);
    check_near(sheet_value(s, "I_s"), 22114.8, 0, 0.05, section_source);
    check_near(sheet_value(s, "y_b"), 50.765, 0, 0.0005, section_source);
    check_near(sheet_value(s, "I_n"), 66340.3, 0, 0.05, section_source);
    check_near(sheet_value(s, "S_b"), 1306.8, 0, 0.05, section_source);
    checks_close(&c);
}

/* 48 in^2 at 50 ksi against 0.85 x 4 x 103 in: the axis lies 6.853 in below the deck top. */
static void test_plastic_moment_with_its_axis_in_the_slab(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const Sheet *s = sheet_of(&c, "composite section in positive moment", "interior line");
    const double a = 2400 / (0.85 * 4 * 103);
    const double steel = 8 + 2.875 + 55.5 - sheet_value(s, "y_s");
    check_near(sheet_value(s, "D_p"), a, 1e-9, 0, "closed form: equilibrium of slab and steel");
    check_near(sheet_value(s, "M_p"), 2400 * (steel - a / 2), 1e-9, 0,
               "closed form: couple of steel and slab");
    checks_close(&c);
}

/* A thin, narrow slab: the axis drops into the web. Forces of the plates are summed one by one. */
static void test_plastic_moment_with_its_axis_in_the_web(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "steel_yield: 100 ksi\n");
    const Sheet *s = sheet_of(&c, "composite section in positive moment", "interior line");
    const double Ps = 0.85 * 4 * 103 * 8, Pt = 100 * 14 * 0.625, Pw = 100 * 54 * 0.5,
                 Pb = 100 * 14 * 0.875;
    /* AASHTO LRFD table D6.1-1, case I (from memory), without bars */
    const double Y = 54 / 2.0 * ((Pb - Pt - Ps) / Pw + 1);
    const double Mp = Pw / (2 * 54) * (Y * Y + (54 - Y) * (54 - Y)) + Ps * (Y + 0.625 + 2.875 + 4) +
                      Pt * (Y + 0.3125) + Pb * (54 - Y + 0.4375);
    assert_true(Y > 0);
    check_near(sheet_value(s, "y_w"), Y, 1e-9, 0, "AASHTO LRFD table D6.1-1, case I (from memory)");
    check_near(sheet_value(s, "M_p"), Mp, 1e-9, 0,
               "AASHTO LRFD table D6.1-1, case I (from memory)");
    checks_close(&c);
}

static void test_flange_in_compression_by_hand(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "unbraced: 24 ft\n");
    const Sheet *s = sheet_of(&c, "steel flanges while building, compression", "interior line");
    const double Dc = sheet_value(s, "D_c");
    check_near(sheet_value(s, "b_f"), 14, 1e-9, 0, "the example's top flange");
    check_near(sheet_value(s, "t_f"), 0.625, 1e-9, 0, "the example's top flange");
    const double lf = 14 / (2 * 0.625), lpf = 0.38 * sqrt(29000 / 50.0),
                 lrf = 0.56 * sqrt(29000 / 35.0);
    const double Rb = sheet_value(s, "R_b");
    check_near(sheet_value(s, "F_loc"), Rb * 50 * (1 - 0.3 * (lf - lpf) / (lrf - lpf)), 1e-6, 0,
               "AASHTO LRFD 6.10.8.2.2 (from memory)");
    const double rt = 14 / sqrt(12 * (1 + Dc * 0.5 / (3 * 14 * 0.625)));
    const double Lp = rt * sqrt(29000 / 50.0), Lr = pi * rt * sqrt(29000 / 35.0), Lb = 24 * 12;
    const double inelastic = Rb * 50 * (1 - 0.3 * (Lb - Lp) / (Lr - Lp));
    const double elastic = Rb * pi * pi * 29000 / (Lb / rt * Lb / rt);
    assert_true(Lb > Lp);
    check_near(sheet_value(s, "F_ltb"), Lb <= Lr ? inelastic : elastic, 1e-6, 0,
               "AASHTO LRFD 6.10.8.2.3 (from memory)");
    checks_close(&c);
}

static void test_bare_flange_without_bracing_is_unproven(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const CheckRow *row = checks_row(&c, "steel flanges while building, compression", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "girders.unbraced"));
    checks_close(&c);
}

/* A default grade or detail proves nothing. */
static void test_default_steel_and_detail_are_unproven(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "unbraced: 24 ft\n");
    const CheckRow *row = checks_row(&c, "steel flanges while building, tension", NULL);
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "girders.steel_yield"));
    checks_close(&c);
    from_handbook(&c, "unbraced: 24 ft\n  steel_yield: 50 ksi\n");
    assert_int_equal(checks_row(&c, "steel flanges while building, tension", NULL)->state,
                     CHECK_PASS);
    checks_close(&c);
    static const char example[] = "examples/steel-continuous.yaml";
    checks_from_example(&c, example, 0, NULL, NULL);
    row = checks_row(&c, "fatigue of bottom flange details", NULL);
    const double ratio_1 = row->ratio_1;
    assert_int_equal(row->state, CHECK_UNPROVEN);
    assert_non_null(strstr(row->why, "girders.detail_threshold"));
    checks_close(&c);
    checks_from_example(&c, example, 0, "\n  plates:", "\n  detail_threshold: 4.5 ksi\n  plates:");
    row = checks_row(&c, "fatigue of bottom flange details", NULL);
    check_near(row->ratio_1, ratio_1 * 10 / 4.5, 1e-9, 0, "law: the threshold is no load");
    assert_int_equal(row->state, CHECK_FAIL);
    checks_close(&c);
}

/* AASHTO LRFD D6.2.2 (from memory): factored dead loads on the steel, on 3 n, the rest of the yield stress
 * on n. The handbook's sections: S of the steel 22114.8/25.852 in^3. */
static void test_first_yield_takes_factored_dead_loads(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const Sheet *s = sheet_of(&c, "composite section in positive moment", "interior line");
    const double e = 55.5 - 25.8516 + 2.875 + 4, A3 = 824 / 24.0;
    const double y3 = 25.8516 + e * A3 / (48 + A3);
    const double I3 = 22114.8 + A3 * 64 / 12 + e * e * 48 * A3 / (48 + A3);
    check_near(sheet_value(s, "S_3"), I3 / y3, 1e-5, 0, "closed form: section at 3 n");
    const double Ms = sheet_value(s, "M_s"), Mc = sheet_value(s, "M_DC") - Ms;
    const double w = 48 / 144.0 * 0.490 * 1.05 + 8 / 12.0 * 103 / 12.0 * 0.150 +
                     14 / 12.0 * 2.875 / 12.0 * 0.150;
    check_near(Mc / Ms, 2 * 0.42 / 4 / w, 1e-3, 0, "closed form: barrier over the rest");
    const double fD = sheet_value(s, "f_p") + 0.25 * (Ms * 25.8516 / 22114.8 + Mc * y3 / I3);
    check_near(sheet_value(s, "f_D"), fD, 1e-5, 0, "AASHTO LRFD D6.2.2 (from memory)");
    check_near(sheet_value(s, "M_y"),
               1.25 * (Ms + Mc) + sheet_value(s, "S_b") * (50 - sheet_value(s, "f_D")), 1e-6, 0,
               "AASHTO LRFD D6.2.2 (from memory)");
    checks_close(&c);
}

/* Webs at 1 to 4: 80 in of depth are 82.46 in of web, 9/16 in thick. */
static void test_inclined_web_counts_along_itself(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/single-tub.yaml", 0, NULL, NULL);
    const Sheet *s = sheet_of(&c, "steel flanges while building, compression", NULL);
    const double D = 80 * sqrt(1.0625), Dc = sheet_value(s, "D_c");
    static const char source[] = "AASHTO LRFD 6.11.2.1 and 6.10.1.9 (from memory)";
    check_near(sheet_value(s, "D"), D, 1e-9, 0, source);
    assert_true(Dc > 0 && Dc < D);
    check_near(sheet_value(s, "F_crw"), 0.9 * 29000 * 9 * (D / Dc) * (D / Dc) / pow(D / 0.5625, 2),
               1e-9, 0, source);
    const Sheet *p = sheet_of(&c, "composite section in positive moment", NULL);
    check_near(sheet_value(p, "D") / sheet_value(p, "t_1"), 146.6, 0, 0.05, source);
    check_near(sheet_value(p, "D_cp"), sheet_value(p, "y_w") * sqrt(1.0625), 1e-9, 1e-9, source);
    checks_close(&c);
}

/* Where nothing can be taken off there is no row. */
static void test_simple_span_has_no_reaction_to_lose(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    assert_null(checks_row(&c, "bearing keeps its load while jacked", NULL));
    assert_non_null(checks_row(&c, "bearing keeps its load in service", NULL));
    checks_close(&c);
}

/* Simple span: the moment of weights by statics, of HL-93 from the handbook's own absolute maximum. */
static void test_moments_of_a_simple_span(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const Sheet *s = sheet_of(&c, "composite section in positive moment", "interior line");
    const double steel = 48 / 144.0 * 0.490 * 1.05, deck = 8 / 12.0 * 103 / 12.0 * 0.150;
    const double haunch = 14 / 12.0 * 2.875 / 12.0 * 0.150, barrier = 2 * 0.42 / 4;
    const double w = steel + deck + haunch + barrier; /* kip/ft */
    double x = 0; /* the station of the largest factored moment */
    const CheckRow *row = checks_row(&c, "composite section in positive moment", "interior line");
    assert_int_equal(sscanf(row->where, "x = %lf ft", &x), 1);
    check_near(sheet_value(s, "M_DC") / 12, w * x * (120 - x) / 2, 1e-3, 0,
               "closed form: w x (L - x)/2, x printed to 0.1 ft");
    check_near(sheet_value(s, "M_EL"), 0, 0, 1, "law: a simple span locks no moment in");
    /* truck 1883.3 of the AASHTO table is an absolute maximum, 2.33 ft from mid-span */
    const double lane = 0.64 * 120 * 120 / 8;
    const double most = 1.33 * 1883.3 + lane, middle = 3652.4;
    const double here = sheet_value(s, "M_1") / 12;
    assert_true(here > middle - 1 && here < most + 1);
    checks_close(&c);
}

/* Two equal spans, a jack in the deck's axis, anchors of length a at both ends. The girder's end moment
 * P e over L - a of each span lifts it off the pier by 3 P e (1 - (a/L)^2)/L; each end gets half. */
static void test_thrust_lifts_a_two_span_girder_off_its_pier(void **state)
{
    (void)state;
    ChecksCase c;
    char text[2048];
    bridge_replace(handbook, "spans:\n  - length: 120 ft\n",
                   "spans:\n  - length: 150 ft\n  - length: 150 ft\n"
                   "shims: {friction: 0}\n"
                   "runs:\n  - {from_span: 1, to_span: 2, gap_at: 75 ft}\n",
                   text, sizeof text);
    checks_from_text(&c, text, 1200 * kip_N);
    /* the row shows the bearing with the least left: here an end, which the thrust loads */
    const Sheet *s = sheet_of(&c, "bearing keeps its load while jacked", "interior line");
    const LineAnswer *line = &c.answer->line[0];
    const double P = line->thrust_N / kip_N;
    const double e = 55.5 - 25.8516 + 2.875 + 4, L = 150 * 12, a = 12 * 12;
    check_near(sheet_value(s, "R_t") - sheet_value(s, "R_0"), 1.5 * P * e * (1 - a * a / L / L) / L,
               0.01, 0,
               "closed form: force method, girder of one stiffness; the anchors' is larger");
    checks_close(&c);
}

/* Elastic steel: what the stages did is undone when the deck is taken away. */
static void test_steel_without_its_deck_goes_back(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    const Sheet *removed = sheet_of(&c, "camber change when the deck is removed", "interior line");
    const double w = 48 / 144.0 * 0.490 * 1.05 / 12; /* kip/in */
    check_near(sheet_value(removed, "v_e"), -5 * w * pow(1440, 4) / (384 * 29000 * 22114.8), 2e-3,
               0, "closed form: 5 w L^4/(384 E I) under its own weight");
    check_near(sheet_value(removed, "dv"),
               sheet_value(removed, "v_e") - sheet_value(removed, "v_s"), 1e-12, 0,
               "law: elastic steel");
    checks_close(&c);
}

static void test_splices_that_are_not_said_are_unproven(void **state)
{
    (void)state;
    ChecksCase c;
    from_handbook(&c, "");
    assert_int_equal(checks_row(&c, "bolted splices of the top flange", NULL)->state,
                     CHECK_UNPROVEN);
    checks_close(&c);
    from_handbook(&c, "spliced: no\n");
    assert_null(checks_row(&c, "bolted splices of the top flange", NULL));
    checks_close(&c);
    from_handbook(&c, "splices: [{at: 40 ft, slip: 900 kip}]\n");
    const CheckRow *row = checks_row(&c, "bolted splice of the top flange", "interior line");
    assert_non_null(row);
    check_near(sheet_value(row->sheet, "A_f"), 14 * 0.625, 1e-9, 0, "the example's top flange");
    assert_int_equal(row->state, CHECK_PASS);
    checks_close(&c);
}

/* ---- pretensioned ---- */

/* BT-54 of the small file: 26 strands 4 in above the soffit, deck 8 in of 6 ksi, 102 in wide. */
static void test_pretensioned_strength_by_hand(void **state)
{
    (void)state;
    ChecksCase c;
    char text[2048];
    bridge_small("time_model: elastic\n", text, sizeof text);
    checks_from_text(&c, text, 1200 * kip_N);
    const Sheet *s = sheet_of(&c, "composite section in positive moment", "interior line");
    const double A = 26 * 0.217, dp = 8 + 2 + 54 - 4, k = 2 * (1.04 - 243 / 270.0);
    const double c_in = A * 270 / (0.85 * 6 * 0.75 * 102 + k * A * 270 / dp);
    const double fps = 270 * (1 - k * c_in / dp);
    check_near(sheet_value(s, "c"), c_in, 1e-9, 0, "AASHTO LRFD 5.6.3.1.1 (from memory)");
    check_near(sheet_value(s, "f_ps"), fps, 1e-9, 0, "AASHTO LRFD 5.6.3.1.1 (from memory)");
    check_near(sheet_value(s, "M_n"), A * fps * (dp - 0.75 * c_in / 2), 1e-9, 0,
               "AASHTO LRFD 5.6.3.2 (from memory), rectangle");
    check_near(sheet_value(s, "phi"), 1, 0, 0, "AASHTO LRFD 5.5.4.2 (from memory)");
    checks_close(&c);
}

/* Panels, own weight and haunch on the bare BT-54, elastic and without losses but by shortening: the sheet
 * has the stress of strands and moment at mid-span. */
static void test_pretensioned_girder_with_the_panels_on(void **state)
{
    (void)state;
    ChecksCase c;
    char text[2048];
    bridge_small("time_model: elastic\n", text, sizeof text);
    checks_from_text(&c, text, 1200 * kip_N);
    const CheckRow *on = checks_row(&c, "girder compression with the panels on", "interior line");
    const CheckRow *before = checks_row(&c, "girder compression at transfer", "interior line");
    assert_true(on->demand < before->demand); /* the panels' weight takes from the soffit */
    check_near(quantity_in(on->capacity, "ksi"), 0.65 * 8.5, 1e-9, 0,
               "AASHTO LRFD 5.9.2.3.1a (from memory): 0.65 of 8.5 ksi");
    assert_non_null(checks_row(&c, "girder tension with the panels on", "interior line"));
    assert_int_equal(on->state, CHECK_UNPROVEN); /* strand by default */
    const CheckRow *row =
        checks_row(&c, "fatigue of a pretensioned girder in compression", "interior line");
    const Sheet *s = row->sheet;
    check_near(quantity_in(row->demand, "ksi"),
               sheet_value(s, "f_p") / 2 + 1.75 * sheet_value(s, "g_f") * sheet_value(s, "f_1"),
               1e-9, 0, "AASHTO LRFD 5.5.3.1 (from memory)");
    check_near(quantity_in(row->capacity, "ksi"), 0.4 * 8.5, 1e-9, 0, "0.40 of 8.5 ksi");
    assert_int_equal(row->state, CHECK_UNPROVEN); /* strand by default */
    checks_close(&c);
}

/* The ties of the example: 9 in^2 at 4 in and 6 in^2 at 46 in below the top, diaphragm 42 x 54 in of
 * 5 ksi. Both levels: forces balance and each stress follows from the plane section. */
static void test_ties_alone_balance_in_negative_moment(void **state)
{
    (void)state;
    ChecksCase c;
    checks_from_example(&c, "examples/made-continuous.yaml", 2000 * kip_N, NULL, NULL);
    const Sheet *s = sheet_of(&c, "ties and diaphragm in negative moment", "interior line");
    check_near(sheet_value(s, "C"), sheet_value(s, "T"), 1e-6, 0, "law: equilibrium");
    const double axis = sheet_value(s, "c"), E = 29000;
    for (int i = 1; i <= 2; i++) {
        char f[8], d[8];
        snprintf(f, sizeof f, "f_%d", i);
        snprintf(d, sizeof d, "d_%d", i);
        const double strain = 0.003 * (sheet_value(s, d) - axis) / axis;
        check_near(sheet_value(s, f), fmax(-75, fmin(75, E * strain)), 1e-6, 1e-6,
                   "law: plane section, elastic up to yield");
    }
    checks_close(&c);
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_steel_and_composite_section_are_the_handbooks),
        cmocka_unit_test(test_plastic_moment_with_its_axis_in_the_slab),
        cmocka_unit_test(test_plastic_moment_with_its_axis_in_the_web),
        cmocka_unit_test(test_flange_in_compression_by_hand),
        cmocka_unit_test(test_bare_flange_without_bracing_is_unproven),
        cmocka_unit_test(test_default_steel_and_detail_are_unproven),
        cmocka_unit_test(test_first_yield_takes_factored_dead_loads),
        cmocka_unit_test(test_inclined_web_counts_along_itself),
        cmocka_unit_test(test_simple_span_has_no_reaction_to_lose),
        cmocka_unit_test(test_moments_of_a_simple_span),
        cmocka_unit_test(test_thrust_lifts_a_two_span_girder_off_its_pier),
        cmocka_unit_test(test_steel_without_its_deck_goes_back),
        cmocka_unit_test(test_splices_that_are_not_said_are_unproven),
        cmocka_unit_test(test_pretensioned_strength_by_hand),
        cmocka_unit_test(test_pretensioned_girder_with_the_panels_on),
        cmocka_unit_test(test_ties_alone_balance_in_negative_moment)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
