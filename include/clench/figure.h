/* figure: every picture as a display list, from results; drawn by report and by the page. Knows no
 * file, no colour and no format: a mark has a role, the drawer gives the role its looks.
 *
 * Coordinates are in px of a sheet with its origin at the top left, y downwards. A figure is laid
 * out for the width that is asked for: a narrow sheet is another layout, not a smaller print. */
#ifndef CLENCH_FIGURE_H
#define CLENCH_FIGURE_H

#include "clench/odds.h"
#include "clench/seating.h"
#include "clench/site.h"

/* ---- the display list ---- */

/* clang-format off */
#define FIGURE_ROLE_LIST(X)                                                                    \
    X(AXIS, "axis") X(GRID, "grid") X(LABEL, "label") X(STRONG, "strong") X(NOTE, "note")      \
    X(GIRDER, "girder") X(SUPPORT, "support") X(PANEL, "panel") X(ANCHOR, "anchor")            \
    X(CLOSURE, "closure") X(JACK, "jack") X(SHIM, "shim") X(BOND, "bond") X(LIFT, "lift")      \
    X(JOINT, "joint") X(GOVERNS, "governs") X(FORCE, "force")                                  \
    X(MOMENT_1, "moment1") X(MOMENT_2, "moment2") X(MOMENT_3, "moment3") X(MOMENT_4, "moment4") \
    X(LIMIT, "limit") X(BAND, "band") X(COMPRESSION, "compression") X(TENSION, "tension")      \
    X(HEAT, "heat") X(CONTOUR, "contour") X(ZERO, "zero") X(HEAT_TEXT, "heattext")             \
    X(TOTAL, "total") X(LOSS, "loss") X(GAIN, "gain")                                          \
    X(NEED, "need") X(MOST, "most") X(WINDOW, "window") X(CLASH, "clash")                      \
    X(PLACED, "placed") X(TIE, "tie") X(OPEN, "open") X(SEEN, "seen") X(HIT, "hit")
/* clang-format on */
typedef enum FigureRole {
#define X(id, name) FIGURE_##id,
    FIGURE_ROLE_LIST(X)
#undef X
        FIGURE_ROLE_COUNT
} FigureRole;
const char *figure_role_name(FigureRole role); /* "girder": class name of a drawer */

typedef enum FigureKind {
    FIGURE_POLYLINE,
    FIGURE_POLYGON,
    FIGURE_RECT,
    FIGURE_DOT,
    FIGURE_TEXT
} FigureKind;
typedef enum FigureAnchor { FIGURE_START, FIGURE_MIDDLE, FIGURE_END } FigureAnchor;
typedef enum FigureSize { FIGURE_SMALL, FIGURE_PLAIN, FIGURE_LARGE } FigureSize; /* 11, 13, 16 px */

typedef struct FigurePoint {
    double x_px, y_px;
} FigurePoint;

typedef struct FigureItem FigureItem;
struct FigureItem {
    FigureKind kind;
    FigureRole role;
    int point_count;    /* RECT: corner, then width and height; DOT: centre, then radius twice */
    FigurePoint *point; /* TEXT: baseline */
    const char *text;   /* TEXT */
    FigureAnchor anchor;
    FigureSize size;
    double heat_1;     /* HEAT: 0 (far from opening) to 1 (open), in the steps of the legend */
    const char *title; /* what the mark says, for tooltips and readers of the screen; NULL: none */
    const char *pick;  /* what the mark is of, for a page: "joint:6 time:41", keys joint, time, line
                        * (indices); NULL: nothing to pick */
    FigureItem *next;
};

/* How paper sets a table: as text; in large letters, to be read on site; a form to write on. */
typedef enum FigureTableLook {
    FIGURE_TABLE_PLAIN,
    FIGURE_TABLE_LARGE,
    FIGURE_TABLE_FORM
} FigureTableLook;

/* The data behind a picture, or any table of text. */
typedef struct FigureTable {
    const char *caption;
    FigureTableLook look;
    int column_count, row_count;
    const char **head; /* with units */
    bool *number;      /* [column]: aligned to the right */
    const char **cell; /* [row * column_count + column] */
    int row_room;
    Arena *arena;
} FigureTable;

typedef struct Figure {
    const char *id; /* "stress": a short name for files and anchors */
    const char *title, *description;
    double width_px, height_px;
    FigureItem *first, *last;
    int item_count;
    FigureTable *table;
    Arena *arena;
} Figure;

Figure *figure_start(Arena *arena, const char *id, double width_px, double height_px);
FigureItem *figure_lines(Figure *figure, FigureRole role, const FigurePoint *point, int count);
FigureItem *figure_area(Figure *figure, FigureRole role, const FigurePoint *point, int count);
FigureItem *figure_segment(Figure *figure, FigureRole role, FigurePoint from, FigurePoint to);
FigureItem *figure_rect(Figure *figure, FigureRole role, FigurePoint corner, double width_px,
                        double height_px);
FigureItem *figure_dot(Figure *figure, FigureRole role, FigurePoint centre, double radius_px);
FigureItem *figure_text(Figure *figure, FigureRole role, FigurePoint at, FigureAnchor anchor,
                        const char *text);
/* A generous estimate of the width of a text on the sheet. */
double figure_text_width_px(const char *text, FigureSize size);

FigureTable *figure_table_start(Arena *arena, const char *caption, int column_count);
void figure_table_column(FigureTable *table, int column, bool number, const char *head);
void figure_table_row(FigureTable *table, const char *const *cell); /* column_count of them */

/* ---- numbers as people read them ---- */

/* Round steps of 1, 2 or 5 times a power of ten inside [from, to], at most `most` (>= 2) of them;
 * returns their number. unit: of the axis */
int figure_ticks(double from_1, double to_1, int most, double *tick_1);
/* Unit for stresses, forces (as quantity_unit), lengths and small movements ("in", "mm"). */
const char *figure_move_unit(UnitSystem units);
/* "1441 kip", three or four figures that matter. */
char *figure_quantity(Arena *arena, double value_SI, const char *unit);
/* "318 psi compression", "20 psi tension", "0 psi". */
char *figure_stress(Arena *arena, double stress_Pa, UnitSystem units);
/* "C 318", "T 20", "0": for tables whose head gives the unit and what C and T mean. */
char *figure_stress_short(Arena *arena, double stress_Pa, UnitSystem units);
/* "7 d", "90 d", "1 yr", "75 yr". */
char *figure_duration(Arena *arena, double days_day);

/* ---- moments and margins of a line ---- */

/* The named moments that the history holds, in order of time: jacked, released, bonded, opening,
 * end; returns their number, at most 5. */
typedef struct FigureMoment {
    int time;          /* index of the history */
    const char *label; /* "jacked" */
    double after_day;  /* days after jacking */
} FigureMoment;
int figure_moments(const LineAnswer *line, FigureMoment moment[5]);
/* "jacks locked", or the event's own name where it has one. */
const char *figure_event(const Event *event);
/* Counted from jacking: "end of life, 75 yr", "jacked", "27 d", "3 d before jacking". */
char *figure_when(Arena *arena, const LineAnswer *line, double day);
/* "J07", or "station 120 ft" where it is no joint. */
char *figure_where(Arena *arena, const LineAnswer *line, const Governing *at, UnitSystem units);

/* Distance to the limit of a rule at a joint, the worse fibre and side: limit minus stress, so
 * positive while the joint is closed; before opening permanent stress alone. NAN where the deck is
 * not there. */
double figure_margin_Pa(const LineAnswer *line, int rule, int joint, int time);
/* What a rule adds to the permanent stress of one fibre: towards tension (sign 1, wheel included)
 * or towards compression (sign -1). */
typedef struct FigureFibre {
    int joint, side;
    bool top;
} FigureFibre;
double figure_added_Pa(const LineAnswer *line, int rule, FigureFibre fibre, int time, int sign);
/* The rule that the figures of a line judge by: the one that governs, or the first that counts. */
int figure_rule(const LineAnswer *line); /* -1: the line has no rule */

/* The rule whose live load and gradient a page shows: judges fibres in service. -1: none. */
int figure_service_rule(const LineAnswer *line);

/* ---- the pictures ---- */

/* What a picture looks at. On paper: every named moment, the joint that governs. On a page: one moment
 * and one joint, with marks that can be picked. */
typedef struct FigureView {
    const LineAnswer *line;
    UnitSystem units;
    double width_px;
    bool page;
    /* of a page alone */
    const ThrustAnswer *answer;
    const Bridge *bridge; /* NULL: no widths and girder lines in plan */
    int time, joint;      /* of the line's history; of its joints, -1: the one that governs */
    bool predicted;       /* the history is not run but laid through two others */
    double move_m;        /* largest downward or upward movement to make room for */
} FigureView;
FigureView figure_paper(const LineAnswer *line, UnitSystem units, double width_px);
/* The joint that a view is about; -1: the line has none. */
int figure_joint(const FigureView *view);
/* "joint:6 time:41" of a page, NULL on paper; -1 leaves an index out. */
const char *figure_pick(const FigureView *view, Arena *arena, int joint, int time);

Figure *figure_bridge(const FigureView *view, Arena *arena);
Figure *figure_deck(const FigureView *view, Arena *arena);
Figure *figure_map(const FigureView *view, Arena *arena);
Figure *figure_gap(const FigureView *view, Arena *arena);
Figure *figure_split(const FigureView *view, Arena *arena);
Figure *figure_window(const FigureView *view, Arena *arena);

/* Of a jacking plan: the jacks across the deck, seen along the bridge; force against opening with its
 * band and the steps. */
Figure *figure_jacks(const JackPlan *plan, UnitSystem units, double width_px, Arena *arena);
Figure *figure_loading(const JackPlan *plan, UnitSystem units, double width_px, Arena *arena);

/* Of the jacking day: readings on the plan's band, the last one strong; the last hold, force over time. */
typedef struct FigureSite {
    const SiteDay *day;
    const SiteReading *reading;
    int count;
    double width_px;
} FigureSite;
Figure *figure_site_force(const FigureSite *site, Arena *arena);
Figure *figure_site_hold(const FigureSite *site, Arena *arena); /* NULL: there was no hold yet */

/* Of many lives: chance against thrust, spread of the margin with the years, what moves the need. */
Figure *figure_odds_chance(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena);
Figure *figure_odds_fan(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena);
Figure *figure_odds_causes(const OddsAnswer *odds, UnitSystem units, double width_px, Arena *arena);

/* Of a plan of seats: the haunch along `count` girders from `girder` on; girder -1: the profile and what
 * flat panels leave of it. */
typedef struct FigureSeats {
    const SeatPlan *plan;
    int girder, count;
    UnitSystem units;
} FigureSeats;
Figure *figure_seats(const FigureSeats *seats, double width_px, Arena *arena);

/* The table behind figure_split alone. */
FigureTable *figure_split_table(const LineAnswer *line, UnitSystem units, Arena *arena);

/* One row a picture: its name, what it is called, and the function. */
typedef struct FigureKindRow {
    const char *id, *title;
    Figure *(*draw)(const FigureView *view, Arena *arena);
} FigureKindRow;
int figure_kind_count(void); /* of paper */
const FigureKindRow *figure_kind(int index);
int figure_page_count(void); /* of a page that is looked at */
const FigureKindRow *figure_page(int index);

#endif
