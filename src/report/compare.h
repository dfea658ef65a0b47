/* Private to report: the comparison of the ways. */
#ifndef CLENCH_REPORT_COMPARE_H
#define CLENCH_REPORT_COMPARE_H

#include "clench/compare.h"
#include "document.h"

const char *compare_stress(const Report *report, double stress_Pa); /* "C 240" */
/* A table with a column a way. */
FigureTable *compare_table(const Report *report, const char *caption, const char *first);
/* compare_quantities.c: what each way is built of, and the hours of work. */
void compare_quantities(Report *report, const CompareAnswer *answer);
/* compare_words.c: where the jacked way is worse, what the comparison leaves out. */
void compare_words(Report *report, const CompareAnswer *answer);

#endif
