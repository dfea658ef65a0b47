/* Private to stages: the state that marches and the pieces that move it. */
#ifndef CLENCH_STAGES_MARCH_H
#define CLENCH_STAGES_MARCH_H

#include "clench/frame.h"
#include "clench/stages.h"

/* One step: an event (or one of the jacking steps of an event), or an interval of time. */
typedef struct Step {
    int event;            /* -1: an interval */
    double from_day, day; /* equal for events */
    double part_1;        /* of a JACK or TENDON event: share reached at its end, 0 to 1 */
    bool last;            /* last step of its event */
} Step;

/* Plan of all steps; count of them. */
MUST_USE Status plan_make(const StageModel *model, const StageSettings *settings, Arena *arena,
                          const Step **step, int *step_count, Error *err);

/* Creep memory of the concrete parts, grouped by material so that inner loops run over parts:
 * decayed sums  q[m] = sum_j dsigma_j a_m(t_j) exp(-(t - t_j)/tau_m). */
typedef struct CreepMemory {
    int count;        /* concrete parts */
    const int *part;  /* [count] part index, by material */
    const int *slot;  /* [part_count] place in `part`, or -1 */
    const int *group; /* [material_count + 1] first slot of each material */
    double *term;     /* unit: N/Pa, N m/Pa; [(component * CONCRETE_TERMS + m) * count + slot] */
    /* reference: every increment kept; only with plain_history */
    int kept, kept_room;
    double *kept_day;
    double *kept_force; /* unit: N, N m; [(k * 3 + component) * count + slot] */
} CreepMemory;

/* How stiff each material is in this step. */
typedef struct StepMaterial {
    double E_Pa;       /* of increments in this step */
    double loaded_day; /* calendar day at which its increments count as loaded */
    double term_per_Pa[CONCRETE_TERMS];
    double shrinkage_1; /* free strain over the step */
    bool ready;         /* cast and of an age > 0 */
} StepMaterial;

typedef struct GapState {
    double jack_N;  /* pushed by the jacks */
    double strut_N; /* compression in the locked strut */
    bool locked, jacked_once;
    double opening_m; /* since the first jacking */
} GapState;

typedef struct SupportState {
    bool active;
    double horizontal_N, vertical_N; /* on the girder, along +x and upwards */
} SupportState;

typedef struct ShimState {
    LinkState now;
    double capacity_N; /* friction capacity of a link with initial_capacity */
    bool friction;     /* has friction at all (not in the gap) */
} ShimState;

/* Free strains of one step, one array a cause, of every part. */
typedef struct FreeStrain {
    BarStrain *creep, *shrinkage, *relaxation, *temperature; /* [part_count] */
} FreeStrain;

enum { BOOKED_MAX = 5 }; /* right-hand sides of one step */

typedef struct March {
    const StageModel *model;
    const StageSettings *settings;
    Arena *scratch;
    LinkArms arms;
    int n; /* unknowns */
    double day;
    /* state: lies in one block */
    char *state;
    size_t state_bytes;
    PartForce *force;
    unsigned char *alive;
    double *open_1;     /* strain by which a compression-only part gapes */
    double *relaxed_Pa; /* strands: relaxation so far */
    ShimState *shim;
    SupportState *support;
    GapState *gap;
    double *move;          /* displacements since birth; unit: m, rad */
    double *load;          /* external nodal loads; unit: N, N m */
    double *deck_weight_N; /* [station] gravity of the deck that still hangs on the girder */
    CreepMemory memory;
    /* step */
    StepMaterial *material;
    FreeStrain free;
    Frame *frame;
    bool moved; /* the step found forces out of balance */
    double *change, *residual, *start_residual, *inner,
        *booked;     /* unit: as unknowns; booked: BOOKED_MAX of them */
    BarPlace *place; /* [part_count] */
    int living_count;
    int *living;           /* alive parts */
    double *EA_N, *EI_Nm2; /* [part_count] in this step */
    BarStrain *free_sum;   /* [part_count] of all causes */
    /* trial of the step */
    PartForce *trial;
    double *trial_open_1;
    ShimState *trial_shim;
    bool tangent_ready; /* the frame holds the factored tangent of the end of the step */
    double largest_force_N;
    double worst_residual_1;
    int factorisations, newton_steps;
} March;

/* ---- the two kinds of part: bars, and keys that carry shear alone ---- */
static inline BarStrain part_strain(const Part *part, const BarPlace *place, const double *x)
{
    if (part->shear) return (BarStrain){.axial_1 = frame_shear_strain(place, x)};
    return frame_bar_strain(place, x);
}
static inline void part_force(const Part *part, const BarPlace *place, double N_N, double from_Nm,
                              double to_Nm, double *nodal) /* nodal unit: N, N m */
{
    if (part->shear)
        frame_shear_force(place, N_N, nodal);
    else
        frame_bar_force(place, N_N, from_Nm, to_Nm, nodal);
}
static inline void part_add(Frame *frame, const Part *part, const BarPlace *place, double EA_N,
                            double EI_Nm2)
{
    if (part->shear)
        frame_add_shear(frame, place, EA_N);
    else
        frame_add_bar(frame, place, EA_N, EI_Nm2);
}

BarPlace part_place(const StageModel *model, const Part *part);

/* ---- model.c ---- */
MUST_USE Status model_check(const StageModel *model, Error *err);

/* ---- march.c ---- */
March *march_new(const StageModel *model, const StageSettings *settings, int step_count,
                 Arena *scratch);
/* The same state in memory of its own, with a model that differs in what is still to come only. */
March *march_copy(const March *from, const StageModel *model, const StageSettings *settings,
                  int step_count, Arena *scratch);
MUST_USE Status march_step(March *march, const Step *step, CauseForce *cause, Error *err);

/* ---- creep.c: concrete in time ---- */
/* Slots and groups; their numbers are kept in the state's block. */
void creep_memory_make(March *march);
void creep_step_materials(March *march, double from_day, double to_day);
void creep_no_strains(March *march);
void creep_free_strains(March *march, double from_day, double to_day);
void creep_commit(March *march, double from_day, double to_day);

/* ---- shim.c: new state of a link from the state at the step's start and what it moved since ---- */
ShimState shim_trial(const Link *link, const ShimState *start, double slip_m, double lift_m);
void shim_tangent(const Link *link, const ShimState *state, double *H_slip, double *H_lift,
                  double *V_lift);

/* ---- solve.c: one step to equilibrium; free strains are in march->free ---- */
MUST_USE Status solve_step(March *march, double strut_change_N[FRAME_STRUTS], const char *what,
                           Error *err);
/* Makes sure that march->frame holds the tangent of the end of the step. */
MUST_USE Status solve_tangent(March *march, Error *err);

/* ---- event.c: what an event does before its step is solved ---- */
MUST_USE Status event_apply(March *march, const Step *step, double strut_change_N[FRAME_STRUTS],
                            Error *err);

/* ---- cause.c: what of the deck's change is due to what ---- */
MUST_USE Status cause_book(March *march, const Step *step, CauseForce *deck_cause, Error *err);

#endif
