/* Pages are looked at by people and by tests/cli/report.sh; here is what must hold for any report. */
#include "clench/paper.h"

#include <fontconfig/fontconfig.h>
#include <pango/pangocairo.h>
#include <string.h>

#include "check.h"
#include "show_fixture.h"

static const PaperSettings letter = {PAPER_LETTER, "2031-05-04", "0123456789ab"};

typedef struct Pdf {
    Arena *arena;
    Text bytes;
    Report report;
    ReportSource source;
} Pdf;

static ReportBlock *block_add(Pdf *pdf, ReportKind kind, const char *text)
{
    ReportBlock *const block = ARENA_NEW(pdf->arena, ReportBlock, 1);
    block->kind = kind;
    block->text = block->label = text;
    if (pdf->report.last)
        pdf->report.last->next = block;
    else
        pdf->report.first = block;
    pdf->report.last = block;
    return block;
}

static Pdf pdf_start(Arena *arena)
{
    return (Pdf){.arena = arena,
                 .report = {.title = "Test", .arena = arena},
                 .source = {.name = "A bridge & its deck", .file = "a.yaml", .version = "0"}};
}

static const char *pdf_bytes(Pdf *pdf, const PaperSettings *settings)
{
    Error err;
    pdf->report.source = &pdf->source;
    pdf->bytes = text_start(pdf->arena);
    check_status(paper_pdf(&pdf->report, settings, &pdf->bytes, &err), STATUS_OK, &err);
    return pdf->bytes.bytes;
}

static int count_of(const Pdf *pdf, const char *piece)
{
    const size_t length = strlen(piece);
    int count = 0;
    for (size_t i = 0; i + length <= pdf->bytes.length; i++)
        count += memcmp(pdf->bytes.bytes + i, piece, length) == 0;
    return count;
}

static int pages(const Pdf *pdf) { return count_of(pdf, "/Type /Page %"); }

static Arena *arena_new(void) { return arena_create((size_t)1 << 30); }

static void test_revision_is_the_head_of_sha256(void **state)
{
    char out[PAPER_REVISION];
    (void)state;
    paper_revision("abc", 3, out);
    assert_string_equal(out, "ba7816bf8f01"); /* FIPS 180-4, example "abc"; from memory */
}

static void test_sheet_follows_the_units(void **state)
{
    Arena *const arena = arena_new();
    const PaperSettings a4 = {PAPER_A4, "2031-05-04", "0"};
    (void)state;
    assert_int_equal(paper_size(UNITS_US), PAPER_LETTER);
    assert_int_equal(paper_size(UNITS_SI), PAPER_A4);
    Pdf pdf = pdf_start(arena);
    block_add(&pdf, REPORT_TEXT, "words");
    assert_memory_equal(pdf_bytes(&pdf, &letter), "%PDF-1.5", 8);
    assert_int_equal(count_of(&pdf, "0 0 612 792"), 1);
    pdf_bytes(&pdf, &a4);
    assert_int_equal(count_of(&pdf, "0 0 595.276"), 1);
    arena_free(arena);
}

static FigureTable *long_table(Arena *arena, int columns, int rows)
{
    FigureTable *const t = figure_table_start(arena, "a long table", columns);
    const char **const cell = ARENA_NEW(arena, const char *, columns);
    for (int c = 0; c < columns; c++) figure_table_column(t, c, c % 2 == 1, "head [in]");
    for (int i = 0; i < rows; i++) {
        for (int c = 0; c < columns; c++)
            cell[c] = c % 2 ? arena_printf(arena, "%d", i * c) : "a cell of some words";
        figure_table_row(t, cell);
    }
    return t;
}

static void test_long_tables_take_several_pages(void **state)
{
    Arena *const arena = arena_new();
    (void)state;
    Pdf pdf = pdf_start(arena);
    block_add(&pdf, REPORT_HEADING, "tables");
    block_add(&pdf, REPORT_TABLE, "")->table = long_table(arena, 4, 30);
    pdf_bytes(&pdf, &letter);
    const int few = pages(&pdf);
    block_add(&pdf, REPORT_TABLE, "")->table = long_table(arena, 4, 400);
    block_add(&pdf, REPORT_TABLE, "")->table = long_table(arena, 14, 40); /* words must break */
    block_add(&pdf, REPORT_TABLE, "")->table = long_table(arena, 3, 0);
    pdf_bytes(&pdf, &letter);
    assert_in_range(few, 1, 2);
    assert_in_range(pages(&pdf), 9, 30);
    arena_free(arena);
}

static void test_same_report_gives_same_bytes(void **state)
{
    Arena *const arena = arena_new();
    (void)state;
    Pdf one = pdf_start(arena), two = pdf_start(arena);
    for (int i = 0; i < 2; i++) {
        Pdf *const pdf = i ? &two : &one;
        block_add(pdf, REPORT_CONTENTS, "");
        block_add(pdf, REPORT_BREAK, "");
        block_add(pdf, REPORT_HEADING, "chapter");
        block_add(pdf, REPORT_SECTION, "section")->folded = true;
        block_add(pdf, REPORT_TABLE, "")->table = long_table(arena, 5, 90);
        pdf_bytes(pdf, &letter);
    }
    assert_int_equal(one.bytes.length, two.bytes.length);
    assert_memory_equal(one.bytes.bytes, two.bytes.bytes, one.bytes.length);
    assert_int_equal(count_of(&one, "(20310504"), 2); /* created and changed: as given */
    arena_free(arena);
}

/* Every kind of term, rows that are too long for the page, a sheet that failed. */
static void test_every_formula_can_be_drawn(void **state)
{
    Arena *const arena = arena_new();
    Sheet s = sheet_start("formulas", arena);
    Text sum = text_start(arena), product = text_start(arena), deep = text_start(arena);
    (void)state;
    for (int i = 0; i < 40; i++) text_printf(&sum, "%s%d * b", i ? " + " : "", 1000 + i);
    for (int i = 0; i < 40; i++) text_printf(&product, "%s(b + 1.0%02d)", i ? " " : "", i);
    for (int i = 0; i < 12; i++) text_add(&deep, "sqrt(1 + 1 / (1 + b^");
    text_add(&deep, "2");
    for (int i = 0; i < 12; i++) text_add(&deep, "))");
    sheet_given(&s, "f'c", 3e7, "ksi", "given");
    sheet_given(&s, "b", 1.25, "", "given");
    sheet_formula(&s, "c", "0.28 [ksi]", "ksi", "constant", "a source");
    sheet_formula(&s, "d", "if(b <= 2, min(b, 1e-7, -b), abs(b)) + b^-0.5 (-b)^2", "", "", NULL);
    sheet_formula(&s, "sigma_max", "((b + 1) / (b - 2))^(1 / 3 + 1) * 0", "", "no root", NULL);
    s.status = STATUS_OK; /* the cube root of less than nothing: the sheet goes on */
    sheet_formula(&s, "e", sum.bytes, "", "a sum of many",
                  "a source of so many words that it must "
                  "stand below what the line is about");
    sheet_formula(&s, "g", product.bytes, "", "a product of many", NULL);
    sheet_formula(&s, "h", deep.bytes, "", "deep", NULL);
    sheet_words(&s, "words");
    assert_int_equal(s.status, STATUS_OK);
    sheet_formula(&s, "k", "1 / (b - b)", "", "fails", NULL);
    assert_int_equal(s.status, STATUS_BAD_INPUT);
    Pdf pdf = pdf_start(arena);
    block_add(&pdf, REPORT_SHEET, "")->sheet = &s;
    block_add(&pdf, REPORT_FACT, "pass");
    pdf_bytes(&pdf, &letter);
    assert_in_range(pages(&pdf), 1, 4);
    arena_free(arena);
}

static void test_report_on_the_thrust_can_be_printed(void **state)
{
    Arena *const arena = arena_new();
    (void)state;
    const ReportSource source = show_source(arena, UNITS_SI);
    Text pdf = text_start(arena);
    Error err;
    check_status(paper_pdf(report_thrust(&source, true, arena), &letter, &pdf, &err), STATUS_OK,
                 &err);
    assert_in_range(pdf.length, 20000, 2000000);
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_revision_is_the_head_of_sha256),
        cmocka_unit_test(test_sheet_follows_the_units),
        cmocka_unit_test(test_long_tables_take_several_pages),
        cmocka_unit_test(test_same_report_gives_same_bytes),
        cmocka_unit_test(test_every_formula_can_be_drawn),
        cmocka_unit_test(test_report_on_the_thrust_can_be_printed),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    pango_cairo_font_map_set_default(NULL); /* caches of the libraries are no leaks of ours */
    FcFini();
    return failed;
}
