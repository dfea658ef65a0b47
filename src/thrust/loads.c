/* Live load and temperature gradient at every joint, on the structure of one moment. */
#include <math.h>

#include "trial.h"

static void live_at(const BridgeLine *line, LiveLines *lines, int joint, int side, JointLoad *load)
{
    const int station = thrust_joint_face(line, joint, side);
    const StageEffect effect[2] = {{CHAIN_DECK, station, side, true},
                                   {CHAIN_DECK, station, side, false}};
    bool done[2];
    LiveRange range[2];
    live_stress(lines, &line->live, effect, 2, range, done);
    load->there = done[0] && done[1];
    if (!load->there) return;
    load->live_top_max_Pa = line->lanes_1 * range[0].most;
    load->live_top_min_Pa = line->lanes_1 * range[0].least;
    load->live_bottom_max_Pa = line->lanes_1 * range[1].most;
    load->live_bottom_min_Pa = line->lanes_1 * range[1].least;
}

static void gradient_at(const BridgeLine *line, const LiveLines *lines, const Gradient *gradient,
                        bool cold, JointLoad *load, Arena *scratch)
{
    const int n = line->model.station_count;
    const size_t mark = arena_mark(scratch);
    FibreStress *deck = ARENA_NEW(scratch, FibreStress, 2 * n);
    FibreStress *girder = ARENA_NEW(scratch, FibreStress, 2 * n);
    stage_temperature(live_structure(lines), gradient->depth_m, gradient->rise_K, gradient->count,
                      deck, girder, scratch);
    for (int j = 0; j < line->joint_count; j++)
        for (int s = 0; s < 2; s++) {
            const FibreStress *at = &deck[2 * thrust_joint_face(line, j, s ? 1 : -1) + s];
            JointLoad *out = &load[2 * j + s];
            if (isnan(at->N_N)) continue;
            *(cold ? &out->cold_top_Pa : &out->warm_top_Pa) = at->top_Pa;
            *(cold ? &out->cold_bottom_Pa : &out->warm_bottom_Pa) = at->bottom_Pa;
        }
    arena_reset(scratch, mark);
}

Status loads_at(const BridgeLine *line, const StageHistory *history, int time, Arena *result,
                Arena *scratch, const JointLoad **load, Error *err)
{
    JointLoad *out = ARENA_NEW(result, JointLoad, 2 * line->joint_count);
    const size_t mark = arena_mark(scratch);
    LiveLines *lines;
    TRY(live_lines(line, history, time, scratch, &lines, err));
    for (int j = 0; j < line->joint_count; j++)
        for (int s = 0; s < 2; s++) live_at(line, lines, j, s ? 1 : -1, &out[2 * j + s]);
    gradient_at(line, lines, &line->cold, true, out, scratch);
    gradient_at(line, lines, &line->warm, false, out, scratch);
    arena_reset(scratch, mark);
    *load = out;
    return STATUS_OK;
}

static bool in_compression_only(const StageModel *model)
{
    for (int p = 0; p < model->part_count; p++)
        if (model->part[p].compression_only) return true;
    return false;
}

Status loads_renew(LineAnswer *answer, const StageHistory *history, Arena *result, Arena *scratch,
                   Error *err)
{
    const BridgeLine *line = answer->line;
    const Moments *m = &answer->moments;
    if (answer->open && !in_compression_only(&line->model)) return STATUS_OK;
    TRY(loads_at(line, history, m->opening, result, scratch, &answer->open, err));
    return loads_at(line, history, m->end, result, scratch, &answer->end, err);
}
