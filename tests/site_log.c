#include "site_log.h"

#include <string.h>

SiteCase site_shared;

int log_setup(void **state)
{
    (void)state;
    site_case_open(&site_shared);
    return 0;
}

int log_teardown(void **state)
{
    (void)state;
    site_case_close(&site_shared);
    return 0;
}

const char log_by_plan[] = "closed form: the plan's own line";

void log_force(SiteReading *r, double force_N)
{
    const JackGear *gear = &site_shared.day.plan->gear;
    for (int k = 0; k < JACK_SETS; k++)
        r->pressure_Pa[k] = jack_pressure_Pa(gear, force_N / gear->count);
}

void log_gap(SiteReading *r, double open_m)
{
    for (int p = 0; p < 4; p++) r->move_m[p] = 0.0123 * (p + 1) + open_m; /* dials start anywhere */
}

SiteReading *log_add(Log *log, int step, SitePhase phase, double force_N)
{
    SiteReading *r = &log->r[log->count++];
    const double open_m = jacking_expect(site_shared.day.plan, force_N).opening.expected_m;
    *r = (SiteReading){.time_day = (log->minute += 1) / 1440,
                       .step = step,
                       .phase = phase,
                       .deck_K = 287.6,
                       .girder_K = 287.1,
                       .cell_N = NAN};
    for (int p = 0; p < SITE_POINTS; p++) r->move_m[p] = NAN;
    log_force(r, force_N);
    log_gap(r, step == 0 ? 0 : log->slope_1 * open_m);
    r->move_m[4] = r->move_m[5] = 0;
    return r;
}

/* Up to the end of a step: four readings each. */
void log_climb(Log *log, int to_step)
{
    const JackPlan *plan = site_shared.day.plan;
    log_add(log, 0, SITE_PUMP, 0);
    for (int i = 0; i < to_step; i++) {
        const double from_N = i ? plan->step[i - 1].force_N : 0;
        for (int k = 1; k <= 4; k++)
            log_add(log, i + 1, SITE_PUMP, from_N + (plan->step[i].force_N - from_N) * k / 4);
    }
}

SiteVerdict log_judged(const Log *log)
{
    SiteVerdict v;
    site_judge(&site_shared.day, log->r, log->count, site_shared.scratch, &v);
    return v;
}

const SiteFinding *log_found(const SiteVerdict *v, SiteKind kind)
{
    for (int i = 0; i < v->finding_count; i++)
        if (v->finding[i].kind == kind) return &v->finding[i];
    return NULL;
}

bool log_may_be(const SiteVerdict *v, SiteCause cause)
{
    for (int i = 0; i < v->guess_count; i++)
        if (v->guess[i].cause == cause) return true;
    return false;
}

void log_hold(Log *log, int step, int readings, double fall_1, double closes_m, double warms_K)
{
    const JackPlan *plan = site_shared.day.plan;
    for (int i = 0; i < readings; i++) {
        const double part_1 = (double)i / (readings - 1);
        const double warm_N = ((plan->warmth.locked_warm_N - plan->warmth.locked_cold_N) /
                               (2 * plan->warmth.swing_K)) *
                              warms_K * part_1;
        SiteReading *r = log_add(log, step, SITE_HELD, plan->step[step - 1].force_N);
        log->minute += 1;
        log_force(r, plan->step[step - 1].force_N * (1 - fall_1 * part_1) + warm_N);
        for (int p = 0; p < 4; p++) r->move_m[p] -= closes_m * part_1;
        r->deck_K += warms_K * part_1;
    }
}
