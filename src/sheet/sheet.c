#include "sheet_data.h"

#include <assert.h>
#include <math.h>
#include <string.h>

Sheet sheet_start(const char *title, Arena *arena)
{
    return (Sheet){.arena = arena, .title = arena_text(arena, title)};
}

static const char *copy(const Sheet *sheet, const char *text)
{
    return text ? arena_text(sheet->arena, text) : NULL;
}

static void line_add(Sheet *sheet, SheetLine line)
{
    if (sheet->count == sheet->room) {
        const int room = sheet->room ? 2 * sheet->room : 16;
        SheetLine *const lines = ARENA_NEW(sheet->arena, SheetLine, room);
        for (int i = 0; i < sheet->count; i++) lines[i] = sheet->line[i];
        sheet->line = lines;
        sheet->room = room;
    }
    line.symbol = copy(sheet, line.symbol);
    line.formula = copy(sheet, line.formula);
    line.unit = copy(sheet, line.unit ? line.unit : "");
    line.words = copy(sheet, line.words ? line.words : "");
    line.source = copy(sheet, line.source);
    sheet->line[sheet->count++] = line;
}

/* Keeps the first failure: which line of which sheet, and why. */
static void sheet_fail(Sheet *sheet, const SheetLine *line, const Error *why)
{
    sheet->status =
        error_set(&sheet->err, why->status, "%s: %s%s%s: %s", sheet->title, line->symbol,
                  line->formula ? " = " : "", line->formula ? line->formula : "", why->text);
}

static Status symbol_or(const char *symbol, Error *err)
{
    if (symbol_legal(symbol)) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT,
                     "a symbol is letters and digits with one _ at most, and no function");
}

static Status given_check(const SheetLine *line, double value_SI, Error *err)
{
    Measure measure;
    TRY(symbol_or(line->symbol, err));
    TRY(measure_read(line->unit, &measure, err));
    if (isfinite(value_SI)) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT, "the value is not a finite number");
}

void sheet_given_from(Sheet *sheet, const char *symbol, double value_SI, const char *unit,
                      const char *words, const char *source)
{
    SheetLine line = {SHEET_GIVEN, symbol, NULL, unit, words, source, false, 0, 0};
    Error why;
    if (sheet->status != STATUS_OK) return;
    if (given_check(&line, value_SI, &why) != STATUS_OK) {
        sheet_fail(sheet, &line, &why);
        return;
    }
    line.value = quantity_in(value_SI, unit);
    line.shown = shown_of(sheet, &line, NULL);
    line_add(sheet, line);
}

void sheet_given(Sheet *sheet, const char *symbol, double value_SI, const char *unit,
                 const char *words)
{
    sheet_given_from(sheet, symbol, value_SI, unit, words, NULL);
}

/* In the branches that are not taken too: they are printed. */
static Status symbols_known(const Sheet *sheet, const Term *term, Error *err)
{
    if (term->kind == TERM_SYMBOL && !sheet_find(sheet, sheet->count, term->text))
        return error_set(err, STATUS_BAD_INPUT, "%s is not given above", term->text);
    for (int i = 0; i < term->count; i++) TRY(symbols_known(sheet, term->part[i], err));
    return STATUS_OK;
}

static Status formula_value(const Sheet *sheet, SheetLine *line, Error *err)
{
    const Evaluate on = {sheet, sheet->count, !line->empirical, err};
    const Term *term = NULL;
    Measure wanted = {.size = 1};
    Valued result = {0};
    char given[160];
    TRY(symbol_or(line->symbol, err));
    TRY(measure_read(line->unit, &wanted, err));
    TRY(sheet_parse(line->formula, sheet->arena, &term, err));
    TRY(symbols_known(sheet, term, err));
    TRY(evaluate_term(&on, term, &result));
    if (on.units && !measure_same(result.measure, wanted)) {
        measure_describe(result.measure, wanted, given, sizeof given);
        return error_set(err, STATUS_BAD_INPUT, "the line is in \"%s\", the formula gives %s",
                         line->unit, given);
    }
    line->value = result.value;
    line->shown = shown_of(sheet, line, term);
    return STATUS_OK;
}

static double formula_add(Sheet *sheet, SheetLine line)
{
    Error why;
    if (sheet->status != STATUS_OK) return NAN;
    if (formula_value(sheet, &line, &why) != STATUS_OK) {
        sheet_fail(sheet, &line, &why);
        return NAN;
    }
    line_add(sheet, line);
    return line.value;
}

double sheet_formula(Sheet *sheet, const char *symbol, const char *formula, const char *unit,
                     const char *words, const char *source)
{
    return formula_add(
        sheet, (SheetLine){SHEET_FORMULA, symbol, formula, unit, words, source, false, 0, 0});
}

double sheet_empirical(Sheet *sheet, const char *symbol, const char *formula, const char *unit,
                       const char *words, const char *source)
{
    return formula_add(
        sheet, (SheetLine){SHEET_FORMULA, symbol, formula, unit, words, source, true, 0, 0});
}

void sheet_words(Sheet *sheet, const char *words)
{
    if (sheet->status == STATUS_OK)
        line_add(sheet, (SheetLine){.kind = SHEET_WORDS, .words = words});
}

double sheet_value(const Sheet *sheet, const char *symbol)
{
    const SheetLine *const line = sheet_find(sheet, sheet->count, symbol);
    if (sheet->status != STATUS_OK) return NAN;
    assert(line);
    return line->value;
}

double sheet_SI(const Sheet *sheet, const char *symbol)
{
    const SheetLine *const line = sheet_find(sheet, sheet->count, symbol);
    if (sheet->status != STATUS_OK) return NAN;
    assert(line);
    /* value = (SI - zero) / size, a unit's own zero being that of degF and degC alone */
    const double zero = quantity_in(0, line->unit);
    return (line->value - zero) / (quantity_in(1, line->unit) - zero);
}

static bool same_text(const char *a, const char *b) { return a == b || (a && b && !strcmp(a, b)); }

bool sheet_same_formulas(const Sheet *a, const Sheet *b)
{
    if (a->count != b->count || a->status != STATUS_OK || b->status != STATUS_OK) return false;
    for (int i = 0; i < a->count; i++) {
        const SheetLine *const x = &a->line[i], *const y = &b->line[i];
        if (x->kind != y->kind || !same_text(x->symbol, y->symbol) ||
            !same_text(x->formula, y->formula) || !same_text(x->unit, y->unit) ||
            !same_text(x->words, y->words))
            return false;
    }
    return true;
}
