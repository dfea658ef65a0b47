/* jacking: the plan of the day on which the deck is put into compression. From the thrust, the jacks and
 * the steps to what gauge and gap should read, with bands; what changes with a jack out; temperature,
 * holds, the way back. Movements come from runs of the stages at those forces, holds and friction, never
 * from a straight line. Numbers only, no text for people but names; no I/O. docs/theory/jacking.md. */
#ifndef CLENCH_JACKING_H
#define CLENCH_JACKING_H

#include "clench/checks.h"

enum {
    JACKS_MAX = 100,
    JACK_SETS = 8,
    JACK_STEPS = 24,
    JACK_POINTS = 4 * JACK_STEPS + 1, /* a step is run in four parts */
    JACK_RETURNS = 8,                 /* ways back, one from the end of each stage */
    JACK_HOLDS = 8,
    JACK_WATCHED = 64,
    JACK_LINES = 2
};

/* Where a movement's band comes from. Those before JACK_BAND_FRICTION are independent of each other and
 * count as the root of the sum of their squares; friction and sharing are ranges that nobody knows
 * before the day and are added as they are (common practice, no source). */
typedef enum JackBandPart {
    JACK_BAND_DECK,     /* modulus of the panels */
    JACK_BAND_GIRDER,   /* stiffness of the girders */
    JACK_BAND_WARMTH,   /* deck against girders, since the zero reading */
    JACK_BAND_GAUGE,    /* gauge and calibration */
    JACK_BAND_SEATING,  /* closing of the joints */
    JACK_BAND_FRICTION, /* at the shims, least to most */
    JACK_BAND_SHARING,  /* lines by tributary width against a gap that stays straight */
    JACK_BAND_PARTS
} JackBandPart;
const char *jack_band_name(JackBandPart part);

/* Opening of the gap since the zero reading, jack's height, mean of the width. */
typedef struct JackBand {
    double expected_m, low_m, high_m;
    double below_m[JACK_BAND_PARTS], above_m[JACK_BAND_PARTS]; /* sizes, not negative */
} JackBand;

/* The jacks: the file's, or a proposal of the program. */
typedef struct JackGear {
    const char *size;        /* "150 ton", or "own" */
    const char *certificate; /* NULL: none is given */
    const char *certificate_date;
    bool proposed; /* number or size is not the file's */
    int count, sets;
    double across_m[JACKS_MAX]; /* from the middle of the deck, from left to right */
    int set[JACKS_MAX];         /* counted from 1 */
    double rated_N, area_m2, stroke_m, closed_m, packing_m, highest_Pa;
    double zero_N, slope_m2; /* force of one jack pushing = zero_N + slope_m2 * pressure */
    double off_1, division_Pa, range_Pa, accuracy_1, use_1;
} JackGear;
/* Where so many jacks stand: as the file says, else evenly, half a space from the edges; sets count from
 * 1. `count` at most JACKS_MAX. */
void jack_places(const Bridge *bridge, int count, double across_m[], int set[]);
double jack_force_N(const JackGear *gear, double pressure_Pa); /* one jack */
double jack_pressure_Pa(const JackGear *gear, double force_N); /* force of one jack; at least 0 */
double jack_force_error_N(const JackGear *gear,
                          double force_N); /* all jacks, at that force of all */

/* A force of the loading line; straight between neighbours. */
typedef struct JackPoint {
    double force_N; /* all jacks */
    JackBand opening;
    double left_m, right_m; /* faces of the gap, each away from it; they sum to the opening without
                             * the seating of joints */
} JackPoint;

typedef struct JackStep {
    int stage; /* counted from 1 */
    bool stage_end, last;
    double share_1, force_N, jack_N, pressure_Pa;
    double pump_day, reached_day, hold_day; /* pumping to it; from the zero reading on; its hold */
    JackBand opening;                       /* when the force is reached */
    double left_m, right_m;
    double slope_m_per_N; /* of the expected line from the point before */
    double division_N, division_m;
    /* Fall in its hold by creep alone, jacks shut in or locked: by the file's time models, and by a law
     * whose creep starts quicker (EN 1992-1-1 Annex B); a site finds itself between them. */
    double drop_N, drop_quick_N;
    double anchor_N[2],
        anchor_slip_m[2]; /* left, right: force that arrives, slip of the inner edge by
                                           * the give of its connectors */
    double energy_Nm;     /* stored in deck and girders */
    double gauge_error_N;
} JackStep;

/* A line of girders of the unit. */
typedef struct JackLine {
    const char *name;
    int girders;
    double share_1, thrust_N;     /* of one of them */
    double opening_m[JACK_STEPS]; /* alone under its share, without seating */
} JackLine;

/* A place that is watched: rise of a girder in mid-span (mean of the girders), or a bearing's movement
 * to the right. */
typedef struct JackWatch {
    bool bearing;
    int number; /* of span or support line, from 1 */
    double x_m; /* along the unit */
    double move_m[JACK_STEPS];
} JackWatch;

/* Down from the end of a stage. */
typedef struct JackReturn {
    int from_step, count;
    double share_1[JACK_STEPS + 1], force_N[JACK_STEPS + 1], pressure_Pa[JACK_STEPS + 1];
    double opening_m[JACK_STEPS + 1]; /* seating stays */
    double loop_N[JACK_STEPS + 1];    /* half of what the force is below the first loading's at that
                                       * opening: friction; not a number where that line is not there */
    double again_1, again_m; /* down to that share, up again to the stage's force: opening */
} JackReturn;

/* The locked force with time, and by the quicker law. */
typedef struct JackHold {
    double after_day, force_N, quick_N;
} JackHold;

typedef struct JackWarmth {
    double window_K, rate_K, swing_K; /* rate: an hour */
    double locked_warm_N,
        locked_cold_N; /* locked force once the deck has warmed, cooled by the swing */
    double later_warm_N, later_cold_N; /* what is left of the thrust locked in with the deck warmer,
                                          * colder by the window, once that is gone */
    double move_warm_m, move_cold_m; /* opening at the whole thrust with the deck warmer, colder by
                                          * the window than at the zero reading, less the expected */
} JackWarmth;

/* A jack, or a jack and its partner, shut off and the thrust kept. */
typedef struct JackOut {
    int jack, partner;          /* index; -1: alone */
    double jack_N, pressure_Pa; /* of the others */
    double off_m;               /* their resultant from the middle of the deck, to the right */
    double edge_least_Pa, edge_most_Pa; /* compression across the width, positive */
    double tilt_m; /* the gap's opening at the right edge over that at the left */
    bool may;
    unsigned why; /* bits JackOutWhy: what stands against it */
} JackOut;
typedef enum JackOutWhy {
    JACK_OUT_FORCE = 1,    /* force of the others against rated force */
    JACK_OUT_PRESSURE = 2, /* against highest pressure */
    JACK_OUT_EDGE = 4,     /* an edge loses its compression */
    JACK_OUT_TILT = 8      /* one side goes ahead by more than the alarm */
} JackOutWhy;

/* When to hold and when to go back a stage: the file's. */
typedef struct JackAlarms {
    double movement_1, sides_m, force_1, drop_1, slip_m, abort_slip_m, camber_m, bearing_1,
        exclusion_m;
} JackAlarms;

typedef struct JackPlan {
    const char *unit;                      /* "spans 1 to 4" */
    double thrust_N, width_m, thickness_m; /* whole deck; the deck that carries */
    double highest_1; /* largest share of a step: more than 1 goes beyond and back */
    double gap_m;
    JackGear gear;
    int line_count, step_count, point_count, return_count, hold_count, watch_count, out_count;
    JackLine line[JACK_LINES];
    JackStep step[JACK_STEPS];
    JackPoint point[JACK_POINTS]; /* by force, from none on */
    JackReturn back[JACK_RETURNS];
    JackHold hold[JACK_HOLDS];
    JackWatch watch[JACK_WATCHED];
    JackOut *out; /* [out_count]: each alone, then pairs */
    JackWarmth warmth;
    JackAlarms alarm;
    int joint_count;                                  /* that close: all but the faces of the gap */
    double seating_least_m, seating_most_m, seated_N; /* of all joints; closed from this force on */
    double friction_least_1, friction_most_1;
    double off_m, tilt_m;                        /* of all jacks, as JackOut */
    double above_mid_m, height_off_m, height_Pa; /* line of the jacks; how far off; stress by it */
    double energy_Nm;                            /* at the whole thrust */
    double work_day;                             /* pumping and holds */
    double stroke_need_m, gap_need_m;
    const CheckList *rows; /* margins and workings, as checks have them */
} JackPlan;

typedef struct JackWish {
    const Bridge *bridge;
    const ThrustAnswer *answer;
    int unit; /* of jacking_units */
} JackWish;
/* Structural units of an answer, each with a gap of its own. */
int jacking_units(const ThrustAnswer *answer);
/* The plan lives in `result`; scratch is used and reset. Errors: those of the stages; BAD_INPUT where no
 * generic jack does and the file gives none. */
MUST_USE Status jacking_plan(const JackWish *wish, Arena *result, Arena *scratch,
                             const JackPlan **plan, Error *err);

/* What to expect at a force of all jacks on the way up: straight between the points of the plan, beyond
 * the last one along the last piece. `error_N`: of the force itself, one way. */
typedef struct JackExpect {
    JackBand opening;
    double left_m, right_m, slope_m_per_N, error_N;
} JackExpect;
JackExpect jacking_expect(const JackPlan *plan, double force_N);

#endif
