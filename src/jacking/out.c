/* A jack shut off, alone or with its partner on the other side, and the thrust kept. The deck across its
 * width as a beam lying flat for the stress, and as a stiff plate before the girder lines as springs for
 * the gap: both are the safe side for what they are asked. docs/theory/jacking.md. */
#include <math.h>

#include "work.h"

/* Angle by which the gap opens more to the right under a moment about the vertical: each girder a spring
 * as stiff as its line at the whole thrust. */
static double turn_per_Nm(const Work *work)
{
    const JackPlan *plan = work->plan;
    const int last = plan->step_count - 1;
    const int count = (int)lround(jack_value(work, "girders.count"));
    const double apart_m = jack_value(work, "girders.spacing");
    double stiffness_Nm = 0;
    for (int g = 0; g < count; g++) {
        const bool outer = g == 0 || g == count - 1;
        const JackLine *line = &plan->line[outer ? plan->line_count - 1 : 0];
        const double across_m = (g - 0.5 * (count - 1)) * apart_m;
        stiffness_Nm += line->thrust_N / line->opening_m[last] * across_m * across_m;
    }
    return 1 / stiffness_Nm;
}

static void off_middle(const Work *work, double off_m, JackOut *out)
{
    const JackPlan *plan = work->plan;
    const double mean_Pa = plan->thrust_N / (plan->width_m * plan->thickness_m);
    const double bend_Pa =
        plan->thrust_N * fabs(off_m) / (plan->thickness_m * plan->width_m * plan->width_m / 6);
    out->off_m = off_m;
    out->edge_least_Pa = mean_Pa - bend_Pa;
    out->edge_most_Pa = mean_Pa + bend_Pa;
    out->tilt_m = plan->thrust_N * off_m * turn_per_Nm(work) * plan->width_m;
}

static JackOut out_make(const Work *work, int jack, int partner)
{
    const JackGear *gear = &work->plan->gear;
    const int left = gear->count - (partner < 0 ? 1 : 2);
    JackOut out = {.jack = jack,
                   .partner = partner,
                   .jack_N = work->plan->highest_1 * work->plan->thrust_N / left};
    double sum_m = 0;
    for (int i = 0; i < gear->count; i++)
        if (i != jack && i != partner) sum_m += gear->across_m[i];
    out.pressure_Pa = jack_pressure_Pa(gear, out.jack_N);
    off_middle(work, sum_m / left, &out);
    if (out.jack_N > gear->use_1 * gear->rated_N ||
        out.jack_N * jack_value(work, "jacks.one_out_margin") > gear->rated_N)
        out.why |= JACK_OUT_FORCE;
    if (out.pressure_Pa > gear->use_1 * gear->highest_Pa) out.why |= JACK_OUT_PRESSURE;
    if (out.edge_least_Pa <= 0) out.why |= JACK_OUT_EDGE;
    if (fabs(out.tilt_m) > work->plan->alarm.sides_m) out.why |= JACK_OUT_TILT;
    out.may = out.why == 0;
    return out;
}

Status out_fill(Work *work, Error *err)
{
    JackPlan *plan = work->plan;
    const int n = plan->gear.count;
    JackOut all = {0};
    double sum_m = 0;
    (void)err;
    for (int i = 0; i < n; i++) sum_m += plan->gear.across_m[i];
    off_middle(work, sum_m / n, &all);
    plan->off_m = all.off_m;
    plan->tilt_m = all.tilt_m;
    plan->out = ARENA_NEW(work->arena, JackOut, 2 * n);
    for (int i = 0; i < n && n > 1; i++) plan->out[plan->out_count++] = out_make(work, i, -1);
    for (int i = 0; i < n / 2 && n > 2; i++)
        plan->out[plan->out_count++] = out_make(work, i, n - 1 - i);
    return STATUS_OK;
}
