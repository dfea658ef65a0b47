/* The drawing in the making. Private to drawing. */
#ifndef CLENCH_DRAWING_DRAW_H
#define CLENCH_DRAWING_DRAW_H

#include "clench/drawing.h"

typedef DrawingPoint Point;

typedef struct Draw {
    const DrawingSource *of;
    const Bridge *bridge;
    const PanelPlan *plan;
    Arena *arena;
    DrawingSet *set;
    bool us;
    double left_m, right_m, low_m, high_m; /* of a sheet, where views may stand */
    double deck_m, haunch_m, width_m, spacing_m;
    int girders;
    double length_m; /* of the bridge */
    int span_count;
    const double *support_m; /* [span_count + 1] */
    int piece_count;
    const BridgeGirder *piece;
} Draw;

/* ---- values of the bridge file, SI; not a number where open ---- */

double draw_value(const Draw *d, const char *path);
int draw_count(const Draw *d, const char *path);
const char *draw_said(const Draw *d, const char *path); /* as text: "none", "tub" */
const char *draw_length(const Draw *d, double length_m);
/* "34.2 kip", "152 kN"; places beyond the point. */
const char *draw_quantity(const Draw *d, double value_SI, DimensionId dimension, int places);

/* ---- sheets and views ---- */

MUST_USE Status page_add(Draw *d, const char *id, const char *title, DrawingSheet **sheet,
                         Error *err);
DrawingView *view_add(Draw *d, DrawingSheet *sheet, double scale_1, Point origin);
/* Title, scale and a bar of it under a view: at a point of the view, left end. */
void view_title(Draw *d, DrawingView *view, Point at, const char *title);
/* The next usual scale at which a real length fits a length of paper. */
double scale_fit(const Draw *d, double real_m, double paper_m);
/* Frame, title block and what each sheet has; once all sheets are known. */
void frame_all(Draw *d);
/* Arrow to the north and of the stations, its middle there; `turn_rad`: of the view. */
void north_draw(Draw *d, DrawingSheet *sheet, Point at, double turn_rad);

/* ---- pens ---- */

typedef struct Pen {
    Draw *draw;
    DrawingView *view;
    DrawingLayer layer;
} Pen;
typedef struct Form {
    double height_m;
    DrawingAlign align;
    bool upright;
} Form;
Pen pen_of(Draw *d, DrawingView *view, DrawingLayer layer);
void pen_line(Pen pen, Point a, Point b);
void pen_lines(Pen pen, const Point *point, int count);
void pen_area(Pen pen, const Point *point, int count);
void pen_rect(Pen pen, Point a, Point b); /* opposite corners */
void pen_circle(Pen pen, Point middle, double radius_m);
void pen_arc(Pen pen, Point middle, double radius_m, double from_rad, double to_rad);
void pen_text(Pen pen, Point at, Form form, const char *text);
/* Words broken to a width of the sheet, downwards from the top; returns the height that they take. */
double pen_words(Pen pen, Point top, Form form, double width_m, const char *text);
/* A line from words to what they speak of, with a dot at its end. */
void pen_leader(Pen pen, Point from, Point to);

extern const double text_m, title_m; /* usual heights of words */

/* ---- dimensions ---- */

/* Points along x (or y: upright) of a view; extension lines begin at base_m; the line stands off_m of
 * paper from it, above or right where positive. */
typedef struct Dims {
    DrawingView *view;
    bool upright;
    double base_m, off_m;
    int count;
    const double *at_m;
    bool whole; /* a second line with the whole */
} Dims;
/* Returns the distance on paper, with the sign of off_m, where the next one may stand. */
double chain_draw(Draw *d, const Dims *chain);

/* ---- tables ---- */

enum { TABLE_COLUMNS = 64 };
typedef struct Table {
    Draw *draw;
    DrawingView *view; /* paper */
    Point top;         /* left end of its top; moves down with each row */
    int columns;
    double width_m[TABLE_COLUMNS];
    bool middle[TABLE_COLUMNS]; /* else from the left */
    double row_m;
} Table;
Table table_start(Draw *d, DrawingView *paper, Point top, int columns, const double *width_m);
void table_row(Table *table, const char *const *text, bool head);
void table_pair(Table *table, const char *name, const char *value); /* of two columns */

/* ---- the bridge in plan ---- */

/* A stretch of the bridge, turned so that its middle lies level. */
typedef struct Strip {
    const Draw *draw;
    double from_m, to_m, turn_rad;
    Point middle;
} Strip;
Strip strip_of(const Draw *d, double from_m, double to_m);
Point strip_point(const Strip *strip, double x_m, double z_m);
void strip_corners(const Strip *strip, const PanelPiece *piece, Point corner[4]);
void strip_box(const Strip *strip, Point *least, Point *most);
/* Panels, gaps, girders under them; `label` gives up to two lines a panel, NULL: none. */
typedef void StripLabel(const Draw *d, int piece, const char *line[2]);
void strip_draw(Draw *d, DrawingView *view, const Strip *strip, StripLabel *label);
bool piece_first_across(const PanelPiece *piece); /* not the right one of two */

/* ---- the sheets ---- */

Status draw_general(Draw *d, Error *err);
Status draw_section(Draw *d, Error *err);
Status draw_panels(Draw *d, Error *err);
Status draw_shop(Draw *d, Error *err);
Status draw_gap(Draw *d, Error *err);
Status draw_shims(Draw *d, Error *err);
Status draw_beds(Draw *d, Error *err);
Status draw_order(Draw *d, Error *err);
void draw_index(Draw *d); /* of all sheets, on the first */

/* ---- parts of several sheets ---- */

/* The deck cut across, its crown in: heights from the top of its edges, of a flat one; 0 or less below. */
double deck_soffit(const Draw *d, double z_m);
double deck_top(const Draw *d, double z_m);
void deck_cut(Draw *d, DrawingView *view);
/* Outline of a girder's section, top at y = 0; false where only its sizes are known. */
bool girder_draw(Draw *d, DrawingView *view, const BridgeGirder *piece, Point top);
bool match_cast(const Draw *d); /* else narrow cast */
/* Middles of a girder's haunches from its axis, and their width; their number: a tub has two. */
int haunches_of(const BridgeGirder *piece, double at_m[2], double *width_m);
/* The face of a joint in a cut along the bridge, from below; out_m: how far the key stands out, signed. */
enum { KEY_POINTS = 6 };
void key_face(const Draw *d, Point low, double out_m, Point face[KEY_POINTS]);
extern const double key_deep_m;
/* A detail of two panels at their joint, of a pocket over its girder: low left corner of its room. */
void detail_joint(Draw *d, DrawingSheet *sheet, Point at);
void detail_pocket(Draw *d, DrawingSheet *sheet, Point at);

#endif
