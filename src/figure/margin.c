/* How far a joint is from its limit, at any time of the history. */
#include <math.h>

#include "clench/figure.h"

int figure_rule(const LineAnswer *line)
{
    const BridgeLine *b = line->line;
    if (line->need_rule >= 0 && line->need_rule < b->rule_count) return line->need_rule;
    for (int r = 0; r < b->rule_count; r++)
        if (b->rule[r].counts) return r;
    return b->rule_count ? 0 : -1;
}

/* Live load and gradient that press a fibre most, of the structure at the end of life. */
static double pressing_Pa(const LineAnswer *line, const JointRule *rule, FigureFibre fibre)
{
    const JointLoad *load = &line->end[fibre.joint * 2 + (fibre.side > 0)];
    const double live = fibre.top ? load->live_top_min_Pa : load->live_bottom_min_Pa;
    const double cold = fibre.top ? load->cold_top_Pa : load->cold_bottom_Pa;
    const double warm = fibre.top ? load->warm_top_Pa : load->warm_bottom_Pa;
    return rule->live_1 * fmin(live, 0) + rule->gradient_1 * fmin(0, fmin(cold, warm));
}

double figure_added_Pa(const LineAnswer *line, int rule, FigureFibre fibre, int time, int sign)
{
    const JointRule *by = &line->line->rule[rule];
    Governing at;
    if (by->average || time < thrust_time_open(line)) return 0;
    if (sign < 0) return pressing_Pa(line, by, fibre);
    if (!thrust_judge(line, rule, fibre.joint, fibre.side, fibre.top, time, &at)) return 0;
    return at.live_Pa + at.gradient_Pa + at.wheel_Pa;
}

/* In service, as the need is judged. */
static double judged_margin_Pa(const LineAnswer *line, int rule, FigureFibre fibre, int time)
{
    double least = NAN;
    for (int top = 0; top < 2; top++) {
        Governing at;
        if (thrust_judge(line, rule, fibre.joint, fibre.side, top, time, &at))
            least = fmin(least, at.limit - at.demand);
    }
    return least;
}

/* Of one side; NAN where no deck is there. */
static double side_margin_Pa(const LineAnswer *line, int rule, FigureFibre fibre, int time)
{
    const JointRule *by = &line->line->rule[rule];
    const int station = line->line->joint[fibre.joint].station;
    FibreStress stress;
    if (!stage_stress(line->history, time, CHAIN_DECK, station, fibre.side, &stress)) return NAN;
    if (by->average) return by->limit_Pa - 0.5 * (stress.top_Pa + stress.bottom_Pa);
    if (time >= thrust_time_open(line)) return judged_margin_Pa(line, rule, fibre, time);
    return by->limit_Pa - fmax(stress.top_Pa, stress.bottom_Pa);
}

double figure_margin_Pa(const LineAnswer *line, int rule, int joint, int time)
{
    const int only = thrust_joint_side(line->line, joint);
    const FigureFibre a = {joint, only ? only : -1, true}, b = {joint, only ? only : 1, true};
    const double left = side_margin_Pa(line, rule, a, time);
    const double right = side_margin_Pa(line, rule, b, time);
    return fmin(left, right); /* fmin leaves a NAN aside */
}

static bool shows_live(const JointRule *rule)
{
    return rule->counts && !rule->average && !rule->building && rule->live_1 > 0;
}

int figure_service_rule(const LineAnswer *line)
{
    const BridgeLine *b = line->line;
    if (line->need_rule >= 0 && shows_live(&b->rule[line->need_rule])) return line->need_rule;
    for (int r = 0; r < b->rule_count; r++)
        if (shows_live(&b->rule[r])) return r;
    return -1;
}
