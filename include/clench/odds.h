/* odds: how likely every joint stays closed, and which thrust gives the wanted chance.
 *
 * A life is a run of the stages with the inputs of one draw: creep, shrinkage, moduli, friction, force, weights,
 * loads, air and age, each a positive factor (logarithm normal) on what the bridge file says. Any life can be
 * run alone, in any order, on any thread: a draw is known by its index. Pure; who runs the lives is
 * `batch`. docs/theory/odds.md. */
#ifndef CLENCH_ODDS_H
#define CLENCH_ODDS_H

#include "clench/numeric.h"
#include "clench/thrust.h"

enum { ODDS_LIVES_MAX = 1000000, ODDS_YEARS_MAX = 6, ODDS_TIMES = 24, ODDS_BANDS = 5 };

typedef struct OddsWish {
    double thrust_N; /* whole deck, as the gauges say it; 0: the answer's */
    uint32_t lives;  /* at least 20 */
    uint64_t seed;
    SampleKind sample;
} OddsWish;

/* All that a life needs; read-only while lives run. */
typedef struct OddsStudy {
    const BridgeOdds *odds;
    const ThrustAnswer *design;
    StageSettings settings;
    double thrust_N; /* whole deck */
    uint32_t lives;
    uint64_t seed;
    SampleKind sample;
    int joint_count;              /* of all lines, one behind the other */
    double after_day[ODDS_TIMES]; /* jacking: from opening to the end of life */
} OddsStudy;
/* Errors: BAD_INPUT, TOO_LARGE. */
MUST_USE Status odds_study(const Bridge *bridge, const ThrustAnswer *design, const OddsWish *wish,
                           OddsStudy *study, Error *err);

/* The factor that a life has on an input, and its standard normal value. */
double odds_normal_1(const OddsStudy *study, uint32_t life, OddsId id);
double odds_factor_1(const OddsStudy *study, uint32_t life, OddsId id);

typedef struct OddsLife {
    double need_N;  /* whole deck, by the gauges; INFINITY: no thrust closes every joint */
    bool failed;    /* the engine found no answer: counted as open from the first day */
    Status trouble; /* why */
    float margin_Pa[ODDS_TIMES]; /* of the worst joint at study->after_day; NAN: failed */
} OddsLife;
/* open_day[joint_count]: days after jacking at which each joint first passes a limit of the rules that
 * count; INFINITY: never. Both arenas are used and reset. */
void odds_life(const OddsStudy *study, uint32_t index, Arena *arena, Arena *scratch, OddsLife *life,
               float *open_day);

/* ---- what the lives say ---- */

typedef struct OddsShare {
    int hits, count;
    double share_1, low_1,
        high_1; /* 95 %, Clopper and Pearson: for independent lives exact or wider */
} OddsShare;
typedef struct OddsYear {
    double after_year; /* after jacking; unit: 365.25 days */
    OddsShare closed;  /* every joint stays closed until then */
} OddsYear;
typedef struct OddsThrust {
    double share_1;       /* chance wanted */
    double need_N;        /* least thrust that gives it; INFINITY: none does */
    double low_N, high_N; /* 95 %, order statistics; 0 and INFINITY: not enough lives to say */
} OddsThrust;
typedef struct OddsJoint {
    int line, joint;
    OddsShare closed; /* for life */
} OddsJoint;
/* How much of the variance of the needed thrust a straight line in this input explains. */
typedef struct OddsCause {
    OddsId id;
    double part_1;       /* square of the correlation with the normal value of the input alone */
    double per_spread_N; /* needed thrust for one standard deviation more */
} OddsCause;
enum { ODDS_THRUSTS = 5 };
typedef struct OddsAnswer {
    const OddsStudy *study;
    int failed, never; /* lives without an answer; lives that no thrust closes */
    int year_count;
    OddsYear year[ODDS_YEARS_MAX];
    OddsThrust thrust[ODDS_THRUSTS]; /* by chance; one is the wanted */
    int wanted;                      /* index */
    double mean_N, deviation_N;      /* of the needed thrust, over lives that have one */
    int joint_count;
    const OddsJoint *joint;      /* least closed first */
    OddsCause cause[ODDS_COUNT]; /* largest first */
    double explained_1;          /* by a plane through all of them */
    double band_Pa
        [ODDS_BANDS]
        [ODDS_TIMES]; /* of the margin at study->after_day: odds_band_1 of the lives have less */
    const double *need_N; /* [lives] sorted */
} OddsAnswer;
extern const double odds_band_1[ODDS_BANDS]; /* 5, 25, 50, 75, 95 % */
void odds_answer(const OddsStudy *study, const OddsLife *life, const float *open_day, Arena *arena,
                 OddsAnswer *answer);

const char *odds_name(OddsId id); /* "creep of the deck" */
const char *odds_key(OddsId id);  /* "creep_deck" */

#endif
