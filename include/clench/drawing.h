/* drawing: the sheets for yard, crew and reviewer, from the bridge and its panels. One model in real
 * lengths, drawn by three back ends: SVG and DXF here, PDF in paper. Takes shapes, marks, pockets and
 * days from bridge_panels, sections from bridge_girders: no geometry of its own but where a view
 * stands. Knows no file and no clock. docs/drawings.md. */
#ifndef CLENCH_DRAWING_H
#define CLENCH_DRAWING_H

#include "clench/jacking.h"
#include "clench/seating.h"

/* ---- layers: by what a line means; weight and dashes in mm of a full-size sheet ---- */

/* clang-format off */
#define DRAWING_LAYER_LIST(X)                                                                     \
    /*  id          name          weight  on  off  colour  tone */                                \
    X(FRAME,      "FRAME",        0.70,   0,   0,   7,     -1)                                    \
    X(TITLE,      "TITLE",        0.25,   0,   0,   7,     -1)                                    \
    X(TEXT,       "TEXT",         0.18,   0,   0,   7,     -1)                                    \
    X(TABLE,      "TABLE",        0.18,   0,   0,   8,     -1)                                    \
    X(DIMENSION,  "DIMENSION",    0.13,   0,   0,   3,     -1)                                    \
    X(CENTRELINE, "CENTRELINE",   0.13,   6, 1.5,   1,     -1)                                    \
    X(HIDDEN,     "HIDDEN",       0.18, 1.8, 1.2,   8,     -1)                                    \
    X(PANEL,      "PANEL",        0.35,   0,   0,   7,     -1)                                    \
    X(ANCHOR,     "ANCHOR-PANEL", 0.50,   0,   0,   4,     0.90)                                  \
    X(CUT,        "CONCRETE-CUT", 0.50,   0,   0,   7,     0.92)                                  \
    X(JOINT,      "JOINT",        0.25,   0,   0,   5,     -1)                                    \
    X(KEY,        "JOINT-KEY",    0.18, 1.8, 1.2,   5,     -1)                                    \
    X(POCKET,     "POCKET",       0.35,   0,   0,   6,     1.0)                                   \
    X(BLOCKOUT,   "BLOCKOUT",     0.35,   0,   0,   2,     1.0)                                   \
    X(BAR,        "BAR",          0.25,   0,   0,   1,     -1)                                    \
    X(CONNECTOR,  "CONNECTOR",    0.18,   0,   0,   4,     0.3)                                   \
    X(LIFTING,    "LIFTING",      0.35,   0,   0,   2,     -1)                                    \
    X(CENTRE,     "CENTRE-OF-GRAVITY", 0.35, 0, 0,  1,     -1)                                    \
    X(GAP,        "GAP",          0.25,   0,   0,   5,     -1)                                    \
    X(JACK,       "JACK",         0.35,   0,   0,   1,     0.85)                                  \
    X(GIRDER,     "GIRDER",       0.35,   0,   0,   8,     0.97)                                  \
    X(HAUNCH,     "HAUNCH",       0.18,   0,   0,   8,     0.80)                                  \
    X(SUPPORT,    "SUPPORT",      0.35,   0,   0,   8,     -1)                                    \
    X(BED,        "BED",          0.35,   0,   0,   8,     -1)                                    \
    X(PHASE,      "SECOND-PHASE", 0.35,   0,   0,   4,     0.86)
/* clang-format on */
typedef enum DrawingLayer {
#define X(id, name, weight, on, off, colour, tone) DRAWING_##id,
    DRAWING_LAYER_LIST(X)
#undef X
        DRAWING_LAYER_COUNT
} DrawingLayer;
typedef struct DrawingLook {
    const char *name;
    double weight_m, on_m, off_m; /* dashes: 0, none */
    int colour;                   /* of DXF, 1 to 9 */
    double tone_1;                /* grey of filled areas, 1: paper; below 0: not filled */
} DrawingLook;
const DrawingLook *drawing_look(DrawingLayer layer);

/* ---- what stands on a sheet ---- */

typedef struct DrawingPoint {
    double x_m, y_m; /* y upwards */
} DrawingPoint;

typedef enum DrawingKind {
    DRAWING_LINES,  /* open */
    DRAWING_AREA,   /* closed; filled where its layer has a tone */
    DRAWING_CIRCLE, /* round point[0]; likewise */
    DRAWING_ARC,    /* counter-clockwise from from_rad to to_rad */
    DRAWING_WORDS
} DrawingKind;
typedef enum DrawingAlign { DRAWING_START, DRAWING_MIDDLE, DRAWING_END } DrawingAlign;

typedef struct DrawingItem DrawingItem;
struct DrawingItem {
    DrawingKind kind;
    DrawingLayer layer;
    int point_count;
    const DrawingPoint
        *point; /* real lengths of the view; of words: where their baseline is held */
    double radius_m, from_rad, to_rad;
    const char *text;
    double height_m; /* of capitals, on the full-size sheet */
    DrawingAlign align;
    bool upright; /* reads from below */
    const DrawingItem *next;
};

/* A picture at one scale: sheet = origin + real / scale. Scale 1: paper itself, frame and tables. */
typedef struct DrawingView DrawingView;
struct DrawingView {
    const char *title;
    double scale_1;
    DrawingPoint origin; /* on the sheet, of the view's point 0, 0 */
    const DrawingItem *first;
    DrawingItem *last;
    DrawingView *next;
};

typedef struct DrawingSheet {
    const char *id;           /* of the file: "panel-b" */
    const char *title;        /* "Panel of kind B" */
    int number;               /* from 1 */
    double width_m, height_m; /* full size */
    DrawingView *first, *last;
} DrawingSheet;

/* A chain of dimensions and its whole, as they are written: the parts add up to it. */
typedef struct DrawingChain DrawingChain;
struct DrawingChain {
    int count;
    const char *const *part;
    const char *whole;
    const DrawingChain *next;
};

typedef struct DrawingSet {
    int sheet_count;
    DrawingSheet *sheet;
    UnitSystem units;
    bool half; /* printed at half of the full size; lengths here stay those of the full one */
    const char *paper; /* "22 x 34 in" */
    const char *title, *revision, *date, *version;
    const DrawingChain *chain;
} DrawingSet;

enum { DRAWING_SHEETS_MAX = 200 };

typedef struct DrawingSource {
    const Bridge *bridge;
    const PanelPlan *plan;
    const PanelLiftAnswer *lift; /* [kind * PANEL_LIFT_COUNT + PanelLift] */
    const SeatPlan *seat;        /* shims from a survey; NULL: heights stay blank */
    UnitSystem units;
    const char *title, *file, *revision, *date, *version; /* date: "2031-05-04" */
    bool half;
    double north_rad; /* bearing of the bridge's left end, clockwise from north; NAN: not said */
} DrawingSource;
/* All sheets; they live in `arena`. Errors: those of the sections; TOO_LARGE beyond
 * DRAWING_SHEETS_MAX sheets. */
MUST_USE Status drawing_make(const DrawingSource *source, Arena *arena, const DrawingSet **set,
                             Error *err);

/* Width of words in a common sans-serif face, over the height of its capitals; unit: 1. */
double drawing_text_width_1(const char *text);
/* "9'-11 3/4\"" to a sixteenth of an inch; "3045" in mm. */
const char *drawing_length(double length_m, UnitSystem units, Arena *arena);
/* "1/2 in = 1 ft", "1:25": as printed. */
const char *drawing_scale_words(const DrawingSet *set, double scale_1, Arena *arena);

void drawing_svg(const DrawingSet *set, const DrawingSheet *sheet, Text *text);
/* DXF of release 12 in ASCII. Real lengths in inches or mm; sheets with several scales stand at the
 * largest of them, details beside it in their true size. */
void drawing_dxf(const DrawingSet *set, const DrawingSheet *sheet, Text *text);

#endif
