/* stage_run: all steps of the plan, one after another, into one history. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "march.h"

const char *cause_text(Cause cause)
{
    static const char *const text[] = {
#define X(id, what) what,
        CAUSE_LIST(X)
#undef X
    };
    return text[cause];
}

/* 0.2 day growing by 1.7: the governing stress of every example stands within 1 psi of steps halved
 * (tests/test_examples.c). Newton's tolerance is a thousand times above rounding. */
StageSettings stage_settings_default(void)
{
    return (StageSettings){.first_step_day = 0.2,
                           .step_growth_1 = 1.7,
                           .newton_tolerance_1 = 1e-10,
                           .newton_max = 60,
                           .creep_scale_1 = 1,
                           .shrinkage_scale_1 = 1};
}

/* ---- checks of the raw model ---- */

static Status check_part(const StageModel *model, int p, Error *err)
{
    const Part *part = &model->part[p];
    const bool ok = part->element >= 0 && part->element + 1 < model->station_count &&
                    part->material >= 0 && part->material < model->material_count &&
                    part->section >= 0 && part->section < model->section_count;
    if (!ok)
        return error_set(err, STATUS_BAD_INPUT,
                         "part %d names element %d, material %d, section %d: out of range", p,
                         part->element, part->material, part->section);
    if (!(model->section[part->section].area_m2 > 0))
        return error_set(err, STATUS_BAD_INPUT, "part %d has no area", p);
    if (part->compression_only && model->section[part->section].inertia_m4 > 0)
        return error_set(err, STATUS_BAD_INPUT,
                         "part %d works in compression only and must be a strip without inertia",
                         p);
    return STATUS_OK;
}

static Status check_model(const StageModel *model, Error *err)
{
    if (model->station_count < 2)
        return error_set(err, STATUS_BAD_INPUT, "a line needs two stations at least");
    if (model->gap_count > FRAME_STRUTS)
        return error_set(err, STATUS_TOO_LARGE, "%d gaps on one line: %d at most", model->gap_count,
                         FRAME_STRUTS);
    for (int i = 1; i < model->station_count; i++)
        if (!(model->x_m[i] > model->x_m[i - 1]))
            return error_set(err, STATUS_BAD_INPUT, "stations must grow: number %d does not", i);
    for (int p = 0; p < model->part_count; p++) TRY(check_part(model, p, err));
    for (int s = 0; s < model->support_count; s++)
        if (model->support[s].station < 0 || model->support[s].station >= model->station_count)
            return error_set(err, STATUS_BAD_INPUT, "support %d names station %d", s,
                             model->support[s].station);
    for (int g = 0; g < model->gap_count; g++)
        if (model->gap[g].left_station < 0 ||
            model->gap[g].left_station >= model->gap[g].right_station ||
            model->gap[g].right_station >= model->station_count)
            return error_set(err, STATUS_BAD_INPUT, "gap %d has no length", g);
    return STATUS_OK;
}

/* ---- making the march and its history ---- */

static March *march_new(const StageModel *model, const StageSettings *settings, int step_count,
                        Arena *scratch)
{
    March *march = ARENA_NEW(scratch, March, 1);
    const int parts = model->part_count, stations = model->station_count;
    march->model = model;
    march->settings = settings;
    march->scratch = scratch;
    march->n = FRAME_UNKNOWNS * stations;
    march->arms = (LinkArms){0.5 * model->deck_thickness_m, model->haunch_m};
    march->force = ARENA_NEW(scratch, PartForce, parts);
    march->trial = ARENA_NEW(scratch, PartForce, parts);
    march->alive = ARENA_NEW(scratch, unsigned char, parts);
    march->open_1 = ARENA_NEW(scratch, double, parts);
    march->trial_open_1 = ARENA_NEW(scratch, double, parts);
    march->relaxed_Pa = ARENA_NEW(scratch, double, parts);
    march->shim = ARENA_NEW(scratch, ShimState, stations);
    march->trial_shim = ARENA_NEW(scratch, ShimState, stations);
    march->support = ARENA_NEW(scratch, SupportState, model->support_count);
    march->gap = ARENA_NEW(scratch, GapState, model->gap_count);
    march->move = ARENA_NEW(scratch, double, march->n);
    march->load = ARENA_NEW(scratch, double, march->n);
    march->deck_weight_N = ARENA_NEW(scratch, double, stations);
    march->material = ARENA_NEW(scratch, StepMaterial, model->material_count);
    march->free.creep = ARENA_NEW(scratch, BarStrain, parts);
    march->free.shrinkage = ARENA_NEW(scratch, BarStrain, parts);
    march->free.relaxation = ARENA_NEW(scratch, BarStrain, parts);
    march->free.temperature = ARENA_NEW(scratch, BarStrain, parts);
    march->frame = frame_new(stations, scratch);
    march->change = ARENA_NEW(scratch, double, march->n);
    march->residual = ARENA_NEW(scratch, double, march->n);
    march->start_residual = ARENA_NEW(scratch, double, march->n);
    march->inner = ARENA_NEW(scratch, double, march->n);
    march->booked = ARENA_NEW(scratch, double, BOOKED_MAX * march->n);
    march->place = ARENA_NEW(scratch, BarPlace, parts);
    march->living = ARENA_NEW(scratch, int, parts);
    march->EA_N = ARENA_NEW(scratch, double, parts);
    march->EI_Nm2 = ARENA_NEW(scratch, double, parts);
    march->free_sum = ARENA_NEW(scratch, BarStrain, parts);
    for (int p = 0; p < parts; p++) {
        const Part *part = &model->part[p];
        march->place[p] = (BarPlace){part->element, (int)part->chain,
                                     model->x_m[part->element + 1] - model->x_m[part->element],
                                     part->from_height_m, part->to_height_m};
    }
    for (int s = 0; s < model->support_count; s++)
        march->support[s].active = model->support[s].from_phase < 0;
    creep_memory_make(march);
    if (settings->plain_history) {
        march->memory.kept_day = ARENA_NEW(scratch, double, step_count);
        march->memory.kept_force = ARENA_NEW(scratch, double, 3 * march->memory.count * step_count);
    }
    return march;
}

/* The history under construction: the same arrays, writable. */
typedef struct Record {
    StageHistory history;
    double *day, *gap_force, *gap_opening, *reaction, *reaction_x;
    int *event;
    PartForce *force;
    CauseForce *cause;
    unsigned char *alive;
    LinkState *link;
    NodeMove *move;
} Record;

static Record *record_new(const StageModel *model, int times, bool causes, Arena *arena)
{
    Record *r = ARENA_NEW(arena, Record, 1);
    const int stations = model->station_count;
    r->day = ARENA_NEW(arena, double, times);
    r->event = ARENA_NEW(arena, int, times);
    r->force = ARENA_NEW(arena, PartForce, times * model->part_count);
    r->alive = ARENA_NEW(arena, unsigned char, times * model->part_count);
    r->link = ARENA_NEW(arena, LinkState, times * stations);
    r->move = ARENA_NEW(arena, NodeMove, times * stations * 2);
    r->gap_force = ARENA_NEW(arena, double, times * model->gap_count);
    r->gap_opening = ARENA_NEW(arena, double, times * model->gap_count);
    r->reaction = ARENA_NEW(arena, double, times * model->support_count);
    r->reaction_x = ARENA_NEW(arena, double, times * model->support_count);
    if (causes) r->cause = ARENA_NEW(arena, CauseForce, times * CAUSE_COUNT * stations);
    r->history = (StageHistory){.model = model,
                                .time_count = times,
                                .day = r->day,
                                .event = r->event,
                                .force = r->force,
                                .alive = r->alive,
                                .link = r->link,
                                .move = r->move,
                                .gap_force_N = r->gap_force,
                                .gap_opening_m = r->gap_opening,
                                .reaction_N = r->reaction,
                                .reaction_x_N = r->reaction_x,
                                .deck_cause = r->cause};
    return r;
}

/* Compression across a gap: jacks, locked strut and whatever deck there is in its middle. */
static double gap_force(const March *march, int g)
{
    const Gap *gap = &march->model->gap[g];
    const int middle = (gap->left_station + gap->right_station - 1) / 2;
    double force = march->gap[g].jack_N + march->gap[g].strut_N;
    for (int p = 0; p < march->model->part_count; p++) {
        const Part *part = &march->model->part[p];
        if (march->alive[p] && part->chain == CHAIN_DECK && part->element == middle)
            force -= march->force[p].N;
    }
    return force;
}

static void record_time(Record *r, const March *march, const Step *step, int time)
{
    const StageModel *model = march->model;
    const size_t parts = (size_t)model->part_count, stations = (size_t)model->station_count;
    const size_t t = (size_t)time;
    r->day[time] = step->day;
    r->event[time] = step->last ? step->event : -1;
    memcpy(r->force + t * parts, march->force, parts * sizeof(PartForce));
    memcpy(r->alive + t * parts, march->alive, parts);
    memcpy(r->move + t * stations * 2, march->move, stations * 2 * sizeof(NodeMove));
    for (size_t i = 0; i < stations; i++) r->link[t * stations + i] = march->shim[i].now;
    for (int g = 0; g < model->gap_count; g++) {
        r->gap_force[time * model->gap_count + g] = gap_force(march, g);
        r->gap_opening[time * model->gap_count + g] = march->gap[g].opening_m;
    }
    for (int s = 0; s < model->support_count; s++) {
        r->reaction[time * model->support_count + s] = march->support[s].vertical_N;
        r->reaction_x[time * model->support_count + s] = march->support[s].horizontal_N;
    }
}

/* ---- look-ups for stresses ---- */

static const int *beam_table(const StageModel *model, Arena *arena)
{
    const int rows = 2 * model->station_count;
    int *beam = ARENA_NEW(arena, int, rows *STAGE_BEAMS);
    for (int i = 0; i < rows * STAGE_BEAMS; i++) beam[i] = -1;
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (!(model->section[part->section].inertia_m4 > 0)) continue;
        int *row = beam + ((int)part->chain * model->station_count + part->element) * STAGE_BEAMS;
        for (int k = 0; k < STAGE_BEAMS; k++)
            if (row[k] < 0) {
                row[k] = p;
                break;
            }
    }
    return beam;
}

static const unsigned char *break_table(const StageModel *model, Arena *arena)
{
    unsigned char *at = ARENA_NEW(arena, unsigned char, model->station_count);
    for (int s = 0; s < model->support_count; s++) at[model->support[s].station] = 1;
    for (int g = 0; g < model->gap_count; g++)
        at[model->gap[g].left_station] = at[model->gap[g].right_station] = 1;
    for (int e = 0; e < model->event_count; e++)
        if (model->event[e].kind == EVENT_BOND)
            at[model->event[e].from_station] = at[model->event[e].to_station] = 1;
    return at;
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

static Status take_step(March *march, const Step *step, CauseForce *cause, Error *err)
{
    double strut_change[FRAME_STRUTS] = {0};
    const Event *event = step->event >= 0 ? &march->model->event[step->event] : NULL;
    march->day = step->day;
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

Status stage_run(const StageModel *model, const StageSettings *settings, Arena *result,
                 Arena *scratch, const StageHistory **history, Error *err)
{
    const Step *step;
    int count;
    TRY(check_model(model, err));
    TRY(plan_make(model, settings, scratch, &step, &count, err));
    March *march = march_new(model, settings, count, scratch);
    Record *record = record_new(model, count, !settings->leave_causes, result);
    const size_t row = (size_t)(CAUSE_COUNT * model->station_count);
    for (int k = 0; k < count; k++) {
        CauseForce *cause = record->cause ? record->cause + (size_t)k * row : NULL;
        if (cause && k > 0) memcpy(cause, cause - row, row * sizeof *cause);
        TRY(take_step(march, &step[k], cause, err));
        record_time(record, march, &step[k], k);
    }
    record->history.beam = beam_table(model, result);
    record->history.break_ = break_table(model, result);
    record->history.worst_residual_1 = march->worst_residual_1;
    record->history.factorisations = march->factorisations;
    record->history.newton_steps = march->newton_steps;
    *history = &record->history;
    return STATUS_OK;
}

int stage_time_named(const StageHistory *history, const char *name)
{
    for (int t = 0; t < history->time_count; t++) {
        const int e = history->event[t];
        if (e >= 0 && history->model->event[e].name &&
            strcmp(history->model->event[e].name, name) == 0)
            return t;
    }
    return -1;
}
