/* Private to stages: which elements speak for a station. */
#ifndef CLENCH_STAGES_STRESS_H
#define CLENCH_STAGES_STRESS_H

#include "clench/stages.h"

/* value at the station = near_1 * mean of near_part + far_1 * mean of far_part */
typedef struct StressReach {
    int near_part, far_part;
    double near_1, far_1;
} StressReach;

bool stress_reach(const StageHistory *history, int time, Chain chain, int station, int side,
                  StressReach *reach);
FibreStress stress_of(const PartSection *section, double N_N, double M_Nm);

#endif
