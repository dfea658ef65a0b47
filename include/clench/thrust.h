/* thrust: the thrust that keeps every joint closed, and the window that the limits leave. Runs the
 * stages, asks traffic, judges by the rules of the line. */
#ifndef CLENCH_THRUST_H
#define CLENCH_THRUST_H

#include "clench/bridge.h"

/* Where and when something governs. */
typedef struct Governing {
    int line, joint, station, side, time; /* joint -1: a station that is no joint; time: of history */
    bool top;
    double day;
    double permanent_Pa, live_Pa, gradient_Pa, wheel_Pa; /* factored parts at that thrust */
    double stress_Pa, limit_Pa;
} Governing;

typedef struct RuleAnswer {
    const JointRule *rule;
    double need_N;       /* line thrust; 0 where none is needed */
    bool reachable;      /* false: no thrust within the tried range closes it */
    Governing at;        /* at need_N */
} RuleAnswer;

typedef struct LimitAnswer {
    const UpperLimit *limit;
    double most_N; /* line thrust at which the limit is reached; INFINITY where never */
    Governing at;
} LimitAnswer;

/* What became of the compression at one joint, mean stress and top fibre, by cause (compression
 * gained negative, as everywhere: tension positive). Sums to the state at the time. */
typedef struct Split {
    int joint, side, time;
    double mean_Pa[CAUSE_COUNT], top_Pa[CAUSE_COUNT];
    double mean_total_Pa, top_total_Pa;
} Split;

typedef struct LineAnswer {
    const BridgeLine *line;
    const StageHistory *history; /* at the thrust `thrust_N` */
    double thrust_N;             /* line thrust of the history: the needed one, or the given one */
    int rule_count, limit_count;
    RuleAnswer rule[16];
    LimitAnswer limit[16];
    double need_N, most_N; /* line thrust: largest need that counts, smallest limit */
    int need_rule, most_limit; /* indices; -1 where none */
    /* live load and gradient at every joint [joint * 2 + side>0], factors not in; by fibre */
    struct JointLoad {
        double live_top_max_Pa, live_top_min_Pa, live_bottom_max_Pa, live_bottom_min_Pa;
        double cold_top_Pa, cold_bottom_Pa, warm_top_Pa, warm_bottom_Pa;
    } const *open, *end; /* structure at opening and at end of life */
    Split jacked, opening, finish; /* at the governing joint */
    double gap_movement_m;         /* opening of the gap when jacked */
    double anchor_force_N;         /* largest that arrives at an anchor panel's inner face, jacked */
} LineAnswer;

typedef struct ThrustAnswer {
    int line_count;
    LineAnswer line[8];
    double need_N, most_N;           /* whole deck */
    int governing_line, limiting_line;
    bool window;                     /* need <= most */
    double mesh_error_Pa;            /* estimate at the governing joint; NAN where not asked for */
} ThrustAnswer;

typedef struct ThrustWish {
    double given_N;    /* whole deck; 0: find the needed one */
    StageSettings settings;
} ThrustWish;

/* Line thrust t, whole thrust T = t / share. The needed whole thrust is the largest over the lines.
 * Results live in `result`; `scratch` is used and reset. */
MUST_USE Status thrust_find(const BridgeLine *line, int line_count, const ThrustWish *wish,
                            Arena *result, Arena *scratch, const ThrustAnswer **answer, Error *err);

#endif
