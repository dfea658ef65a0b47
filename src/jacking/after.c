/* What comes after a step is reached: holds, temperature on the locks, the way back and up again. */
#include <math.h>

#include "work.h"

/* All girders' force and the mean opening after each part of `then`. */
typedef struct After {
    double force_N[THEN_MAX], opening_m[THEN_MAX];
} After;

static Status then_run(const Work *work, const Variant *variant, const Then *then, After *after,
                       Error *err)
{
    LineRead *read = ARENA_NEW(work->arena, LineRead, JACK_LINES);
    double force_N[JACK_LINES], opening_m[JACK_LINES];
    for (int k = 0; k < work->line_count; k++)
        TRY(line_read(work, k, variant, then, &read[k], err));
    for (int i = 0; i < then->count; i++) {
        for (int k = 0; k < work->line_count; k++) {
            force_N[k] = read[k].then_N[i];
            opening_m[k] = read[k].then_m[i];
        }
        after->force_N[i] = over_lines(work, force_N);
        after->opening_m[i] = mean_lines(work, opening_m);
    }
    return STATUS_OK;
}

static void then_add(Then *then, ThenKind kind, double value)
{
    if (then->count == THEN_MAX) return;
    then->kind[then->count] = kind;
    then->value[then->count++] = value;
}

static int last_step(const Work *work) { return work->plan->step_count - 1; }

/* ---- the long hold ---- */

static Status hold_run(const Work *work, Error *err)
{
    JackPlan *plan = work->plan;
    const double until_day = jack_value(work, "jacking.long_hold");
    const double wanted_day[] = {1.0 / 24, 4.0 / 24, 12.0 / 24, until_day};
    double at_day = plan->step[last_step(work)].hold_day;
    Then then = {.from = last_step(work)};
    After after;
    plan->hold[plan->hold_count++] =
        (JackHold){at_day, plan->thrust_N - plan->step[last_step(work)].drop_N,
                   plan->thrust_N - plan->step[last_step(work)].drop_quick_N};
    for (size_t i = 0; i < sizeof wanted_day / sizeof *wanted_day; i++) {
        if (wanted_day[i] <= at_day || wanted_day[i] > until_day) continue;
        then_add(&then, THEN_WAIT, wanted_day[i] - at_day);
        at_day = wanted_day[i];
        plan->hold[plan->hold_count++] = (JackHold){at_day, 0, 0};
    }
    if (then.count == 0) return STATUS_OK;
    TRY(then_run(work, &work->middle, &then, &after, err));
    for (int i = 0; i < then.count; i++) plan->hold[i + 1].force_N = after.force_N[i];
    Variant quick = work->middle;
    quick.quick = true;
    TRY(then_run(work, &quick, &then, &after, err));
    for (int i = 0; i < then.count; i++)
        plan->hold[i + 1].quick_N = fmin(plan->hold[i + 1].force_N, after.force_N[i]);
    return STATUS_OK;
}

/* ---- temperature ---- */

static Status warm_run(const Work *work, double before_K, double after_K, double *force_N,
                       Error *err)
{
    Variant variant = work->middle;
    Then then = {.from = last_step(work)};
    After after;
    variant.warm_K = before_K;
    then_add(&then, THEN_WARM, after_K);
    TRY(then_run(work, &variant, &then, &after, err));
    *force_N = after.force_N[0];
    return STATUS_OK;
}

static Status warmth_run(const Work *work, Error *err)
{
    JackWarmth *w = &work->plan->warmth;
    const JackBand *all = &work->plan->step[last_step(work)].opening;
    TRY(warm_run(work, 0, w->swing_K, &w->locked_warm_N, err));
    TRY(warm_run(work, 0, -w->swing_K, &w->locked_cold_N, err));
    TRY(warm_run(work, w->window_K, -w->window_K, &w->later_warm_N, err));
    TRY(warm_run(work, -w->window_K, w->window_K, &w->later_cold_N, err));
    w->move_warm_m = -all->below_m[JACK_BAND_WARMTH]; /* a warmer deck closes the gap */
    w->move_cold_m = all->above_m[JACK_BAND_WARMTH];
    return STATUS_OK;
}

/* ---- the way back ---- */

static double seated_m(const JackPlan *plan)
{
    return (plan->seating_least_m + plan->seating_most_m) / 2;
}

/* Opening of a point of the first loading without the seating of joints, which is no friction. */
static double unseated_m(const JackPlan *plan, int point)
{
    const JackPoint *p = &plan->point[point];
    return p->opening.expected_m - seated_m(plan) * fmin(1, p->force_N / plan->seated_N);
}

/* Force of the first loading at such an opening; not a number beyond its ends. */
static double loading_force_N(const JackPlan *plan, double opening_m)
{
    for (int p = 1; p < plan->point_count; p++) {
        const JackPoint *from = &plan->point[p - 1], *to = &plan->point[p];
        const double from_m = unseated_m(plan, p - 1), to_m = unseated_m(plan, p);
        if (opening_m < from_m || opening_m > to_m) continue;
        const double part_1 = (opening_m - from_m) / (to_m - from_m);
        return from->force_N + part_1 * (to->force_N - from->force_N);
    }
    return NAN;
}

/* The shares of the steps before, from above, each once, and nothing at last. */
static int shares_down(const JackPlan *plan, int from, double share_1[])
{
    int count = 0;
    double below_1 = plan->step[from].share_1;
    for (;;) {
        double next_1 = 0;
        for (int i = 0; i < from; i++)
            if (plan->step[i].share_1 < below_1 - 1e-9)
                next_1 = fmax(next_1, plan->step[i].share_1);
        share_1[count++] = next_1;
        if (next_1 <= 0) return count;
        below_1 = next_1;
    }
}

static Status down_run(const Work *work, JackReturn *back, Error *err)
{
    const JackPlan *plan = work->plan;
    Then then = {.from = back->from_step};
    After after;
    back->count = shares_down(plan, back->from_step, back->share_1);
    for (int i = 0; i < back->count; i++) then_add(&then, THEN_JACK, back->share_1[i]);
    TRY(then_run(work, &work->middle, &then, &after, err));
    for (int i = 0; i < back->count; i++) {
        back->force_N[i] = back->share_1[i] * plan->thrust_N;
        back->pressure_Pa[i] = jack_pressure_Pa(&plan->gear, back->force_N[i] / plan->gear.count);
        back->opening_m[i] = after.opening_m[i] + seated_m(plan);
        back->loop_N[i] = 0.5 * (loading_force_N(plan, after.opening_m[i]) - back->force_N[i]);
    }
    return STATUS_OK;
}

/* Down to the end of the stage before, or to nothing, and up again. */
static Status again_run(const Work *work, JackReturn *back, Error *err)
{
    const JackPlan *plan = work->plan;
    Then then = {.from = back->from_step};
    After after;
    for (int i = 0; i < back->from_step; i++)
        if (plan->step[i].stage_end) back->again_1 = plan->step[i].share_1;
    then_add(&then, THEN_JACK, back->again_1);
    then_add(&then, THEN_JACK, plan->step[back->from_step].share_1);
    TRY(then_run(work, &work->middle, &then, &after, err));
    back->again_m = after.opening_m[1] + seated_m(plan);
    return STATUS_OK;
}

static Status returns_run(const Work *work, Error *err)
{
    JackPlan *plan = work->plan;
    for (int i = 0; i < plan->step_count && plan->return_count < JACK_RETURNS; i++) {
        if (!plan->step[i].stage_end) continue;
        JackReturn *back = &plan->back[plan->return_count++];
        back->from_step = i;
        TRY(down_run(work, back, err));
        TRY(again_run(work, back, err));
    }
    return STATUS_OK;
}

Status after_fill(Work *work, Error *err)
{
    TRY(hold_run(work, err));
    TRY(warmth_run(work, err));
    return returns_run(work, err);
}
