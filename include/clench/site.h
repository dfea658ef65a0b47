/* site: the readings of the jacking day judged against its plan, each at once; what the readings say of
 * the deck that was built; its life with that. Pure: the page judges by the same code off line.
 *
 * Readings go in as they were written, with those struck marked so; nothing is kept between calls. A finding
 * stands where two of the last three readings show it, or a robust fit over many; shown once it asks
 * to read again, so that one wild reading holds up nobody. docs/theory/site.md. */
#ifndef CLENCH_SITE_H
#define CLENCH_SITE_H

#include "clench/jacking.h"

enum { SITE_POINTS = 8, SITE_FINDINGS = 22, SITE_CAUSES = 15 };

/* ---- what is read ---- */

typedef enum SitePointKind {
    SITE_GAP,    /* opening of the gap at the jacks' height, opening positive */
    SITE_SLIP,   /* anchor panel against its girder, away from the gap positive */
    SITE_RISE,   /* girder, up positive, at a watched place of the plan */
    SITE_BEARING /* to the right positive, at a watched place of the plan */
} SitePointKind;

/* A dial or rule, the same for all readings. */
typedef struct SitePoint {
    SitePointKind kind;
    double across_m; /* GAP: from the middle of the deck, to the right */
    int side;        /* SLIP: 0 left end of the run, 1 right */
    int watch;       /* RISE, BEARING: index of the plan's watch */
    double division_m;
} SitePoint;

typedef struct SiteDay {
    const JackPlan *plan;
    UnitSystem units; /* of the words */
    int point_count;
    SitePoint point[SITE_POINTS];
} SiteDay;

typedef enum SitePhase {
    SITE_PUMP, /* on the way up, or the step's force reached, pump or jacks still open */
    SITE_HELD, /* valves shut */
    SITE_BACK, /* on the way down, or on the way up again below what was reached before */
    SITE_NUTS, /* the jacks stand on their nuts: the pressure, if any, says nothing, the gap does */
    SITE_RESET /* dials moved or set anew, pump still: from here on they count from where they stood */
} SitePhase;

enum { SITE_PHASES = 5 };
const char *site_phase_name(SitePhase phase); /* "pump", "held", "back", "nuts", "reset" */

/* Not read: NAN. */
typedef struct SiteReading {
    double time_day; /* any origin */
    int step;        /* of the plan, from 1; 0: the zero reading, nothing pumped */
    SitePhase phase;
    double pressure_Pa[JACK_SETS]; /* plan->gear.sets of them */
    double move_m[SITE_POINTS];    /* as the dial shows it: the zero reading is taken off here */
    double deck_K, girder_K;       /* mean of each, absolute */
    double cell_N;                 /* load cells, scaled to all jacks */
    bool struck;                   /* struck by a later record: not looked at */
    const char *who, *remark;      /* kept for the record, not judged; may be NULL */
} SiteReading;

/* ---- the verdict ---- */

typedef enum SiteCall {
    SITE_GO,
    SITE_AGAIN, /* pump still, valves shut, read again at once; both readings are kept */
    SITE_HOLD,  /* pump still, valves shut, ask the engineer */
    SITE_STOP   /* back to the end of the stage before */
} SiteCall;
const char *site_call_name(SiteCall call); /* "go on", "read again", "hold", "stop" */
const char *site_call_act(SiteCall call);  /* what is to be done, without a full stop */

typedef enum SiteKind {
    SITE_IMPOSSIBLE, /* cannot be: typed wrongly, other units */
    SITE_MISSING,    /* not enough was read to judge */
    SITE_PRESSURE,   /* beyond what the jacks bear */
    SITE_FORCE,      /* beyond the step's */
    SITE_LITTLE,     /* movement below the band */
    SITE_MUCH,       /* above it */
    SITE_FLAT,       /* slope off the plan's, flatter: less movement for a force */
    SITE_STEEP,
    SITE_BENT_FLAT, /* slope of the last readings off that of those before */
    SITE_BENT_STEEP,
    SITE_SIDES, /* one side ahead */
    SITE_SETS,  /* pressures of the sets apart */
    SITE_CELL,  /* gauge and load cell apart */
    SITE_FALL,  /* in a hold, by more than temperature and creep explain */
    SITE_LATER, /* in a hold the force rises, or the gap opens */
    SITE_STROKE,
    SITE_SLIPPED, /* anchor panel */
    SITE_WARM,    /* deck against girders beyond the window */
    SITE_OFFPLAN, /* a girder's rise or a bearing off the plan */
    SITE_DIAL,    /* one dial alone is off: left out */
    SITE_WARMING, /* deck against girders changes too fast */
    SITE_KINDS
} SiteKind;
const char *site_kind_name(SiteKind kind);

typedef struct SiteFinding {
    SiteKind kind;
    SiteCall call;
    double value, low, high; /* read, and what it may be (NAN: no bound); unit: SI of `dimension` */
    double off;              /* one standard deviation of the value by reading; unit: same */
    DimensionId dimension;
    double sure_1; /* that the value lies beyond the bound, for errors of reading */
    int point;     /* SIDES, SLIPPED, OFFPLAN, DIAL; else -1 */
    const char *words;
} SiteFinding;

typedef enum SiteCause {
    SITE_SHIM_FRICTION,
    SITE_LOCKED_BEARING,
    SITE_ANCHOR_SLIP,
    SITE_JOINT_CRUSH,
    SITE_SPLICE_SLIP,
    SITE_SOFT_GIRDER, /* or stiff, where too little moves */
    SITE_SOFT_DECK,
    SITE_ECCENTRIC,
    SITE_GAUGE_LOW,
    SITE_GAUGE_HIGH,
    SITE_WARM_DECK,
    SITE_LEAK,
    SITE_OPEN_JOINT, /* did not close: seating beyond the plan's */
    SITE_MISREAD,
    SITE_NUTS_GIVE,
    SITE_CAUSE_COUNT
} SiteCause;
const char *site_cause_name(SiteCause cause);

/* Causes that the readings do not contradict, best first. */
typedef struct SiteGuess {
    SiteCause cause;
    int for_count, open_count; /* signs seen; signs that would tell and were not read */
    const char *measure;       /* what to read next to tell; NULL: nothing is open */
} SiteGuess;

typedef struct SiteVerdict {
    SiteCall call;
    double sure_1;      /* that the call is right as far as errors of reading go */
    const char *reason; /* all in words, numbers in */
    int finding_count, guess_count;
    SiteFinding finding[SITE_FINDINGS]; /* gravest first */
    SiteGuess guess[SITE_CAUSES];       /* of more than one: cannot tell between them */
    /* What was made of the reading; NAN where not read. */
    double force_N, force_off_N;                 /* all jacks, and its error one way */
    double opening_m, low_m, expected_m, high_m; /* temperature taken out of the opening */
    double tilt_m;                               /* right edge over left */
    double warm_K;                               /* deck over girders, since the zero reading */
    double slope_1, slope_low_1, slope_high_1;   /* of movement over the plan's; 95 % */
    double fall_N, fall_most_N; /* in this hold, temperature taken out; explained */
} SiteVerdict;

/* The last of `count` readings, given those before it, in the order of writing. Cost is bounded: of more
 * than SITE_LOOK readings the earlier are sampled. Texts live in `arena`. */
enum { SITE_LOOK = 320 };
void site_judge(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
                SiteVerdict *verdict);
void site_verdict_json(const SiteVerdict *verdict, Json *json); /* inside a map */

/* ---- what pictures show ---- */

/* A reading worked up; NAN where not read. */
typedef struct SiteSeen {
    int index;                 /* of the readings */
    double force_N, opening_m; /* all jacks; mean of the width, temperature taken out */
} SiteSeen;
/* Those of `reading` that are looked at, struck ones too, in order. */
int site_see(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
             const SiteSeen **seen);

/* What each dial shows, or would, with nothing pumped, after all that was set anew; NAN: not known. */
void site_dials(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
                double zero_m[SITE_POINTS]);

/* A hold in force over time. */
typedef struct SiteHoldPoint {
    int index; /* of the readings */
    double after_day, force_N;
    double
        still_N; /* temperature since the hold's first reading taken out; NAN: could not be taken in */
} SiteHoldPoint;
enum { SITE_HOLD_CURVE = 25 };
typedef struct SiteHold {
    int step, count; /* of `point`, at least 1 */
    SiteHoldPoint *point;
    double from_N; /* what the fall is counted from: the first that could be taken in; NAN: none */
    double curve_day[SITE_HOLD_CURVE], curve_N[SITE_HOLD_CURVE]; /* fall that creep explains */
    double
        beyond_N; /* beyond that, at the last reading, a fall is a finding; NAN: too few readings */
} SiteHold;
/* The hold of the last reading that is not struck, else the last hold; false: there was none. */
bool site_hold(const SiteDay *day, const SiteReading *reading, int count, Arena *arena,
               SiteHold *hold);

/* ---- as built ---- */

typedef struct SiteValue {
    bool told;                     /* the readings tell it */
    double value, low, high, plan; /* 95 %, and the plan's; unit: as the name says */
    const char *why;               /* not told: what to measure */
} SiteValue;

/* Where the interval of the locked force comes from. Those before SITE_PART_BORE are independent and count as
 * the root of the sum of their squares; the others are ranges and are added as they are, as in the plan's
 * bands (common practice, no source). */
typedef enum SiteForcePart {
    SITE_PART_GAUGE,       /* the gauge, and reading it */
    SITE_PART_CALIBRATION, /* of jacks and gauge, or of the load cells */
    SITE_PART_WARMTH,      /* thermometers; not read: the whole window */
    SITE_PART_BORE,        /* of the jacks, where the force was reached from above */
    SITE_PART_HOLD,        /* creep until it is locked; onto the nuts */
    SITE_PARTS
} SiteForcePart;
const char *site_force_part_name(SiteForcePart part);

typedef struct SiteFit {
    int used, left_out; /* readings of the first loading; of those beyond three spreads */
    SiteValue slope_1;  /* movement over the plan's for a force: deck, girders and gauge together */
    SiteValue seating_m;  /* of all joints */
    SiteValue loop_N;     /* half the force between way up and way down at equal opening */
    SiteValue friction_1; /* at the shims, from the loop */
    SiteValue gauge_1;    /* true force over the gauge's: load cells */
    SiteValue girder_1;   /* stiffness over the plan's: rises of the girders */
    SiteValue deck_1;     /* modulus over the plan's, once girders are told */
    SiteValue
        force_N; /* locked: of the hold at the whole thrust, less what going onto the nuts took */
    SiteValue even_N;                                /* that once deck and girders are alike warm */
    double below_N[SITE_PARTS], above_N[SITE_PARTS]; /* parts of even_N's interval, sizes */
    double apart_K;    /* deck less girders when it was locked; NAN: not read */
    double locked_day; /* time of that reading */
    /* What it would be if all of the slope were the panels', the girders', the gauge's. */
    double deck_alone_1, girder_alone_1, gauge_alone_1;
} SiteFit;
/* By which the plan's bands were made: jacking.deck_modulus_off and jacking.girder_stiffness_off. */
typedef struct SiteOff {
    double deck_1, girder_1;
} SiteOff;
/* BAD_INPUT: fewer than 6 readings of the first loading. */
MUST_USE Status site_fit(const SiteDay *day, const SiteReading *reading, int count, SiteOff off,
                         Arena *arena, SiteFit *fit, Error *err);
void site_fit_json(const SiteFit *fit, Json *json); /* inside a map */

/* The life with what was found. Compression at the joint that governs a line's design, positive, permanent
 * loads alone: mean of the deck, and its less compressed fibre. */
typedef struct SiteStress {
    double mean_Pa, fibre_Pa;
} SiteStress;
typedef struct SiteLife {
    double thrust_N, modulus_1, friction_1; /* that went in; friction NAN: the file's */
    SiteStress jacked, opening, end;        /* locked, open to traffic, end of life */
} SiteLife;
typedef struct SiteBuiltLine {
    int line, joint, side; /* of the answer */
    SiteLife design;
    SiteLife least, most; /* at the end of life, over what the readings leave open: force, modulus,
                             friction */
} SiteBuiltLine;
typedef struct SiteBuilt {
    int count, runs;
    SiteBuiltLine line[JACK_LINES];
    bool design_met, always,
        ever;                     /* every joint closed and every limit kept: in all runs, in one */
    double need_N[2], limit_N[2]; /* whole deck, least and most of the runs: needed, first limit */
    double jacking_day, planned_day; /* of the file's calendar */
} SiteBuilt;
/* root: of the bridge file, not changed. unit: as JackWish. jacking_day: of the file's calendar, what comes
 * after it is moved with it; NAN: as planned. */
typedef struct SiteLifeWish {
    const Node *root;
    const ThrustAnswer *design;
    int unit;
    const SiteFit *fit;
    double jacking_day;
} SiteLifeWish;
/* Both arenas are used and reset. Errors: those of the bridge file with these values, and of the stages. */
MUST_USE Status site_life(const SiteLifeWish *wish, Arena *arena, Arena *scratch, SiteBuilt *built,
                          Error *err);
void site_built_json(const SiteBuilt *built, const ThrustAnswer *design, Json *json); /* in a map */

#endif
