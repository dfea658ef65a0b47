/* The door: a run from its start, step by step, from a fork, or all at once. */
#include <string.h>

#include "record.h"

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
                           .newton_max = 300,
                           .creep_scale_1 = 1,
                           .shrinkage_scale_1 = 1};
}

struct StageRun {
    const StageModel *model;
    StageSettings settings;
    const Step *step;
    int step_count, next;
    March *march;
    Record *record;
};

Status stage_start(const StageModel *model, const StageSettings *settings, Arena *result,
                   Arena *scratch, StageRun **run, Error *err)
{
    StageRun *r = ARENA_NEW(scratch, StageRun, 1);
    TRY(model_check(model, err));
    TRY(plan_make(model, settings, scratch, &r->step, &r->step_count, err));
    r->model = model;
    r->settings = *settings;
    r->march = march_new(model, &r->settings, r->step_count, scratch);
    r->record = record_new(model, r->step_count, !settings->leave_causes, result);
    *run = r;
    return STATUS_OK;
}

StageRun *stage_fork(const StageRun *from, const StageModel *model, bool leave_causes,
                     Arena *result, Arena *scratch)
{
    StageRun *r = ARENA_NEW(scratch, StageRun, 1);
    *r = *from;
    r->model = model;
    r->settings.leave_causes = leave_causes || from->settings.leave_causes;
    r->march = march_copy(from->march, model, &r->settings, r->step_count, scratch);
    r->record = record_new(model, r->step_count, !r->settings.leave_causes, result);
    record_copy(r->record, from->record, r->next);
    return r;
}

bool stage_done(const StageRun *run) { return run->next == run->step_count; }

bool stage_next_is(const StageRun *run, EventKind kind)
{
    if (stage_done(run)) return false;
    const int event = run->step[run->next].event;
    return event >= 0 && run->model->event[event].kind == kind;
}

Status stage_step(StageRun *run, Error *err)
{
    const Step *step = &run->step[run->next];
    TRY(march_step(run->march, step, record_causes(run->record, run->next), err));
    record_time(run->record, run->march, step, run->next);
    run->next++;
    return STATUS_OK;
}

const StageHistory *stage_history(const StageRun *run)
{
    StageHistory *history = &run->record->history;
    history->worst_residual_1 = run->march->worst_residual_1;
    history->factorisations = run->march->factorisations;
    history->newton_steps = run->march->newton_steps;
    return history;
}

Status stage_run(const StageModel *model, const StageSettings *settings, Arena *result,
                 Arena *scratch, const StageHistory **history, Error *err)
{
    StageRun *run;
    TRY(stage_start(model, settings, result, scratch, &run, err));
    while (!stage_done(run)) TRY(stage_step(run, err));
    *history = stage_history(run);
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
