/* Private to the two files of rows. */
#ifndef CLENCH_JACKING_ROWS_H
#define CLENCH_JACKING_ROWS_H

#include "work.h"

typedef struct Rows {
    const Work *work;
    const JackPlan *plan;
    CheckCase with;
    CheckList *list;
} Rows;

extern const char row_practice[];

Sheet row_sheet(const Rows *r, const char *title);
/* A line for an input, with where it comes from. */
void row_give(const Rows *r, Sheet *sheet, const char *symbol, const char *path, const char *unit,
              const char *words);
void row_thrust(const Rows *r, Sheet *sheet); /* T, n, P_j */
void row_movement(const Rows *r, Sheet *sheet, const char *symbol);
/* Closes a row of the jacks; `open` (NULL: none) is an input without which it proves nothing. */
void row_close(const Rows *r, CheckRow *row, const char *clause, const char *open,
               const char *reason);

void rows_movement(const Rows *r); /* rows_movement.c: stroke, band, energy, holds, temperature */

#endif
