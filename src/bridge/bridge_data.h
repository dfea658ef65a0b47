/* The bridge as plain data: one struct, fields as the schema's keys. A quantity that is still to be
 * derived is not-a-number, a count or choice -1, a text NULL; after bridge_read none is left except
 * where the comment says "none". */
#ifndef CLENCH_BRIDGE_DATA_H
#define CLENCH_BRIDGE_DATA_H

#include "clench/bridge.h"

/* Names of choices stand in one line with their enum: the schema table is made of the same words. */
#define PIER_CHOICES "continuous|link slab|tied"
typedef enum PierKind { PIER_CONTINUOUS, PIER_LINK_SLAB, PIER_TIED } PierKind;
#define SUPPORT_CHOICES "free bearing|fixed bearing|integral|dowelled"
typedef enum SupportKind {
    SUPPORT_FREE,
    SUPPORT_FIXED,
    SUPPORT_INTEGRAL,
    SUPPORT_DOWELLED
} SupportKind;
#define GIRDER_CHOICES "plate girder|tub|pretensioned"
#define TIE_CHOICES    "bars|steel"
#define SAID_CHOICES   "not said|no|yes"
typedef enum Said { SAID_NOT, SAID_NO, SAID_YES } Said;
typedef enum GirderKind { GIRDER_PLATE, GIRDER_TUB, GIRDER_PRETENSIONED } GirderKind;
#define PANEL_JOINT_CHOICES "match-cast epoxied|narrow cast"
typedef enum PanelJoint { PANEL_JOINT_MATCH_CAST, PANEL_JOINT_NARROW_CAST } PanelJoint;
#define PANEL_LAYOUT_CHOICES "nominal|least panels|least kinds" /* PanelChoice of panel.h */
#define PANEL_SKEW_CHOICES   "ends|all"
typedef enum PanelSkew { PANEL_SKEW_ENDS, PANEL_SKEW_ALL } PanelSkew;
#define PANEL_CROWN_CHOICES "none|two planes|thickened|longitudinal closure"
typedef enum PanelCrown {
    PANEL_CROWN_NONE,
    PANEL_CROWN_TWO_PLANES,
    PANEL_CROWN_THICKENED,
    PANEL_CROWN_CLOSURE
} PanelCrown;
#define CURVE_CHOICES   "right|left"
#define CLOSING_CHOICES "bolts|chain pullers"
typedef enum ClosingMeans { CLOSING_BOLTS, CLOSING_PULLERS } ClosingMeans;
#define CEMENT_CHOICES "slow|normal|rapid"
#define LIVE_CHOICES   "HL-93|axles"
typedef enum LiveKind { LIVE_HL93, LIVE_AXLES } LiveKind;
#define CRITERIA_CHOICES  "US practice"
#define UNIT_CHOICES      "US|SI"
#define CONNECTOR_CHOICES "studs|bars"
typedef enum ConnectorKind { CONNECTOR_STUDS, CONNECTOR_BARS } ConnectorKind;
#define SURFACE_CHOICES        "roughened|not roughened"
#define PROFILE_ADJUST_CHOICES "raise|raise and tilt"
#define SURVEY_METHOD_CHOICES  "cubic|linear"
/* Generic trade sizes of jacks (from memory): tons of 2 kip, effective area in square inches. */
/* clang-format off */
#define JACK_SIZE_LIST(X)                                                                          \
    X("10 ton", 10, 2.24)    X("25 ton", 25, 5.16)    X("50 ton", 50, 11.05)   X("75 ton", 75, 15.90)   \
    X("100 ton", 100, 20.63) X("150 ton", 150, 30.68) X("200 ton", 200, 41.28) X("250 ton", 250, 56.75) \
    X("400 ton", 400, 86.59) X("500 ton", 500, 113.10)
/* clang-format on */
enum { JACK_STEPS_MAX = 24 };

/* The joint rules by name: average, building (before opening), factors of live load, gradient and
 * wheel, counted by default. */
/* clang-format off */
#define JOINT_RULE_LIST(X)                                                                       \
    X("average after losses",                         true,  false, 0.0, 0.0, 0.0, true,         \
      "AASHTO LRFD 9.7.5.3 (from memory), borrowed from decks with tendons")                     \
    X("no tension before opening",                    false, true,  0.0, 0.0, 0.0, true,         \
      "AASHTO LRFD 5.9.2.3.1b (from memory): joints without bars, while building")               \
    X("permanent",                                    false, false, 0.0, 0.0, 0.0, true,         \
      "AASHTO LRFD 5.9.2.3.2b (from memory): joints without bars, after losses")                 \
    X("Service I with half the gradient",             false, false, 1.0, 0.5, 0.0, true,         \
      "AASHTO LRFD 3.4.1 (from memory): gradient 0.5 beside live load")                          \
    X("Service III with half the gradient",           false, false, 0.8, 0.5, 0.0, false,        \
      "AASHTO LRFD 3.4.1 (from memory): live load 0.8; 1.0 where losses are refined")            \
    X("gradient without live load",                   false, false, 0.0, 1.0, 0.0, true,         \
      "AASHTO LRFD 3.4.1 (from memory): gradient 1.0 without live load")                         \
    X("permanent and wheel",                          false, false, 0.0, 0.0, 1.0, false,        \
      "local bending beside permanent stress; common practice, no source")                       \
    X("Service I with half the gradient and wheel",   false, false, 1.0, 0.5, 1.0, false,        \
      "AASHTO LRFD 3.4.1 (from memory), with local bending under a wheel")                       \
    X("Service III with half the gradient and wheel", false, false, 0.8, 0.5, 0.8, false,        \
      "AASHTO LRFD 3.4.1 (from memory), with local bending under a wheel")
/* clang-format on */
enum { JOINT_RULE_COUNT = 9 };

typedef struct ListData {
    int count;
    void *item; /* of the type that the field's comment names */
} ListData;

typedef struct SpanData {
    double length_m;
    int pier; /* PierKind at its right end; of the last span: not used */
} SpanData;

typedef struct TieData {
    double below_top_m, area_m2;
} TieData;

typedef struct PierData {
    int connection;
    ListData ties; /* TieData */
    int tie_kind;
    double tie_yield_Pa, tie_modulus_Pa;
    double tie_threshold_Pa, tie_reach_m; /* none */
    double end_gap_m, bearing_offset_m, bearing_N_per_m;
    double diaphragm_width_m, diaphragm_depth_m;
} PierData;

typedef struct SupportData {
    int kind;
    double stiffness_N_per_m; /* none: rigid where fixed, nothing where free */
    bool released;
} SupportData;

typedef struct PlateData {
    double to_m; /* end of the piece from the left end of the bridge */
    double top_width_m, top_thickness_m, web_depth_m, web_thickness_m, bottom_width_m,
        bottom_thickness_m;
} PlateData;

typedef struct StrandRowData {
    int count;
    double height_m, debonded_m;
    double harped_at_m; /* none: straight */
    double end_height_m;
} StrandRowData;

/* Bolted splice of a steel girder. */
typedef struct SpliceData {
    double at_m, slip_N; /* from the left end of the bridge */
} SpliceData;

typedef struct GirderData {
    int count, kind, spliced;
    ListData splices;             /* SpliceData */
    double unbraced_m, detail_Pa; /* unbraced: none */
    double strand_strength_Pa;
    double spacing_m, overhang_m;
    ListData plates; /* PlateData */
    double web_slope_1;
    double steel_modulus_Pa, steel_yield_Pa, steel_expansion_per_K, steel_density_N_per_m3,
        details_1;
    const char *shape;                                                         /* none */
    double area_m2, inertia_m4, centroid_m, depth_m, top_width_m, perimeter_m; /* own section */
    double density_N_per_m3;
    ListData strands; /* StrandRowData */
    double strand_area_m2, strand_diameter_m, strand_jacking_Pa, strand_yield_Pa, strand_modulus_Pa;
    bool top_bars;
} GirderData;

typedef struct DeckData {
    double thickness_m, wearing_m, haunch_m, width_m, density_N_per_m3;
    double crest_m;                     /* none */
    double crossfall_1, grade_1;        /* none; size, either way */
    double skew_degrees, plan_radius_m; /* radius: none */
    int curve;                          /* side of the centre */
} DeckData;

typedef struct RunData {
    int from_span, to_span;
    double gap_at_m; /* middle of the gap from the left end of the bridge */
} RunData;

/* A hole or recess of the deck. */
typedef struct BlockoutData {
    double at_m, across_m, along_m, wide_m; /* its middle, from the left end and from mid-width */
    double deep_m;                          /* none: through */
} BlockoutData;

typedef struct PanelData {
    double length_m, anchor_m, gap_m;
    int layout, skew, crown;
    double shortest_m, longest_m, clear_m, strip_m, joint_m;
    ListData blockouts; /* BlockoutData */
    int joint, phases;
    double anchor_connectors_N;                                                /* none */
    double top_bar_m2, top_bar_spacing_m, bottom_bar_m2, bottom_bar_spacing_m; /* none */
    double top_cover_m, bottom_cover_m, bar_yield_Pa;
    double anchor_bars_m2, burst_bars_m2, depth_bars_m2, edge_bars_m2; /* none */
} PanelData;

/* Between girders and deck. */
typedef struct ConnectorData {
    int kind, surface, soffit, per_cluster, per_row, anchor_count; /* counts 0: not chosen */
    double diameter_m, strength_Pa, yield_Pa, pitch_m, gauge_m, spacing_m;
    double height_m, haunch_most_m, anchor_length_m, hold_down_N, width_m; /* none */
    double grout_Pa, anchor_grout_Pa, grout_density_N_per_m3;
} ConnectorData;

/* Panels on their way from the bed to the girders. */
typedef struct HandlingData {
    int points; /* 0: not chosen */
    double inset_along_1, inset_across_1, sling_degrees, strip_strength_Pa, strip_1, erect_1;
    double pocket_m, insert_margin_1, rigging_N, crane_share_1, crane_1;
    double insert_N, truck_N, truck_width_m, crane_N; /* none */
} HandlingData;

/* The yard, and setting. */
typedef struct CastingData {
    double bed_m, clear_m, reset_day, least_age_day;
    int beds, stack, per_day;
} CastingData;

/* What closes a joint. */
typedef struct ClosingData {
    double pressure_Pa, bolt_N, puller_N, film_m, waste_1, temperature_K, open_day, open_at_K;
    double spread_day, place_day, pull_day;
    int means, pullers;
} ClosingData;

/* Movement at the ends of a unit. */
typedef struct EndData {
    double clearance_m, bearing_m; /* none */
    double rise_K, fall_K;
} EndData;

typedef struct ClosureData {
    double fraction_1, release_Pa;
} ClosureData;

typedef struct PlaceData {
    double across_m;
    int set;
} PlaceData;

typedef struct JackData {
    int count;      /* 0: none */
    double rated_N; /* none */
    double margin_1, strut_N_per_m, above_mid_m;
    double plate_width_m, plate_height_m, off_m, one_out_1;
    int size, sets;
    double area_m2; /* none */
    double stroke_m, closed_m, packing_m, pressure_Pa, bore_friction_1, calibration_zero_N;
    double calibration_slope_m2; /* none */
    double calibration_off_1, division_Pa, range_Pa, accuracy_1, use_1;
    const char *certificate, *certificate_date; /* none */
    ListData places;                            /* PlaceData; empty: evenly */
} JackData;

typedef struct StepData {
    double share_1;
    double hold_day; /* none: as the group says */
} StepData;

/* The day of jacking. */
typedef struct JackingData {
    ListData stages; /* double */
    ListData steps;  /* StepData */
    double step_hold_day, stage_hold_day, last_hold_day, long_hold_day, pumping_day;
    double seating_least_m, seating_most_m, deck_off_1, girder_off_1;
    double difference_K, rate_K, swing_K;
    double movement_1, reserve_m, uneven_m;
    double alarm_movement_1, alarm_sides_m, alarm_force_1, alarm_drop_1, alarm_slip_m, abort_slip_m;
    double alarm_camber_m, alarm_bearing_1, exclusion_m;
} JackingData;

typedef struct ShimData {
    double friction_1, friction_least_1, vertical_N_per_m2, horizontal_N_per_m2;
    double spacing_m, imperfection_m;
    double connector_N_per_m2;
} ShimData;

/* The road's profile. */
typedef struct GradePointData {
    double station_m, elevation_m, curve_m;
} GradePointData;

typedef struct GradeData {
    ListData points; /* GradePointData */
    double left_end_m, line_m, crown_m, left_slope_1, right_slope_1;
    double overlay_m, grind_m, raise_m, tilt_1;
    int adjust;
} GradeData;

typedef struct SurveyData {
    double day, deviation_m, benchmark_m, spacing_m, reach_m, outlier_1, far_m; /* day: unit: day */
    double top_warmer_K;                                                        /* none */
    int method;
} SurveyData;

typedef struct SeatData {
    double haunch_least_m, haunch_most_m, step_m, length_m, width_m, strength_Pa, uneven_1;
    double dam_m, waste_1, movement_1, wedge_m;
} SeatData;

typedef struct ConcreteData {
    double strength_Pa, loading_Pa, mean_Pa, modulus_Pa;
    int time_model, cement;
    double density_N_per_m3, K1_1;
    double alpha_day, beta_1, cure_day, early_drying_1;
    double volume_to_surface_m;
    double creep_1, shrinkage_1, expansion_per_K;
} ConcreteData;

typedef struct DayData {
    double girder_tensioned, girder_cast, girders_ready, phase_1_cast, phase_2_cast; /* unit: day */
    double panels_set, joints, anchors, ties_set, jacking, lock, closure_cast;       /* unit: day */
    double closure_active, release, fill_cast, fill_active, haunch, diaphragm_cast;  /* unit: day */
    double diaphragm_active, barrier, overlay, opening, end;                         /* unit: day */
    ListData inspections;                                                            /* double */
} DayData;

typedef struct LoadData {
    double barrier_N_per_m, barrier_width_m, overlay_Pa, future_Pa, construction_Pa;
    double construction_wind_Pa, construction_vehicle_N; /* vehicle: none */
    double barrier_moment_N, barrier_pull_N_per_m;       /* none; moment per length */
} LoadData;

typedef struct AxleData {
    double load_N, gap_m;
} AxleData;

typedef struct LiveData {
    int model;
    double lanes_interior_1, lanes_exterior_1; /* none: by formula */
    ListData axles;                            /* AxleData */
    double lane_N_per_m, impact_1;
} LiveData;

typedef struct ProfileData {
    double depth_m, rise_K;
} ProfileData;

typedef struct ClimateData {
    double humidity_1;
    int gradient_zone;
    bool asphalt;
    double deck_warmer_K;
    ListData profile; /* ProfileData */
} ClimateData;

typedef struct CriteriaData {
    int set;
    ListData joints; /* int: rule by number */
    double average_Pa, tension_Pa;
    double deck_jacking_1, deck_permanent_1, deck_service_1;
    double girder_tension_Pa, girder_compression_1, steel_1;
    double tie_1, thrust_1, anchor_1;
    double construction_dead_1, relief_1, locked_1, locked_relief_1;
    double steel_flexure_1, steel_service_1, steel_service_live_1;
    double girder_transfer_1, girder_permanent_1, girder_service_1, girder_service_live_1,
        girder_gradient_1, girder_service_tension_Pa;
    double prestressed_1, crest_1, sliding_1, lift_m, ungrouted_day;
    double bars_1, bearing_1, flexure_1, anchor_tie_1, closure_1, cluster_m;
    double strength_dead_1, strength_wearing_1, strength_live_1, fatigue_live_1,
        temperature_movement_1, deflection_1;
} CriteriaData;

typedef enum ConcretePart {
    CONCRETE_GIRDER,
    CONCRETE_PANEL,
    CONCRETE_CLOSURE,
    CONCRETE_DIAPHRAGM,
    CONCRETE_PARTS
} ConcretePart;

/* The other ways to connect the panels; all for `compare` alone. */
#define PULLED_CHOICES "both ends|left end|right end"
typedef enum Pulled { PULLED_BOTH, PULLED_LEFT, PULLED_RIGHT } Pulled;

/* Tendons in ducts along the deck. */
typedef struct TendonData {
    int count, strands, pulled, at_once; /* count: of the whole width, 0: as many as are needed */
    double strand_area_m2, strength_Pa, yield_Pa, jacking_Pa, modulus_Pa;
    double wobble_per_m, friction_1, set_m, above_mid_m;
    double stress_day, grout_day; /* after the joints; after stressing */
    double duct_width_m, duct_height_m;
} TendonData;

/* Joints of UHPC between panels. */
typedef struct UhpcData {
    double width_m, strength_Pa, modulus_Pa, shrinkage_1, creep_1, active_day;
} UhpcData;

typedef struct PourData {
    double from_m, to_m; /* from the left end of the bridge */
} PourData;

/* A deck cast on the girders. */
typedef struct CastData {
    double strength_Pa, cure_day, active_day, first_day, between_day;
    double bars_1, bars_above_m, forms_Pa;
    ListData pours; /* PourData in their order; empty: spans first, then over the piers */
} CastData;

/* Time of a crew, to count work by: each of one joint, duct, pull, ... */
typedef struct WorkData {
    int persons;
    double spread_1; /* of all times, either way */
    double panel_day, glue_day, narrow_day, couple_day, thread_day, pull_day, grout_day, uhpc_day;
    double anchor_day, jacking_day, closure_day, pour_day;
    double form_m2, bars_m2; /* in an hour */
} WorkData;

typedef struct WayData {
    WorkData work;
    double strand_tail_m, strand_waste_1, duct_grout_waste_1, uhpc_waste_1;
    TendonData tendon;
    UhpcData uhpc;
    CastData cast;
} WayData;

/* What is ordered beyond what is built in. */
typedef struct WasteData {
    double concrete_waste_1, bar_waste_1, grout_waste_1, strip_waste_1;
} WasteData;

/* A value with the field it went to, so that derived values can be shown as well. */
typedef struct Value {
    BridgeValue shown;
    void *field;
} Value;

struct Bridge {
    const char *title;
    int units, time_model;
    ListData spans; /* SpanData */
    PierData piers;
    ListData supports; /* SupportData, one a support line; empty: first one of each unit fixed */
    GirderData girders;
    DeckData deck;
    PanelData panels;
    ConnectorData connectors;
    HandlingData handling;
    CastingData casting;
    ClosingData closing;
    EndData ends;
    ListData runs; /* RunData; empty: one a structural unit */
    ClosureData closure;
    JackData jacks;
    JackingData jacking;
    ShimData shims;
    GradeData profile;
    SurveyData survey;
    SeatData seats;
    ConcreteData concrete[CONCRETE_PARTS];
    DayData days;
    LoadData loads;
    LiveData live;
    ClimateData climate;
    CriteriaData criteria;
    WayData ways;
    BridgeOdds odds;
    WasteData quantities;
    Value *value;
    int value_count, value_room;
};

#endif
