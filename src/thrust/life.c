/* One life of a line without a search, for those who run many. */
#include <math.h>

#include "trial.h"

/* The second run stands this much higher: far enough for a slope, near enough for the same slip. */
static const double second_1 = 1.15;

Status thrust_life(const BridgeLine *line, double thrust_N, const StageSettings *settings,
                   Arena *arena, Arena *scratch, LineAnswer *answer, Error *err)
{
    StageSettings plain = *settings;
    TrialBase base;
    Trial at = {0}, higher = {0};
    LineAnswer out = {.line = line, .thrust_N = thrust_N};
    plain.leave_causes = true;
    TRY(trial_base(line, &plain, arena, scratch, &base, err));
    TRY(trial_run(&base, thrust_N, true, arena, &at, err));
    TRY(trial_run(&base, second_1 * thrust_N, true, arena, &higher, err));
    out.history = at.history;
    out.joint_stress = at.joint;
    TRY(moments_find(line, at.history, &out.moments, err));
    TRY(loads_renew(&out, at.history, arena, scratch, err));
    rules_judge(&out, &out.moments, &at, &higher);
    if (!out.reachable) out.need_N = INFINITY;
    *answer = out;
    return STATUS_OK;
}
