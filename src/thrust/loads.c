/* Live load and temperature gradient at every joint, on the structure of one moment. */
#include <math.h>
#include <stddef.h>

#include "trial.h"

enum { ZONES = 32 };

typedef struct Lines {
    const StageStructure *structure;
    int zone_count;
    double zone_m[ZONES][2];
    double *value, *work, *scan; /* unit: Pa/N and as traffic wants */
} Lines;

/* A uniform load that stands for the live load on a pier: the lane and the heaviest vehicle with
 * impact on each span. It only decides how far strips at a pier that gape are closed. */
static double usual_live(const BridgeLine *line)
{
    const StageModel *model = &line->model;
    const double length = model->x_m[model->station_count - 1] - model->x_m[0];
    const int spans = model->support_count > 2 ? model->support_count - 1 : 1;
    double heaviest = 0;
    for (int v = 0; v < line->live.vehicle_count; v++) {
        double weight = 0;
        for (int a = 0; a < line->live.vehicle[v].axle_count; a++)
            weight += line->live.vehicle[v].axle_N[a];
        heaviest = fmax(heaviest, weight);
    }
    return line->lanes_1 *
           (line->live.lane_N_per_m + (1 + line->live.impact_ratio) * heaviest * spans / length);
}

static Status lines_start(const BridgeLine *line, const StageHistory *history, int time,
                          Arena *scratch, Lines *lines, Error *err)
{
    const int n = line->model.station_count;
    TRY(stage_structure(history, time, usual_live(line), scratch, &lines->structure, err));
    lines->value = ARENA_NEW(scratch, double, 4 * n);
    lines->work = ARENA_NEW(scratch, double, 24 * n);
    lines->scan = ARENA_NEW(scratch, double, 8 * (n + 2));
    double *moment = ARENA_NEW(scratch, double, n);
    stage_uniform_moment(lines->structure, moment, lines->work);
    lines->zone_count = traffic_negative_zones(line->model.x_m, moment, n, lines->zone_m, ZONES);
    return STATUS_OK;
}

static bool in_zone(const Lines *lines, double x_m)
{
    for (int z = 0; z < lines->zone_count; z++)
        if (x_m >= lines->zone_m[z][0] && x_m <= lines->zone_m[z][1]) return true;
    return false;
}

/* Negative moment puts the whole deck in tension: the two-truck rule goes with sign +1. */
static void live_at(const BridgeLine *line, Lines *lines, int joint, int side, JointLoad *load)
{
    const int n = line->model.station_count, station = line->joint[joint].station;
    const StageEffect effect[2] = {{CHAIN_DECK, station, side, true},
                                   {CHAIN_DECK, station, side, false}};
    bool done[2];
    stage_influence(lines->structure, effect, 2, lines->value, done, lines->work);
    load->there = done[0] && done[1];
    if (!load->there) return;
    const bool train = in_zone(lines, line->model.x_m[station]);
    double extreme[2][2];
    for (int fibre = 0; fibre < 2; fibre++)
        for (int k = 0; k < 2; k++) {
            const InfluenceLine influence = {n, line->model.x_m,
                                             lines->value + (ptrdiff_t)fibre * n};
            const int sign = k == 0 ? 1 : -1;
            extreme[fibre][k] = line->lanes_1 * traffic_extreme(&line->live, &influence, sign,
                                                                train && sign > 0, lines->scan)
                                                    .value;
        }
    load->live_top_max_Pa = extreme[0][0];
    load->live_top_min_Pa = extreme[0][1];
    load->live_bottom_max_Pa = extreme[1][0];
    load->live_bottom_min_Pa = extreme[1][1];
}

static void gradient_at(const BridgeLine *line, const Lines *lines, const Gradient *gradient,
                        bool cold, JointLoad *load, Arena *scratch)
{
    const int n = line->model.station_count;
    const size_t mark = arena_mark(scratch);
    FibreStress *deck = ARENA_NEW(scratch, FibreStress, 2 * n);
    FibreStress *girder = ARENA_NEW(scratch, FibreStress, 2 * n);
    stage_temperature(lines->structure, gradient->depth_m, gradient->rise_K, gradient->count, deck,
                      girder, scratch);
    for (int j = 0; j < line->joint_count; j++)
        for (int s = 0; s < 2; s++) {
            const FibreStress *at = &deck[2 * line->joint[j].station + s];
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
    Lines lines;
    TRY(lines_start(line, history, time, scratch, &lines, err));
    for (int j = 0; j < line->joint_count; j++)
        for (int s = 0; s < 2; s++) live_at(line, &lines, j, s ? 1 : -1, &out[2 * j + s]);
    gradient_at(line, &lines, &line->cold, true, out, scratch);
    gradient_at(line, &lines, &line->warm, false, out, scratch);
    arena_reset(scratch, mark);
    *load = out;
    return STATUS_OK;
}
