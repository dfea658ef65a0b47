/* Steps, stages and holds of the day. */
#include <math.h>

#include "work.h"

/* Common practice, no source; the ends of the stages come in between. */
static const double usual_1[] = {0.10, 0.25, 0.50, 0.75, 0.90, 1.00};
enum { USUAL = sizeof usual_1 / sizeof *usual_1, PARTS = 4 };
static const double near_1 = 1e-9;

typedef struct Stages {
    double end_1[8];
    int count;
} Stages;

static Stages stages_read(const Work *work)
{
    Stages stages = {{0.6, 1.0}, 2};
    const int given = jack_list_count(work, "jacking.stages", "");
    for (int i = 0; i < given; i++)
        stages.end_1[i] = jack_value_in(work, "jacking.stages", i + 1, "");
    if (given > 0) stages.count = given;
    return stages;
}

/* A usual share right beside the end of a stage gives way to it. */
static bool beside_stage(const Stages *stages, double share_1)
{
    for (int i = 0; i < stages->count; i++)
        if (fabs(stages->end_1[i] - share_1) < 0.045) return true;
    return false;
}

static void step_insert(JackPlan *plan, double share_1)
{
    int at = plan->step_count++;
    for (; at > 0 && plan->step[at - 1].share_1 > share_1; at--)
        plan->step[at] = plan->step[at - 1];
    plan->step[at] = (JackStep){.share_1 = share_1, .hold_day = NAN};
}

static void steps_choose(const Work *work, const Stages *stages)
{
    JackPlan *plan = work->plan;
    const int given = jack_list_count(work, "jacking.steps", "share");
    for (int i = 0; i < given; i++)
        plan->step[plan->step_count++] =
            (JackStep){.share_1 = jack_value_in(work, "jacking.steps", i + 1, "share"),
                       .hold_day = jack_value_in(work, "jacking.steps", i + 1, "hold")};
    if (given > 0) return;
    for (int i = 0; i < USUAL; i++)
        if (!beside_stage(stages, usual_1[i])) step_insert(plan, usual_1[i]);
    for (int i = 0; i < stages->count; i++) step_insert(plan, stages->end_1[i]);
}

/* The stage that a step belongs to, and whether it is its end: the last step that does not go beyond. */
static void stages_mark(const Work *work, const Stages *stages)
{
    JackPlan *plan = work->plan;
    int stage = 0;
    for (int i = 0; i < plan->step_count; i++) {
        JackStep *step = &plan->step[i];
        while (stage + 1 < stages->count && step->share_1 > stages->end_1[stage] + near_1) stage++;
        step->stage = stage + 1;
        step->last = i == plan->step_count - 1;
        step->stage_end = step->last || (step->share_1 > stages->end_1[stage] - near_1 &&
                                         plan->step[i + 1].share_1 > stages->end_1[stage] + near_1);
        if (!isnan(step->hold_day)) continue;
        step->hold_day = jack_value(work, step->last        ? "jacking.last_hold"
                                          : step->stage_end ? "jacking.stage_hold"
                                                            : "jacking.step_hold");
    }
}

static void forces_set(const Work *work)
{
    JackPlan *plan = work->plan;
    const double pumping_day = jack_value(work, "jacking.pumping");
    double share_1 = 0, day = 0;
    for (int i = 0; i < plan->step_count; i++) {
        JackStep *step = &plan->step[i];
        step->force_N = step->share_1 * plan->thrust_N;
        step->jack_N = step->force_N / plan->gear.count;
        step->pressure_Pa = jack_pressure_Pa(&plan->gear, step->jack_N);
        step->pump_day = fabs(step->share_1 - share_1) * pumping_day;
        step->reached_day = day + step->pump_day;
        step->gauge_error_N = jack_force_error_N(&plan->gear, step->force_N);
        day = step->reached_day + step->hold_day;
        share_1 = step->share_1;
    }
    plan->highest_1 = 1;
    for (int i = 0; i < plan->step_count; i++)
        plan->highest_1 = fmax(plan->highest_1, plan->step[i].share_1);
    plan->work_day = day;
}

static void points_set(Work *work)
{
    const JackPlan *plan = work->plan;
    Ladder *ladder = &work->ladder;
    double share_1 = 0;
    for (int i = 0; i < plan->step_count; i++) {
        const JackStep *step = &plan->step[i];
        for (int k = 1; k <= PARTS; k++) {
            const int p = ladder->point_count++;
            ladder->share_1[p] = share_1 + (step->share_1 - share_1) * k / PARTS;
            ladder->wait_day[p] = step->pump_day / PARTS;
            ladder->step[p] = k == PARTS ? i : -1;
        }
        ladder->hold_day[i] = step->hold_day;
        share_1 = step->share_1;
    }
    ladder->step_count = plan->step_count;
}

void ladder_build(Work *work)
{
    const Stages stages = stages_read(work);
    steps_choose(work, &stages);
    stages_mark(work, &stages);
    forces_set(work);
    points_set(work);
}
