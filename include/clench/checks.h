/* checks: limits against results, one file a check. Takes an answer of thrust (histories at the thrust
 * that is judged) and gives rows; prints nothing. A failed check is a finding, not an error. */
#ifndef CLENCH_CHECKS_H
#define CLENCH_CHECKS_H

#include "clench/sheet.h"
#include "clench/thrust.h"

typedef enum CheckState { CHECK_PASS, CHECK_FAIL, CHECK_UNPROVEN, CHECK_STATE_COUNT } CheckState;

typedef struct CheckRow {
    const char *name;  /* "connectors of an anchor panel" */
    const char *part;  /* deck, girder, anchor panel, pier, jacks, panel, bearing, joint */
    const char *line;  /* girder line, or "" for all */
    const char *where; /* "x = 12.0 ft", "J07", "pier 2" */
    const char *when;  /* moment or year, in words of the stages */
    const char *clause; /* where the limit is borrowed from, with its mark */
    double demand, capacity; /* unit: SI of `dimension`; ratio = demand / capacity */
    DimensionId dimension;
    double ratio_1;
    CheckState state;
    const char *why;    /* of UNPROVEN: the default or missing input that matters, and its path */
    const Sheet *sheet; /* the working, symbols = numbers = result; never NULL */
} CheckRow;

typedef struct CheckList {
    CheckRow *row;
    int count, room;
    Arena *arena;
} CheckList;

/* What a check looks at. */
typedef struct CheckCase {
    const Bridge *bridge;
    const ThrustAnswer *answer;
    Arena *arena;
} CheckCase;

/* One row of the table of checks: adding a check is one file and one row. */
typedef struct Check {
    const char *name, *part, *covers; /* covers: one sentence for the list of what is checked */
    Status (*run)(const CheckCase *with, CheckList *list, Error *err);
} Check;
extern const Check checks_table[];
extern const int checks_count;

/* All checks; rows sorted by state (failed, unproven, passed), then by ratio, worst first. */
MUST_USE Status checks_run(const CheckCase *with, const CheckList **list, Error *err);
/* Worst state of the list: exit codes 0 all pass, 1 one fails, 5 none fails but some are unproven. */
CheckState checks_verdict(const CheckList *list);
/* What is not checked by this program, one sentence each, NULL ends the list. */
extern const char *const checks_left_out[];

/* For the files of checks: a row with its sheet; fills ratio and state from demand and capacity. If
 * `path` (NULL allowed) names an input that is a default, the row is unproven instead of passed. */
CheckRow *check_add(CheckList *list, const CheckCase *with, const Sheet *sheet, const char *name,
                    double demand_SI, double capacity_SI, DimensionId dimension);
void check_place(CheckRow *row, const char *line, const char *where, const char *when,
                 const char *clause);
void check_needs(CheckRow *row, const CheckCase *with, const char *path, const char *reason);

#endif
