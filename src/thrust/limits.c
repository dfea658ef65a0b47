/* The most: for every upper limit, the thrust at which some place reaches it. */
#include <math.h>

#include "trial.h"

typedef struct Scan {
    LineAnswer *answer;
    const Moments *moments;
    const Trial *a, *b;
    const UpperLimit *limit;
    LimitAnswer *out;
} Scan;

/* An effect of the thrust below this share of the limit is rounding. */
static const double unfelt_1 = 1e-9;

/* One place: its effect at both trials, positive towards the limit. `scale` turns a limit that is a
 * share (of a part's own strength) into the effect's unit; 1 for others. */
static void meet(const Scan *scan, Governing at, double scale, double effect_a, double effect_b)
{
    const double factor = scan->limit->factor_1, limit = scan->limit->value * scale;
    const Straight line = straight(scan->a, scan->b, factor * effect_a, factor * effect_b);
    const double at_none = straight_at(line, 0);
    const double felt = fabs(line.per_N) * scan->b->thrust_N; /* what the thrust does there */
    double most = INFINITY; /* where it relieves, no thrust is too much */
    if (line.per_N > 0) most = fmax(0, (limit - at_none) / line.per_N);
    if (felt <
        unfelt_1 * fmax(fabs(limit), fabs(at_none))) /* passed by other loads alone, or never */
        most = at_none > limit ? 0 : (double)INFINITY;
    if (line.per_N < 0 && at_none > limit) /* a thrust that must be there to relieve it */
        scan->out->least_N = fmax(scan->out->least_N, (limit - at_none) / line.per_N);
    if (most >= scan->out->most_N) return;
    at.limit = limit;
    at.demand = straight_at(line, most);
    at.day = scan->a->history->day[at.time];
    scan->out->most_N = most;
    scan->out->at = at;
}

/* Strength that the concrete beside a station has on that day, at most f'c; 1 for what is no concrete
 * (limits are stresses there). */
static double own_strength(const Scan *scan, Chain chain, Governing at)
{
    const StageHistory *history = scan->a->history;
    const int part = stage_part(history, at.time, chain, at.station, at.side);
    if (part < 0) return 1;
    const Material *law = &history->model->material[history->model->part[part].material];
    if (law->kind != MATERIAL_CONCRETE) return 1;
    const double age = history->day[at.time] - law->cast_day;
    return fmin(concrete_strength_Pa(&law->mix, age), law->mix.fc28_Pa);
}

typedef struct Fibres {
    Chain chain;
    int sign; /* +1 tension, -1 compression */
    bool top, bottom, by_strength;
} Fibres;

/* Stresses over all stations and a span of times. */
static void scan_stress(const Scan *scan, int from, int to, Fibres which)
{
    const int stations = scan->a->history->model->station_count;
    Governing at = {.joint = -1};
    for (at.time = from; at.time <= to; at.time++)
        for (at.station = 0; at.station < stations; at.station++)
            for (at.side = -1; at.side <= 1; at.side += 2) {
                FibreStress a, b;
                if (!stage_stress(scan->a->history, at.time, which.chain, at.station, at.side,
                                  &a) ||
                    !stage_stress(scan->b->history, at.time, which.chain, at.station, at.side, &b))
                    continue;
                const double scale = which.by_strength ? own_strength(scan, which.chain, at) : 1;
                at.top = true;
                if (which.top) meet(scan, at, scale, which.sign * a.top_Pa, which.sign * b.top_Pa);
                at.top = false;
                if (which.bottom)
                    meet(scan, at, scale, which.sign * a.bottom_Pa, which.sign * b.bottom_Pa);
            }
}

/* In service with live load and half of each gradient, at the joints. */
static void service_at(const Scan *scan, Governing at)
{
    const JointLoad *load = &scan->answer->open[2 * at.joint + (at.side > 0)];
    const int row = (2 * at.joint + (at.side > 0)) * scan->a->history->time_count;
    const double cold = at.top ? load->cold_top_Pa : load->cold_bottom_Pa;
    const double warm = at.top ? load->warm_top_Pa : load->warm_bottom_Pa;
    at.live_Pa = at.top ? load->live_top_min_Pa : load->live_bottom_min_Pa;
    at.gradient_Pa = 0.5 * fmin(0, fmin(cold, warm));
    for (at.time = scan->moments->opening; at.time <= scan->moments->end; at.time++) {
        const FibreStress *a = &scan->a->joint[row + at.time], *b = &scan->b->joint[row + at.time];
        if (isnan(a->N_N) || !load->there) continue;
        const double extra = at.live_Pa + at.gradient_Pa;
        meet(scan, at, own_strength(scan, CHAIN_DECK, at),
             -(extra + (at.top ? a->top_Pa : a->bottom_Pa)),
             -(extra + (at.top ? b->top_Pa : b->bottom_Pa)));
    }
}

static void scan_service(const Scan *scan)
{
    const BridgeLine *line = scan->answer->line;
    for (int j = 0; j < line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = 0; top < 2; top++)
                service_at(scan, (Governing){.joint = j,
                                             .station = thrust_joint_station(line, j),
                                             .side = side,
                                             .top = top});
}

/* A tie: a fibre of the girder chain where there is no girder. */
static bool is_tie(const StageHistory *history, int p)
{
    const StageModel *model = history->model;
    const Part *part = &model->part[p];
    const int row = ((int)CHAIN_GIRDER * model->station_count + part->element) * STAGE_BEAMS;
    return part->chain == CHAIN_GIRDER && !(model->section[part->section].inertia_m4 > 0) &&
           !part->compression_only && !part->shear && history->beam[row] < 0;
}

/* Stress of every level of ties, from jacking on, permanent loads. */
static void scan_ties(const Scan *scan)
{
    const StageModel *model = scan->a->history->model;
    for (int p = 0; p < model->part_count; p++) {
        if (!is_tie(scan->a->history, p)) continue;
        const double area = model->section[model->part[p].section].area_m2;
        Governing at = {.joint = -1, .station = model->part[p].element, .side = 1};
        for (at.time = scan->moments->jacked; at.time <= scan->moments->end; at.time++) {
            const size_t i = (size_t)at.time * (size_t)model->part_count + (size_t)p;
            meet(scan, at, 1, scan->a->history->force[i].N / area,
                 scan->b->history->force[i].N / area);
        }
    }
}

/* Bearings press while their reaction is upwards. */
static void scan_bearings(const Scan *scan)
{
    const StageModel *model = scan->a->history->model;
    for (int s = 0; s < model->support_count; s++) {
        if (!(model->support[s].vertical_N_per_m > 0)) continue;
        Governing at = {.joint = -1, .station = model->support[s].station};
        for (at.time = scan->moments->jacked; at.time <= scan->moments->end; at.time++) {
            const int i = at.time * model->support_count + s;
            meet(scan, at, 1, -scan->a->history->reaction_N[i], -scan->b->history->reaction_N[i]);
        }
    }
}

/* The whole thrust of the line: friction that is not there keeps nothing from the anchors. */
static void scan_thrust(const Scan *scan)
{
    meet(scan, (Governing){.joint = -1, .station = -1, .time = scan->moments->jacked}, 1,
         scan->a->thrust_N, scan->b->thrust_N);
}

static void judge_limit(const Scan *scan)
{
    const Moments *m = scan->moments;
    const Fibres deck = {CHAIN_DECK, -1, true, true, true};
    const Fibres top = {CHAIN_GIRDER, 1, true, false, false};
    const Fibres bottom = {CHAIN_GIRDER, 1, false, true, false};
    const Fibres both = {CHAIN_GIRDER, -1, true, true, false};
    switch (scan->limit->kind) {
    case LIMIT_DECK_JACKING: scan_stress(scan, m->jacked, m->bonded, deck); break;
    case LIMIT_DECK_PERMANENT: scan_stress(scan, m->opening, m->end, deck); break;
    case LIMIT_DECK_SERVICE: scan_service(scan); break;
    case LIMIT_GIRDER_TOP_TENSION: scan_stress(scan, m->jacked, m->bonded, top); break;
    case LIMIT_GIRDER_BOTTOM_TENSION: scan_stress(scan, m->jacked, m->bonded, bottom); break;
    case LIMIT_GIRDER_COMPRESSION: scan_stress(scan, m->jacked, m->bonded, both); break;
    case LIMIT_TIE: scan_ties(scan); break;
    case LIMIT_UPLIFT: scan_bearings(scan); break;
    case LIMIT_ANCHOR:
    case LIMIT_JACKS: scan_thrust(scan); break;
    case LIMIT_KIND_COUNT: break;
    }
}

void limits_judge(LineAnswer *answer, const Moments *moments, const Trial *a, const Trial *b)
{
    answer->most_N = INFINITY;
    answer->most_limit = answer->most_rule = -1;
    answer->least_N = 0;
    for (int k = 0; k < answer->line->limit_count; k++) {
        LimitAnswer *out = &answer->limit[k];
        *out = (LimitAnswer){.most_N = INFINITY, .at = {.joint = -1, .station = -1}};
        const Scan scan = {answer, moments, a, b, &answer->line->limit[k], out};
        judge_limit(&scan);
        answer->least_N = fmax(answer->least_N, out->least_N);
        if (out->most_N >= answer->most_N) continue;
        answer->most_N = out->most_N;
        answer->most_limit = k;
    }
    for (int r = 0; r < answer->line->rule_count; r++) {
        if (!answer->line->rule[r].counts || answer->rule[r].most_N >= answer->most_N) continue;
        answer->most_N = answer->rule[r].most_N;
        answer->most_limit = -1;
        answer->most_rule = r;
    }
}
