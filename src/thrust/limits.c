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

/* One place: its effect at both trials, positive towards the limit. */
static void meet(const Scan *scan, Governing at, double effect_a, double effect_b)
{
    const double factor = scan->limit->factor_1;
    const Straight line = straight(scan->a, scan->b, factor * effect_a, factor * effect_b);
    const double at_none = straight_at(line, 0);
    const double felt = fabs(line.per_N) * scan->b->thrust_N; /* what the thrust does there */
    double most = INFINITY; /* where it relieves, no thrust is too much */
    if (line.per_N > 0) most = fmax(0, (scan->limit->value - at_none) / line.per_N);
    if (felt < unfelt_1 * scan->limit->value)
        most =
            at_none > scan->limit->value ? 0 : INFINITY; /* passed by other loads alone, or never */
    if (most >= scan->out->most_N) return;
    at.limit = scan->limit->value;
    at.demand = straight_at(line, most);
    at.day = scan->a->history->day[at.time];
    *scan->out = (LimitAnswer){most, at};
}

/* Stresses over all stations and a span of times; sign +1 tension, -1 compression. */
static void scan_stress(const Scan *scan, Chain chain, int from, int to, int sign, bool top,
                        bool bottom)
{
    const int stations = scan->a->history->model->station_count;
    Governing at = {.joint = -1};
    for (at.time = from; at.time <= to; at.time++)
        for (at.station = 0; at.station < stations; at.station++)
            for (at.side = -1; at.side <= 1; at.side += 2) {
                FibreStress a, b;
                if (!stage_stress(scan->a->history, at.time, chain, at.station, at.side, &a) ||
                    !stage_stress(scan->b->history, at.time, chain, at.station, at.side, &b))
                    continue;
                at.top = true;
                if (top) meet(scan, at, sign * a.top_Pa, sign * b.top_Pa);
                at.top = false;
                if (bottom) meet(scan, at, sign * a.bottom_Pa, sign * b.bottom_Pa);
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
        meet(scan, at, -(extra + (at.top ? a->top_Pa : a->bottom_Pa)),
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
                                             .station = line->joint[j].station,
                                             .side = side,
                                             .top = top});
}

/* Ties through a pier: fibres where the girder chain has no girder. */
static double tie_force(const StageHistory *history, int time, int element)
{
    const StageModel *model = history->model;
    const size_t row = (size_t)time * (size_t)model->part_count;
    double sum = 0;
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (part->element != element || part->chain != CHAIN_GIRDER) continue;
        if (model->section[part->section].inertia_m4 > 0) return 0; /* a girder is there */
        if (!part->compression_only && !part->shear) sum += history->force[row + (size_t)p].N;
    }
    return sum;
}

static void scan_ties(const Scan *scan)
{
    for (int e = 0; e + 1 < scan->a->history->model->station_count; e++)
        for (int t = scan->moments->jacked; t <= scan->moments->end; t++) {
            const double a = tie_force(scan->a->history, t, e),
                         b = tie_force(scan->b->history, t, e);
            if (a == 0 && b == 0) continue;
            meet(scan, (Governing){.joint = -1, .station = e, .side = 1, .time = t}, a, b);
        }
}

/* What arrives at the inner faces of the anchor panels. */
static void scan_anchors(const Scan *scan)
{
    const BridgeLine *line = scan->answer->line;
    for (int j = 0; j < line->joint_count; j++) {
        if (!line->joint[j].at_anchor) continue;
        const int station = line->joint[j].station, side = thrust_joint_side(line, j);
        for (int t = scan->moments->jacked; t <= scan->moments->end; t++) {
            const double a = stage_deck_compression_N(scan->a->history, t, station, side);
            const double b = stage_deck_compression_N(scan->b->history, t, station, side);
            meet(scan, (Governing){.joint = j, .station = station, .side = side, .time = t}, a, b);
        }
    }
}

static void judge_limit(const Scan *scan)
{
    const Moments *m = scan->moments;
    switch (scan->limit->kind) {
    case LIMIT_DECK_JACKING:
        scan_stress(scan, CHAIN_DECK, m->jacked, m->bonded, -1, true, true);
        break;
    case LIMIT_DECK_PERMANENT:
        scan_stress(scan, CHAIN_DECK, m->opening, m->end, -1, true, true);
        break;
    case LIMIT_DECK_SERVICE: scan_service(scan); break;
    case LIMIT_GIRDER_TOP_TENSION:
        scan_stress(scan, CHAIN_GIRDER, m->jacked, m->bonded, 1, true, false);
        break;
    case LIMIT_GIRDER_BOTTOM_TENSION:
        scan_stress(scan, CHAIN_GIRDER, m->jacked, m->bonded, 1, false, true);
        break;
    case LIMIT_GIRDER_COMPRESSION:
        scan_stress(scan, CHAIN_GIRDER, m->jacked, m->bonded, -1, true, true);
        break;
    case LIMIT_TIE: scan_ties(scan); break;
    case LIMIT_ANCHOR: scan_anchors(scan); break;
    case LIMIT_JACKS:
        meet(scan, (Governing){.joint = -1, .station = -1, .time = m->jacked}, scan->a->thrust_N,
             scan->b->thrust_N);
        break;
    case LIMIT_KIND_COUNT: break;
    }
}

void limits_judge(LineAnswer *answer, const Moments *moments, const Trial *a, const Trial *b)
{
    answer->most_N = INFINITY;
    answer->most_limit = answer->most_rule = -1;
    for (int k = 0; k < answer->line->limit_count; k++) {
        LimitAnswer *out = &answer->limit[k];
        *out = (LimitAnswer){INFINITY, {.joint = -1, .station = -1}};
        const Scan scan = {answer, moments, a, b, &answer->line->limit[k], out};
        judge_limit(&scan);
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
