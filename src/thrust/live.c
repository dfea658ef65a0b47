/* Live load on the structure of one moment: its influence lines, and the two-truck rule's zones. */
#include "live.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

/* Places where a bearing carries, less one; the two bearings of a tied pier count once. */
static int span_count(const StageModel *model)
{
    static const double one_pier_m = 3;
    int lines = 0;
    for (int s = 0; s < model->support_count; s++) {
        const double x = model->x_m[model->support[s].station];
        bool first = model->support[s].vertical_N_per_m > 0;
        for (int k = 0; k < s && first; k++)
            first = !(model->support[k].vertical_N_per_m > 0) ||
                    fabs(model->x_m[model->support[k].station] - x) > one_pier_m;
        lines += first;
    }
    return lines > 1 ? lines - 1 : 1;
}

/* A uniform load that stands for the live load on a pier: the lane and the heaviest vehicle with
 * impact on each span. It only decides how far strips at a pier that gape are closed. */
static double usual_live(const BridgeLine *line)
{
    const StageModel *model = &line->model;
    const double length = model->x_m[model->station_count - 1] - model->x_m[0];
    double heaviest = 0;
    for (int v = 0; v < line->live.vehicle_count; v++) {
        double weight = 0;
        for (int a = 0; a < line->live.vehicle[v].axle_count; a++)
            weight += line->live.vehicle[v].axle_N[a];
        heaviest = fmax(heaviest, weight);
    }
    return line->lanes_1 * (line->live.lane_N_per_m +
                            (1 + line->live.impact_ratio) * heaviest * span_count(model) / length);
}

static void find_reactions(LiveLines *lines, Arena *arena)
{
    const StageModel *model = &lines->line->model;
    const int n = model->station_count;
    lines->supported = ARENA_NEW(arena, bool, model->support_count);
    lines->reaction = ARENA_NEW(arena, double, model->support_count *n);
    for (int k = 0; k < model->support_count; k++)
        lines->supported[k] =
            model->support[k].vertical_N_per_m > 0 &&
            stage_influence_reaction(lines->structure, k, lines->reaction + (ptrdiff_t)k * n,
                                     lines->work);
}

Status live_lines(const BridgeLine *line, const StageHistory *history, int time, Arena *arena,
                  LiveLines **lines, Error *err)
{
    return live_lines_under(line, history, time, usual_live(line), arena, lines, err);
}

Status live_lines_under(const BridgeLine *line, const StageHistory *history, int time,
                        double live_N_per_m, Arena *arena, LiveLines **lines, Error *err)
{
    const int n = line->model.station_count;
    LiveLines *out = ARENA_NEW(arena, LiveLines, 1);
    out->line = line;
    out->history = history;
    out->time = time;
    TRY(stage_structure(history, time, live_N_per_m, arena, &out->structure, err));
    out->value = ARENA_NEW(arena, double, LINES_HELD *n);
    out->work = ARENA_NEW(arena, double, EFFECTS_MAX * 6 * n);
    out->scan = ARENA_NEW(arena, double, 8 * (n + 2));
    double *moment = ARENA_NEW(arena, double, n);
    stage_uniform_moment(out->structure, moment, out->work);
    out->zone_count = traffic_negative_zones(line->model.x_m, moment, n, out->zone_m, ZONES);
    find_reactions(out, arena);
    *lines = out;
    return STATUS_OK;
}

const StageStructure *live_structure(const LiveLines *lines) { return lines->structure; }

bool live_in_zone(const LiveLines *lines, int station)
{
    const double x_m = lines->line->model.x_m[station];
    for (int z = 0; z < lines->zone_count; z++)
        if (x_m >= lines->zone_m[z][0] && x_m <= lines->zone_m[z][1]) return true;
    return false;
}

static LiveRange range_of(LiveLines *lines, const LiveLoad *load, const double *value, int train)
{
    const StageModel *model = &lines->line->model;
    const InfluenceLine influence = {model->station_count, model->x_m, value};
    LiveRange range;
    range.most = traffic_extreme(load, &influence, 1, train > 0, lines->scan).value;
    range.least = traffic_extreme(load, &influence, -1, train < 0, lines->scan).value;
    return range;
}

/* Negative moment puts the deck and the upper part of the girder in tension, the girder's lower part
 * in compression: the two-truck rule goes with that sign. */
void live_stress(LiveLines *lines, const LiveLoad *load, const StageEffect *effect, int count,
                 LiveRange *range, bool *done)
{
    assert(count <= EFFECTS_MAX);
    const int n = lines->line->model.station_count;
    stage_influence(lines->structure, effect, count, lines->value, done, lines->work);
    for (int k = 0; k < count; k++) {
        const bool lower = effect[k].chain == CHAIN_GIRDER && !effect[k].top;
        const int train = live_in_zone(lines, effect[k].station) ? (lower ? -1 : 1) : 0;
        range[k] = (LiveRange){0, 0};
        if (done[k]) range[k] = range_of(lines, load, lines->value + (ptrdiff_t)k * n, train);
    }
}

/* By statics from the reactions: M(x_s) = sum R_k (x_s - x_k) of the supports at the left, minus the
 * unit load's own moment where it stands at the left. */
void live_moment_line(const LiveLines *lines, int station, double *value)
{
    const StageModel *model = &lines->line->model;
    const int n = model->station_count;
    const double *x_m = model->x_m;
    for (int i = 0; i < n; i++) {
        double moment = -fmax(0, x_m[station] - x_m[i]);
        for (int k = 0; k < model->support_count; k++)
            if (lines->supported[k])
                moment += lines->reaction[(ptrdiff_t)k * n + i] *
                          fmax(0, x_m[station] - x_m[model->support[k].station]);
        value[i] = moment;
    }
}

/* V = sum of the reactions at the left minus the unit load where it stands there; just beside the
 * station, so a load or support at it counts to the left for side +1. */
static void shear_line(const LiveLines *lines, int station, int side, double *value)
{
    const StageModel *model = &lines->line->model;
    const int n = model->station_count, last_left = side > 0 ? station : station - 1;
    for (int i = 0; i < n; i++) {
        double shear = i <= last_left ? -1 : 0;
        for (int k = 0; k < model->support_count; k++)
            if (lines->supported[k] && model->support[k].station <= last_left)
                shear += lines->reaction[(ptrdiff_t)k * n + i];
        value[i] = shear;
    }
}

static void add_deck(LiveLines *lines, int element, double factor, double *value)
{
    const int n = lines->line->model.station_count;
    double *one = lines->value + (ptrdiff_t)(LINES_HELD - 1) * n;
    if (element < 0 || element >= n - 1) return;
    stage_influence_deck(lines->structure, element, one, lines->work);
    for (int i = 0; i < n; i++) value[i] += factor * one[i];
}

bool live_line(LiveLines *lines, const LiveEffect *effect, double *value)
{
    const size_t n = (size_t)lines->line->model.station_count;
    switch (effect->kind) {
    case LIVE_REACTION:
        if (!lines->supported[effect->at]) return false;
        memcpy(value, lines->reaction + (size_t)effect->at * n, n * sizeof *value);
        break;
    case LIVE_MOMENT: live_moment_line(lines, effect->at, value); break;
    case LIVE_SHEAR: shear_line(lines, effect->at, effect->side, value); break;
    case LIVE_DECK:
        memset(value, 0, n * sizeof *value);
        add_deck(lines, effect->to, 1, value);
        add_deck(lines, effect->at, -1, value);
        break;
    case LIVE_PART: stage_influence_part(lines->structure, effect->at, value, lines->work); break;
    }
    return true;
}

/* The sign with which the two-truck rule is tried; 0: it is not. */
static int train_sign(const LiveLines *lines, const LiveEffect *effect)
{
    const StageModel *model = &lines->line->model;
    if (effect->kind == LIVE_MOMENT) return live_in_zone(lines, effect->at) ? -1 : 0;
    if (effect->kind != LIVE_REACTION) return 0;
    const int station = model->support[effect->at].station;
    return station > 0 && station + 1 < model->station_count ? 1 : 0;
}

bool live_with_train(const LiveLines *lines, const LiveEffect *effect, int sign)
{
    return train_sign(lines, effect) == sign;
}

LiveRange live_range(LiveLines *lines, const LiveLoad *load, const LiveEffect *effect,
                     const double *value)
{
    return range_of(lines, load, value, train_sign(lines, effect));
}

static LiveRange range_by(LiveLines *lines, const LiveLoad *load, LiveEffect effect)
{
    live_line(lines, &effect, lines->value);
    return live_range(lines, load, &effect, lines->value);
}

LiveRange live_moment(LiveLines *lines, const LiveLoad *load, int station)
{
    return range_by(lines, load, (LiveEffect){LIVE_MOMENT, .at = station});
}

LiveRange live_shear(LiveLines *lines, const LiveLoad *load, int station, int side)
{
    return range_by(lines, load, (LiveEffect){LIVE_SHEAR, .at = station, .side = side});
}

bool live_reaction(LiveLines *lines, const LiveLoad *load, int support, LiveRange *range)
{
    if (!lines->supported[support]) return false;
    *range = range_by(lines, load, (LiveEffect){LIVE_REACTION, .at = support});
    return true;
}
