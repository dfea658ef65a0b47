/* paper: a report as PDF, by cairo and pango. Lays blocks out on pages: headings with numbers, tables
 * whose heads repeat, formulas drawn from their trees, figures as vectors, contents with pages,
 * outline and links. The same report and settings give the same bytes. Computes nothing. */
#ifndef CLENCH_PAPER_H
#define CLENCH_PAPER_H

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
/* The first 12 hexadecimal digits of the SHA-256 of an input: its revision. */
enum { PAPER_REVISION = 13 };
void paper_revision(const char *bytes, size_t size, char out[PAPER_REVISION]);
/* Gives back what the libraries keep for fonts; after the last page of a run, no page comes after it. */
void paper_close(void);

#endif
