/* The deck at another thrust, and what a history says besides rules and limits. */
#include <math.h>

#include "trial.h"

struct ThrustStart {
    TrialBase base;
};

Status thrust_start(const BridgeLine *line, const StageSettings *settings, Arena *arena,
                    Arena *scratch, const ThrustStart **start, Error *err)
{
    ThrustStart *out = ARENA_NEW(arena, ThrustStart, 1);
    TRY(trial_base(line, settings, arena, scratch, &out->base, err));
    *start = out;
    return STATUS_OK;
}

/* The second beam in the middle of the first gap, at the end of life. */
static void describe_fill(LineAnswer *answer)
{
    const StageModel *model = answer->history->model;
    answer->fill_top_Pa = answer->fill_bottom_Pa = NAN;
    if (model->gap_count < 1) return;
    const int middle = (model->gap[0].left_station + model->gap[0].right_station) / 2;
    const int p = answer->history->beam[(model->station_count + middle) * STAGE_BEAMS + 1];
    if (p < 0) return;
    const PartSection *section = &model->section[model->part[p].section];
    const PartForce *force =
        &answer->history
             ->force[(size_t)answer->moments.end * (size_t)model->part_count + (size_t)p];
    const double mean = force->N / section->area_m2;
    const double bend = 0.5 * (force->M_from + force->M_to) / section->inertia_m4;
    answer->fill_top_Pa = mean - bend * section->top_m;
    answer->fill_bottom_Pa = mean + bend * section->bottom_m;
}

void thrust_describe(LineAnswer *answer)
{
    const StageHistory *history = answer->history;
    const StageModel *model = history->model;
    const Moments *m = &answer->moments;
    answer->average_Pa = answer->thrust_N / (answer->line->width_m * model->deck_thickness_m);
    answer->gap_movement_m = answer->anchor_force_N = 0;
    for (int g = 0; g < model->gap_count; g++)
        answer->gap_movement_m =
            fmax(answer->gap_movement_m, history->gap_opening_m[m->jacked * model->gap_count + g]);
    for (int j = 0; j < answer->line->joint_count; j++)
        if (answer->line->joint[j].at_anchor)
            answer->anchor_force_N =
                fmax(answer->anchor_force_N,
                     stage_deck_compression_N(history, m->jacked, answer->line->joint[j].station,
                                              thrust_joint_side(answer->line, j)));
    describe_fill(answer);
    if (answer->need_rule < 0) return;
    const Governing *at = &answer->rule[answer->need_rule].at;
    answer->jacked = thrust_split(answer, at->joint, at->side, m->jacked);
    answer->opening = thrust_split(answer, at->joint, at->side, m->opening);
    answer->finish = thrust_split(answer, at->joint, at->side, m->end);
}

bool thrust_met(const ThrustAnswer *answer)
{
    return answer->reachable &&
           answer->thrust_N >= fmax(answer->need_N, answer->least_N) * (1 - settled_1) &&
           answer->thrust_N <= answer->most_N * (1 + settled_1);
}

Status thrust_again(const ThrustAnswer *from, const ThrustStart *const *start, double whole_N,
                    Arena *result, Arena *scratch, const ThrustAnswer **answer, Error *err)
{
    ThrustAnswer *out = ARENA_NEW(result, ThrustAnswer, 1);
    *out = *from;
    out->given = true;
    out->thrust_N = whole_N;
    out->runs = (from->given ? from->runs : from->runs + from->line_count);
    for (int k = 0; k < from->line_count; k++) {
        TrialBase base = start[k]->base;
        Trial trial = {0};
        base.scratch = scratch;
        out->line[k].thrust_N = whole_N * out->line[k].line->share_1;
        TRY(trial_run(&base, out->line[k].thrust_N, false, result, &trial, err));
        out->line[k].history = trial.history;
        out->line[k].joint_stress = trial.joint;
        TRY(loads_renew(&out->line[k], trial.history, result, scratch, err));
        thrust_describe(&out->line[k]);
    }
    out->met = thrust_met(out);
    *answer = out;
    return STATUS_OK;
}

Status thrust_follow(const BridgeLine *line, const StageSettings *settings, double average_Pa,
                     Arena *result, Arena *scratch, LineAnswer *answer, Error *err)
{
    const size_t mark = arena_mark(scratch);
    const Status status = stage_run(&line->model, settings, result, scratch, &answer->history, err);
    arena_reset(scratch, mark);
    TRY(status);
    TRY(traffic_check(&line->live, err));
    answer->line = line;
    answer->average_Pa = average_Pa;
    answer->need_rule = answer->most_limit = answer->most_rule = -1;
    answer->fill_top_Pa = answer->fill_bottom_Pa = NAN;
    TRY(moments_find(line, answer->history, &answer->moments, err));
    answer->joint_stress = thrust_joint_stress(line, answer->history, &answer->moments, result);
    return loads_renew(answer, answer->history, result, scratch, err);
}
