/* Private to thrust: one run of a line at one thrust, and what is read off it. */
#ifndef CLENCH_THRUST_TRIAL_H
#define CLENCH_THRUST_TRIAL_H

#include "clench/thrust.h"

/* The verified need may move by this much from the prediction before it is run again. */
static const double settled_1 = 1e-4;

typedef struct Trial {
    double thrust_N; /* line */
    const StageHistory *history;
    const FibreStress *joint; /* [(2 * joint + (side > 0)) * time_count + time], from jacking on;
                               * N_N is NAN where no deck is */
} Trial;

/* A line's stages up to its first jacking: what all trials share. Lives in `arena`. */
typedef struct TrialBase {
    const BridgeLine *line;
    StageRun *run;
    Arena *scratch;
} TrialBase;
MUST_USE Status trial_base(const BridgeLine *line, const StageSettings *settings, Arena *arena,
                           Arena *scratch, TrialBase *base, Error *err);
/* Goes on from the base with that thrust in every jacking event; shares of the first guess stay. */
MUST_USE Status trial_run(const TrialBase *base, double thrust_N, bool leave_causes, Arena *result,
                          Trial *trial, Error *err);

/* The line's named moments; all found or BAD_INPUT. */
MUST_USE Status moments_find(const BridgeLine *line, const StageHistory *history, Moments *moments,
                             Error *err);

/* ---- loads.c: live load and gradient at the joints on the structure of one moment ---- */
MUST_USE Status loads_at(const BridgeLine *line, const StageHistory *history, int time,
                         Arena *result, Arena *scratch, const JointLoad **load, Error *err);
/* Both of an answer, on the structures of `history`; its line and moments are set. Where nothing carries
 * in compression only the loads do not depend on the thrust: what is there stays. */
MUST_USE Status loads_renew(LineAnswer *answer, const StageHistory *history, Arena *result,
                            Arena *scratch, Error *err);

/* ---- a quantity that is straight in the thrust, known at two trials ---- */
typedef struct Straight {
    double at_N, value, per_N;
} Straight;
static inline Straight straight(const Trial *a, const Trial *b, double value_a, double value_b)
{
    return (Straight){a->thrust_N, value_a, (value_b - value_a) / (b->thrust_N - a->thrust_N)};
}
static inline double straight_at(Straight line, double thrust_N)
{
    return line.value + line.per_N * (thrust_N - line.at_N);
}

/* ---- rules.c, limits.c: answers from two trials, the second being the nearer to the answer ---- */
void rules_judge(LineAnswer *answer, const Moments *moments, const Trial *a, const Trial *b);
void limits_judge(LineAnswer *answer, const Moments *moments, const Trial *a, const Trial *b);

#endif
