#include "trial.h"

#include <string.h>

Status trial_run(const BridgeLine *line, double thrust_N, const StageSettings *settings,
                 Arena *result, Arena *scratch, Trial *trial, Error *err)
{
    StageModel *model = ARENA_NEW(result, StageModel, 1);
    Event *event = ARENA_NEW(result, Event, line->model.event_count);
    memcpy(event, line->model.event, sizeof *event * (size_t)line->model.event_count);
    for (int e = 0; e < line->model.event_count; e++)
        if (event[e].kind == EVENT_JACK) event[e].thrust_N *= thrust_N / line->first_guess_N;
    *model = line->model;
    model->event = event;
    const size_t mark = arena_mark(scratch);
    TRY(stage_run(model, settings, result, scratch, &trial->history, err));
    arena_reset(scratch, mark);
    trial->thrust_N = thrust_N;
    return STATUS_OK;
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
