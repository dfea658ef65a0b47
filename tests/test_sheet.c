#include "check.h"
#include "clench/sheet.h"

#include <string.h>

static const double IN_M = 0.0254, FT_M = 0.3048, KIP_N = 4448.2216152605; /* NIST SP 811 B.8 */
static double ksi_Pa(double ksi) { return ksi * KIP_N / (IN_M * IN_M); }
static double kcf(double value) { return value * KIP_N / (FT_M * FT_M * FT_M); }

static const char lrfd[] = "AASHTO LRFD, from memory; calculated once more apart from this program";

static const char *text_of(const Term *term, Arena *arena)
{
    Text text = text_start(arena);
    sheet_text(term, &text);
    return text.bytes;
}

/* What the printed numbers of a line give. */
static double printed_again(const Sheet *sheet, int index, Arena *arena)
{
    Sheet again = sheet_start("again", arena);
    const Term *const numbers = sheet_numbers(sheet, index, arena);
    assert_non_null(numbers);
    const double value = sheet_empirical(&again, "x", text_of(numbers, arena), "", "", NULL);
    assert_int_equal(again.status, STATUS_OK);
    return value;
}

/* law: who types the printed numbers into a calculator gets the printed result. */
static void check_printed(const Sheet *sheet, Arena *arena)
{
    char a[SHEET_NUMBER_MAX], b[SHEET_NUMBER_MAX];
    for (int i = 0; i < sheet->count; i++) {
        if (!sheet_numbers(sheet, i, arena)) continue;
        sheet_number(printed_again(sheet, i, arena), SHEET_DIGITS, a);
        assert_string_equal(a, sheet_number(sheet->line[i].shown, SHEET_DIGITS, b));
    }
}

/* ---- worked examples ---- */

static Sheet stud(double diameter_in, double fc_ksi, Arena *arena)
{
    Sheet s = sheet_start("strength of a headed stud", arena);
    sheet_given(&s, "d", diameter_in * IN_M, "in", "diameter of the shank");
    sheet_given(&s, "f'c", ksi_Pa(fc_ksi), "ksi", "strength of the concrete around it");
    sheet_given(&s, "w_c", kcf(0.150), "kcf", "weight of the concrete");
    sheet_formula(&s, "F_u", "60 [ksi]", "ksi", "strength of the stud", "AASHTO LRFD 6.4.4");
    sheet_formula(&s, "A_sc", "pi d^2 / 4", "in^2", "shank", "closed form: circle");
    sheet_empirical(&s, "E_c", "33000 w_c^1.5 sqrt(f'c)", "ksi", "modulus", lrfd);
    sheet_formula(&s, "C", "0.5 A_sc sqrt(f'c E_c)", "kip", "concrete", "AASHTO 6.10.10.4.3");
    sheet_formula(&s, "Q_n", "min(C, A_sc F_u)", "kip", "strength", "AASHTO 6.10.10.4.3-1");
    sheet_formula(&s, "Q_r", "0.85 Q_n", "kip", "reduced", "AASHTO 6.10.10.4.1-1");
    assert_int_equal(s.status, STATUS_OK);
    return s;
}

static void test_stud_strength_table(void **state)
{
    Arena *const arena = arena_create(1 << 20);
    static const struct {
        double d_in, fc_ksi, area_in2, concrete_kip, Qn_kip, Qr_kip; /* unit: as named */
    } row[] = {{0.75, 4, 0.4418, 27.356, 26.507, 22.531},
               {0.875, 4, 0.6013, 37.235, 36.079, 30.667},
               {1, 4, 0.7854, 48.633, 47.124, 40.055},
               {1.25, 4, 1.2272, 75.989, 73.631, 62.586},
               {0.875, 8, 0.6013, 62.621, 36.079, 30.667}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        const Sheet s = stud(row[i].d_in, row[i].fc_ksi, arena);
        check_near(sheet_value(&s, "A_sc"), row[i].area_in2, 0, 5e-5, lrfd);
        check_near(sheet_value(&s, "C"), row[i].concrete_kip, 0, 0.005, lrfd);
        check_near(sheet_value(&s, "Q_n"), row[i].Qn_kip, 0, 0.005, lrfd);
        check_near(sheet_SI(&s, "Q_r"), row[i].Qr_kip * KIP_N, 0, 0.005 * KIP_N, lrfd);
        check_printed(&s, arena);
    }
    arena_free(arena);
}

static void test_interface_shear_worked_example(void **state)
{
    Arena *const arena = arena_create(1 << 20);
    Sheet s = sheet_start("interface shear", arena);
    (void)state;
    sheet_given(&s, "b_v", 42 * IN_M, "in", "width of the interface");
    sheet_formula(&s, "A_cv", "12 [in/ft] b_v", "in^2/ft", "area a foot", "closed form");
    sheet_formula(&s, "c", "0.28 [ksi]", "ksi", "cohesion", "AASHTO LRFD 5.7.4.4");
    sheet_formula(&s, "mu", "1.0", "", "friction", "AASHTO LRFD 5.7.4.4");
    sheet_given(&s, "A_vf", 0.40 * IN_M * IN_M / FT_M, "in^2/ft", "steel across it");
    sheet_given(&s, "f_y", ksi_Pa(60), "ksi", "its yield strength");
    sheet_given(&s, "f'c", ksi_Pa(4), "ksi", "weaker concrete");
    sheet_given(&s, "P_c", 0, "kip/ft", "compression across it");
    sheet_formula(&s, "V_ni", "c A_cv + mu (A_vf f_y + P_c)", "kip/ft", "strength", lrfd);
    sheet_formula(&s, "V_1", "0.3 f'c A_cv", "kip/ft", "cap", lrfd);
    sheet_formula(&s, "V_2", "1.8 [ksi] A_cv", "kip/ft", "cap", lrfd);
    sheet_formula(&s, "V_r", "0.9 min(V_ni, V_1, V_2)", "kip/ft", "reduced", lrfd);
    assert_int_equal(s.status, STATUS_OK);
    check_near(sheet_value(&s, "V_ni"), 165.12, 0, 0.01, lrfd);
    check_near(sheet_value(&s, "V_1"), 604.8, 0, 0.01, lrfd);
    check_near(sheet_value(&s, "V_2"), 907.2, 0, 0.01, lrfd);
    check_near(sheet_value(&s, "V_r"), 148.61, 0, 0.01, lrfd);
    check_printed(&s, arena);
    arena_free(arena);
}

static void test_concrete_modulus_table(void **state)
{
    Arena *const arena = arena_create(1 << 20);
    static const struct {
        double wc_kcf, fc_ksi, power_ksi, root_ksi; /* unit: as named; 0 where not tabulated */
    } row[] = {{0.150, 4, 0, 3834.3},
               {0.150, 6.5, 0, 4887.7},
               {0.145, 4, 3986.5, 3644.1},
               {0.145, 6, 4557.3, 4463.2},
               {0.146, 6, 4620.4, 0}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        Sheet s = sheet_start("modulus", arena);
        sheet_given(&s, "w_c", kcf(row[i].wc_kcf), "kcf", "weight");
        sheet_given(&s, "f'c", ksi_Pa(row[i].fc_ksi), "ksi", "strength");
        sheet_formula(&s, "K_1", "1.0", "", "aggregate", "AASHTO LRFD 5.4.2.4");
        const double root = sheet_empirical(&s, "E_1", "33000 w_c^1.5 sqrt(f'c)", "ksi", "", lrfd);
        const double power =
            sheet_empirical(&s, "E_2", "120000 K_1 w_c^2 f'c^0.33", "ksi", "", lrfd);
        if (row[i].root_ksi > 0) check_near(root, row[i].root_ksi, 0, 0.1, lrfd);
        if (row[i].power_ksi > 0) check_near(power, row[i].power_ksi, 0, 0.1, lrfd);
        check_printed(&s, arena);
    }
    arena_free(arena);
}

static void test_strip_widths_table(void **state)
{
    Arena *const arena = arena_create(1 << 20);
    static const double S_ft[] = {6, 8, 9.75, 12}, positive_in[] = {65.6, 78.8, 90.35, 105.2},
                        negative_in[] = {66.0, 72.0, 77.25, 84.0};
    (void)state;
    for (int i = 0; i < 4; i++) {
        Sheet s = sheet_start("strip widths", arena);
        sheet_given(&s, "S", S_ft[i] * FT_M, "ft", "spacing of the girders");
        check_near(sheet_empirical(&s, "E_p", "26 + 6.6 S", "in", "", "AASHTO 4.6.2.1.3"),
                   positive_in[i], 0, 1e-9, lrfd);
        check_near(sheet_empirical(&s, "E_n", "48 + 3.0 S", "in", "", "AASHTO 4.6.2.1.3"),
                   negative_in[i], 0, 1e-9, lrfd);
        check_printed(&s, arena);
    }
    arena_free(arena);
}

/* ---- the grammar ---- */

static void check_value(const char *formula, double expected)
{
    Arena *const arena = arena_create(1 << 16);
    Sheet s = sheet_start("grammar", arena);
    sheet_given(&s, "a", 2.5, "", "");
    sheet_given(&s, "f'c", 7.25, "", "");
    const double value = sheet_formula(&s, "x", formula, "", "", NULL);
    if (s.status != STATUS_OK) print_error("%s\n", s.err.text);
    check_near(value, expected, 1e-14, 0, "closed form: order of operations");
    arena_free(arena);
}

static void test_operations_bind_as_on_paper(void **state)
{
    (void)state;
    check_value("2 - 3 - 4", -5);
    check_value("24 / 4 / 3 * 2", 4);
    check_value("-a^2", -6.25);
    check_value("2^3^2", 512);
    check_value("a^-2", 0.16);
    check_value("3 a (a + 1) + 0.5 f'c", 26.25 + 3.625);
    check_value("2 * -a", -5);
    check_value("if(a <= 2.5, sqrt(16), sqrt(-1))", 4);
    check_value("if(a > 2.5, 1, 0.25)", 0.25);
    check_value("min(3, a, f'c) + max(1, 2, 3, 4) + abs(-1.5)", 8);
    check_value("ln(exp(1.75)) + log10(1000)", 4.75);
    check_value("sin(0.3)^2 + cos(0.3)^2 + tan(0)", 1);
    check_value("1.5e3 + 2.5E-1", 1500.25);
}

static void test_refused_formulas_say_where(void **state)
{
    static const struct {
        const char *formula;
        int column;
    } row[] = {{"", 1},       {"a +", 4},         {"(a", 3},     {"a)", 2},       {"foo(a)", 1},
               {"min(a)", 6}, {"sqrt(a, a)", 8},  {"sqrt", 1},   {"a / b c", 7},  {"a b 2", 5},
               {"1,5", 2},    {"if(a, 1, 2)", 5}, {"12 [in", 5}, {"12 [ell]", 5}, {"a = b", 3},
               {"a_b_c", 4},  {".", 1},           {"1.5.2", 4},  {"a ^ ^ a", 5},  {"#", 1}};
    Arena *const arena = arena_create(1 << 20);
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        Error err = {.status = STATUS_OK};
        const Term *term = NULL;
        check_status(sheet_parse(row[i].formula, arena, &term, &err), STATUS_BAD_INPUT, &err);
        if (err.from.column != row[i].column) print_error("%s: %s\n", row[i].formula, err.text);
        assert_int_equal(err.from.column, row[i].column);
        assert_null(term);
    }
    arena_free(arena);
}

static void test_formula_without_bound_refused(void **state)
{
    Arena *const arena = arena_create(1 << 20);
    char deep[4 * SHEET_DEPTH_MAX + 8], wide[SHEET_FORMULA_MAX + 2];
    const Term *term;
    (void)state;
    memset(deep, '(', sizeof deep);
    deep[sizeof deep - 1] = 0;
    memset(wide, '1', sizeof wide);
    wide[sizeof wide - 1] = 0;
    assert_int_equal(sheet_parse(deep, arena, &term, NULL), STATUS_BAD_INPUT);
    assert_int_equal(sheet_parse(wide, arena, &term, NULL), STATUS_TOO_LARGE);
    arena_free(arena);
}

static void test_text_of_a_formula_is_read_back(void **state)
{
    static const char *const formulas[] = {"0.5 A_sc sqrt(f'c E_c)",
                                           "a - (b - c)",
                                           "a - (b + c) / (d e)",
                                           "(-a)^2",
                                           "-a^2",
                                           "a^(-0.5)",
                                           "(a b)^(c + d)",
                                           "(a^b)^c",
                                           "a / (b / c)",
                                           "a / b * c",
                                           "2 * 3 * a",
                                           "a * 2^b",
                                           "a (-b)",
                                           "M * 12 [in/ft] / S",
                                           "if(a <= b, min(a, 1), -(a + b))",
                                           "a (b / c)",
                                           "(a + b) (c - d)"};
    Arena *const arena = arena_create(1 << 20);
    const Term *term;
    (void)state;
    for (size_t i = 0; i < sizeof formulas / sizeof *formulas; i++) {
        assert_int_equal(sheet_parse(formulas[i], arena, &term, NULL), STATUS_OK);
        const char *const once = text_of(term, arena);
        assert_int_equal(sheet_parse(once, arena, &term, NULL), STATUS_OK);
        assert_string_equal(text_of(term, arena), once);
    }
    assert_int_equal(sheet_parse("0.5*A_sc*sqrt(f'c*E_c)", arena, &term, NULL), STATUS_OK);
    assert_string_equal(text_of(term, arena), "0.5 A_sc sqrt(f'c E_c)");
    arena_free(arena);
}

/* ---- units ---- */

static Status unit_status(const char *formula, const char *unit, const char **sentence,
                          Arena *arena)
{
    Sheet s = sheet_start("units", arena);
    sheet_given(&s, "M", 1000 * FT_M * KIP_N, "kip*ft", "moment");
    sheet_given(&s, "S", 500 * IN_M * IN_M * IN_M, "in^3", "modulus");
    sheet_given(&s, "t", 8 * IN_M, "in", "thickness");
    sheet_given(&s, "T", 293.15, "degF", "temperature");
    const double value = sheet_formula(&s, "x", formula, unit, "", NULL);
    assert_int_equal(s.status == STATUS_OK, isfinite(value));
    *sentence = arena_text(arena, s.err.text);
    return s.status;
}

static void test_units_of_a_formula_must_fit_its_line(void **state)
{
    static const struct {
        const char *formula, *unit, *part; /* of the sentence; NULL: accepted */
    } row[] = {{"M 12 [in/ft] / S", "ksi", "written with *"},
               {"12 [in/ft] M / S", "ksi", NULL},
               {"M / S", "ksi", "a stress in another unit"},
               {"M", "ksi", "a moment"},
               {"M + S", "ksi", "units meet"},
               {"t + 2", "in", "units meet"},
               {"t + 2 [in]", "in", NULL},
               {"max(0, t)", "in", NULL},
               {"sqrt(t^2 + t^2)", "in", NULL},
               {"S^(1/3)", "in", NULL},
               {"t^t", "in", "an exponent"},
               {"exp(t)", "", "pure number"},
               {"exp(t / 1 [in])", "", NULL},
               {"T + 20 [delta_degF]", "degF", NULL},
               {"M t", "kip*ft", "length^2 force^1"},
               {"t", "parsec", "is unknown"},
               {"t / 0", "in", "division by zero"},
               {"sqrt(-1)", "", "has no value"},
               {"q", "", "is not given above"},
               {"if(1 < 2, t, q)", "in", "is not given above"}};
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        Arena *const arena = arena_create(1 << 18);
        const char *sentence;
        const Status status = unit_status(row[i].formula, row[i].unit, &sentence, arena);
        const bool told = row[i].part && strstr(sentence, row[i].part);
        if (row[i].part ? !told : status != STATUS_OK)
            print_error("%s: %s\n", row[i].formula, sentence);
        assert_int_equal(status, row[i].part ? STATUS_BAD_INPUT : STATUS_OK);
        assert_true(!row[i].part || told);
        arena_free(arena);
    }
}

static void test_values_keep_their_size_in_SI(void **state)
{
    static const struct {
        double SI; /* unit: SI of the unit beside it */
        const char *unit;
    } row[] = {{293.15, "degF"}, {0.245, "in"},  {3.1e7, "psi"},
               {0.07, "%"},      {12.5, "1/ft"}, {1234.5, "kip*in^2"}};
    Arena *const arena = arena_create(1 << 18);
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        Sheet s = sheet_start("there and back", arena);
        sheet_given(&s, "x", row[i].SI, row[i].unit, "");
        check_near(sheet_SI(&s, "x"), row[i].SI, 1e-13, 0, "law: conversion and its inverse");
    }
    arena_free(arena);
}

/* ---- sheets ---- */

static void test_first_failure_is_kept(void **state)
{
    Arena *const arena = arena_create(1 << 18);
    Sheet s = sheet_start("of a failure", arena);
    (void)state;
    sheet_given(&s, "a", 3, "", "");
    assert_true(isnan(sheet_formula(&s, "b", "a / (a - a)", "", "", NULL)));
    assert_true(isnan(sheet_formula(&s, "c", "a +", "", "", NULL)));
    sheet_given(&s, "d", 1, "", "");
    sheet_words(&s, "not reached");
    assert_int_equal(s.count, 1);
    assert_string_equal(s.err.text, "of a failure: b = a / (a - a): division by zero");
    assert_true(isnan(sheet_value(&s, "a")) && isnan(sheet_SI(&s, "d")));
    Sheet bad = sheet_start("given", arena);
    sheet_given(&bad, "sqrt", 1, "", "");
    assert_int_equal(bad.status, STATUS_BAD_INPUT);
    bad = sheet_start("given", arena);
    sheet_given(&bad, "a", (double)NAN, "in", "");
    assert_int_equal(bad.status, STATUS_BAD_INPUT);
    arena_free(arena);
}

static void test_symbol_given_again_counts_from_there(void **state)
{
    Arena *const arena = arena_create(1 << 18);
    Sheet s = sheet_start("twice", arena);
    (void)state;
    sheet_given(&s, "a", 3, "", "");
    sheet_formula(&s, "b", "2 a", "", "", NULL);
    for (int i = 0; i < 40; i++) sheet_words(&s, "lines beyond the first room");
    sheet_given(&s, "a", 5, "", "");
    sheet_formula(&s, "c", "2 a", "", "", NULL);
    check_near(sheet_value(&s, "b"), 6, 0, 0, "closed form");
    check_near(sheet_value(&s, "c"), 10, 0, 0, "closed form");
    assert_string_equal(text_of(sheet_numbers(&s, 1, arena), arena), "2 * 3");
    assert_string_equal(text_of(sheet_numbers(&s, s.count - 1, arena), arena), "2 * 5");
    assert_null(sheet_numbers(&s, 0, arena));
    arena_free(arena);
}

/* A difference of like numbers needs more digits than four to give its result again. */
static void test_difference_prints_the_digits_it_needs(void **state)
{
    Arena *const arena = arena_create(1 << 18);
    Sheet s = sheet_start("difference", arena);
    (void)state;
    sheet_given(&s, "a", 1.2345678, "", "");
    sheet_given(&s, "b", -1.2344444, "", "");
    sheet_formula(&s, "c", "1000 (a + b)", "", "", NULL);
    check_printed(&s, arena);
    assert_string_equal(text_of(sheet_numbers(&s, 2, arena), arena),
                        "1000 (1.2345678 + (-1.2344444))");
    arena_free(arena);
}

static void test_numbers_are_written_for_people(void **state)
{
    static const struct {
        double value; /* unit: none */
        const char *text;
    } row[] = {{3834.25, "3834"},          {545894.4, "545894"}, {0.601325, "0.6013"}, {4, "4"},
               {0.000123456, "0.0001235"}, {2.5e-6, "2.5e-6"},   {-26.5072, "-26.51"}, {0, "0"},
               {9999.96, "10000"},         {1.25e12, "1.25e12"}};
    char text[SHEET_NUMBER_MAX];
    (void)state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++)
        assert_string_equal(sheet_number(row[i].value, SHEET_DIGITS, text), row[i].text);
    assert_string_equal(sheet_number((double)NAN, SHEET_DIGITS, text), "-");
}

static void test_what_rounding_leaves_is_shown_as_nothing(void **state)
{
    Arena *const arena = arena_create((size_t)1 << 22);
    Sheet s = sheet_start("sums", arena);
    sheet_given(&s, "R_1", 5.7e-10, "kip", "left of zero");
    sheet_given(&s, "alpha", 1.1e-5, "1/delta_degC", "small, but no rounding");
    sheet_given(&s, "k", 4.6e-6, "1/m", "small, but no rounding");
    sheet_given(&s, "a", 2.385, "", "");
    sheet_given(&s, "b", 2.385 - 1e-11, "", "");
    sheet_formula(&s, "d", "a - b", "", "", NULL);
    sheet_formula(&s, "z", "max(R_1, 0)", "kip", "", NULL);
    assert_int_equal(s.status, STATUS_OK);
    assert_true(s.line[0].value > 0 && s.line[0].shown == 0);
    assert_true(s.line[1].shown == s.line[1].value && s.line[2].shown == s.line[2].value);
    assert_true(s.line[5].value != 0 && s.line[5].shown == 0);
    assert_true(s.line[6].shown == 0);
    check_printed(&s, arena);
    arena_free(arena);
    (void)state;
}

static void test_sheets_with_the_same_lines_share_formulas(void **state)
{
    Arena *const arena = arena_create((size_t)1 << 22);
    Sheet s[3];
    static const char *const formula[3] = {"2 a", "2 a", "3 a"};
    for (int i = 0; i < 3; i++) {
        s[i] = sheet_start("one", arena);
        sheet_given(&s[i], "a", 1.5 + i, "m", "length");
        sheet_formula(&s[i], "b", formula[i], "m", "more", NULL);
    }
    assert_true(sheet_same_formulas(&s[0], &s[1]));
    assert_false(sheet_same_formulas(&s[0], &s[2]));
    sheet_words(&s[1], "one more line");
    assert_false(sheet_same_formulas(&s[0], &s[1]));
    arena_free(arena);
    (void)state;
}

static void test_values_are_shown_in_the_unit_of_their_kind(void **state)
{
    Arena *const arena = arena_create((size_t)1 << 22);
    Sheet s = sheet_start("units", arena);
    sheet_given(&s, "M", 1200 * KIP_N * IN_M, "kip*in", "");
    sheet_given(&s, "p", 20 * KIP_N / 1000 / (FT_M * FT_M), "ksi", "wind");
    sheet_given(&s, "F", KIP_N, "kip", "");
    assert_string_equal(sheet_usual_unit(&s.line[0], UNITS_US), "kip*ft");
    check_near(sheet_line_in(&s.line[0], "kip*ft"), 100, 1e-12, 0, "closed form: 1200 / 12");
    assert_string_equal(sheet_usual_unit(&s.line[1], UNITS_US), "psf");
    check_near(sheet_line_in(&s.line[1], "psf"), 20, 1e-12, 0, "as given");
    assert_null(sheet_usual_unit(&s.line[2], UNITS_US));
    assert_string_equal(sheet_usual_unit(&s.line[2], UNITS_SI), "kN");
    check_near(sheet_line_in(&s.line[2], "kN"), 4.4482216152605, 1e-12, 0, "NIST SP 811 B.8");
    sheet_formula(&s, "f", "F / 4 [in^2]", "ksi", "", NULL);
    sheet_formula(&s, "f_y", "50 F / 4 [in^2]", "ksi", "", NULL);
    assert_string_equal(sheet_usual_unit(&s.line[3], UNITS_US), "psi");
    check_near(sheet_line_in(&s.line[3], "psi"), 250, 1e-12, 0, "closed form: 1 kip / 4 in^2");
    assert_null(sheet_usual_unit(&s.line[4], UNITS_US));
    arena_free(arena);
    (void)state;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_stud_strength_table),
        cmocka_unit_test(test_interface_shear_worked_example),
        cmocka_unit_test(test_concrete_modulus_table),
        cmocka_unit_test(test_strip_widths_table),
        cmocka_unit_test(test_operations_bind_as_on_paper),
        cmocka_unit_test(test_refused_formulas_say_where),
        cmocka_unit_test(test_formula_without_bound_refused),
        cmocka_unit_test(test_text_of_a_formula_is_read_back),
        cmocka_unit_test(test_units_of_a_formula_must_fit_its_line),
        cmocka_unit_test(test_values_keep_their_size_in_SI),
        cmocka_unit_test(test_first_failure_is_kept),
        cmocka_unit_test(test_symbol_given_again_counts_from_there),
        cmocka_unit_test(test_difference_prints_the_digits_it_needs),
        cmocka_unit_test(test_numbers_are_written_for_people),
        cmocka_unit_test(test_what_rounding_leaves_is_shown_as_nothing),
        cmocka_unit_test(test_sheets_with_the_same_lines_share_formulas),
        cmocka_unit_test(test_values_are_shown_in_the_unit_of_their_kind),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
