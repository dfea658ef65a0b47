/* stages: one girder line with its deck, marched through construction and life. Takes plain data
 * (the raw model), gives one immutable history. Knows no file, no bridge, no limit.
 *
 * Two chains of nodes share the stations: G at the girder top, D at deck mid-depth. An element of a
 * chain lies between neighbouring stations and is a bundle of parallel `parts` (girder, strands,
 * ties, deck concrete, closure), each with its own height, material and phase of birth. Between the
 * chains a link at every station ends on the slip plane (the deck soffit). See docs/theory.md. */
#ifndef CLENCH_STAGES_H
#define CLENCH_STAGES_H

#include "clench/base.h"
#include "clench/concrete.h"
#include "clench/section.h"

typedef enum Chain { CHAIN_GIRDER, CHAIN_DECK } Chain;

typedef enum MaterialKind { MATERIAL_ELASTIC, MATERIAL_CONCRETE, MATERIAL_STRAND } MaterialKind;
typedef struct Material {
    MaterialKind kind;
    const char *name;
    double E_Pa; /* ELASTIC, STRAND */
    double expansion_per_K;
    ConcreteMix mix;    /* CONCRETE */
    double cast_day;    /* CONCRETE: day of casting on the calendar of the events */
    double fpy_Pa;      /* STRAND; 0: no relaxation */
    double initial_Pa;  /* STRAND: stress at tensioning; ELASTIC: 0 */
    double tension_day; /* STRAND: day of tensioning; relaxation counts from here */
} Material;

/* Cross-section of a part, about its own centroid. */
typedef struct PartSection {
    double area_m2;
    double inertia_m4;      /* 0: fibre (strand, bar, tie, strip) */
    double top_m, bottom_m; /* centroid to top and to bottom fibre, both positive */
    WidthProfile profile;   /* for temperature inside the part; count 0: taken as a point */
} PartSection;

typedef struct Part {
    int element; /* between stations element and element + 1 */
    Chain chain;
    int material, section, phase;
    double from_height_m, to_height_m; /* of its centroid above the chain's node, at both ends */
    bool compression_only;             /* axial fibres only: opens in tension */
    bool
        shear; /* carries shear alone (a key between girder ends): N is the shear force, the area is
                 * the shear area over 2 (1 + nu), so that E times it is G A */
    double initial_Pa; /* strands: stress at birth here; 0: the material's */
} Part;

/* Links: shims (friction, contact) until bonded. Stiffness per station, tributary length in. */
typedef struct Link {
    double shim_vertical_N_per_m, shim_horizontal_N_per_m;
    double bond_vertical_N_per_m, bond_horizontal_N_per_m;
    double friction_1;
    bool two_way;          /* shims can pull: for tests and comparison only */
    bool initial_capacity; /* friction capacity stays at friction * first reaction: for tests */
} Link;

/* A bearing: springs at a height below the girder top; active from phase `from_phase` until
 * `to_phase` comes (-1: never leaves). */
typedef struct Support {
    int station;
    double vertical_N_per_m, horizontal_N_per_m;
    double below_top_m;
    int from_phase, to_phase;
} Support;

/* A jacking gap between the D nodes of two stations; no deck part between them until closure. */
typedef struct Gap {
    int left_station, right_station;
    double jack_above_mid_m;        /* line of action above deck mid-depth */
    double strut_N_per_m;           /* stiffness EA/L of the locked jacks */
    double strut_expansion_m_per_K; /* alpha L of the locked jacks */
} Gap;

/* What changes the structure or its loads. Events of one day act in the order of the list. */
typedef enum EventKind {
    EVENT_BIRTH, /* parts and supports of `phase` become active, stress-free (strands: with
                        * their tension, relaxed until now); supports with to_phase leave */
    EVENT_LOAD,  /* line_load_N_per_m on stations from..to of `chain`, downwards */
    EVENT_SHIMS, /* the deck's weight, up to now on the girder, goes onto the deck chain, which
                        * rests on shims with that reaction; gravity loads of CHAIN_GIRDER given
                        * with `on_deck` move. Deck parts are born by EVENT_BIRTH before */
    EVENT_SHIMS_EMPTY, /* stations from..to (the gap, both ends excluded): vertical shims that start
                        * without reaction, no friction */
    EVENT_BOND,        /* links of stations from..to become bonded, present forces stay */
    EVENT_JACK,        /* the jacks of `gap` go to thrust_N in `steps` equal steps */
    EVENT_LOCK,        /* a strut takes the present force of the gap */
    EVENT_RELEASE,     /* the strut is taken out */
    EVENT_TENDON,      /* parts of `phase` pull with their initial stress as a load (unbonded) in
                        * `steps`, then become bonded parts */
    EVENT_TEMPERATURE, /* change_K of all active parts of `chain` (strut: of `gap`, chain -1) */
    EVENT_NOTE         /* nothing changes; the moment has a name */
} EventKind;

/* clang-format off */
#define CAUSE_LIST(X)                                                                  \
    X(WEIGHT,      "weight of girders and panels") X(PRESTRESS, "prestress of the girders") \
    X(THRUST,      "thrust of the jacks")          X(FRICTION,  "friction and contact at the shims") \
    X(CLOSURE,     "weight of closure and grout")  X(RELEASE,   "release of the jacks") \
    X(CREEP,       "creep")                        X(SHRINKAGE, "shrinkage")            \
    X(RELAXATION,  "relaxation of strand")         X(SUPERIMPOSED, "barrier and overlay") \
    X(TEMPERATURE, "temperature")
/* clang-format on */
typedef enum Cause {
#define X(id, text) CAUSE_##id,
    CAUSE_LIST(X)
#undef X
        CAUSE_COUNT
} Cause;
const char *cause_text(Cause cause);

typedef struct Event {
    double day;
    EventKind kind;
    const char *name; /* of the moment after it, NULL: unnamed; never two the same */
    Cause cause;      /* where its effect is booked */
    int phase, gap, from_station, to_station, steps;
    int chain; /* Chain, or -1 */
    bool on_deck;
    double line_load_N_per_m, thrust_N, change_K;
} Event;

/* Settings of the solution, with defaults by stage_settings_default. */
typedef struct StageSettings {
    double first_step_day, step_growth_1; /* intervals after each event */
    double newton_tolerance_1;            /* residual over the largest nodal force */
    int newton_max;
    bool leave_causes;  /* no booking of causes: deck_cause is NULL, a third of the time saved */
    bool plain_history; /* sum the creep history term by term (reference, quadratic cost) */
    double creep_scale_1, shrinkage_scale_1; /* all concretes: for studies; default 1 */
} StageSettings;
StageSettings stage_settings_default(void);

typedef struct StageModel {
    int station_count, part_count, material_count, section_count, support_count, gap_count,
        event_count;
    const double *x_m; /* stations, strictly increasing */
    const Part *part;  /* in any order */
    const Material *material;
    const PartSection *section;
    const Link *link; /* one a station */
    const Support *support;
    const Gap *gap;
    const Event *event; /* by day */
    double deck_thickness_m;
    double haunch_m; /* deck soffit above the girder top */
    /* Stations that a line of stresses must not be extrapolated across, besides supports, gap faces
     * and changes of sections, which are found: none needed for a usual model. */
} StageModel;

/* The history: every array is [time][item], read-only, lives in the result arena. */
typedef struct PartForce {
    double N, M_from, M_to; /* unit: N, N m; of the part about its own centroid */
} PartForce;
/* Of the deck's beams in an element: normal force and mean moment. */
typedef struct CauseForce {
    double N_N, M_Nm;
} CauseForce;
typedef struct LinkState {
    double H_N, V_N; /* on the girder along +x; on the girder upwards (negative: it presses) */
    double slip_m, lift_m;
    unsigned char state; /* LinkMode */
} LinkState;
typedef enum LinkMode { LINK_NONE, LINK_STICK, LINK_SLIDE, LINK_OPEN, LINK_BONDED } LinkMode;
typedef struct NodeMove {
    double u_m, v_m, theta_rad;
} NodeMove;

enum { STAGE_BEAMS = 4 };
typedef struct StageHistory {
    const StageModel *model;
    int time_count;
    const double *day;
    const int *event; /* [time]: index of the event whose end this is, -1: an interval's end */
    const PartForce *force;     /* [time * part_count + part]; zero before birth */
    const unsigned char *alive; /* [time * part_count + part] */
    const double *gape_1;  /* [time * part_count + part]: strain by which a compression-only part is
                           * open; NULL where the model has none */
    const LinkState *link; /* [time * station_count + station] */
    const NodeMove *move;  /* [(time * station_count + station) * 2 + chain], from birth on */
    const double *gap_force_N;   /* [time * gap_count + gap]: compression across the gap */
    const double *gap_opening_m; /* [time * gap_count + gap]: since the first jack event */
    const double *reaction_N;    /* [time * support_count + support]: upwards */
    const double *reaction_x_N;
    /* What changed the deck's parts, by cause, summed since day one: adds up to `force`.
     * [(time * CAUSE_COUNT + cause) * station_count + element]: of the whole deck chain */
    const CauseForce *deck_cause; /* NULL with leave_causes */
    /* Look-ups for stresses: beams (parts with inertia) of each element, -1 ends the row; stations
     * that a line of stresses is not carried across (supports, gap faces, ends of anchor panels). */
    const int *beam;             /* [(chain * station_count + element) * STAGE_BEAMS + k] */
    const unsigned char *break_; /* [station] */
    double worst_residual_1;     /* over all steps, of the largest nodal force */
    int factorisations, newton_steps;
} StageHistory;

/* Runs all events and intervals. Result and scratch are separate arenas; scratch may be reset after.
 * Errors: BAD_INPUT (events out of order, indices), UNSTABLE (names station and direction),
 * NO_CONVERGENCE (names event or day and the station of the largest residual). */
MUST_USE Status stage_run(const StageModel *model, const StageSettings *settings, Arena *result,
                          Arena *scratch, const StageHistory **history, Error *err);
/* The time index after the named event, or -1. */
int stage_time_named(const StageHistory *history, const char *name);

/* The same, step by step: the caller holds the loop, can show progress, stop, or fork. */
typedef struct StageRun StageRun;
MUST_USE Status stage_start(const StageModel *model, const StageSettings *settings, Arena *result,
                            Arena *scratch, StageRun **run, Error *err);
bool stage_done(const StageRun *run);
bool stage_next_is(const StageRun *run, EventKind kind); /* the next step is of such an event */
MUST_USE Status stage_step(StageRun *run, Error *err);
const StageHistory *stage_history(const StageRun *run); /* complete when done */
/* A run that goes on from where `from` stands, with a model that differs only in the forces of events
 * still to come; `from` stays as it is and must outlive nothing. */
StageRun *stage_fork(const StageRun *from, const StageModel *model, bool leave_causes,
                     Arena *result, Arena *scratch);

/* ---- stresses at stations, from one side (side -1: left, +1: right) ---- */

/* Stress of the deck or of the girder at a station: means of the elements on that side carried on
 * straight, never across a support, a gap face, an anchor's end, a change of section or of age. In
 * the gap it is the part that is born first (the closure). */
typedef struct FibreStress {
    double top_Pa, bottom_Pa;
    double N_N, M_Nm; /* of that part about its own centroid */
} FibreStress;
/* false where nothing is alive on that side. */
bool stage_stress(const StageHistory *history, int time, Chain chain, int station, int side,
                  FibreStress *stress);
/* The part that the stress is of, -1 where nothing is alive on that side. */
int stage_part(const StageHistory *history, int time, Chain chain, int station, int side);
/* The same for what one cause did to the deck, summed since day one (deck of one part only). */
bool stage_stress_by_cause(const StageHistory *history, int time, Cause cause, int station,
                           int side, FibreStress *stress);
/* Compression of the deck right beside a station, all its parts: minus the sum of N. */
double stage_deck_compression_N(const StageHistory *history, int time, int station, int side);

/* ---- the linear structure of one moment: for live load and temperature ---- */

typedef struct StageStructure StageStructure; /* in an arena */
/* The structure right after time index `time`, with the moduli of that day. Compression-only parts
 * get the secant stiffness with which they answer `live_N_per_m` downwards on all spans: parts that
 * stay open have none, parts that it closes carry from there on. Links hold as they stand. */
MUST_USE Status stage_structure(const StageHistory *history, int time, double live_N_per_m,
                                Arena *arena, const StageStructure **structure, Error *err);
/* The same without any compression-only part: never stiffer than the structure is. */
MUST_USE Status stage_structure_loose(const StageHistory *history, int time, Arena *arena,
                                      const StageStructure **structure, Error *err);
/* A linear effect: stress of a fibre at a station from one side. */
typedef struct StageEffect {
    Chain chain;
    int station, side;
    bool top;
} StageEffect;
/* Effect of a unit downward load on the deck at each station, value[station_count], unit: Pa/N, for
 * `count` effects at once, one behind the other. done[k] is false where no part is there.
 * work: count * 6 * station_count doubles. */
void stage_influence(const StageStructure *structure, const StageEffect *effect, int count,
                     double *value, bool *done, double *work);
/* The same for the normal force of the deck, all its parts, in an element; zero where none is alive.
 * Its change from element to element is what the link between them transfers. unit: none.
 * work: 6 * station_count doubles. */
void stage_influence_deck(const StageStructure *structure, int element, double *value,
                          double *work);
/* The same for the normal force of one part, such as a tie; zero where it is not alive. unit: none. */
void stage_influence_part(const StageStructure *structure, int part, double *value, double *work);
/* The same for the upward reaction of a support; unit: none. false: the support is not active. */
bool stage_influence_reaction(const StageStructure *structure, int support, double *value,
                              double *work);
/* The same for the downward movement of the girder's node at a station, bending alone; unit: m/N. By
 * reciprocity (Maxwell) it is the deflected shape under a unit load there. false: no girder there. */
bool stage_influence_move(const StageStructure *structure, int station, double *value_m_per_N,
                          double *work);
/* Moment of the whole cross-section under 1 N/m on all spans: moment[station_count], by stations;
 * for contraflexure. work: 12 * station_count doubles. */
void stage_uniform_moment(const StageStructure *structure, double *moment_Nm, double *work);
/* Stresses from a rise of temperature over the depth below the deck top (straight between points,
 * zero below the last), the self-equilibrating part included: deck[2 * station + (side > 0)] and
 * girder likewise; N_N is NAN where no part is. `scratch` is reset. */
void stage_temperature(const StageStructure *structure, const double *depth_m, const double *rise_K,
                       int count, FibreStress *deck, FibreStress *girder, Arena *scratch);
/* Free strain alpha T of the part that such a stress is of: the plane that fits it best, at the
 * part's centroid and its growth downwards, and at both fibres. Besides N / A + M y / I a fibre at y
 * below the centroid has the stress E (axial + curvature y - its own). A part without a width profile
 * has no such rest. */
typedef struct FreeField {
    double E_Pa, expansion_per_K, axial_1, curvature_per_m, top_1, bottom_1;
    double centre_m; /* its centroid below the deck top */
    bool rest;
} FreeField;
/* false where nothing is alive on that side. */
bool stage_free_field(const StageStructure *structure, const double *depth_m, const double *rise_K,
                      int count, const StageEffect *effect, FreeField *strain);

#endif
