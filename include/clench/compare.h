/* compare: the four ways to connect the panels of one bridge, followed by the same engine and judged at
 * the same joints: jacks, tendons in ducts, UHPC joints without compression, a deck cast in place. */
#ifndef CLENCH_COMPARE_H
#define CLENCH_COMPARE_H

#include "clench/thrust.h"

typedef struct WayLine {
    const LineAnswer *answer;
    JointsStanding
        standing; /* by the rules that count; without compression a joint is held against the
                              * modulus of rupture of the concrete beside it */
} WayLine;

/* What became of the compression at one joint of one line: mean stress over the depth of the deck there,
 * tension positive, but for the first three, which are compression. */
typedef struct WayKept {
    double pulled_Pa;  /* force of the jacks at the deck's end or gap, over the deck's section */
    double duct_Pa;    /* of it gone by friction in the duct; */
    double draw_in_Pa; /* and by the draw-in of the wedges, at that joint */
    Split begin;       /* when jacked, stressed, or first judged */
    Split bonded, opening, finish;
} WayKept;

/* Largest and smallest permanent stress of the girders, all lines and stations, tension positive. */
typedef struct WayGirder {
    double top_most_Pa, top_least_Pa, bottom_most_Pa, bottom_least_Pa;
} WayGirder;

typedef struct WayAnswer {
    Way way;
    int line_count;
    const WayLine *line;        /* as the lines of the thrust */
    int governing;              /* the line that is nearest to its limits, or farthest beyond */
    WayKept kept;               /* at the joint that is the same for all ways */
    WayGirder building, finish; /* from the panels, or wet deck, to one section; end of life */
    int tendons;                /* in the whole width; 0: none */
    bool tendons_given;
    bool enough; /* tendon: they keep every joint closed */
    int runs;
} WayAnswer;

/* ---- what each way is built of, and its work ---- */

typedef struct WayFactor {
    const char *name; /* "tendons" */
    double value;     /* unit: SI of the dimension; NONE: a count or a pure number */
    DimensionId dimension;
    bool over; /* divides */
} WayFactor;
enum { WAY_FACTORS = 6, WAY_QUANTITIES_MAX = 64 };
/* A quantity that only this way has, or a piece of its work: the product of its factors. */
typedef struct WayQuantity {
    Way way;
    bool work;        /* time of a crew */
    const char *name; /* "couplers of ducts" */
    double value;     /* unit: SI of the dimension */
    DimensionId dimension;
    const char *unit[2]; /* [UnitSystem]: as it is ordered; "": a count */
    int factor_count;
    WayFactor factor[WAY_FACTORS];
} WayQuantity;
/* What all ways of panels share (panels, haunch, pockets, barrier) is not in it, but the setting of panels is. */
typedef struct WayQuantities {
    int count;
    WayQuantity item[WAY_QUANTITIES_MAX];
    int persons;
    double spread_1;
    double crew_day[WAY_COUNT]; /* of 24 hours */
} WayQuantities;

typedef struct CompareAnswer {
    const ThrustAnswer *thrust;
    int line, joint, side; /* where all ways are looked at: the joint that governs the thrust */
    WayAnswer way[WAY_COUNT];
    const WayQuantities *quantities;
} CompareAnswer;

/* The thrust is the one of `thrust`, found or given. Tendons without a given number: as many as keep every
 * joint closed, by runs; at most so many as the deck's section bears (0.45 f'c). Lives in `result`, beside
 * `thrust`; `scratch` is used and reset. */
MUST_USE Status compare_find(const Bridge *bridge, const ThrustAnswer *thrust, Arena *result,
                             Arena *scratch, const CompareAnswer **answer, Error *err);

/* What is left to the limit: negative where a joint opens, or the concrete beside it cracks. */
double compare_margin_Pa(const WayLine *line);
/* Largest loss: compression at `begin` less what is left at the end without the loads put on the finished
 * deck, over the compression at `begin`; NAN where there was none. */
double compare_kept_1(const WayKept *kept);

#endif
