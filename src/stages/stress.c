/* Stresses at stations from element means. N of an element is constant and jumps at every link;
 * means carried on straight from each side converge with the square of the mesh, values at nodes do
 * not (docs/theory.md "Stress at a station"). */
#include <stddef.h>

#include "stress.h"

/* The part of an element that speaks for the chain: the first alive beam. -1: none. */
static int speaker(const StageHistory *history, int time, Chain chain, int element)
{
    const StageModel *model = history->model;
    if (element < 0 || element + 1 >= model->station_count) return -1;
    const int *row =
        history->beam + ((ptrdiff_t)chain * model->station_count + element) * STAGE_BEAMS;
    for (int k = 0; k < STAGE_BEAMS && row[k] >= 0; k++)
        if (history->alive[(size_t)time * (size_t)model->part_count + (size_t)row[k]])
            return row[k];
    return -1;
}

bool stress_reach(const StageHistory *history, int time, Chain chain, int station, int side,
                  StressReach *reach)
{
    const StageModel *model = history->model;
    const int near = side < 0 ? station - 1 : station, far = near + side;
    const int between = side < 0 ? near : far; /* station between the two elements */
    const int p = speaker(history, time, chain, near);
    if (p < 0) return false;
    *reach = (StressReach){p, p, 1, 0};
    const int q = speaker(history, time, chain, far);
    if (q < 0 || history->break_[between] || model->part[p].material != model->part[q].material ||
        model->part[p].section != model->part[q].section)
        return true;
    const double a = model->x_m[near + 1] - model->x_m[near],
                 b = model->x_m[far + 1] - model->x_m[far];
    reach->far_part = q;
    reach->near_1 = 1 + a / (a + b);
    reach->far_1 = -a / (a + b);
    return true;
}

FibreStress stress_of(const PartSection *section, double N, double M)
{
    return (FibreStress){
        .top_Pa = N / section->area_m2 - M * section->top_m / section->inertia_m4,
        .bottom_Pa = N / section->area_m2 + M * section->bottom_m / section->inertia_m4,
        .N_N = N,
        .M_Nm = M,
    };
}

static CauseForce mean_of(const PartForce *force)
{
    return (CauseForce){force->N, 0.5 * (force->M_from + force->M_to)};
}

static FibreStress carried(const StageModel *model, const StressReach *reach, CauseForce near,
                           CauseForce far)
{
    const double N = reach->near_1 * near.N_N + reach->far_1 * far.N_N;
    const double M = reach->near_1 * near.M_Nm + reach->far_1 * far.M_Nm;
    return stress_of(&model->section[model->part[reach->near_part].section], N, M);
}

int stage_part(const StageHistory *history, int time, Chain chain, int station, int side)
{
    return speaker(history, time, chain, side < 0 ? station - 1 : station);
}

bool stage_stress(const StageHistory *history, int time, Chain chain, int station, int side,
                  FibreStress *stress)
{
    StressReach reach;
    if (!stress_reach(history, time, chain, station, side, &reach)) return false;
    const PartForce *force = history->force + (size_t)time * (size_t)history->model->part_count;
    *stress = carried(history->model, &reach, mean_of(&force[reach.near_part]),
                      mean_of(&force[reach.far_part]));
    return true;
}

bool stage_stress_by_cause(const StageHistory *history, int time, Cause cause, int station,
                           int side, FibreStress *stress)
{
    const StageModel *model = history->model;
    StressReach reach;
    if (!history->deck_cause || !stress_reach(history, time, CHAIN_DECK, station, side, &reach))
        return false;
    const CauseForce *by_element =
        history->deck_cause + ((size_t)time * CAUSE_COUNT + cause) * (size_t)model->station_count;
    *stress = carried(model, &reach, by_element[model->part[reach.near_part].element],
                      by_element[model->part[reach.far_part].element]);
    return true;
}

double stage_deck_compression_N(const StageHistory *history, int time, int station, int side)
{
    const StageModel *model = history->model;
    const int element = side < 0 ? station - 1 : station;
    if (element < 0 || element + 1 >= model->station_count) return 0;
    const int *row =
        history->beam + ((ptrdiff_t)CHAIN_DECK * model->station_count + element) * STAGE_BEAMS;
    double sum = 0;
    for (int k = 0; k < STAGE_BEAMS && row[k] >= 0; k++)
        sum -= history->force[(size_t)time * (size_t)model->part_count + (size_t)row[k]].N;
    return sum;
}
