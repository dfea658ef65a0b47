#include "sheet_data.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Strips the zeros behind a decimal point. */
static void zeros_strip(char *number)
{
    if (!strchr(number, '.')) return;
    size_t length = strlen(number);
    while (number[length - 1] == '0') length--;
    if (number[length - 1] == '.') length--;
    number[length] = 0;
}

char *sheet_number(double value, int digits, char out[SHEET_NUMBER_MAX])
{
    const double size = fabs(value);
    if (digits > 17) digits = 17; /* a double has no more */
    if (!isfinite(value) || size == 0) {
        snprintf(out, SHEET_NUMBER_MAX, "%s", size == 0 ? "0" : "-");
        return out;
    }
    snprintf(out, SHEET_NUMBER_MAX, "%.*e", digits - 1, value);
    char *const mark = strchr(out, 'e');
    const int power = atoi(mark + 1); /* after rounding: 9999.6 has 5 whole digits */
    if (power >= -4 && power < 9) {
        const int decimals = digits - 1 - power;
        snprintf(out, SHEET_NUMBER_MAX, "%.*f", decimals > 0 ? decimals : 0, value);
        zeros_strip(out);
        return out;
    }
    *mark = 0;
    zeros_strip(out);
    const size_t length = strlen(out);
    snprintf(out + length, SHEET_NUMBER_MAX - length, "e%d", power);
    return out;
}

/* ---- a term as one line ---- */

enum { LEVEL_SUM = 1, LEVEL_PRODUCT, LEVEL_POWER, LEVEL_ATOM };

/* Sum, product, sign or comparison: what needs brackets inside what. A sign may stand first in a
 * sum alone. */
static int level_of(const Term *term)
{
    switch (term->kind) {
    case TERM_ADD:
    case TERM_SUBTRACT:
    case TERM_NEGATE:
    case TERM_COMPARE: return LEVEL_SUM;
    case TERM_MULTIPLY:
    case TERM_DIVIDE: return LEVEL_PRODUCT;
    case TERM_POWER: return LEVEL_POWER;
    default: return LEVEL_ATOM;
    }
}

static void write_at(const Term *term, int least, Text *text)
{
    const bool brackets = level_of(term) < least;
    if (brackets) text_add(text, "(");
    sheet_text(term, text);
    if (brackets) text_add(text, ")");
}

static bool starts_with_number(const Term *term)
{
    while (term->kind == TERM_POWER || term->kind == TERM_MULTIPLY || term->kind == TERM_DIVIDE) {
        if (level_of(term->part[0]) < level_of(term)) return false; /* in brackets */
        if (term->kind == TERM_POWER && term->part[0]->kind == TERM_POWER) return false;
        term = term->part[0];
    }
    return term->kind == TERM_NUMBER;
}

static void write_product(const Term *term, Text *text)
{
    const Term *const left = term->part[0], *const right = term->part[1];
    const bool beside = left->kind != TERM_DIVIDE && !starts_with_number(right);
    write_at(left, LEVEL_PRODUCT, text);
    text_add(text, beside ? " " : " * ");
    write_at(right, LEVEL_POWER, text);
}

static void write_function(const Term *term, Text *text)
{
    text_printf(text, "%s(", term->text);
    for (int i = 0; i < term->count; i++) {
        if (i > 0) text_add(text, ", ");
        sheet_text(term->part[i], text);
    }
    text_add(text, ")");
}

/* part sign part */
static void write_pair(const Term *term, const char *sign, int left, int right, Text *text)
{
    write_at(term->part[0], left, text);
    text_add(text, sign);
    write_at(term->part[1], right, text);
}

void sheet_text(const Term *term, Text *text)
{
    switch (term->kind) {
    case TERM_NUMBER:
    case TERM_SYMBOL:
        text_add(text, term->text);
        if (term->unit) text_printf(text, " [%s]", term->unit);
        return;
    case TERM_ADD: write_pair(term, " + ", LEVEL_SUM, LEVEL_PRODUCT, text); return;
    case TERM_SUBTRACT: write_pair(term, " - ", LEVEL_SUM, LEVEL_PRODUCT, text); return;
    case TERM_MULTIPLY: write_product(term, text); return;
    case TERM_DIVIDE: write_pair(term, " / ", LEVEL_PRODUCT, LEVEL_POWER, text); return;
    case TERM_POWER: write_pair(term, "^", LEVEL_ATOM, LEVEL_POWER, text); return;
    case TERM_NEGATE:
        text_add(text, "-");
        write_at(term->part[0], LEVEL_POWER, text);
        return;
    case TERM_FUNCTION: write_function(term, text); return;
    case TERM_COMPARE:
        write_at(term->part[0], LEVEL_SUM, text);
        text_printf(text, " %s ", term->text);
        write_at(term->part[1], LEVEL_SUM, text);
        return;
    }
}

/* ---- numbers in place of symbols ---- */

typedef struct Replace {
    const Sheet *sheet;
    int count, digits;
    Arena *arena;
} Replace;

static Term *number_term(double value, const Replace *with)
{
    char text[SHEET_NUMBER_MAX];
    Term *const number = ARENA_NEW(with->arena, Term, 1);
    number->kind = TERM_NUMBER;
    number->text = arena_text(with->arena, sheet_number(fabs(value), with->digits, text));
    if (value >= 0) return number;
    Term *const term = ARENA_NEW(with->arena, Term, 1);
    *term = (Term){.kind = TERM_NEGATE, .text = "", .part = {number}, .count = 1};
    return term;
}

static Term *replace(const Term *term, const Replace *with)
{
    if (term->kind == TERM_SYMBOL)
        return number_term(sheet_find(with->sheet, with->count, term->text)->shown, with);
    Term *const copy = ARENA_NEW(with->arena, Term, 1);
    *copy = *term;
    for (int i = 0; i < term->count; i++) copy->part[i] = replace(term->part[i], with);
    return copy;
}

static bool has_symbol(const Term *term)
{
    if (term->kind == TERM_SYMBOL) return true;
    for (int i = 0; i < term->count; i++)
        if (has_symbol(term->part[i])) return true;
    return false;
}

/* Whether the printed numbers give the printed result. */
static bool gives(const Sheet *sheet, const Term *numbers, double value)
{
    char printed[SHEET_NUMBER_MAX], wanted[SHEET_NUMBER_MAX];
    const Evaluate on = {.sheet = sheet};
    Valued result = {0};
    if (evaluate_term(&on, numbers, &result) != STATUS_OK) return false;
    sheet_number(result.value, SHEET_DIGITS, printed);
    return strcmp(printed, sheet_number(value, SHEET_DIGITS, wanted)) == 0;
}

const Term *sheet_numbers(const Sheet *sheet, int index, Arena *arena)
{
    const SheetLine *const line = &sheet->line[index];
    const Term *term = NULL;
    Replace with = {sheet, index, SHEET_DIGITS, arena};
    if (line->kind != SHEET_FORMULA) return NULL;
    if (sheet_parse(line->formula, arena, &term, NULL) != STATUS_OK) return NULL;
    if (!has_symbol(term)) return NULL;
    const Term *numbers = replace(term, &with);
    while (!gives(sheet, numbers, line->shown) && with.digits < 17) {
        with.digits++;
        numbers = replace(term, &with);
    }
    return numbers;
}
