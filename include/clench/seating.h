/* seating: from the surveyed tops of the girders to the shim at every girder and joint, so that the
 * finished deck meets the profile after all that moves it later. The movement is the stages' own.
 * Elevations and heights go upwards; x along the bridge from its left end, z across from mid-width to the
 * right. Bytes and numbers in, numbers out; no I/O. docs/theory/seating.md. */
#ifndef CLENCH_SEATING_H
#define CLENCH_SEATING_H

#include "clench/thrust.h"

/* ---- the profile ---- */

typedef struct GradePoint {
    double station_m, elevation_m;
    double curve_m; /* length of the parabola, half on each side */
} GradePoint;

typedef struct Grade {
    int point_count; /* at least 2, stations rising, curves that do not overlap */
    const GradePoint *point;
    double left_end_m;                  /* station of x = 0 */
    double line_m, crown_m;             /* across: where elevations hold; where slopes meet */
    double left_slope_1, right_slope_1; /* rise going away from the crown */
    double above_m;                     /* panels' top as cast above the profile */
    double raise_m, tilt_1, middle_m;   /* raised, and turned about x = middle */
} Grade;
/* Of the profile alone, at a station; beyond the first and last point its tangents go on. */
double grade_elevation_m(const Grade *grade, double station_m);
double grade_slope_1(const Grade *grade, double station_m);
double grade_bend_per_m(const Grade *grade,
                        double station_m);             /* second derivative; a crest: negative */
double grade_across_m(const Grade *grade, double z_m); /* rise of the deck over the line's */
double grade_top_m(const Grade *grade, double x_m, double z_m); /* panels' top as cast */
MUST_USE Status grade_of(const Bridge *bridge, Arena *arena, Grade *grade, Error *err);

/* ---- the survey ---- */

enum { SURVEY_ROWS_MAX = 20000, SURVEY_BYTES_MAX = 4 << 20 };

typedef struct SurveyRow {
    int line;       /* of the file */
    int girder;     /* from 0, left to right */
    int span;       /* from 1; 0: not said */
    bool along;     /* at_m is along the girder from the span's left bearing; else a station */
    bool confirmed; /* its note says so: no outlier */
    double at_m, elevation_m;
    double offset_m; /* across from the middle of the girder, to the right; NAN: not said */
} SurveyRow;
typedef struct Survey {
    int count;
    const SurveyRow *row; /* as in the file */
    bool imperial;        /* the file is in feet or inches */
} Survey;
/* CSV (RFC 4180; comma, semicolon or tab; lines that begin with # are remarks). Heads: station [ft], or
 * span and distance [ft], girder, elevation [ft], offset [in], note. All or nothing: each error is in
 * `diagnostics` with its line and column. Trusts nothing. */
MUST_USE Status survey_read(const char *bytes, size_t size, int girder_count, Arena *arena,
                            Survey *survey, Diagnostics *diagnostics);

/* Value at x between readings as a sum of weights times readings; x_m rises. Cubic: through the four
 * nearest (fewer where there are fewer), linear: through two; beyond the ends straight on. */
enum { BETWEEN_MAX = 4 };
typedef struct Between {
    int count, index[BETWEEN_MAX];
    double weight_1[BETWEEN_MAX];
} Between;
Between survey_between(const double *x_m, int count, double x, bool cubic); /* x unit: m */
double survey_value(const Between *between, const double *value); /* unit: of the values */
/* How far the value may be off for the curve's shape alone: to the next cubic beside it; of a straight line
 * to the cubic. With few readings to the next lower degree. unit: of the values */
double survey_doubt(const double *x_m, const double *value, int count, double x, bool cubic);

/* ---- the plan ---- */

/* Girders that nothing connects: one over continuous spans, one a simple span, between tied piers. */
typedef struct SeatGirder {
    int girder, unit, first, count; /* readings */
    double z_m, from_m, to_m;       /* ends, along x */
} SeatGirder;

typedef struct SeatReading {
    double x_m, top_m; /* at the middle of the girder */
    double roll_1;     /* rise of the top to the right; 0: not measured */
    int line;          /* of the file, the first of those that were put together */
} SeatReading;

/* A row of shims across the deck. */
typedef struct SeatLine {
    const char *mark; /* "R1-J04"; "R1-left", "R1-right"; between joints "R1-J04+1" */
    int unit;
    int left_panel, right_panel; /* panels of the unit, the gap left out, from 0; -1: none */
    double x_m, skew_1;          /* at mid-width; x of girder z is x_m + z skew_1 */
    bool joint;                  /* an edge of a panel rests on it; else between edges */
    bool anchor;                 /* of an anchor panel alone */
    double wedge_m; /* largest wedge over the deck's thickness between the panels; wider at the top:
                     * positive; of gap faces and ends 0 */
} SeatLine;

typedef struct Seat {
    double x_m;
    double top_m;               /* of the girder, as surveyed */
    double grade_m;             /* of the panels' top as cast, wanted on the day */
    double later_m;             /* of the deck, from the survey to the day; up: positive */
    double height_m;            /* grade - panel - later - top */
    double shim_m[2];           /* rounded; of a tub: under the left and the right flange */
    double thin_m, thick_m;     /* haunch at the edges of the flange */
    double set_m;               /* level of the shim's top when its first panel comes on */
    double survey_m, off_m;     /* standard deviation of height: by the survey; with movement */
    double inside_1;            /* chance that thin and thick stay within the limits */
    double load_N, pressure_Pa; /* of one shim */
} Seat;

/* A place where the haunch is looked at: seats and between them. */
typedef struct SeatPlace {
    int girder, unit, line; /* line: of `line`s where it is a seat, else -1 */
    double x_m, height_m, thin_m, thick_m;
} SeatPlace;

typedef struct SeatPanel {
    const char *mark; /* "R1-03", both halves as one */
    int unit;
    double
        facet_m; /* largest deviation of its flat top from the profile's shape; above: positive */
    double plane_m; /* how far its seats are from one plane (two with a crown), at most */
} SeatPanel;

/* What moves the deck after the survey, in the middle of a span. */
typedef struct SeatMove {
    int unit, span; /* span of the bridge, from 1 */
    bool exterior;
    double x_m;                                  /* of the bridge */
    double panels_m, thrust_m, other_m, later_m; /* weight of panels; jacks; shims, lock, closure,
                                                     * grout; barrier and overlay */
    double time_m, total_m;                      /* creep and shrinkage; all */
    double end_m;                                /* from the day to the end of life */
    double bow_m; /* of the span alone, by 1 K more at the top than at the bottom */
} SeatMove;

/* A raise of the profile, and a tilt: least squares of the haunch about `aim`, within the limits where
 * there is room. */
typedef struct SeatAdjust {
    bool wanted, tilted; /* the haunches pass their limits; the file lets it tilt */
    bool fits;           /* all are within them then */
    double raise_m, tilt_1;
    double deviations_1;           /* kept off the limits: 2, 1 or 0 */
    double aim_m, thin_m, thick_m; /* least and most haunch then */
    double inside_1;               /* chance that all stay within */
} SeatAdjust;

typedef struct SeatGrout {
    double anchor_m3, run_m3, pocket_m3; /* haunch under anchor panels; the rest; pockets: neat */
    double all_m3;                       /* with waste */
    double mean_m;                       /* haunch */
} SeatGrout;

typedef struct SeatLimits {
    double least_m, most_m, step_m, strength_Pa, wedge_m, length_m, width_m, uneven_1, waste_1;
} SeatLimits;

typedef struct SeatPlan {
    double thrust_N;        /* whole deck */
    double day, survey_day; /* unit: day */
    const char *day_words;  /* "opening" */
    Grade grade;
    SeatLimits limit;
    int girders, flanges; /* shims a girder and line: one each flange */
    int unit_count;
    const SeatUnit *unit;
    double thickness_m, length_m, skew_1; /* of the panels at their edge; of the bridge */
    int piece_count, reading_count;
    const SeatGirder *piece;
    const SeatReading *reading;
    int line_count;
    const SeatLine *line;
    const Seat *seat; /* [line * girders + girder] */
    int place_count;
    const SeatPlace *place; /* girder by girder, from left to right */
    int panel_count;
    const SeatPanel *panel;
    int move_count;
    const SeatMove *move;
    SeatAdjust adjust;
    SeatGrout grout;
    double doubt_m;         /* largest error of interpolation */
    double inside_1;        /* chance that all haunches stay within the limits */
    double roughness_m;     /* of the readings about their neighbours, one standard deviation */
    int thinnest, thickest; /* places */
    int tightest, pressed;  /* seats: least chance, most pressure */
    int remark_count;
    const char *const *remark;
    const bool *alarm; /* a limit is not kept */
} SeatPlan;

typedef struct SeatWish {
    const Bridge *bridge;
    const Survey *survey;
    const ThrustAnswer *answer; /* histories at thrust_N; NULL: they are run here */
    double thrust_N;            /* whole deck */
    double day;                 /* unit: day; NAN: opening */
} SeatWish;
/* Errors of the survey are in `diagnostics`, all others in err. Lives in `result`. */
MUST_USE Status seating_plan(const SeatWish *wish, Arena *result, Arena *scratch,
                             const SeatPlan **plan, Diagnostics *diagnostics, Error *err);
bool seating_met(const SeatPlan *plan); /* no alarm */

/* ---- the parts that are held against closed forms ---- */

/* Least and most raise and tilt: constraints low_m <= value + raise + tilt * d_m <= high_m of `count`
 * places, least squares of (aim - value - raise - tilt d). Without room: the nearest to it. */
typedef struct AdjustPlace {
    double d_m, thin_m, thick_m, height_m;
} AdjustPlace;
typedef struct AdjustWish {
    double least_m, most_m, aim_m;
    bool tilt;
} AdjustWish;
typedef struct AdjustAnswer {
    double raise_m, tilt_1;
    bool fits;
} AdjustAnswer;
AdjustAnswer seating_adjust(const AdjustPlace *place, int count, const AdjustWish *wish);

/* Of a girder line's deck at u from the unit's left end: from the survey to a day, by the history. */
typedef struct SeatMarch {
    const StageHistory *history;
    int survey_from, survey_to, joined, day_from, day_to, set; /* times; set: before the panels */
    double survey_1, day_1;                                    /* of the way between two times */
    int future; /* time after the future surface, whose own effect is left out; -1: none */
} SeatMarch;
MUST_USE Status seating_march(const StageHistory *history, double survey_day, double day,
                              bool future, SeatMarch *march, Error *err);
double seating_moved_m(const SeatMarch *march, double u_m);
/* The part of it by the jacks. */
double seating_thrust_m(const SeatMarch *march, double u_m);
/* Of the bare girder, from the survey to the first panel. */
double seating_waited_m(const SeatMarch *march, double u_m);

#endif
