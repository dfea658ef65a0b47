/* Jackings with a known truth, for the site's verdicts: a law of its own (elastic branch with a knee,
 * sliders that stick and slip in parallel, exponential seating), needles that lag, dials that are read to
 * their division. Shares nothing with src/site but the plan, from which it takes the size of the job. */
#ifndef CLENCH_TESTS_SITE_TRUTH_H
#define CLENCH_TESTS_SITE_TRUTH_H

#include <stdint.h>

#include "clench/site.h"

typedef enum TruthKind {
    TRUTH_NORMAL,
    TRUTH_BINDING,   /* a shim binds: what is jacked from there on goes past part of the deck */
    TRUTH_SLIPPING,  /* an anchor slips, creeping or at strokes */
    TRUTH_LEAKING,   /* in the holds */
    TRUTH_GAUGE_LOW, /* 3 % */
    TRUTH_SUN,       /* on the deck during the holds */
    TRUTH_SWAPPED,   /* one reading in other units */
    TRUTH_WILD,      /* one reading mistyped */
    TRUTH_KINDS
} TruthKind;
const char *truth_name(TruthKind kind);

enum { SLIDERS = 12, TRUTH_READINGS = 400 };

typedef struct Truth {
    TruthKind kind;
    uint64_t seed;
    const SiteDay *day;
    /* the deck */
    double stiff_N_per_m, knee_N, knee_1, seat_m, seat_N;
    double slider_N[SLIDERS], slider_m[SLIDERS], at_m[SLIDERS];
    bool sliding[SLIDERS];
    double tilt_1;
    /* the gear */
    double scale_1, zero_N, lag_day, steer_1;
    /* the fault */
    double from_N, size_1; /* begins at; how bad */
    bool strokes, slip_dials;
    int reading; /* SWAPPED, WILD: which one */
    /* state */
    double force_N, elastic_m, slip_m, bind_m, deck_K, leak_N, time_day;
    double warm_m_per_K, warm_N_per_K, creep_1;
    bool locked; /* in a hold: the jacks keep their length */
    double locked_m;
} Truth;

/* What came of a job. */
typedef struct TruthResult {
    SiteCall worst;
    int readings, agains;
    bool early;         /* held before the fault began */
    bool named;         /* the true cause is among the guesses where it was held */
    bool first_named;   /* as the first of them */
    bool caught;        /* SWAPPED, WILD: that reading was asked for again or its dial left out */
    double departure_m; /* at the last reading, from the job's healthy twin */
    double fall_1;      /* LEAKING: fall by the leak in the worst hold, of the thrust */
    int bad;            /* index of the reading that was changed */
    double warm_K;      /* largest deck over girders that was true */
    double rate_K;      /* SUN: in an hour, during the holds */
    bool at_bad;        /* SWAPPED, WILD: held at that very reading */
    SiteKind why;       /* gravest finding where it was held */
    double at_1;        /* share of the thrust there */
    char reason[400];
} TruthResult;
TruthResult truth_run(const SiteDay *day, TruthKind kind, uint64_t seed, Arena *arena);
int truth_last(SiteReading *reading, Truth *truth); /* of the last run */
/* The readings of a whole job, judged by nobody; with a way back at the end where `back`. */
int truth_readings(const SiteDay *day, TruthKind kind, uint64_t seed, bool back,
                   SiteReading *reading, Truth *truth);

/* 95 % interval of a share by Wilson 1927. */
void truth_wilson(int events, int trials, double *low_1, double *high_1);

#endif
