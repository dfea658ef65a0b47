/* sheet: a calculation as an engineer writes it. Each line is a formula text that is both printed and
 * computed, so that what stands on paper is what was calculated. Knows numbers and units, no bridge.
 *
 * A sheet is a list of lines in order: given values, formulas, words. Values stand in the unit of their
 * line ("ksi", "in", "kip"), and a formula is evaluated on those numbers, as a reader with a pocket
 * calculator does. Therefore its units are checked too: dimension and size of what the formula gives
 * must be those of its line. A moment in kip*ft over a modulus in in^3 is no ksi; it becomes one with a
 * constant that carries a unit, "M 12 [in/ft] / S". Formulas that a standard fitted to numbers in
 * stated units have no such check: they go through sheet_empirical. */
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
    bool empirical;      /* units of the formula are not checked */
    double value;        /* unit: as `unit` says */
    double shown;        /* unit: as `unit` says; 0 for what rounding leaves of nothing */
} SheetLine;

/* Filled by the functions below alone. Lives as long as its arena; may be copied. */
typedef struct Sheet {
    Arena *arena;
    const char *title;
    SheetLine *line;
    int count, room;
    Status status; /* of the first line that failed; the rest is skipped */
    Error err;     /* its sentence: title, symbol, formula and reason */
} Sheet;

Sheet sheet_start(const char *title, Arena *arena);
/* A value from elsewhere, SI in, shown in `unit`. Repeating a symbol replaces it from here on. All
 * texts are copied. Fails for an unknown unit or a value that is not finite. */
void sheet_given(Sheet *sheet, const char *symbol, double value_SI, const char *unit,
                 const char *words);
/* The same with the clause, product sheet or measurement that it comes from. */
void sheet_given_from(Sheet *sheet, const char *symbol, double value_SI, const char *unit,
                      const char *words, const char *source);
/* Evaluates `formula` on the lines above; returns the value in `unit`s (NAN after a failure; the sheet
 * keeps the first error). Grammar, decimal points:
 *   numbers 0.5, 3e-6, and with a unit 12 [in/ft]; symbols; + - * / ^ ( ); a product needs no sign
 *   ("0.5 A_sc sqrt(f'c E_c)"), except behind a division, where it would be misread, and before a
 *   number; a name touching its bracket is a function: sqrt abs exp ln log10 sin cos tan of one
 *   value, min max of two to four, if(a <= b, x, y) with <= < >= >, where only the branch that is
 *   taken is looked at. -a^2 is -(a^2), a^b^c is a^(b^c).
 * The symbol pi is known. A constant of a standard is a formula too: sheet_formula(s, "F_u", "60 [ksi]", "ksi", ...). */
double sheet_formula(Sheet *sheet, const char *symbol, const char *formula, const char *unit,
                     const char *words, const char *source); /* unit: of its line */
/* The same without the check of units, for formulas such as "33000 w_c^1.5 sqrt(f'c)", which are
 * right in the stated units alone. */
double sheet_empirical(Sheet *sheet, const char *symbol, const char *formula, const char *unit,
                       const char *words, const char *source); /* unit: of its line */
void sheet_words(Sheet *sheet, const char *words);
/* Last value of a symbol. After a failure NAN; a symbol that was never given is our own bug. */
double sheet_SI(const Sheet *sheet, const char *symbol);    /* unit: SI */
double sheet_value(const Sheet *sheet, const char *symbol); /* unit: of its line */

/* The same lines but for values and sources: one can be read by the formulas of the other. */
bool sheet_same_formulas(const Sheet *a, const Sheet *b);

/* The unit that people use for such a value where the line's own is one for formulas: "kip*ft" for
 * "kip*in", "psf" for a wind in "ksi", in SI "kN" for "kip". NULL: the line's own. */
const char *sheet_usual_unit(const SheetLine *line, UnitSystem units);
double sheet_line_in(const SheetLine *line, const char *unit); /* unit: as `unit` says */

/* ---- formulas as trees: for drawing and for tests ---- */

typedef enum TermKind {
    TERM_NUMBER,
    TERM_SYMBOL,
    TERM_ADD,
    TERM_SUBTRACT,
    TERM_MULTIPLY,
    TERM_DIVIDE,
    TERM_POWER,
    TERM_NEGATE,
    TERM_FUNCTION,
    TERM_COMPARE
} TermKind;
enum { TERM_PARTS = 4, SHEET_FORMULA_MAX = 600, SHEET_DEPTH_MAX = 40, SHEET_DIGITS = 4 };
typedef struct Term Term;
struct Term {
    TermKind kind;
    const char *text; /* number as written, symbol, function or comparison sign; "" for others */
    const char *unit; /* NUMBER: "in/ft", else NULL */
    Term *part[TERM_PARTS]; /* operands; brackets are not kept: the tree has their meaning */
    int count;
};
/* Refuses with the column of the fault in err->from. */
MUST_USE Status sheet_parse(const char *formula, Arena *arena, const Term **term, Error *err);
/* The formula with every symbol replaced by its value of the lines above line `index`: the middle
 * step of symbols = numbers = result. Values have SHEET_DIGITS significant digits, and as many more
 * as it takes that the printed numbers give the printed result. NULL for lines that are no formula
 * and for formulas without a symbol. */
const Term *sheet_numbers(const Sheet *sheet, int index, Arena *arena);
/* One line of plain text of a term, "0.5 A_sc sqrt(f'c E_c)"; sheet_parse reads it back. */
void sheet_text(const Term *term, Text *text);
/* A number for people: `digits` significant ones, whole digits never cut, "3834", "0.6013",
 * "2.5e-6". Returns out. */
enum { SHEET_NUMBER_MAX = 40 };
char *sheet_number(double value, int digits, char out[SHEET_NUMBER_MAX]); /* unit: any */

#endif
