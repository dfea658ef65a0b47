/* bridge: the bridge as an engineer describes it, from a node tree; the schema; defaults and the
 * origin of each value; the raw model of each girder line from it. No I/O, no result. */
#ifndef CLENCH_BRIDGE_H
#define CLENCH_BRIDGE_H

#include "clench/base.h"
#include "clench/concrete.h"
#include "clench/panel.h"
#include "clench/section.h"
#include "clench/stages.h"
#include "clench/traffic.h"

/* ---- the rules by which joints are judged: combinations as data ---- */

/* Tension allowed at a joint's fibre, or compression wanted, under one combination. */
typedef struct JointRule {
    const char *name;                   /* "Service I with half the gradient" */
    const char *clause;                 /* where it is borrowed from */
    double live_1, gradient_1, wheel_1; /* factors on live load with impact, on the temperature
                                         * gradient (positive and negative tried), on local wheel
                                         * bending across the joint */
    double limit_Pa; /* largest stress allowed, tension positive: 0, or -250 psi for average */
    bool average;    /* judges N/A under permanent load instead of the fibres */
    bool building;   /* judged from jacking to opening instead of from opening on */
    bool counts;     /* part of the needed thrust; else only shown beside */
} JointRule;

typedef enum LimitKind {
    LIMIT_DECK_JACKING,          /* deck compression while jacked, of strength then */
    LIMIT_DECK_PERMANENT,        /* deck compression, permanent loads */
    LIMIT_DECK_SERVICE,          /* deck compression, permanent, live load and half the gradient */
    LIMIT_GIRDER_TOP_TENSION,    /* while the jacks act, until haunches are bonded */
    LIMIT_GIRDER_BOTTOM_TENSION, /* same moments */
    LIMIT_GIRDER_COMPRESSION,    /* same moments, both fibres */
    LIMIT_TIE,                   /* stress of each tie through a pier */
    LIMIT_UPLIFT,                /* every bearing stays pressed, permanent loads */
    LIMIT_ANCHOR,                /* connectors of an anchor panel, factored thrust */
    LIMIT_JACKS,                 /* rated capacity of all jacks over its margin, times the share */
    LIMIT_KIND_COUNT
} LimitKind;

/* An upper limit on the thrust. */
typedef struct UpperLimit {
    LimitKind kind;
    const char *name, *clause;
    double value;    /* stress (Pa, positive) or force (N, of the line); of the deck: share of the
                      * strength that each part's own concrete has on that day, at most f'c; unit: so */
    double factor_1; /* on the effect: 1.2 on the thrust for anchors */
} UpperLimit;

typedef struct Joint {
    int station;            /* of its left face, where it has a width */
    int wide;               /* stations from there to its right face; 0: a plane */
    const char *mark;       /* "J07" */
    bool at_gap, at_anchor; /* face of the gap, inner face of an anchor panel */
    int away; /* stations from `station` to where its stress is taken: a deck thickness into the run
               * at those faces (Saint-Venant: the force is let in over a point there), else 0 */
    double wheel_top_Pa, wheel_bottom_Pa; /* local bending under a wheel, tension positive, >= 0 */
} Joint;

/* ---- ways to connect the panels ---- */

/* clang-format off */
#define WAY_LIST(X)                                                                   \
    X(THRUST, "thrust", "jacks in a gap")       X(TENDON, "tendon", "tendons in ducts") \
    X(UHPC,   "uhpc",   "UHPC joints")          X(CAST,   "cast",   "cast in place")
/* clang-format on */
typedef enum Way {
#define X(id, name, called) WAY_##id,
    WAY_LIST(X)
#undef X
        WAY_COUNT
} Way;

/* Tendons of a line: its share of all, in the deck, from end to end of the unit. */
typedef struct LineTendons {
    int count;      /* in the whole width */
    int groups;     /* stressed one after the other in so many steps of the model */
    double area_m2; /* of the line's share of all */
    double strength_Pa, yield_Pa, above_mid_m;
    TendonPull pull;
    TendonPath path;
    TendonSeat seat;
    double stretch_m; /* both ends together, when pulled */
} LineTendons;

/* Everything the engine needs to judge one girder line of one structural unit. */
/* How the lanes of a line and its share by stiffness come about, for those who recompute them. */
typedef struct LineSharing {
    bool derived; /* the lanes are; else the file gives them and `in` and `found` are empty */
    Distribution in;
    DistributionFactors found; /* of a square bridge */
    double skew_shear_1;       /* on shear where the bridge is skewed, else 1 */
    /* n and the girder's section of Kg = n (I + A eg^2), moduli at 28 days */
    double modular_1, area_m2, inertia_m4, apart_m, girder_Pa, deck_Pa;
    double anchors_m, gap_m; /* between the anchor panels; of the open gap */
} LineSharing;

typedef struct BridgeLine {
    const char *name;   /* "interior line" */
    const char *remark; /* what the reader must know of its factors; NULL: nothing */
    const char
        *beyond;      /* of the bridge that such a line does not bear: skew, curve; NULL: nothing */
    const char *unit; /* "spans 1 to 4", or "span 1 (spans 2 to 4 alike)" */
    StageModel model;
    double share_1;       /* of the whole thrust of the deck, by tributary width */
    double share_stiff_1; /* the other bound: rigid deck, by stiffness of the lines */
    double width_m;       /* tributary deck width */
    double lanes_1;       /* distribution factor for moment: lanes on this line */
    double lanes_shear_1; /* for shear */
    /* of one truck without multiple presence, for moment and for shear; given lanes: those */
    double lanes_fatigue_1, lanes_fatigue_shear_1;
    LineSharing sharing;
    double start_m; /* of the unit's left end from the left end of the bridge */
    int joint_count;
    const Joint *joint;
    LiveLoad live;
    Gradient cold, warm; /* negative and positive gradient */
    int rule_count;
    const JointRule *rule;
    int limit_count;
    const UpperLimit *limit;
    double deck_strength_Pa, deck_jacking_strength_Pa; /* panels: 28 days, on the day of jacking */
    const char *jacked, *released, *bonded, *opening, *end; /* names of those moments (events);
                          * jacked: without jacks the moment from which the deck is judged */
    Way way;
    const LineTendons *tendons; /* NULL: none */
    double
        rupture_Pa; /* of the concrete that is judged: where no compression is wanted, a joint's limit */
    double first_guess_N; /* a line thrust to start from */
} BridgeLine;

/* Lines that can be judged at once: interior and exterior of so many different units. */
enum { LINES_MAX = 48 };

/* ---- the bridge ---- */

typedef enum Origin { ORIGIN_DEFAULT, ORIGIN_GIVEN, ORIGIN_DERIVED } Origin;

typedef struct Bridge Bridge; /* defined in bridge_data.h: one plain struct, fields as the schema */

/* Reads a tree. All errors of the schema are collected in one pass; the bridge is written only
 * where there are none. */
MUST_USE Status bridge_read(const Node *root, Arena *arena, const Bridge **bridge,
                            Diagnostics *diagnostics);
/* Lines to judge: interior and exterior (of two girders: exterior alone) of each different unit, at
 * most 8, else STATUS_TOO_LARGE. Errors are those of the structure:
 * an untied run, supports that hold the thrust, ... with the place in the file. `fineness` 1: the
 * standard mesh, 2: every element halved. */
MUST_USE Status bridge_lines(const Bridge *bridge, int fineness, Arena *arena,
                             const BridgeLine **line, int *line_count, Error *err);
UnitSystem bridge_units(const Bridge *bridge);
const char *way_name(Way way);   /* "thrust", as on the command line */
const char *way_called(Way way); /* "jacks in a gap" */
/* The same lines in the same order with the panels connected another way, judged at the same joints:
 * `ways` of the bridge file. Without compression joints are held against the modulus of rupture, not
 * against opening. tendons: in the whole width, 0: of the file. */
typedef struct WayWish {
    Way way;
    int tendons, fineness;
} WayWish;
MUST_USE Status bridge_way_lines(const Bridge *bridge, const WayWish *wish, Arena *arena,
                                 const BridgeLine **line, int *line_count, Error *err);
/* Tendons in the whole width as the file has them; 0: as many as are needed. */
int bridge_tendons(const Bridge *bridge);

/* ---- how uncertain what goes in is ---- */

/* clang-format off */
/* Id, and name as in "odds.creep_deck". */
#define ODDS_LIST(X)                                                                                \
    X(CREEP_DECK, "creep_deck") X(CREEP_GIRDER, "creep_girder") X(SHRINKAGE_DECK, "shrinkage_deck") \
    X(SHRINKAGE_GIRDER, "shrinkage_girder") X(MODULUS_DECK, "modulus_deck")                         \
    X(MODULUS_GIRDER, "modulus_girder") X(FRICTION, "friction") X(FORCE, "force")                   \
    X(WEIGHT_DECK, "weight_deck") X(WEIGHT_LATER, "weight_later") X(LIVE, "live")                   \
    X(GRADIENT, "gradient") X(DRYING, "drying") X(AGE, "age")
/* clang-format on */
typedef enum OddsId {
#define X(id, name) ODDS_##id,
    ODDS_LIST(X)
#undef X
        ODDS_COUNT
} OddsId;
/* Of a positive factor on what the bridge file says. */
typedef struct OddsLaw {
    double mean_1, spread_1; /* spread: standard deviation over the mean */
} OddsLaw;
typedef struct BridgeOdds {
    double wanted_1; /* chance wanted that every joint stays closed */
    OddsLaw law[ODDS_COUNT];
} BridgeOdds;
const BridgeOdds *bridge_odds(const Bridge *bridge);

/* ---- a first bridge ---- */

/* A bridge file from a short form, a map of texts: title, units ("US", "SI"), spans ("94 ft, 120 ft"),
 * width ("40 ft"), girder ("plate girder", "tub", "pretensioned"), humidity ("70 %") and gradient_zone
 * ("1" to "4"). Sizes are rules of thumb. *text is added to only on STATUS_OK; else BAD_INPUT, and
 * `diagnostics` has each answer that is missing or wrong, with its key. */
MUST_USE Status bridge_first(const Node *form, Text *text, Diagnostics *diagnostics);

/* ---- the panels: what the yard casts and the crew sets; src/bridge/panels.c ---- */

/* A piece of the deck that is cast and lifted as one; two side by side with a longitudinal closure. */
typedef struct PanelPiece {
    const char *mark;      /* "R1-03", "R1-03L": unique */
    int run, number, kind; /* of `run`s; its place in the run from 1; of `kind`s */
    bool turned;           /* comes out of the forms of its kind by half a turn alone */
    bool anchor;
    double from_m, to_m;                  /* joints at mid-width, from the left end of the bridge */
    double cast_m;                        /* length as cast: without half of each narrow joint */
    const char *left_joint, *right_joint; /* "R1-J04"; "end", "gap" */
    PanelShape shape;                     /* x from from_m on */
    PanelBody body;
    double weight_N, gross_N;                     /* as lifted, pockets empty; without any hole */
    int hole_count, pocket_count, blockout_count; /* pockets first */
    const PanelHole *hole;
    PanelCast cast;
} PanelPiece;

typedef struct PanelKind {
    const char *name; /* "A" */
    int like, count;  /* first piece of that kind; how many */
} PanelKind;

typedef struct PanelRun {
    const char *name, *unit;                        /* "R1"; "spans 1 to 4" */
    double start_m, length_m, gap_from_m, gap_to_m; /* from the left end of the bridge */
    int first, count;                               /* pieces */
} PanelRun;

/* What a choice of layout comes to, between the anchors. */
typedef struct PanelOption {
    PanelChoice choice;
    int panels, kinds, too_near; /* kinds: lengths; too_near: stretches with a joint at a pier */
    double shortest_m, longest_m;
} PanelOption;

typedef struct PanelPlan {
    int piece_count, kind_count, run_count;
    const PanelPiece *piece; /* in the order in which they are set: run by run, left to right */
    const PanelKind *kind;
    const PanelRun *run;
    PanelChoice chosen;
    PanelOption option[PANEL_CHOICE_COUNT];
    double longest_allowed_m;
    const char *longest_by; /* "panels.longest", "handling.truck", ... */
    double thickness_m, deck_width_m, skew_rad, strip_m; /* strip: 0 without one */
    double net_m3, gross_m3, weight_N;                   /* of all */
    int pockets;
    int match_joints; /* that are closed on the bridge */
    PanelYard yard;
    PanelSets sets;
    double lag_day, cure_day, least_age_day, strip_Pa,
        face_strength_Pa; /* face: phase 1, lag old */
    double early_day[2];  /* the days of casting that the engine has */
    int stack;
    bool glued, matched, pullers;   /* means: chain pullers */
    const char *glue_class;         /* by temperature; NULL: outside all of them */
    PanelSeam joint;                /* the worst one */
    PanelClosing closing, practice; /* practice: at 10 psi */
    double glue_all_m3;
    int joints_in_pot; /* that one mixing serves: 0, none */
    int remark_count;
    const char *const *remark; /* what has to be known, most important first */
    const bool *alarm;         /* of each: a limit is not kept, or the model does not bear it */
} PanelPlan;
/* Errors: those of bridge_lines in its layout; a bed that is too short. */
MUST_USE Status bridge_panels(const Bridge *bridge, Arena *arena, const PanelPlan **plan,
                              Error *err);

/* ---- the girders as they stand, for drawings and quantities; src/bridge/girders.c ---- */

/* A stretch of alike section, the same in all girders; tied piers' end gaps are not left out. */
typedef struct BridgeGirder {
    double from_m, to_m; /* from the left end of the bridge */
    BeamSection section; /* the stages' own; profile without points where only sizes are known */
    PlateGirder plate;   /* web_count 0: concrete */
    double haunch_m;     /* width of the haunch on it */
    double weight_N_per_m;
} BridgeGirder;
MUST_USE Status bridge_girders(const Bridge *bridge, Arena *arena, const BridgeGirder **girder,
                               int *count, Error *err);

/* ---- where panels rest on girders; src/bridge/seats.c ---- */

/* Spans that act as one, from left to right; x from the unit's left end. */
typedef struct SeatUnit {
    const char *name; /* "spans 1 to 4" */
    int like;         /* of the different units: its lines are bridge_lines' at like * lines */
    int first_span, support_count;
    double start_m, length_m, gap_from_m, gap_to_m;
    const double *support_m;
    int girder_count; /* one between tied piers */
    const double *girder_from_m, *girder_to_m;
    int joint_count;       /* as BridgeLine's: faces of anchors and gap included */
    const double *joint_m; /* at mid-width */
    int gap_joint;         /* the gap's left face; its right face is the next */
} SeatUnit;
typedef struct BridgeSeats {
    int unit_count, lines; /* lines a unit: exterior alone, or interior and exterior */
    const SeatUnit *unit;
} BridgeSeats;
MUST_USE Status bridge_seats(const Bridge *bridge, Arena *arena, const BridgeSeats **seats,
                             Error *err);

/* ---- generic trade sizes of jacks, smallest first ---- */

typedef struct JackSize {
    const char *name;        /* "150 ton", as jacks.size */
    double rated_N, area_m2; /* 2 kip a ton; effective area: from memory */
} JackSize;
int bridge_jack_size_count(void);
const JackSize *bridge_jack_size(int index);

/* ---- schema: one table, many readers ---- */

typedef struct SchemaRow {
    const char *path; /* "deck.thickness", "spans[].length", "days.inspections[]" */
    enum {
        SCHEMA_QUANTITY,
        SCHEMA_COUNT_NUMBER,
        SCHEMA_TEXT,
        SCHEMA_CHOICE,
        SCHEMA_FLAG,
        SCHEMA_MAP,
        SCHEMA_LIST
    } kind;
    DimensionId dimension;
    double least, most;   /* unit: SI; both allowed; for quantities and counts */
    const char *choices;  /* "epoxy|narrow cast" */
    const char *standard; /* default as text: "8.5 in", "none": may be left open; NULL: must
                                  * be given; "": derived, or a list or group that may be missing */
    const char *help;     /* one sentence */
} SchemaRow;
int bridge_schema_count(void);
const SchemaRow *bridge_schema_row(int index);
void bridge_schema_json(Text *text); /* JSON Schema 2020-12 of the bridge file */

/* One value of a bridge with its origin, for lists of defaults and for the page. */
typedef struct BridgeValue {
    char path[128]; /* with indices from 1: "spans[2].length" */
    const SchemaRow *row;
    char text[96]; /* as given, or the default, in the bridge's units */
    double value;  /* unit: SI of a quantity; else count or number of the choice */
    Origin origin;
    Place place; /* where given */
} BridgeValue;
int bridge_value_count(const Bridge *bridge);
const BridgeValue *bridge_value(const Bridge *bridge, int index);
const BridgeValue *bridge_value_at(const Bridge *bridge, const char *path); /* NULL where unknown */

#endif
