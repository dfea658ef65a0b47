/* Private to jacking: from the bridge's values to runs of the stages and back. */
#ifndef CLENCH_JACKING_WORK_H
#define CLENCH_JACKING_WORK_H

#include "clench/jacking.h"

/* What differs from the file in a run. */
typedef struct Variant {
    double deck_1, girder_1; /* on the moduli */
    double friction_1;
    double warm_K; /* deck, between the zero reading and the first step */
    bool quick;    /* concretes creep by EN 1992-1-1, their moduli stay */
} Variant;

/* The loading: points of all steps in the order of the day. */
typedef struct Ladder {
    int point_count, step_count;
    double share_1[JACK_POINTS], wait_day[JACK_POINTS]; /* before the point */
    int step[JACK_POINTS]; /* that ends with this point; -1: on its way */
    double hold_day[JACK_STEPS];
} Ladder;

enum { THEN_MAX = JACK_STEPS + 4 };
typedef enum ThenKind { THEN_JACK, THEN_WAIT, THEN_WARM } ThenKind;
/* What follows the hold of step `from`. */
typedef struct Then {
    int from, count;
    ThenKind kind[THEN_MAX];
    double value[THEN_MAX]; /* unit: share, day, K */
} Then;

/* Read off one run of one line, SI. */
typedef struct LineRead {
    double opening_m[JACK_POINTS], left_m[JACK_POINTS], right_m[JACK_POINTS];
    double held_N[JACK_STEPS]; /* at the end of the hold */
    double anchor_N[JACK_STEPS][2], slip_m[JACK_STEPS][2];
    double watch_m[JACK_STEPS][JACK_WATCHED];
    double then_N[THEN_MAX], then_m[THEN_MAX];
} LineRead;

typedef struct Work {
    const JackWish *wish;
    const BridgeLine *line[JACK_LINES];
    int girders[JACK_LINES], line_count;
    double weight_1[JACK_LINES]; /* of the lines in the mean opening; sum 1 */
    Variant middle;
    double deck_E_Pa; /* of the panels of phase 1 on the day of jacking */
    Ladder ladder;
    JackPlan *plan;
    Arena *arena, *scratch;
} Work;

/* Value of an input in SI, not a number where it is open; of an item of a list, from 1. */
double jack_value(const Work *work, const char *path);
double jack_value_in(const Work *work, const char *list, int index, const char *key);
int jack_list_count(const Work *work, const char *list, const char *key);

MUST_USE Status gear_choose(Work *work, Error *err); /* gear.c */
void ladder_build(Work *work);                       /* ladder.c */
/* run.c: one line through the ladder up to step `then->from`, then on. */
MUST_USE Status line_read(const Work *work, int line, const Variant *variant, const Then *then,
                          LineRead *read, Error *err);
void watch_list(Work *work);                        /* places to be watched */
MUST_USE Status band_fill(Work *work, Error *err);  /* band.c */
MUST_USE Status after_fill(Work *work, Error *err); /* after.c: holds, warmth, ways back */
MUST_USE Status out_fill(Work *work, Error *err);   /* out.c */
MUST_USE Status rows_fill(Work *work, Error *err);  /* rows.c */

/* Sum over the girders of a value of each line; the mean opening. */
double over_lines(const Work *work, const double *of_line);
double mean_lines(const Work *work, const double *of_line);

#endif
