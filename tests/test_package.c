/* The package as blocks: what is in it, and that its line through two histories finds the thrust that
 * the runs find. */
#include <math.h>
#include <string.h>

#include "check.h"
#include "clench/text.h"
#include "show_fixture.h"

static const ReportBlock *block_of(const Report *report, ReportKind kind, const char *text)
{
    for (const ReportBlock *b = report->first; b; b = b->next)
        if (b->kind == kind && strstr(b->text, text)) return b;
    return NULL;
}

/* A list of two rows made by hand: one fails, one is open. */
static const CheckList *checks_make(Arena *arena)
{
    CheckList *const list = ARENA_NEW(arena, CheckList, 1);
    Sheet *const sheet = ARENA_NEW(arena, Sheet, 1);
    *sheet = sheet_start("bolts", arena);
    sheet_given(sheet, "f'c", 3.1e7, "MPa", "strength");
    sheet_formula(sheet, "A_b", "2.5 [mm^2] * f'c / 1 [MPa]", "mm^2", "area",
                  "a clause of its own");
    list->arena = arena;
    list->count = 2;
    list->row = ARENA_NEW(arena, CheckRow, 2);
    list->row[0] =
        (CheckRow){"bolts",   "deck", "interior line", "J07", "jacked", "clause 7", 2e5, 1e5,
                   DIM_FORCE, 2,      CHECK_FAIL,      NULL,  sheet};
    list->row[1] = (CheckRow){"nuts",
                              "deck",
                              "",
                              "",
                              "",
                              "clause 8",
                              1e5,
                              (double)NAN,
                              DIM_FORCE,
                              (double)NAN,
                              CHECK_UNPROVEN,
                              "bolts.size: not given",
                              sheet};
    CheckWorking *const working = ARENA_NEW(arena, CheckWorking, 2);
    working[0] = (CheckWorking){.mark = "G1", .title = "G1: a gradient", .sheet = sheet};
    working[1] = (CheckWorking){.mark = "G2", .title = "G2: another gradient", .sheet = sheet};
    list->working = working;
    list->working_count = 2;
    return list;
}

static void test_package_has_its_chapters_and_workings(void **state)
{
    Arena *const arena = arena_create((size_t)1 << 30);
    const ReportSource source = show_source(arena, UNITS_US);
    const PackageSource package = {
        .report = &source, .checks = checks_make(arena), .revision = "0123", .date = "2031-05-04"};
    static const char *const chapter[] = {"The answer",
                                          "Basis",
                                          "Inputs",
                                          "Section properties",
                                          "Concrete with time",
                                          "Stage by stage",
                                          "Live load",
                                          "needed thrust",
                                          "Checks",
                                          "Sources",
                                          "not checked"};
    (void)state;
    const Report *const report = report_package(&package, arena);
    for (size_t i = 0; i < sizeof chapter / sizeof *chapter; i++)
        assert_non_null(block_of(report, REPORT_HEADING, chapter[i]));
    assert_non_null(block_of(report, REPORT_SECTION, "bolts: interior line"));
    assert_ptr_equal(block_of(report, REPORT_SHEET, "bolts")->sheet, package.checks->row[0].sheet);
    assert_null(block_of(report, REPORT_SHEET, "bolts")->like);
    assert_ptr_equal(block_of(report, REPORT_SHEET, "nuts")->like, package.checks->row[0].sheet);
    assert_non_null(block_of(report, REPORT_TEXT, "Formulas as in 10.1."));
    assert_non_null(block_of(report, REPORT_SECTION, "G1: a gradient"));
    assert_non_null(block_of(report, REPORT_TEXT, "Formulas as in G1."));
    assert_non_null(block_of(report, REPORT_FACT, "ratio 2.00"));
    assert_non_null(block_of(report, REPORT_FACT, "bolts.size: not given"));
    assert_non_null(block_of(report, REPORT_FACT, "0 passed, 1 failed, 1 unproven"));
    assert_non_null(block_of(report, REPORT_ITEM, "a clause of its own"));
    assert_non_null(block_of(report, REPORT_SIGN, "Engineer of record"));
    arena_free(arena);
}

static void test_package_as_page_has_formulas(void **state)
{
    Arena *const arena = arena_create((size_t)1 << 30);
    const ReportSource source = show_source(arena, UNITS_US);
    const PackageSource package = {
        .report = &source, .checks = checks_make(arena), .revision = "0123", .date = "2031-05-04"};
    Text page = text_start(arena), lines = text_start(arena);
    (void)state;
    const Report *const report = report_package(&package, arena);
    report_html(report, &page);
    report_text(report, &lines);
    assert_non_null(
        strstr(page.bytes, "<msubsup><mi>f</mi><mi>c</mi><mo>\xE2\x80\xB2</mo></msubsup>"));
    assert_non_null(strstr(page.bytes, "<mfrac>"));
    assert_non_null(strstr(lines.bytes, "A_b = 2.5 [mm^2] f'c / 1 [MPa]"));
    arena_free(arena);
}

static ReportSource answer_of(const char *path, double given_N, Arena *arena, Arena *scratch)
{
    Diagnostics *const found = ARENA_NEW(arena, Diagnostics, 1);
    ReportSource source;
    const char *bytes;
    size_t size;
    Node *root;
    Error err;
    check_status(file_read(path, YAML_SIZE_MAX, arena, &bytes, &size, &err), STATUS_OK, &err);
    check_status(yaml_read(bytes, size, arena, &root, found), STATUS_OK, &err);
    check_status(report_find(root, given_N, arena, scratch, &source, found, &err), STATUS_OK, &err);
    return source;
}

/* law: stress is affine in the thrust while contact and slip keep their pattern, so that the line
 * through two histories above the need finds the thrust that runs at the need itself found. What is
 * left is slip at the shims: 1 %. */
static void test_line_of_two_histories_finds_the_need(void **state)
{
    static const char path[] = "tests/data/reference_deck.yaml";
    Arena *const arena = arena_create((size_t)2 << 30), *const scratch =
                                                            arena_create((size_t)1 << 30);
    Error err;
    (void)state;
    const double need_N = answer_of(path, 0, arena, scratch).answer->need_N;
    assert_true(need_N > 0);
    const ReportSource source = answer_of(path, 1.25 * need_N, arena, scratch);
    PackageSource package = {
        .report = &source, .checks = checks_make(arena), .revision = "0", .date = "2031-05-04"};
    check_status(report_other(&source, 1.1, arena, scratch, &package.other, &err), STATUS_OK, &err);
    const ReportBlock *const block =
        block_of(report_package(&package, arena), REPORT_SHEET, "needed thrust");
    assert_non_null(block);
    check_near(sheet_SI(block->sheet, "T_need"), need_N, 0.01, 0, "law: affine in the thrust");
    check_near(sheet_value(block->sheet, "P_need"), sheet_value(block->sheet, "P_run"), 0.01, 0,
               "law: affine in the thrust");
    arena_free(arena);
    arena_free(scratch);
}

static bool has_section(const StageModel *m, const Sheet *s, const char *area, const char *inertia)
{
    const double A_m2 = sheet_SI(s, area), I_m4 = sheet_SI(s, inertia);
    for (int k = 0; k < m->section_count; k++)
        if (fabs(m->section[k].area_m2 - A_m2) <= 1e-9 * A_m2 &&
            fabs(m->section[k].inertia_m4 - I_m4) <= 1e-9 * I_m4)
            return true;
    return false;
}

/* What the chapter works out from the inputs is what the stages were computed with. */
static int check_sections(const Report *report, const ThrustAnswer *answer)
{
    int count = 0;
    for (const ReportBlock *b = report->first; b; b = b->next) {
        if (b->kind != REPORT_SHEET) continue;
        const bool deck = strncmp(b->text, "Deck of ", 8) == 0;
        if (!deck && strncmp(b->text, "Plates of ", 10) != 0) continue;
        int line = 0;
        while (deck && !strstr(b->text, answer->line[line].line->name)) line++;
        const StageModel *m = answer->line[line].history->model;
        assert_int_equal(b->sheet->status, STATUS_OK);
        assert_true(has_section(m, b->sheet, deck ? "A_d" : "A", deck ? "I_d" : "I"));
        if (deck) assert_true(has_section(m, b->sheet, "A_C", "I_C"));
        if (deck) assert_true(has_section(m, b->sheet, "A_F", "I_F"));
        count++;
    }
    return count;
}

static bool given(const Sheet *s, const char *symbol)
{
    for (int i = 0; i < s->count; i++)
        if (s->line[i].symbol && strcmp(s->line[i].symbol, symbol) == 0) return true;
    return false;
}

/* Creep, compliance, shrinkage and modulus by the sheet's formulas are those of the time model. */
static int check_times(const Report *report, const StageModel *m)
{
    static const char law[] = "law: the sheet is the model's formula";
    int count = 0;
    for (int k = 0; k < m->material_count; k++) {
        char title[96];
        snprintf(title, sizeof title, "%s at the end of life", m->material[k].name);
        const ReportBlock *b = block_of(report, REPORT_SHEET, title);
        if (!b) continue;
        const ConcreteMix *mix = &m->material[k].mix;
        const Sheet *s = b->sheet;
        assert_int_equal(s->status, STATUS_OK);
        const double t = sheet_value(s, "t"), t_i = sheet_value(s, "t_i");
        check_near(sheet_SI(s, "J"), concrete_compliance_per_Pa(mix, t, t_i), 1e-9, 0, law);
        check_near(sheet_SI(s, "E_t"), concrete_modulus_Pa(mix, t), 1e-9, 0, law);
        if (given(s, "e_sh"))
            check_near(-sheet_value(s, "e_sh"), concrete_shrinkage_1(mix, t), 1e-9, 0, law);
        count++;
    }
    return count;
}

/* Lanes and shares by the sheets are those that the lines have. */
static int check_lanes(const Report *report, const ThrustAnswer *answer)
{
    static const char law[] = "law: the sheet is what was derived";
    int count = 0;
    for (int i = 0; i < 2 && i < answer->line_count; i++) {
        const BridgeLine *line = answer->line[i].line;
        char title[96];
        snprintf(title, sizeof title, "Share of the thrust of %s", line->name);
        const Sheet *s = block_of(report, REPORT_SHEET, title)->sheet;
        check_near(sheet_value(s, "r_w"), line->share_1, 1e-9, 0, law);
        check_near(sheet_value(s, "r_s"), line->share_stiff_1, 1e-9, 0, law);
        snprintf(title, sizeof title, "Lanes on %s", line->name);
        const ReportBlock *b = block_of(report, REPORT_SHEET, title);
        assert_int_equal(b != NULL, line->sharing.derived);
        if (!b) continue;
        check_near(sheet_value(b->sheet, "g_m"), line->lanes_1, 1e-9, 0, law);
        check_near(sheet_value(b->sheet, "g_v"), line->lanes_shear_1, 1e-9, 0, law);
        check_near(sheet_value(b->sheet, "g_f"), line->lanes_fatigue_1, 1e-9, 0, law);
        check_near(sheet_value(b->sheet, "g_vf"), line->lanes_fatigue_shear_1, 1e-9, 0, law);
        count++;
    }
    return count;
}

static void test_sections_and_times_are_worked_out_from_inputs(void **state)
{
    static const struct {
        const char *path;
        int sections, times, lanes;
    } of[] = {{"examples/steel-continuous.yaml", 4, 4, 2},
              {"examples/single-tub.yaml", 3, 4, 1}, /* two girders: an exterior line alone */
              {"examples/causeway.yaml", 2, 5, 2},
              {"examples/two-span-metric.yaml", 2, 4, 0}};
    (void)state;
    for (size_t i = 0; i < sizeof of / sizeof *of; i++) {
        Arena *const arena = arena_create((size_t)2 << 30);
        Arena *const scratch = arena_create((size_t)1 << 30);
        const ReportSource source = answer_of(of[i].path, 6e6, arena, scratch);
        const PackageSource package = {
            .report = &source, .checks = checks_make(arena), .revision = "0", .date = "2031-05-04"};
        const Report *const report = report_package(&package, arena);
        assert_true(check_sections(report, source.answer) >= of[i].sections);
        assert_int_equal(check_times(report, source.answer->line[0].history->model), of[i].times);
        if (of[i].lanes >= 0) assert_int_equal(check_lanes(report, source.answer), of[i].lanes);
        arena_free(arena);
        arena_free(scratch);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_package_has_its_chapters_and_workings),
        cmocka_unit_test(test_package_as_page_has_formulas),
        cmocka_unit_test(test_line_of_two_histories_finds_the_need),
        cmocka_unit_test(test_sections_and_times_are_worked_out_from_inputs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
