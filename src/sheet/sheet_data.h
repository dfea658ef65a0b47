/* Private to sheet: units as exponents with a size, and values that carry them. */
#ifndef CLENCH_SHEET_DATA_H
#define CLENCH_SHEET_DATA_H

#include "clench/sheet.h"

enum { MEASURE_KINDS = 5 };
typedef struct Measure {
    double
        exponent_1[MEASURE_KINDS]; /* length, force, time, temperature, money; roots make halves */
    double size;                   /* unit: SI in one of it */
    bool any;                      /* of the number 0, which fits every unit */
} Measure;

MUST_USE Status measure_read(const char *unit, Measure *measure, Error *err);
Measure measure_none(void);
Measure measure_multiply(Measure a, Measure b, double power);
bool measure_pure(Measure m);
bool measure_same(Measure a, Measure b);
/* "a stress", "a stress, 12 times as large". */
void measure_describe(Measure given, Measure wanted, char *out, size_t out_size);

typedef struct Valued {
    double value; /* unit: as `measure` says */
    Measure measure;
} Valued;

/* What a term is evaluated on: the lines above `count`. */
typedef struct Evaluate {
    const Sheet *sheet;
    int count;
    bool units; /* checked */
    Error *err;
} Evaluate;
MUST_USE Status evaluate_term(const Evaluate *on, const Term *term, Valued *out);
/* The value of a new line as people see it; the lines above are there. term NULL: it is given. */
double shown_of(const Sheet *sheet, const SheetLine *line, const Term *term);
const SheetLine *sheet_find(const Sheet *sheet, int count, const char *symbol);

/* Functions of a formula: how many values they take. */
typedef struct FunctionRow {
    const char *name;
    int least, most;
} FunctionRow;
const FunctionRow *function_find(const char *name);
bool symbol_legal(const char *symbol);

#endif
