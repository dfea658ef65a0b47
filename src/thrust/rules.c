/* The need: for every rule, the least thrust at which no joint's fibre passes its limit. */
#include <math.h>

#include "trial.h"

/* Live load and gradient change with the modulus of the deck; between opening and the end of life
 * they are taken straight in the logarithm of the time since jacking (they differ by a few per cent). */
static double share_of_end(const StageHistory *history, const Moments *moments, int time)
{
    const double start = history->day[moments->jacked] - 1;
    const double a = history->day[moments->opening] - start, b = history->day[moments->end] - start;
    return b > a ? log((history->day[time] - start) / a) / log(b / a) : 0;
}

static double blend(double open, double end, double share) { return open + share * (end - open); }

/* Factored loads of a rule at one fibre: the largest tension of each. */
static void rule_loads(const LineAnswer *answer, const JointRule *rule, double share, Governing *at)
{
    const int joint = at->joint, side = at->side;
    const bool top = at->top;
    const JointLoad *open = &answer->open[2 * joint + (side > 0)];
    const JointLoad *end = &answer->end[2 * joint + (side > 0)];
    const Joint *place = &answer->line->joint[joint];
    const double live = top ? blend(open->live_top_max_Pa, end->live_top_max_Pa, share)
                            : blend(open->live_bottom_max_Pa, end->live_bottom_max_Pa, share);
    const double cold = top ? blend(open->cold_top_Pa, end->cold_top_Pa, share)
                            : blend(open->cold_bottom_Pa, end->cold_bottom_Pa, share);
    const double warm = top ? blend(open->warm_top_Pa, end->warm_top_Pa, share)
                            : blend(open->warm_bottom_Pa, end->warm_bottom_Pa, share);
    at->live_Pa = rule->live_1 * fmax(live, 0);
    at->gradient_Pa = rule->gradient_1 * fmax(fmax(cold, warm), 0);
    at->wheel_Pa = rule->wheel_1 * (top ? place->wheel_top_Pa : place->wheel_bottom_Pa);
}

/* What the rule asks of a stress: a fibre, or the average. */
static double asked(const JointRule *rule, const FibreStress *stress, bool top)
{
    if (rule->average) return 0.5 * (stress->top_Pa + stress->bottom_Pa);
    return top ? stress->top_Pa : stress->bottom_Pa;
}

typedef struct Candidate {
    double need_N, most_N;
    bool reachable;
    Governing at;
} Candidate;

/* The thrust at which one fibre at one time just meets its limit: the least where more thrust closes
 * it, the most where more thrust opens it. */
static void candidate(const Trial *a, const Trial *b, const JointRule *rule, int cell,
                      Candidate *out)
{
    Governing *at = &out->at;
    const Straight line = straight(a, b, asked(rule, &a->joint[cell], at->top),
                                   asked(rule, &b->joint[cell], at->top));
    const double loads = at->live_Pa + at->gradient_Pa + at->wheel_Pa;
    const double open_at_none = straight_at(line, 0) + loads - rule->limit_Pa;
    at->limit = rule->limit_Pa;
    out->reachable = open_at_none <= 0 || line.per_N < 0;
    out->need_N = open_at_none <= 0 || !out->reachable ? 0 : -open_at_none / line.per_N;
    out->most_N = out->reachable && line.per_N > 0 ? -open_at_none / line.per_N : (double)INFINITY;
    at->permanent_Pa = straight_at(line, out->reachable ? out->need_N : b->thrust_N);
    at->demand = at->permanent_Pa + loads;
}

/* Worse: not reachable before reachable, then the larger need, then the nearer to opening. */
static bool worse(const Candidate *x, const RuleAnswer *than)
{
    if (x->reachable != than->reachable) return !x->reachable;
    if (!x->reachable || (x->need_N == 0 && than->need_N == 0))
        return x->at.demand - x->at.limit > than->at.demand - than->at.limit;
    return x->need_N > than->need_N;
}

/* One fibre of one side of a joint over its life in service. */
static void judge_fibre(const LineAnswer *answer, const Moments *moments, const Trial *a,
                        const Trial *b, const JointRule *rule, Governing at, RuleAnswer *worst)
{
    const int row = (2 * at.joint + (at.side > 0)) * a->history->time_count;
    const int from = rule->building ? moments->jacked : moments->opening;
    const int to = rule->building ? moments->opening - 1 : moments->end;
    for (int t = from; t <= to; t++) {
        if (isnan(a->joint[row + t].N_N)) continue;
        Candidate one = {.at = at};
        one.at.time = t;
        one.at.day = a->history->day[t];
        if (!rule->building)
            rule_loads(answer, rule, share_of_end(a->history, moments, t), &one.at);
        candidate(a, b, rule, row + t, &one);
        const double most_N = fmin(worst->most_N, one.most_N);
        if (worse(&one, worst))
            *worst = (RuleAnswer){.need_N = one.need_N, .reachable = one.reachable, .at = one.at};
        worst->most_N = most_N;
    }
}

static RuleAnswer judge_rule(const LineAnswer *answer, const Moments *moments, const Trial *a,
                             const Trial *b, const JointRule *rule)
{
    RuleAnswer worst = {
        .reachable = true, .most_N = INFINITY, .at = {.joint = -1, .demand = -INFINITY}};
    for (int j = 0; j < answer->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = rule->average ? 1 : 0; top < 2; top++) {
                const Governing at = {.joint = j,
                                      .station = thrust_joint_face(answer->line, j, side),
                                      .side = side,
                                      .top = top};
                judge_fibre(answer, moments, a, b, rule, at, &worst);
            }
    return worst;
}

void rules_judge(LineAnswer *answer, const Moments *moments, const Trial *a, const Trial *b)
{
    answer->need_N = 0;
    answer->need_rule = -1;
    answer->reachable = true;
    for (int r = 0; r < answer->line->rule_count; r++) {
        answer->rule[r] = judge_rule(answer, moments, a, b, &answer->line->rule[r]);
        if (!answer->line->rule[r].counts) continue;
        const RuleAnswer *one = &answer->rule[r];
        if (!one->reachable && answer->reachable) {
            answer->reachable = false;
            answer->need_rule = r;
        } else if (answer->reachable && one->at.joint >= 0 &&
                   (answer->need_rule < 0 || one->need_N > answer->need_N)) {
            answer->need_N = one->need_N;
            answer->need_rule = r;
        }
    }
}

int thrust_time_open(const LineAnswer *answer) { return answer->moments.opening; }

int thrust_time_end(const LineAnswer *answer) { return answer->moments.end; }

double thrust_share_of_end(const LineAnswer *answer, int time)
{
    return share_of_end(answer->history, &answer->moments, time);
}

bool thrust_stress(const LineAnswer *answer, int joint, int side, int time, FibreStress *stress)
{
    const int only = thrust_joint_side(answer->line, joint);
    const int row = (2 * joint + (side > 0)) * answer->history->time_count;
    if (!answer->joint_stress || time < answer->moments.jacked || time > answer->moments.end ||
        (only && side != only)) /* what the table leaves out */
        return stage_stress(answer->history, time, CHAIN_DECK,
                            thrust_joint_face(answer->line, joint, side), side, stress);
    *stress = answer->joint_stress[row + time];
    return !isnan(stress->N_N);
}

bool thrust_judge(const LineAnswer *answer, int r, int joint, int side, bool top, int time,
                  Governing *at)
{
    const JointRule *rule = &answer->line->rule[r];
    *at = (Governing){.joint = joint,
                      .station = thrust_joint_face(answer->line, joint, side),
                      .side = side,
                      .time = time,
                      .top = top,
                      .day = answer->history->day[time],
                      .limit = rule->limit_Pa};
    FibreStress stress;
    if (!thrust_stress(answer, joint, side, time, &stress)) return false;
    at->permanent_Pa = asked(rule, &stress, top);
    if (!rule->building)
        rule_loads(answer, rule, share_of_end(answer->history, &answer->moments, time), at);
    at->demand = at->permanent_Pa + at->live_Pa + at->gradient_Pa + at->wheel_Pa;
    return true;
}

/* ---- what is left at a joint ---- */

static void margin_least(double margin_Pa, int r, double *least_Pa, int *rule)
{
    if (margin_Pa >= *least_Pa) return;
    *least_Pa = margin_Pa;
    *rule = r;
}

/* Of one side, all rules that are judged at that time. */
static void margin_side(const LineAnswer *answer, const FibreStress *stress, Governing at,
                        double share, double *least_Pa, int *rule)
{
    const bool service = at.time >= answer->moments.opening;
    if (!service) margin_least(-fmax(stress->top_Pa, stress->bottom_Pa), -1, least_Pa, rule);
    for (int r = 0; r < answer->line->rule_count; r++) {
        const JointRule *by = &answer->line->rule[r];
        if (!by->counts || by->building == service) continue;
        for (int top = by->average ? 1 : 0; top < 2; top++) {
            at.top = top;
            at.live_Pa = at.gradient_Pa = at.wheel_Pa = 0;
            if (service) rule_loads(answer, by, share, &at);
            const double demand_Pa =
                asked(by, stress, top) + at.live_Pa + at.gradient_Pa + at.wheel_Pa;
            margin_least(by->limit_Pa - demand_Pa, r, least_Pa, rule);
        }
    }
}

double thrust_margin_Pa(const LineAnswer *answer, int joint, int time, int *rule)
{
    const int only = thrust_joint_side(answer->line, joint);
    const double share =
        time < answer->moments.opening ? 0 : share_of_end(answer->history, &answer->moments, time);
    double least_Pa = INFINITY;
    int which = -1;
    for (int side = -1; side <= 1; side += 2) {
        FibreStress stress;
        const Governing at = {.joint = joint,
                              .station = thrust_joint_face(answer->line, joint, side),
                              .side = side,
                              .time = time};
        if ((only && side != only) || !thrust_stress(answer, joint, side, time, &stress)) continue;
        margin_side(answer, &stress, at, share, &least_Pa, &which);
    }
    if (rule) *rule = which;
    return isinf(least_Pa) ? (double)NAN : least_Pa;
}

/* ---- how the joints stand ---- */

typedef struct Standing {
    const LineAnswer *answer;
    double open_Pa;      /* beyond its limit by more: open */
    const double *share; /* [time] of the end's loads */
    JointsStanding *out;
    bool *open; /* [joint] */
} Standing;

static void stand_at(const Standing *s, int r, const FibreStress *stress, Governing at)
{
    const JointRule *rule = &s->answer->line->rule[r];
    JointsStanding *out = s->out;
    at.permanent_Pa = asked(rule, stress, at.top);
    if (!rule->building) rule_loads(s->answer, rule, s->share[at.time], &at);
    at.demand = at.permanent_Pa + at.live_Pa + at.gradient_Pa + at.wheel_Pa;
    at.limit = rule->limit_Pa;
    const double over_Pa = at.demand - at.limit;
    out->fibre_count++;
    if (out->rule < 0 || over_Pa > out->worst.demand - out->worst.limit) {
        out->rule = r;
        out->worst = at;
    }
    if (over_Pa <= s->open_Pa) return;
    s->open[at.joint] = true;
    if (out->first_rule >= 0 &&
        (at.time > out->first.time ||
         (at.time == out->first.time && over_Pa <= out->first.demand - out->first.limit)))
        return;
    out->first_rule = r;
    out->first = at;
}

static void stand_rule(const Standing *s, int r)
{
    const LineAnswer *answer = s->answer;
    const JointRule *rule = &answer->line->rule[r];
    const Moments *m = &answer->moments;
    const int from = rule->building ? m->jacked : m->opening;
    const int to = rule->building ? m->opening - 1 : m->end;
    for (int row = 0; row < 2 * answer->line->joint_count; row++)
        for (int t = from; t <= to; t++) {
            const FibreStress *stress =
                &answer->joint_stress[row * answer->history->time_count + t];
            if (isnan(stress->N_N)) continue;
            Governing at = {.joint = row / 2,
                            .station = thrust_joint_face(answer->line, row / 2, row % 2 ? 1 : -1),
                            .side = row % 2 ? 1 : -1,
                            .time = t,
                            .day = answer->history->day[t]};
            for (int top = rule->average ? 1 : 0; top < 2; top++) {
                at.top = top;
                stand_at(s, r, stress, at);
            }
        }
}

JointsStanding thrust_standing(const LineAnswer *answer, Arena *scratch)
{
    const size_t mark = arena_mark(scratch);
    const Moments *m = &answer->moments;
    double *share = ARENA_NEW(scratch, double, answer->history->time_count);
    for (int t = m->opening; t <= m->end; t++) share[t] = share_of_end(answer->history, m, t);
    JointsStanding out = {.rule = -1, .first_rule = -1, .worst.joint = -1, .first.joint = -1};
    const Standing s = {answer, settled_1 * answer->average_Pa, share, &out,
                        ARENA_NEW(scratch, bool, answer->line->joint_count)};
    for (int r = 0; r < answer->line->rule_count; r++)
        if (answer->line->rule[r].counts) stand_rule(&s, r);
    for (int j = 0; j < answer->line->joint_count; j++) out.open_count += s.open[j];
    arena_reset(scratch, mark);
    return out;
}
