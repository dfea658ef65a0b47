/* The state that marches: made, copied, and moved by one step. */
#include <math.h>
#include <string.h>

#include "march.h"

/* ---- the state ---- */

/* Takes the next piece of a block; with a NULL block it only counts. */
static void *carve(char *block, size_t *at, size_t bytes)
{
    void *piece = block ? block + *at : NULL;
    *at += (bytes + 15) / 16 * 16;
    return piece;
}

/* Everything that a step leaves behind lies in one block, so that a march is copied by its bytes. */
static size_t lay_state(March *march, int step_count, char *block)
{
    const StageModel *model = march->model;
    const size_t parts = (size_t)model->part_count, stations = (size_t)model->station_count;
    const size_t n = (size_t)march->n, slots = (size_t)march->memory.count;
    const size_t kept = march->settings->plain_history ? (size_t)step_count : 0;
    size_t at = 0;
    march->force = carve(block, &at, parts * sizeof(PartForce));
    march->alive = carve(block, &at, parts);
    march->open_1 = carve(block, &at, parts * sizeof(double));
    march->relaxed_Pa = carve(block, &at, parts * sizeof(double));
    march->shim = carve(block, &at, stations * sizeof(ShimState));
    march->support = carve(block, &at, (size_t)model->support_count * sizeof(SupportState));
    march->gap = carve(block, &at, (size_t)model->gap_count * sizeof(GapState));
    march->move = carve(block, &at, n * sizeof(double));
    march->load = carve(block, &at, n * sizeof(double));
    march->deck_weight_N = carve(block, &at, stations * sizeof(double));
    march->memory.term = carve(block, &at, slots * 3 * CONCRETE_TERMS * sizeof(double));
    march->memory.kept_day = carve(block, &at, kept * sizeof(double));
    march->memory.kept_force = carve(block, &at, 3 * kept * slots * sizeof(double));
    return at;
}

static void take_work(March *march, Arena *scratch)
{
    const int parts = march->model->part_count, stations = march->model->station_count;
    march->trial = ARENA_NEW(scratch, PartForce, parts);
    march->trial_open_1 = ARENA_NEW(scratch, double, parts);
    march->trial_shim = ARENA_NEW(scratch, ShimState, stations);
    march->material = ARENA_NEW(scratch, StepMaterial, march->model->material_count);
    march->free.creep = ARENA_NEW(scratch, BarStrain, parts);
    march->free.shrinkage = ARENA_NEW(scratch, BarStrain, parts);
    march->free.relaxation = ARENA_NEW(scratch, BarStrain, parts);
    march->free.temperature = ARENA_NEW(scratch, BarStrain, parts);
    march->free_sum = ARENA_NEW(scratch, BarStrain, parts);
    march->frame = frame_new(stations, scratch);
    march->change = ARENA_NEW(scratch, double, march->n);
    march->residual = ARENA_NEW(scratch, double, march->n);
    march->start_residual = ARENA_NEW(scratch, double, march->n);
    march->inner = ARENA_NEW(scratch, double, march->n);
    march->booked = ARENA_NEW(scratch, double, BOOKED_MAX * march->n);
    march->living = ARENA_NEW(scratch, int, parts);
    march->EA_N = ARENA_NEW(scratch, double, parts);
    march->EI_Nm2 = ARENA_NEW(scratch, double, parts);
}

BarPlace part_place(const StageModel *model, const Part *part)
{
    const double length = model->x_m[part->element + 1] - model->x_m[part->element];
    const bool fibre = !(model->section[part->section].inertia_m4 > 0) && !part->shear;
    return (BarPlace){
        .station = part->element,
        .chain = (int)part->chain,
        .length_m = length,
        .from_height_m = part->from_height_m,
        .to_height_m = part->to_height_m,
        .cosine_1 = fibre ? length / hypot(length, part->to_height_m - part->from_height_m) : 0};
}

static void take_places(March *march, Arena *scratch)
{
    const StageModel *model = march->model;
    march->place = ARENA_NEW(scratch, BarPlace, model->part_count);
    for (int p = 0; p < model->part_count; p++)
        march->place[p] = part_place(model, &model->part[p]);
}

March *march_new(const StageModel *model, const StageSettings *settings, int step_count,
                 Arena *scratch)
{
    March *march = ARENA_NEW(scratch, March, 1);
    march->model = model;
    march->settings = settings;
    march->scratch = scratch;
    march->n = FRAME_UNKNOWNS * model->station_count;
    march->arms = (LinkArms){0.5 * model->deck_thickness_m, model->haunch_m};
    creep_memory_make(march);
    march->state_bytes = lay_state(march, step_count, NULL);
    march->state = arena_take(scratch, march->state_bytes);
    lay_state(march, step_count, march->state);
    take_work(march, scratch);
    take_places(march, scratch);
    for (int s = 0; s < model->support_count; s++)
        march->support[s].active = model->support[s].from_phase < 0;
    return march;
}

March *march_copy(const March *from, const StageModel *model, const StageSettings *settings,
                  int step_count, Arena *scratch)
{
    March *march = march_new(model, settings, step_count, scratch);
    memcpy(march->state, from->state, march->state_bytes);
    march->memory.kept = from->memory.kept;
    march->worst_residual_1 = from->worst_residual_1;
    march->factorisations = from->factorisations;
    march->newton_steps = from->newton_steps;
    return march;
}

/* ---- one step ---- */

static void commit_supports(March *march)
{
    for (int s = 0; s < march->model->support_count; s++) {
        const Support *support = &march->model->support[s];
        if (!march->support[s].active) continue;
        const double *G = march->change + frame_unknown(support->station, 0, 0);
        march->support[s].horizontal_N -=
            support->horizontal_N_per_m * (G[0] + support->below_top_m * G[2]);
        march->support[s].vertical_N -= support->vertical_N_per_m * G[1];
    }
}

static void commit_gaps(March *march, const double *strut_change)
{
    for (int g = 0; g < march->model->gap_count; g++) {
        const Gap *gap = &march->model->gap[g];
        const Strut strut = {gap->left_station, gap->right_station, gap->jack_above_mid_m,
                             gap->strut_N_per_m};
        const double opened = frame_strut_opening(&strut, march->change);
        if (march->gap[g].jacked_once) march->gap[g].opening_m += opened;
        if (march->gap[g].locked)
            march->gap[g].strut_N += strut_change[g] - gap->strut_N_per_m * opened;
    }
}

static void commit(March *march, const Step *step, const double *strut_change)
{
    const StageModel *model = march->model;
    creep_commit(march, step->from_day, step->day);
    for (int p = 0; p < model->part_count; p++) {
        if (!march->alive[p]) continue;
        march->force[p] = march->trial[p];
        march->open_1[p] = march->trial_open_1[p];
    }
    for (int i = 0; i < model->station_count; i++)
        if (march->shim[i].now.state != LINK_NONE) march->shim[i] = march->trial_shim[i];
    commit_supports(march);
    commit_gaps(march, strut_change);
    for (int i = 0; i < march->n; i++) march->move[i] += march->change[i];
}

Status march_step(March *march, const Step *step, CauseForce *cause, Error *err)
{
    double strut_change[FRAME_STRUTS] = {0};
    const Event *event = step->event >= 0 ? &march->model->event[step->event] : NULL;
    march->day = step->day;
    if (event && event->kind == EVENT_NOTE) return STATUS_OK; /* nothing moves */
    creep_no_strains(march);
    if (event) TRY(event_apply(march, step, strut_change, err));
    creep_step_materials(march, step->from_day, step->day);
    if (!event) creep_free_strains(march, step->from_day, step->day);
    char what[128];
    snprintf(what, sizeof what, "%s%s", event ? "event " : "the time before the next event",
             event && event->name ? event->name : "");
    TRY(solve_step(march, strut_change, what, err));
    if (cause) TRY(cause_book(march, step, cause, err));
    commit(march, step, strut_change);
    return STATUS_OK;
}
