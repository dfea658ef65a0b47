/* sheet: a calculation as an engineer writes it. Each line is a formula text that is both printed and
 * computed, so that what stands on paper is what was calculated. Knows numbers and units, no bridge.
 *
 * A sheet is a list of lines in order: given values, formulas, a verdict. Values stand in the unit of
 * their line ("ksi", "in", "kip"); formulas are evaluated on those numbers as printed in a standard,
 * and a line's dimension is checked where all its parts have one (empirical formulas say so). */
#ifndef CLENCH_SHEET_H
#define CLENCH_SHEET_H

#include "clench/base.h"

typedef enum SheetKind { SHEET_GIVEN, SHEET_FORMULA, SHEET_WORDS } SheetKind;
typedef struct SheetLine {
    SheetKind kind;
    const char *symbol;  /* "f'c", "A_sc", "phi": letters, digits, ' and one _ for the subscript */
    const char *formula; /* as given to sheet_formula; NULL for others */
    const char *unit;    /* of value; "" for a pure number */
    const char *words;   /* what it is: "strength of the panels at jacking" */
    const char *source;  /* clause or "closed form"; may be NULL for given values */
    double value;        /* unit: as `unit` says */
} SheetLine;

typedef struct Sheet {
    Arena *arena;
    const char *title;
    SheetLine *line;
    int count, room;
    Status status; /* of the first line that failed; the rest is skipped */
    Error err;
} Sheet;

Sheet sheet_start(const char *title, Arena *arena);
/* A value from elsewhere, SI in, shown in `unit`. Repeating a symbol replaces it from here on. */
void sheet_given(Sheet *sheet, const char *symbol, double value_SI, const char *unit,
                 const char *words);
/* Evaluates `formula` on the lines above; returns the value in `unit`s (NAN after a failure; the sheet
 * keeps the first error). Grammar: + - * / ^ ( ) numbers, symbols, functions sqrt min max abs exp ln
 * log10 sin cos tan if(a <= b, x, y). Decimal points. */
double sheet_formula(Sheet *sheet, const char *symbol, const char *formula, const char *unit,
                     const char *words, const char *source);
void sheet_words(Sheet *sheet, const char *words);
double sheet_SI(const Sheet *sheet, const char *symbol); /* last value of a symbol in SI; unit: SI */
double sheet_value(const Sheet *sheet, const char *symbol); /* unit: of its line */

/* ---- formulas as trees: for drawing and for tests ---- */

typedef enum TermKind {
    TERM_NUMBER, TERM_SYMBOL, TERM_ADD, TERM_SUBTRACT, TERM_MULTIPLY, TERM_DIVIDE, TERM_POWER,
    TERM_NEGATE, TERM_FUNCTION, TERM_COMPARE
} TermKind;
typedef struct Term Term;
struct Term {
    TermKind kind;
    const char *text; /* number as written, symbol, function or comparison sign */
    Term *part[4];    /* operands */
    int count;
};
MUST_USE Status sheet_parse(const char *formula, Arena *arena, const Term **term, Error *err);
/* The formula with every symbol replaced by its value of the lines above line `index` (formatted to 4
 * significant digits): the middle step of symbols = numbers = result. */
const Term *sheet_numbers(const Sheet *sheet, int index, Arena *arena);
/* One line of plain text of a term, "0.5 A_sc sqrt(f'c E_c)". */
void sheet_text(const Term *term, Text *text);

#endif
