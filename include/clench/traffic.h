/* traffic: moving loads on influence lines, distribution to girder lines, temperature profiles.
 * Knows influence lines and numbers; no stage, no concrete. */
#ifndef CLENCH_TRAFFIC_H
#define CLENCH_TRAFFIC_H

#include "clench/base.h"

/* Effect of a unit downward load at each station, straight between stations, zero outside. */
typedef struct InfluenceLine {
    int count;
    const double *x_m;   /* increasing */
    const double *value; /* unit: of the effect, per newton */
} InfluenceLine;

/* A live load as data. Axles of one vehicle in driving order; the gap behind axle i is anything
 * between gap_min[i] and gap_max[i], alike where it is fixed. Axles that do not add to the effect
 * are dropped. Cost is linear in the stations with fixed gaps and with one variable gap, the last;
 * other patterns are exact too, but each further variable gap multiplies the cost. */
enum { AXLES_MAX = 12, VEHICLES_MAX = 4, VARIABLE_GAPS_MAX = 3, TRAIN_AXLES_MAX = 4 };
typedef struct Vehicle {
    const char *name;
    int axle_count;
    double axle_N[AXLES_MAX];
    double gap_min_m[AXLES_MAX], gap_max_m[AXLES_MAX]; /* behind axle i; last one unused */
} Vehicle;
typedef struct LiveLoad {
    const char *name, *source;
    int vehicle_count;
    int train_vehicle;             /* vehicle of the two-truck rule, -1: no such rule */
    Vehicle vehicle[VEHICLES_MAX]; /* the worst one counts, alone, with the lane load */
    double lane_N_per_m;           /* on the adverse lengths */
    double impact_ratio;           /* on vehicles, not on the lane: 0.33 */
    double train_gap_m;            /* rear axle to next lead axle at least: 50 ft */
    double train_axle_gap_m;       /* all variable axle gaps in the train: 14 ft */
    double train_factor_1;         /* 0.9, on vehicles and lane */
} LiveLoad;
/* Refuses a table of axles that traffic_extreme cannot take: counts, loads and gaps below zero,
 * more than VARIABLE_GAPS_MAX variable gaps in a vehicle, TRAIN_AXLES_MAX axles in the train's. */
MUST_USE Status traffic_check(const LiveLoad *live, Error *err);
LiveLoad traffic_hl93(void);
LiveLoad traffic_hl93_fatigue(void); /* 30 ft rear gap, 15 %, no lane, no train */

typedef struct LiveExtreme {
    double value;      /* vehicle + lane: one lane, impact included; unit: of the effect */
    double vehicle;    /* its vehicle part, impact (and train factor) in; unit: of the effect */
    double lane;       /* its lane part, train factor in; unit: of the effect */
    int vehicle_index; /* -1 where no axle adds to the effect */
    bool train;        /* the two-truck rule governs */
    double lead_x_m;   /* a position of the governing vehicle's (lead truck's) first axle */
    bool forward;      /* driving direction +x */
} LiveExtreme;
/* Largest (sign +1) or smallest (sign -1) effect; 0 where nothing adds. The train rule is tried
 * where `train` is set: stations between contraflexure points, the sign that negative moment gives;
 * supports reactions. Exact for a line straight between stations, its jumps to zero at both ends
 * included, with every gap anywhere in its range. The line has at least 2 stations; the live load
 * passes traffic_check. `work` holds at least 8 * (count + 2) doubles; no other memory is used. */
LiveExtreme traffic_extreme(const LiveLoad *live, const InfluenceLine *line, int sign, bool train,
                            double *work);

/* Where the axles of such an extreme stand, those that add to it alone: their loads times the line's
 * values there sum up to its vehicle part without impact and train factor. Same arguments as of the
 * call that gave `at`. Returns their number. */
typedef struct AxlePlace {
    double x_m, load_N;
} AxlePlace;
int traffic_places(const LiveLoad *live, const InfluenceLine *line, int sign, const LiveExtreme *at,
                   AxlePlace place[2 * AXLES_MAX], double *work);
/* Value of the line at a place, zero outside. unit: of the effect, per newton */
double traffic_at(const InfluenceLine *line, double x_m);
/* Integral of another line of the same stations over the lengths where sign * line is above zero, those
 * that carry the lane load; their sum in *length_m. unit: of the other effect times m, per newton */
double traffic_loaded_area(const InfluenceLine *line, int sign, const double *other,
                           double *length_m);

/* Zones of negative moment of one moment diagram: pairs from, to; returns their number (at most
 * room). Straight between stations; below 1e-9 of the largest moment counts as zero. */
int traffic_negative_zones(const double *x_m, const double *moment_Nm, int count,
                           double (*zone_m)[2], int room);

/* ---- distribution to a girder line, AASHTO LRFD 4.6.2.2: lanes a line, multiple presence in - */

typedef enum CrossSectionKind {
    CROSS_STEEL_I,    /* type (a) */
    CROSS_CONCRETE_I, /* type (k): I and bulb-tee */
    CROSS_STEEL_BOX,  /* types (b), (c): multiple steel tubs or boxes; girder_count boxes */
} CrossSectionKind;
typedef struct Distribution {
    CrossSectionKind kind;
    int girder_count;
    double span_m;           /* the L of table 4.6.2.2.1-2 for the effect */
    double spacing_m;        /* girder spacing S */
    double deck_thickness_m; /* structural ts */
    double stiffness_Kg_m4;  /* n (I + A eg^2) */
    double overhang_m;       /* deck edge beyond the exterior girder */
    double barrier_width_m;  /* from deck edge to the face of the barrier */
    double roadway_m;        /* clear width between barriers: lanes of 12 ft */
    double skew_rad;
    bool without_diaphragms; /* no diaphragms or cross-frames: no rigid cross-section rule */
} Distribution;
/* The first four govern: the larger of one lane and many, with skew. The parts below are without
 * skew and with multiple presence (1.2 for one lane: divide it out for fatigue); a part that does
 * not apply is 0. */
typedef struct DistributionFactors {
    double interior_moment_1, exterior_moment_1; /* lanes a line */
    double interior_shear_1, exterior_shear_1;
    double interior_moment_one_1, interior_moment_many_1; /* one lane, two or more */
    double interior_shear_one_1, interior_shear_many_1;
    double exterior_lever_1, exterior_rigid_1;           /* one lane; worst lanes. Both effects */
    double exterior_formula_1, exterior_shear_formula_1; /* two lanes or more */
    double skew_moment_1, skew_shear_1; /* factors; the shear one is for the obtuse corner */
    int lane_count;                     /* design lanes on the roadway */
    bool in_range;                      /* all of 4.6.2.2's ranges of applicability hold */
    char remark[256];                   /* which does not, in words; empty where in_range */
} DistributionFactors;
MUST_USE Status traffic_distribution(const Distribution *in, DistributionFactors *out, Error *err);

/* Design lanes of a clear roadway, AASHTO LRFD 3.6.1.1.1, and the factor for so many loaded ones (at
 * least 1), table 3.6.1.1.2-1; both from memory. */
int traffic_lane_count(double roadway_m);
double traffic_presence_1(int lanes);

/* ---- temperature through the depth, AASHTO LRFD 3.12.3 ---- */

enum { GRADIENT_POINTS = 8 };
typedef struct Gradient {
    int count;
    double depth_m[GRADIENT_POINTS]; /* below the deck top, never decreasing */
    double rise_K[GRADIENT_POINTS];  /* straight between; zero below the last point */
    const char *source;
} Gradient;
/* zone 1 to 4; negative: -0.30 times (plain concrete) or -0.20 (asphalt overlay). depth_m: of the
 * whole concrete superstructure, or of girder and deck for steel girders: A = 12 in from 16 in on,
 * else depth - 4 in (a panel alone). */
Gradient traffic_gradient(int zone, bool negative, bool asphalt, double depth_m);

#endif
