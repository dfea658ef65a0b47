/* workbook: quantities as a spreadsheet (XLSX, by libxlsxwriter) whose sums and products are formulas over
 * inputs that can be changed; every cell keeps the value that we computed. Computes nothing itself. The
 * same quantities and settings give the same bytes. */
#ifndef CLENCH_WORKBOOK_H
#define CLENCH_WORKBOOK_H

#include "clench/report.h"

typedef struct WorkbookSettings {
    const char *date;     /* "2031-05-04": on the cover, and day of the file's making */
    const char *revision; /* of the input */
} WorkbookSettings;

/* The bytes of the file, in `xlsx`. STATUS_IO where the machine refuses a temporary file. */
MUST_USE Status workbook_takeoff(const TakeoffSource *source, const WorkbookSettings *settings,
                                 Text *xlsx, Error *err);

#endif
