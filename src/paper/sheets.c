/* Sheets on paper: what a line is and where it comes from, then symbols = numbers = result. */
#include "paper_data.h"

#include <math.h>
#include <string.h>

static const double size_pt = 10, least_pt = 6.5, indent_pt = 14, row_gap_pt = 3;

enum { ROWS_MAX = 24, OPERANDS_MAX = 64 };
typedef struct Rows {
    Math row[ROWS_MAX];
    int count;
} Rows;

typedef struct SheetBox {
    PangoLayout *words, *source;
    Rows rows;
    double words_pt; /* height of the words above the rows */
} SheetBox;

/* ---- a side of the equation, on as many rows as it takes ---- */

typedef struct Operands {
    const Term *part[OPERANDS_MAX];
    const char *sign[OPERANDS_MAX]; /* before the part */
    int count;
} Operands;

/* The operands of a sum, or of a product, in their order. */
static void chain_read(const Term *term, bool sum, Operands *chain)
{
    const bool joins =
        sum ? term->kind == TERM_ADD || term->kind == TERM_SUBTRACT : term->kind == TERM_MULTIPLY;
    if (!joins) {
        chain->part[chain->count] = term;
        chain->sign[chain->count++] = "";
        return;
    }
    chain_read(term->part[0], sum, chain);
    if (chain->count == OPERANDS_MAX) return;
    chain->part[chain->count] = term->part[1];
    chain->sign[chain->count++] = !sum ? "\xC3\x97" : term->kind == TERM_ADD ? "+" : "\xE2\x88\x92";
}

static Math operand(Paper *paper, const Operands *chain, int i, bool sum, double at_pt)
{
    const Term *const part = chain->part[i];
    Math row = math_space(0);
    if (i > 0) {
        math_append(&row, math_space(0.2 * at_pt));
        math_append(&row, math_words(paper, chain->sign[i], FACE_PLAIN, at_pt));
        math_append(&row, math_space(0.2 * at_pt));
    }
    const bool loose =
        part->kind == TERM_ADD || part->kind == TERM_SUBTRACT || part->kind == TERM_NEGATE;
    if (loose && (i > 0 || !sum)) {
        math_append(&row, math_words(paper, "(", FACE_PLAIN, at_pt));
        math_append(&row, math_term(paper, part, at_pt));
        math_append(&row, math_words(paper, ")", FACE_PLAIN, at_pt));
    } else {
        math_append(&row, math_term(paper, part, at_pt));
    }
    return row;
}

static void row_add(Rows *rows, Math math)
{
    if (rows->count < ROWS_MAX) rows->row[rows->count++] = math;
}

static void chain_rows(Paper *paper, const Term *term, bool sum, double width_pt, Rows *rows)
{
    Operands chain = {.count = 0};
    chain_read(term, sum, &chain);
    Math row = {0};
    for (int i = 0; i < chain.count; i++) {
        const Math next = operand(paper, &chain, i, sum, size_pt);
        if (row.width_pt > 0 && row.width_pt + next.width_pt > width_pt) {
            row_add(rows, row);
            row = math_space(0);
        }
        math_append(&row, next);
    }
    row_add(rows, row);
}

static void side_rows(Paper *paper, const Term *term, double width_pt, Rows *rows)
{
    Math math = math_term(paper, term, size_pt);
    const bool sum = term->kind == TERM_ADD || term->kind == TERM_SUBTRACT;
    if (math.width_pt <= width_pt) {
        row_add(rows, math);
    } else if (sum || term->kind == TERM_MULTIPLY) {
        chain_rows(paper, term, sum, width_pt, rows);
    } else {
        for (double at_pt = size_pt - 1; math.width_pt > width_pt && at_pt >= least_pt; at_pt--)
            math = math_term(paper, term, at_pt);
        row_add(rows, math);
    }
}

/* ---- a line ---- */

Math sheet_equals(Paper *paper, Math right)
{
    Math row = math_space(0.3 * size_pt);
    math_append(&row, math_words(paper, "=", FACE_PLAIN, size_pt));
    math_append(&row, math_space(0.3 * size_pt));
    math_append(&row, right);
    return row;
}

static Math value_of(Paper *paper, double value, int digits, const char *unit, double at_pt)
{
    char number[SHEET_NUMBER_MAX];
    const char *text = sheet_number(value, digits, number);
    if (*text == '-') text = arena_printf(paper->arena, "\xE2\x88\x92%s", text + 1);
    Math row = math_number(paper, arena_text(paper->arena, text), at_pt);
    math_append(&row, math_space(0.25 * at_pt));
    math_append(&row, math_unit(paper, unit, at_pt));
    return row;
}

Math sheet_result(Paper *paper, const SheetLine *line, int digits)
{
    const double beside_pt = 0.85 * size_pt;
    const char *const usual = sheet_usual_unit(line, paper->report->source->units);
    Math row = value_of(paper, line->shown, digits, line->unit, size_pt);
    if (!usual) return row;
    math_append(&row, math_words(paper, " (", FACE_PLAIN, beside_pt));
    math_append(&row, value_of(paper, sheet_line_in(line, usual), SHEET_DIGITS, usual, beside_pt));
    math_append(&row, math_words(paper, ")", FACE_PLAIN, beside_pt));
    return row;
}

/* Joins the sides where they fit on one row, else starts a row with an equals sign. */
static void equation_rows(Paper *paper, const Sheet *sheet, int index, Rows *rows)
{
    const SheetLine *const line = &sheet->line[index];
    const Math left = math_symbol(paper, line->symbol, NULL, size_pt);
    const double room_pt = paper->measure_pt - indent_pt - left.width_pt - 1.4 * size_pt;
    const Term *sides[2] = {NULL, sheet_numbers(sheet, index, paper->arena)};
    if (sheet_parse(line->formula, paper->arena, &sides[0], NULL) != STATUS_OK) return;
    Math row = left;
    for (int k = 0; k < 3; k++) {
        Rows side = {.count = 0};
        if (k == 1 && (!sides[1] || sides[1]->kind == TERM_NUMBER)) continue; /* the result */
        if (k == 2)
            row_add(&side, sheet_result(paper, line, SHEET_DIGITS));
        else
            side_rows(paper, sides[k], room_pt, &side);
        for (int i = 0; i < side.count; i++) {
            const Math next = i == 0 ? sheet_equals(paper, side.row[i]) : side.row[i];
            const bool joins =
                i == 0 && row.width_pt + next.width_pt <= paper->measure_pt - indent_pt;
            if (!joins) {
                row_add(rows, row);
                row = math_space(left.width_pt + (i > 0 ? 1.6 * size_pt : 0));
            }
            math_append(&row, next);
        }
    }
    row_add(rows, row);
}

static void formula_draw(Paper *paper, const Box *box, double y_pt)
{
    const SheetBox *const sheet = box->content;
    const double left_pt = paper->left_pt;
    words_show(paper, sheet->words, left_pt, y_pt, INK_SOFT);
    if (sheet->source)
        words_show(paper, sheet->source,
                   left_pt + paper->measure_pt - words_width_pt(sheet->source), y_pt + 0.5,
                   INK_SOFT);
    y_pt += sheet->words_pt;
    for (int i = 0; i < sheet->rows.count; i++) {
        const Math *const row = &sheet->rows.row[i];
        math_show(paper, row, left_pt + indent_pt, y_pt + row->up_pt);
        y_pt += row->up_pt + row->down_pt + row_gap_pt;
    }
}

/* The words to the left, the source at the right edge; a long source goes below the words. */
static void head_set(Paper *paper, const SheetLine *line, SheetBox *sheet)
{
    const double gap_pt = 16;
    sheet->source = NULL;
    const char *words = line->words;
    if (line->source && *line->source) {
        PangoLayout *const source = words_layout(paper, line->source, FACE_PLAIN, 8, -1);
        PangoLayout *const alone = words_layout(paper, words, FACE_PLAIN, 9, -1);
        if (words_width_pt(source) + words_width_pt(alone) + gap_pt <= paper->measure_pt)
            sheet->source = source;
        else
            words = arena_printf(paper->arena, "%s  [%s]", words, line->source);
    }
    sheet->words = words_layout(paper, words, FACE_PLAIN, 9, paper->measure_pt);
    sheet->words_pt = words_height_pt(sheet->words) + 3;
}

static void formula_add(Paper *paper, const Sheet *sheet, int index)
{
    SheetBox *const content = ARENA_NEW(paper->arena, SheetBox, 1);
    head_set(paper, &sheet->line[index], content);
    equation_rows(paper, sheet, index, &content->rows);
    double height_pt = content->words_pt;
    for (int i = 0; i < content->rows.count; i++)
        height_pt += content->rows.row[i].up_pt + content->rows.row[i].down_pt + row_gap_pt;
    box_add(paper, 5, height_pt, formula_draw, content);
}

/* ---- given values: one row each ---- */

typedef struct GivenBox {
    Math math;
    PangoLayout *words;
    double words_pt; /* where they start */
} GivenBox;

static const double given_words_pt = 150;

static void given_draw(Paper *paper, const Box *box, double y_pt)
{
    const GivenBox *const given = box->content;
    const double base_pt = y_pt + words_baseline_pt(given->words);
    math_show(paper, &given->math, paper->left_pt + indent_pt, base_pt);
    words_show(paper, given->words, paper->left_pt + given->words_pt, y_pt, INK_SOFT);
}

static void given_add(Paper *paper, const SheetLine *line)
{
    GivenBox *const given = ARENA_NEW(paper->arena, GivenBox, 1);
    const char *const words =
        line->source && *line->source
            ? arena_printf(paper->arena, "%s  [%s]", line->words, line->source)
            : line->words;
    given->math = math_symbol(paper, line->symbol, NULL, size_pt);
    math_append(&given->math, sheet_equals(paper, sheet_result(paper, line, SHEET_DIGITS)));
    given->words_pt = fmax(given_words_pt, indent_pt + given->math.width_pt + size_pt);
    given->words = words_layout(paper, words, FACE_PLAIN, 9, paper->measure_pt - given->words_pt);
    const double height_pt = fmax(words_height_pt(given->words), 12);
    box_add(paper, 1.5, height_pt, given_draw, given);
}

/* A value, or a constant of a standard. */
static bool is_given(Paper *paper, const SheetLine *line)
{
    const Term *term;
    if (line->kind != SHEET_FORMULA) return line->kind == SHEET_GIVEN;
    return sheet_parse(line->formula, paper->arena, &term, NULL) == STATUS_OK &&
           term->kind == TERM_NUMBER;
}

void sheet_add(Paper *paper, const Sheet *sheet)
{
    for (int i = 0; i < sheet->count; i++) {
        const SheetLine *const line = &sheet->line[i];
        if (is_given(paper, line))
            given_add(paper, line);
        else if (line->kind == SHEET_FORMULA)
            formula_add(paper, sheet, i);
        else
            flow_words(paper, 6, line->words, FACE_ITALIC, 10, 0, INK_TEXT);
    }
    if (sheet->status != STATUS_OK)
        flow_words(paper, 6,
                   arena_printf(paper->arena, "The working ends here: %s", sheet->err.text),
                   FACE_BOLD, 10, 0, INK_MOST);
    paper->working = paper->last;
}
