/* What gave a joint its stress: every cause's share, which add up to the state. */
#include "trial.h"

Split thrust_split(const LineAnswer *answer, int joint, int side, int time)
{
    const StageHistory *history = answer->history;
    Split split = {.joint = joint, .side = side, .time = time};
    const int station = thrust_joint_face(answer->line, joint, side);
    FibreStress fibre;
    for (int c = 0; c < CAUSE_COUNT; c++) {
        if (!stage_stress_by_cause(history, time, (Cause)c, station, side, &fibre)) continue;
        split.top_Pa[c] = fibre.top_Pa;
        split.bottom_Pa[c] = fibre.bottom_Pa;
        split.mean_Pa[c] = 0.5 * (fibre.top_Pa + fibre.bottom_Pa);
    }
    if (stage_stress(history, time, CHAIN_DECK, station, side, &fibre)) {
        split.top_total_Pa = fibre.top_Pa;
        split.bottom_total_Pa = fibre.bottom_Pa;
        split.mean_total_Pa = 0.5 * (fibre.top_Pa + fibre.bottom_Pa);
    }
    return split;
}
