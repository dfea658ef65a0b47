/* checks: limits against results, one file a check. Takes an answer of thrust (histories at the thrust
 * that is judged) and gives rows; prints nothing. A failed check is a finding, not an error. */
#ifndef CLENCH_CHECKS_H
#define CLENCH_CHECKS_H

#include "clench/sheet.h"
#include "clench/thrust.h"

typedef enum CheckState {
    CHECK_PASS,
    CHECK_FAIL,     /* a limit is exceeded, even where an input behind it is missing or a default */
    CHECK_UNPROVEN, /* no limit is exceeded, but an input that matters is missing or a default */
    CHECK_TOLD, /* a number that is wanted, without a limit of its own: takes no part in the verdict */
    CHECK_STATE_COUNT
} CheckState;

/* No text is NULL but `why` of rows that are not UNPROVEN. */
typedef struct CheckRow {
    const char *name;   /* "connectors of an anchor panel" */
    const char *part;   /* deck, girder, anchor panel, pier, jacks, panel, bearing, joint */
    const char *line;   /* girder line, or "" for all */
    const char *where;  /* "x = 12.0 ft", "J07", "pier 2" */
    const char *when;   /* moment or year, in words of the stages */
    const char *clause; /* where the limit is borrowed from, with its mark */
    double demand;      /* unit: SI of `dimension` */
    double capacity;    /* unit: SI of `dimension`; NAN: not known (UNPROVEN) or none (TOLD) */
    DimensionId dimension;
    double ratio_1; /* demand / capacity; 0 where nothing is demanded, INFINITY where nothing is
                     * there to bear it, NAN without capacity */
    CheckState state;
    const char *why;    /* of UNPROVEN: the default or missing input that matters, and its path */
    const Sheet *sheet; /* the working, symbols = numbers = result; never NULL */
} CheckRow;

/* What rows cite by its mark, worked out once: "L3", an effect of live load, result f (a stress) or e; "G1",
 * a stress f of a gradient. */
typedef struct CheckWorking {
    const char *mark, *title;
    const LiveWorking *live;         /* the position and its ordinates; NULL: a gradient */
    const GradientWorking *gradient; /* the layers of its part; NULL: live load */
    const Sheet *sheet;
} CheckWorking;

typedef struct CheckList {
    CheckRow *row;
    int count, room;
    const CheckWorking *working; /* in the order of their marks */
    int working_count;
    Arena *arena;
    Status status; /* of the first sheet that could not be computed */
    Error err;
} CheckList;

/* What a check looks at. */
typedef struct CheckCase {
    const Bridge *bridge;
    const ThrustAnswer *answer;
    Arena *arena;
    struct CheckShared
        *shared; /* what several checks use, made by checks_run; callers leave it NULL */
} CheckCase;

/* One row of the table of checks: adding a check is one file and one row. */
typedef struct Check {
    const char *name, *part, *covers; /* covers: one sentence for the list of what is checked */
    Status (*run)(const CheckCase *with, CheckList *list, Error *err);
} Check;
extern const Check checks_table[];
extern const int checks_count;

/* All checks; rows sorted by state (failed, unproven, passed, told), then by ratio, worst first. */
MUST_USE Status checks_run(const CheckCase *with, const CheckList **list, Error *err);
/* FAIL, else UNPROVEN, else PASS: exit codes 1, 5, 0. */
CheckState checks_verdict(const CheckList *list);
const char *check_state_name(CheckState state); /* "pass", "fail", "unproven", "told" */
/* Name of the rows, one a span, whose working begins with the camber at each stage: "v_1", "v_2", ... */
extern const char check_camber_name[];
/* What is not checked by this program, one sentence each, NULL ends the list. */
extern const char *const checks_left_out[];

/* ---- lifting of one panel: the sheet of the handling check, for every kind of a schedule ---- */

typedef struct PanelLifted {
    double length_m,
        width_m;   /* along and across the bridge; skewed: square to its joints, along them */
    double mean_m; /* thickness that weighs */
} PanelLifted;
typedef enum PanelLift { PANEL_OFF_BED, PANEL_ON_GIRDERS, PANEL_LIFT_COUNT } PanelLift;
typedef struct PanelLiftAnswer {
    const char *name; /* "panel lifted off the bed" */
    int points;       /* across, in each of two rows: chosen, or the least number that does */
    bool chosen;
    double factor_1;
    double sling_degrees;                    /* above the horizontal; unit: degree */
    double stress_Pa, limit_Pa, strength_Pa; /* limit: modulus of rupture over 1.5 */
    double weight_N, leg_N;                  /* of the panel; pull of a sling, factor in */
    const Sheet *sheet;
} PanelLiftAnswer;
/* Needs bridge and arena of `with` alone: no answer of thrust. */
MUST_USE Status checks_lift(const CheckCase *with, const PanelLifted *panel, PanelLift lift,
                            PanelLiftAnswer *answer, Error *err);

/* ---- for the files of checks; a returned row holds until the next one is added ---- */

/* A row with its sheet; fills ratio and state from demand and capacity: passed where the demand is not
 * larger. A capacity that is NAN is not known: the row is unproven, and check_needs says what is
 * missing. `name` is copied; the sheet is copied too and may live on the stack. A sheet that could not
 * be computed stops checks_run with its error. */
CheckRow *check_add(CheckList *list, const CheckCase *with, const Sheet *sheet, const char *name,
                    double demand_SI, double capacity_SI, DimensionId dimension);
/* A number without a limit of its own (TOLD). */
CheckRow *check_tell(CheckList *list, const CheckCase *with, const Sheet *sheet, const char *name,
                     double value_SI, DimensionId dimension);
/* Texts are kept as they are: constant, or in the arena of the list. NULL stands for "". */
void check_place(CheckRow *row, const char *line, const char *where, const char *when,
                 const char *clause);
/* If `path` names an input that the file does not give, or is NULL (there is no such input), a row that
 * passed becomes unproven: `reason` says why that matters. Of a row without capacity it is the reason
 * in any case. The first reason stays. */
void check_needs(CheckRow *row, const CheckCase *with, const char *path, const char *reason);

#endif
