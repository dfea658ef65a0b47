/* panel: the geometry and the yard of precast deck panels: lengths between two faces, shape and centre
 * of gravity, casting on flat beds, force and glue that close a joint. Knows numbers alone: no bridge,
 * no material. The file of the bridge's folder that puts them together is src/bridge/panels.c. */
#ifndef CLENCH_PANEL_H
#define CLENCH_PANEL_H

#include "clench/base.h"

/* ---- how many, how long ---- */

typedef enum PanelChoice {
    PANEL_NOMINAL,      /* equal panels, the number that comes nearest to the nominal length */
    PANEL_LEAST_PANELS, /* as few as the longest one allows, equal where joints then stay clear */
    PANEL_LEAST_KINDS,  /* one length for as many panels as possible, a remainder beside the gap */
    PANEL_CHOICE_COUNT
} PanelChoice;

/* A place of the deck that joints stay away from: a pier, a splice. */
typedef struct PanelKeep {
    double at_m, clear_m;
} PanelKeep;

/* Deck that panels fill without a rest, from the face of an anchor panel to that of the gap. */
typedef struct PanelStretch {
    double from_m, to_m;
    bool gap_first; /* the gap is at its left end */
    int keep_count;
    const PanelKeep *keep; /* of the joints inside; both ends are given */
} PanelStretch;

typedef struct PanelRule {
    PanelChoice choice;
    double nominal_m;
    double shortest_m, longest_m; /* longest: hard; shortest: given up where nothing else fits */
} PanelRule;

typedef struct PanelSplit {
    int count;
    double *length_m; /* from left to right */
    double over_m;    /* least distance of a joint inside beyond what it keeps; negative: too near;
                       * INFINITY where nothing is to be kept */
} PanelSplit;

/* The lengths of all stretches of a bridge at once. Errors: TOO_LARGE for more than 4000 panels a
 * stretch. The texts and arrays live in `arena`. */
MUST_USE Status panel_split(const PanelStretch *stretch, int count, const PanelRule *rule,
                            Arena *arena, PanelSplit *split, Error *err);
/* Different lengths among them; 0.1 mm apart is the same. */
int panel_split_kinds(const PanelSplit *split, int count);

/* ---- the shape of one panel ---- */

/* Seen from above: x along the bridge, z across, to the right looking along, 0 in the middle of the
 * deck. Edges: x = left + z * left_slope, right likewise. */
typedef struct PanelShape {
    double left_m, right_m; /* edges at z = 0 */
    double left_slope_1, right_slope_1;
    double from_z_m, to_z_m;
    double edge_m; /* thickness at the deck's edges */
    double half_m; /* half of the deck's width: where the edge is */
    double rise_1; /* the top rises by it towards z = 0, the soffit is flat; 0: flat */
} PanelShape;

/* A hole or a recess from the top, a box whose sides follow x and z. */
typedef struct PanelHole {
    double x_m, z_m, along_m, across_m; /* its middle and its sides */
    double depth_m;                     /* INFINITY: through */
} PanelHole;

typedef struct PanelBody {
    double area_m2;              /* in plan, without holes */
    double gross_m3, net_m3;     /* without and with holes */
    double gross_x_m, gross_z_m; /* centre of gravity of either */
    double net_x_m, net_z_m;
    double shortest_m, longest_m;     /* sides along the bridge */
    double left_edge_m, right_edge_m; /* along the joints */
    double diagonal_1_m,
        diagonal_2_m; /* left joint's first end to right joint's second; the other */
    double haul_m;    /* the least width that it can travel with */
} PanelBody;
PanelBody panel_body(const PanelShape *shape, const PanelHole *hole, int hole_count);
/* True where a side along the bridge is no longer than `least_m`: edges that meet. */
bool panel_pinched(const PanelShape *shape, double least_m);
/* The hole lies wholly in the panel, at least `clear_m` from its edges. */
bool panel_holds(const PanelShape *shape, const PanelHole *hole, double clear_m);
/* Rows of pockets along a panel so that none is farther from the next than `spacing_m`, the first and the
 * last half a distance from the joints: their number. */
int panel_pocket_rows(double length_m, double spacing_m);

/* Where a panel hangs: two rows of points across the deck, `along_1` of its length from the joints; two
 * points stand `across_1` of its width from its ends, more each in the middle of its part. As the sheet
 * of the handling check has them. */
typedef struct PanelPoint {
    double x_m, z_m;
} PanelPoint;
void panel_lift_points(const PanelShape *shape, int across, double along_1, double across_1,
                       PanelPoint *point); /* [2 * across]: the left row first */

/* ---- the yard ---- */

/* Panels side by side that are cast against each other: those of one run on one side of its gap. */
typedef struct PanelLine {
    int first, count; /* of the panels' lists */
} PanelLine;

typedef struct PanelList {
    int line_count, count;
    const PanelLine *line;
    const double *length_m; /* of each panel */
    const int *phase;       /* 0 or 1 */
} PanelList;

typedef struct PanelYard {
    double bed_m;   /* length of a bed */
    double clear_m; /* between panels that are not cast against each other, and at the bed's ends */
    double skew_m;  /* what skewed joints take more, once a row of panels */
    int beds;
    double phase_day[2];         /* when the phases of the last set are cast */
    double strip_day, reset_day; /* age of the later phase when all is lifted; bed idle after it */
    double set_day;              /* the last panel is on the girders */
    int per_day;                 /* panels set in a day, in the order of the list */
} PanelYard;

typedef struct PanelCast {
    int cycle, bed, phase; /* from 0 */
    double place_m;        /* its left end from the head of the bed */
    double cast_day, strip_day, set_day;
    bool against_left, against_right; /* cast against the neighbour, which had hardened before */
    bool waits; /* goes back on a bed in a later cycle for the next one to be cast against */
} PanelCast;

typedef struct PanelSets {
    int cycles, used_beds;
    double cycle_day, first_day, bed_used_m; /* most that is used of a bed, its ends in */
    int stored_most;                         /* panels that lie in the yard at once */
    double stored_day;
    double youngest_day, oldest_day; /* age on the day of setting */
    double apart_day;                /* largest difference of age of two neighbours */
} PanelSets;

/* Phases are those of the engine. Every other panel of a row is cast first, the
 * others against them; a line that is longer than a bed goes on in a later cycle, its last panel back
 * at the bed's head. Counted back from the last cycle, so no panel is younger than the engine takes it.
 * Errors: BAD_INPUT where a panel, or two that are cast against each other, are longer than a bed. */
MUST_USE Status panel_sets(const PanelYard *yard, const PanelList *list, PanelCast *cast,
                           PanelSets *sets, Error *err);

/* ---- closing a joint ---- */

typedef struct PanelSeam {
    double face_m2;     /* the joint's face: pressed */
    double glued_m2;    /* its whole area */
    double pressure_Pa; /* wanted, average */
    double pulled_N, friction_1,
        grade_1;                /* weight that slides to the joint, and what it slides on */
    double piece_N;             /* force of one bolt or puller */
    int piece_most;             /* that can be used; 0: any number */
    double film_m, waste_1;     /* glue put on, both faces together */
    double open_day, open_at_K; /* from mixing to compression, up to that temperature */
    double glue_K;              /* the joint's temperature, absolute */
    double spread_day, place_day, pull_day; /* mixing and spreading; setting the panel; pulling */
} PanelSeam;

typedef struct PanelClosing {
    double press_N, drag_N, force_N; /* for the pressure, to move the panel, both */
    int pieces;                      /* bolts or pullers used */
    double given_N, given_Pa;        /* what they do: force, and pressure after the drag */
    double glue_m3;
    double open_day, work_day; /* at that temperature; what the work takes of it */
    bool pressed, in_time;
} PanelClosing;
PanelClosing panel_closing(const PanelSeam *joint);

#endif
