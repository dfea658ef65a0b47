/* The plan: events in their order, and between them intervals that grow geometrically. */
#include <math.h>

#include "march.h"

static const char *name_of(const Event *event) { return event->name ? event->name : "(no name)"; }

static bool in_range(int index, int count) { return index >= 0 && index < count; }

static Status check_numbers(const Event *event, Error *err)
{
    const double number[] = {event->day, event->line_load_N_per_m, event->thrust_N,
                             event->change_K};
    for (size_t k = 0; k < sizeof number / sizeof *number; k++)
        if (!isfinite(number[k]))
            return error_set(err, STATUS_BAD_INPUT, "event '%s' has a value that is no number",
                             name_of(event));
    const int lowest = event->kind == EVENT_TEMPERATURE ? -1 : 0;
    if (event->chain < lowest || event->chain > CHAIN_DECK)
        return error_set(err, STATUS_BAD_INPUT, "event '%s' names chain %d of 2", name_of(event),
                         event->chain);
    return STATUS_OK;
}

static bool names_gap(const Event *event)
{
    return event->kind == EVENT_JACK || event->kind == EVENT_LOCK || event->kind == EVENT_RELEASE ||
           (event->kind == EVENT_TEMPERATURE && event->chain < 0);
}

static Status check_event(const StageModel *model, int i, Error *err)
{
    const Event *event = &model->event[i];
    const bool gap = names_gap(event);
    const bool range =
        event->kind == EVENT_LOAD || event->kind == EVENT_BOND || event->kind == EVENT_SHIMS_EMPTY;
    TRY(check_numbers(event, err));
    if (i > 0 && event->day < model->event[i - 1].day)
        return error_set(err, STATUS_BAD_INPUT,
                         "event '%s' on day %g comes after day %g: order the events by day",
                         name_of(event), event->day, model->event[i - 1].day);
    if (gap && !in_range(event->gap, model->gap_count))
        return error_set(err, STATUS_BAD_INPUT, "event '%s' names gap %d of %d", name_of(event),
                         event->gap, model->gap_count);
    if (range && (!in_range(event->from_station, model->station_count) ||
                  !in_range(event->to_station, model->station_count) ||
                  event->from_station > event->to_station))
        return error_set(err, STATUS_BAD_INPUT, "event '%s' names stations %d to %d of %d",
                         name_of(event), event->from_station, event->to_station,
                         model->station_count);
    return STATUS_OK;
}

static int event_steps(const Event *event)
{
    const int steps = event->steps > 1 ? event->steps : 1;
    if (event->kind == EVENT_TENDON) return steps + 1; /* bonded after the last */
    return event->kind == EVENT_JACK ? steps : 1;
}

/* Writes the intervals from..to, the first of *length; returns how many. out NULL: only counts. */
static int intervals(double from, double to, double growth, double *next_length, Step *out)
{
    int count = 0;
    double day = from, length = *next_length;
    while (day < to) {
        /* a rest shorter than half a step is taken along */
        const double next = day + 1.5 * length >= to ? to : day + length;
        if (out)
            out[count] =
                (Step){.event = -1, .from_day = day, .day = next, .part_1 = 1, .last = true};
        count++;
        day = next;
        length *= growth;
    }
    *next_length = length;
    return count;
}

static int lay_out(const StageModel *model, const StageSettings *settings, Step *out)
{
    int count = 0;
    double day = model->event[0].day, length = settings->first_step_day;
    for (int e = 0; e < model->event_count; e++) {
        const Event *event = &model->event[e];
        count +=
            intervals(day, event->day, settings->step_growth_1, &length, out ? out + count : NULL);
        day = event->day;
        /* a change is followed by short steps again; a mere note is not */
        if (event->kind != EVENT_NOTE) length = settings->first_step_day;
        const int parts = event_steps(event);
        for (int k = 1; k <= parts; k++, count++)
            if (out) out[count] = (Step){e, day, day, (double)k / parts, k == parts};
    }
    return count;
}

Status plan_make(const StageModel *model, const StageSettings *settings, Arena *arena,
                 const Step **step, int *step_count, Error *err)
{
    if (model->event_count < 1)
        return error_set(err, STATUS_BAD_INPUT, "the model has no events: nothing would happen");
    if (!(settings->first_step_day > 0) || !(settings->step_growth_1 >= 1))
        return error_set(err, STATUS_BAD_INPUT,
                         "steps start with %g day and grow by %g: more than 0, at least 1",
                         settings->first_step_day, settings->step_growth_1);
    for (int e = 0; e < model->event_count; e++) TRY(check_event(model, e, err));
    const int count = lay_out(model, settings, NULL);
    Step *plan = ARENA_NEW(arena, Step, count);
    lay_out(model, settings, plan);
    *step = plan;
    *step_count = count;
    return STATUS_OK;
}
