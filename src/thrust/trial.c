#include "trial.h"

#include <math.h>
#include <string.h>

Status trial_base(const BridgeLine *line, const StageSettings *settings, Arena *arena,
                  Arena *scratch, TrialBase *base, Error *err)
{
    StageRun *run;
    TRY(stage_start(&line->model, settings, arena, arena, &run, err));
    while (!stage_done(run) && !stage_next_is(run, EVENT_JACK)) TRY(stage_step(run, err));
    *base = (TrialBase){line, run, scratch};
    return STATUS_OK;
}

static const StageModel *with_thrust(const BridgeLine *line, double thrust_N, Arena *arena)
{
    StageModel *model = ARENA_NEW(arena, StageModel, 1);
    Event *event = ARENA_NEW(arena, Event, line->model.event_count);
    memcpy(event, line->model.event, sizeof *event * (size_t)line->model.event_count);
    for (int e = 0; e < line->model.event_count; e++)
        if (event[e].kind == EVENT_JACK) event[e].thrust_N *= thrust_N / line->first_guess_N;
    *model = line->model;
    model->event = event;
    return model;
}

Status trial_run(const TrialBase *base, double thrust_N, bool leave_causes, Arena *result,
                 Trial *trial, Error *err)
{
    const size_t mark = arena_mark(base->scratch);
    const StageModel *model = with_thrust(base->line, thrust_N, result);
    StageRun *run = stage_fork(base->run, model, leave_causes, result, base->scratch);
    while (!stage_done(run)) TRY(stage_step(run, err));
    trial->history = stage_history(run);
    arena_reset(base->scratch, mark);
    trial->thrust_N = thrust_N;
    Moments moments;
    TRY(moments_find(base->line, trial->history, &moments, err));
    trial->joint = thrust_joint_stress(base->line, trial->history, &moments, result);
    return STATUS_OK;
}

const FibreStress *thrust_joint_stress(const BridgeLine *line, const StageHistory *history,
                                       const Moments *moments, Arena *arena)
{
    const int times = history->time_count;
    FibreStress *joint = ARENA_NEW(arena, FibreStress, 2 * line->joint_count * times);
    for (int j = 0; j < line->joint_count; j++) {
        const int only = thrust_joint_side(line, j);
        for (int s = 0; s < 2; s++)
            for (int t = moments->jacked; t <= moments->end; t++) {
                const int side = s ? 1 : -1;
                FibreStress *out = &joint[(2 * j + s) * times + t];
                if ((only != 0 && side != only) ||
                    !stage_stress(history, t, CHAIN_DECK, thrust_joint_face(line, j, side), side,
                                  out))
                    out->N_N = NAN;
            }
    }
    return joint;
}

static Status moment_named(const StageHistory *history, const char *name, int *time, Error *err)
{
    const int found = stage_time_named(history, name);
    if (found < 0)
        return error_set(err, STATUS_BAD_INPUT, "the stages have no moment named '%s'", name);
    *time = found;
    return STATUS_OK;
}

Status moments_find(const BridgeLine *line, const StageHistory *history, Moments *moments,
                    Error *err)
{
    Moments found;
    TRY(moment_named(history, line->jacked, &found.jacked, err));
    TRY(moment_named(history, line->bonded, &found.bonded, err));
    TRY(moment_named(history, line->opening, &found.opening, err));
    TRY(moment_named(history, line->end, &found.end, err));
    *moments = found;
    return STATUS_OK;
}

int thrust_joint_station(const BridgeLine *line, int joint)
{
    return line->joint[joint].station + line->joint[joint].away;
}

int thrust_joint_face(const BridgeLine *line, int joint, int side)
{
    return thrust_joint_station(line, joint) + (side > 0 ? line->joint[joint].wide : 0);
}

int thrust_joint_side(const BridgeLine *line, int joint)
{
    const StageModel *model = &line->model;
    if (line->way != WAY_THRUST) return 0; /* no anchors, no gap */
    const int station = line->joint[joint].station;
    for (int g = 0; g < model->gap_count; g++) {
        if (station == model->gap[g].left_station) return -1;
        if (station == model->gap[g].right_station) return 1;
    }
    for (int e = 0; e < model->event_count; e++) {
        const Event *event = &model->event[e];
        if (event->kind == EVENT_JACK) break; /* what is bonded before are the anchors */
        if (event->kind != EVENT_BOND) continue;
        if (station == event->to_station) return 1;
        if (station == event->from_station) return -1;
    }
    return 0;
}
