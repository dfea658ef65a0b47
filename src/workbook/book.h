/* The workbook while it is written. Private to workbook. */
#ifndef CLENCH_WORKBOOK_BOOK_H
#define CLENCH_WORKBOOK_BOOK_H

#include <xlsxwriter.h>

#include "clench/workbook.h"

typedef struct Book {
    const TakeoffSource *source;
    const WorkbookSettings *settings;
    UnitSystem units;
    Arena *arena;
    lxw_workbook *file;
    lxw_format *title, *head, *text, *wrapped, *input, *input_share, *number, *count, *share,
        *total;
    lxw_format *strong;
    /* formats of factors by their unit */
    struct {
        const char *unit;
        lxw_format *format;
    } unit[16];
    int unit_count;
    int *line_row; /* row of each line on the sheet of workings */
} Book;

void book_cover(Book *book);
void book_inputs(Book *book);
void book_quantities(Book *book);
void book_workings(Book *book); /* before the quantities, which refer to it */

#endif
