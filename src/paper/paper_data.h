/* Private to paper. Lengths in points of 1/72 inch, y downwards. */
#ifndef CLENCH_PAPER_DATA_H
#define CLENCH_PAPER_DATA_H

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

#include "clench/paper.h"

typedef struct Ink {
    double r_1, g_1, b_1;
} Ink;
extern const Ink INK_TEXT, INK_SOFT, INK_LINE, INK_NEED, INK_MOST;

typedef enum Face {
    FACE_PLAIN,
    FACE_BOLD,
    FACE_ITALIC,
    FACE_SANS,
    FACE_SANS_BOLD,
    FACE_COUNT
} Face;

typedef struct Box Box;
typedef struct Paper {
    const Report *report;
    const PaperSettings *settings;
    Arena *arena;
    cairo_surface_t *surface;
    cairo_t *cr;
    PangoContext *context;
    GPtrArray *layouts;         /* all that were made, for the end */
    double width_pt, height_pt; /* of the sheet */
    double left_pt, measure_pt; /* where text starts, and its width */
    double top_pt, bottom_pt;   /* of the text, from the top of the sheet */
    Box *first, *last;
    Box *working; /* the last of a sheet: a verdict behind it stays with it */
    int chapter, section, page_count;
} Paper;

/* ---- the file: paper->arena and the size of its first page are set before ---- */

typedef struct PaperFile {
    const char *title, *subject, *revision, *date, *version;
} PaperFile;
void paper_open(Paper *paper, const PaperFile *file, Text *pdf);
MUST_USE Status paper_fonts(const Paper *paper, Error *err);
MUST_USE Status paper_finish(const Paper *paper, Error *err); /* after the last page */
void paper_shut(Paper *paper);

/* ---- words ---- */

/* width_pt < 0: one line. */
PangoLayout *words_layout(Paper *paper, const char *text, Face face, double size_pt,
                          double width_pt);
double words_width_pt(PangoLayout *layout);
double words_height_pt(PangoLayout *layout);
double words_baseline_pt(PangoLayout *layout);
void words_show(const Paper *paper, PangoLayout *layout, double x_pt, double y_pt, Ink ink);
void ink_set(const Paper *paper, Ink ink);
void line_draw(const Paper *paper, double from_x_pt, double from_y_pt, double to_x_pt,
               double to_y_pt, double width_pt);
bool words_fonts_there(const Paper *paper, const char **missing);

/* ---- formulas ---- */

typedef enum MarkKind { MARK_WORDS, MARK_LINE, MARK_CURVE } MarkKind;
typedef struct Mark Mark;
struct Mark {
    MarkKind kind;
    PangoLayout *layout;
    double x_pt, y_pt; /* WORDS: left end of the baseline; LINE, CURVE: start */
    double bend_pt[4]; /* CURVE: its two control points */
    double to_x_pt, to_y_pt, thick_pt;
    Mark *next;
};
/* Its origin is the left end of the baseline. */
typedef struct Math {
    double width_pt, up_pt, down_pt;
    Mark *first, *last;
} Math;
Math math_words(Paper *paper, const char *text, Face face, double size_pt);
Math math_space(double width_pt);
void math_append(Math *row, Math part);                       /* on the same baseline */
void math_put(Math *on, Math part, double x_pt, double y_pt); /* width of `on` stays */
void math_line(Paper *paper, Math *on, const double from_to_pt[4], double thick_pt);
void math_curve(Paper *paper, Math *on, const double from_to_pt[4], const double bend_pt[4],
                double thick_pt);
Math math_term(Paper *paper, const Term *term, double size_pt);
/* A symbol with its index; `power` (NULL: none) stands above the index. */
Math math_symbol(Paper *paper, const char *symbol, const Math *power, double size_pt);
Math math_unit(Paper *paper, const char *unit, double size_pt);
Math math_number(Paper *paper, const char *number, double size_pt);
void math_show(const Paper *paper, const Math *math, double x_pt, double y_pt);

/* ---- boxes: what does not break over pages ---- */

struct Box {
    double before_pt, height_pt; /* space above is left out at the top of a page */
    bool keep;                   /* with the next box */
    bool new_page;
    void (*draw)(Paper *paper, const Box *box, double y_pt);
    void *content;
    /* Drawn once more where a page starts with this box: the head of its table. */
    const Box *repeat;
    const char *heading, *number; /* of headings: for contents, outline and the head of pages */
    int level, page;
    double y_pt;
    Box *next;
};
Box *box_add(Paper *paper, double before_pt, double height_pt,
             void (*draw)(Paper *paper, const Box *box, double y_pt), void *content);

void table_add(Paper *paper, const FigureTable *table);
void figure_add(Paper *paper, const Figure *figure);
void sheet_add(Paper *paper, const Sheet *sheet);
/* Its values alone; sources where they are others than in `like`, which has the formulas. */
void values_add(Paper *paper, const Sheet *sheet, const Sheet *like);
/* "1200 kip in (100 kip ft)" */
Math sheet_result(Paper *paper, const SheetLine *line, int digits);
Math sheet_equals(Paper *paper, Math right);
void flow_add(Paper *paper, const ReportBlock *block);
void flow_cover(Paper *paper);
void flow_contents(Paper *paper); /* once all headings are there */
void flow_words(Paper *paper, double before_pt, const char *text, Face face, double size_pt,
                double indent_pt, Ink ink);

void pages_break(Paper *paper);
void pages_draw(Paper *paper);

#endif
