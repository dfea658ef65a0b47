/* paper: a report as PDF, by cairo and pango. Lays blocks out on pages: headings with numbers, tables
 * whose heads repeat, formulas drawn from their trees, figures as vectors, contents with pages,
 * outline and links. The same report and settings give the same bytes. Computes nothing. */
#ifndef CLENCH_PAPER_H
#define CLENCH_PAPER_H

#include "clench/drawing.h"
#include "clench/report.h"

typedef enum PaperSize { PAPER_LETTER, PAPER_A4 } PaperSize;

typedef struct PaperSettings {
    PaperSize size;
    const char *date;     /* "2031-05-04": of the file and in the foot */
    const char *revision; /* in the head of each page */
} PaperSettings;

/* Letter for US units, A4 for SI. */
PaperSize paper_size(UnitSystem units);
/* The report as the bytes of a PDF, in `pdf`. STATUS_IO where the fonts are missing or cairo fails. */
MUST_USE Status paper_pdf(const Report *report, const PaperSettings *settings, Text *pdf,
                          Error *err);
/* All sheets of a set as one PDF, a page each, of its true size. Errors as paper_pdf. */
MUST_USE Status paper_drawings(const DrawingSet *set, Arena *arena, Text *pdf, Error *err);
/* The first 12 hexadecimal digits of the SHA-256 of an input: its revision. */
enum { PAPER_REVISION = 13 };
void paper_revision(const char *bytes, size_t size, char out[PAPER_REVISION]);

/* ---- the calculation package: from an answer to the report that becomes a PDF ---- */

typedef struct PaperInput {
    const char *bytes; /* the bridge file that was read */
    size_t size;
    const char *date; /* "2031-05-04" */
} PaperInput;

typedef struct PaperPackage {
    const Report *report;
    const CheckList *checks;
    PaperSettings settings; /* for paper_pdf */
} PaperPackage;

/* Runs the checks and a second history of the governing line. Lives in `result`. */
MUST_USE Status paper_package(const ReportSource *source, const PaperInput *input, Arena *result,
                              Arena *scratch, PaperPackage *package, Error *err);
/* Today in UTC, or the day of `epoch` (SOURCE_DATE_EPOCH, seconds since 1970); NULL or no number:
 * today. "2031-05-04". */
enum { PAPER_DATE = 11 };
MUST_USE Status paper_date(const char *epoch, char date[PAPER_DATE], Error *err);

/* Gives back what the libraries keep for fonts; after the last page of a run, no page comes after it. */
void paper_close(void);

#endif
