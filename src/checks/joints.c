/* Joints: what each rule of the bridge takes away from the compression that is there. */
#include <math.h>
#include <string.h>

#include "cite.h"
#include "fibre.h"
#include "table.h"
#include "values.h"

/* Worst place of a rule at the thrust that is judged: largest demand - limit. */
static bool worst_of_rule(const KitLine *k, int rule, Governing *worst)
{
    bool found = false;
    const bool average = k->line->rule[rule].average, building = k->line->rule[rule].building;
    const int from = building ? k->jacked : k->opening, to = building ? k->opening - 1 : k->end;
    for (int j = 0; j < k->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = average; top < 2; top++)
                for (int t = from; t <= to; t++) {
                    Governing at;
                    if (thrust_joint_side(k->line, j) == -side) break;
                    if (!thrust_judge(k->answer, rule, j, side, top, t, &at)) continue;
                    if (found && at.demand - at.limit <= worst->demand - worst->limit) continue;
                    *worst = at;
                    found = true;
                }
    return found;
}

static Fibre fibre_of(const Governing *at)
{
    return (Fibre){CHAIN_DECK, at->station, at->side, at->time, at->top};
}

static void write_average(const CheckCase *with, const KitLine *k, const Governing *at, Sheet *s)
{
    const Fibre fibre = fibre_of(at);
    fibre_write_mean(s, with, k, &fibre, "f_there", -1, "average compression after losses");
    value_give(s, with, "f_asked", "criteria.average", with->shared->unit.stress,
               "average compression that the rule asks");
}

/* The share of the end of life at that time, as thrust_share_of_end. */
static void write_share(const KitLine *k, double share_1, Sheet *s)
{
    const double *day = k->history->day, start = day[k->jacked] - 1;
    const double open = day[k->opening] - start, end = day[k->end] - start;
    sheet_given_from(s, "d_t", open * pow(end / open, share_1), "day",
                     "from the day before jacking", from_stages);
    sheet_given_from(s, "d_o", open, "day", "to opening, likewise", from_stages);
    sheet_given_from(s, "d_e", end, "day", "to the end of life, likewise", from_stages);
    sheet_formula(s, "s", "ln(d_t / d_o) / ln(d_e / d_o)", "",
                  "share of the end of life, straight in the logarithm of the time",
                  "common practice, no source");
}

/* A stress of the structure of that day: of opening, of the end of life, or between the two. */
static void write_between(const CheckCase *with, Cite cite, double share_1, const char *symbol,
                          const char *words, Sheet *s)
{
    static const double whole = 1 - 1e-12;
    const bool first = share_1 <= 0, last = share_1 >= whole;
    cite.late = last;
    if (first || last) {
        cite_stress(s, with, &cite, symbol, words);
        return;
    }
    cite_stress(s, with, &cite, "f_o", "the same, structure at opening");
    cite.late = true;
    cite_stress(s, with, &cite, "f_e", "the same, structure at the end of life");
    write_share(cite.k, share_1, s);
    sheet_formula(s, symbol, "f_o + s (f_e - f_o)", with->shared->unit.stress, words,
                  "common practice, no source: the two differ by a few per cent");
}

static void write_live(const CheckCase *with, const Cite *cite, double share_1, Sheet *s)
{
    Cite live = *cite;
    live.load = &cite->k->line->live;
    write_between(with, live, share_1, "f_1", "tension under one lane of live load with impact", s);
    give_lanes(s, with, cite->k);
    sheet_formula(s, "f_LL", "g_m f_1", with->shared->unit.stress, "of live load with impact",
                  NULL);
}

static double gradient_Pa(const JointLoad *load, bool cold, bool top)
{
    if (cold) return top ? load->cold_top_Pa : load->cold_bottom_Pa;
    return top ? load->warm_top_Pa : load->warm_bottom_Pa;
}

static const Gradient *worse_gradient(const KitLine *k, const Governing *at, double share_1)
{
    const int row = 2 * at->joint + (at->side > 0);
    const JointLoad *open = &k->answer->open[row], *end = &k->answer->end[row];
    double pull_Pa[2];
    for (int cold = 0; cold < 2; cold++)
        pull_Pa[cold] = (1 - share_1) * gradient_Pa(open, cold, at->top) +
                        share_1 * gradient_Pa(end, cold, at->top);
    return pull_Pa[1] >= pull_Pa[0] ? &k->line->cold : &k->line->warm;
}

/* The gradient, negative or positive, that pulls more; where none does both are shown as none. */
static void write_gradient(const CheckCase *with, const Cite *cite, const Governing *at,
                           double share_1, Sheet *s)
{
    if (at->gradient_Pa <= 0) {
        sheet_given(s, "f_TG", 0, with->shared->unit.stress, "both gradients press the fibre");
        return;
    }
    Cite gradient = *cite;
    gradient.gradient = worse_gradient(cite->k, at, share_1);
    write_between(with, gradient, share_1, "f_TG", "tension of the temperature gradient", s);
}

enum { SUM_MAX = 96 };

/* A load of the rule is given above; its factor, and both into the sum. */
static void write_factor(Sheet *s, const JointRule *rule, const char *symbol, double factor_1,
                         char sum[SUM_MAX])
{
    char g[16];
    snprintf(g, sizeof g, "g_%s", symbol);
    sheet_given_from(s, g, factor_1, "", "its factor in the rule",
                     arena_printf(s->arena, "rule of criteria.joints: %s", rule->clause));
    const size_t used = strlen(sum);
    snprintf(sum + used, SUM_MAX - used, "%s%s f_%s", used ? " + " : "", g, symbol);
}

static void write_loads(const CheckCase *with, const KitLine *k, const JointRule *rule,
                        const Governing *at, Sheet *s)
{
    const char *unit = with->shared->unit.stress;
    const double share_1 = rule->building ? 0 : thrust_share_of_end(k->answer, at->time);
    const Cite cite = {
        .k = k, .effect = {CHAIN_DECK, at->station, at->side, at->top}, .sign = 1, .positive = 1};
    static const double nothing_Pa = 10;
    char sum[SUM_MAX] = "";
    if (rule->live_1 > 0) {
        if (at->live_Pa > nothing_Pa)
            write_live(with, &cite, share_1, s);
        else
            sheet_given(s, "f_LL", 0, unit, "live load brings no tension here");
        write_factor(s, rule, "LL", rule->live_1, sum);
    }
    if (rule->gradient_1 > 0) {
        write_gradient(with, &cite, at, share_1, s);
        write_factor(s, rule, "TG", rule->gradient_1, sum);
    }
    if (rule->wheel_1 > 0) {
        sheet_given_from(s, "f_w", at->wheel_Pa / rule->wheel_1, unit,
                         "tension of a wheel at the joint, local bending",
                         "working of \"wheel on a joint\"");
        write_factor(s, rule, "w", rule->wheel_1, sum);
    }
    if (sum[0])
        sheet_formula(s, "f_asked", sum, unit, "what the loads take away", NULL);
    else
        sheet_given(s, "f_asked", 0, unit, "no load beside the permanent ones");
}

static void write_fibre(const CheckCase *with, const KitLine *k, const JointRule *rule,
                        const Governing *at, Sheet *s)
{
    const Fibre fibre = fibre_of(at);
    const char *unit = with->shared->unit.stress;
    fibre_write(s, with, k, &fibre, "f_p", -1, "compression of the fibre, permanent loads");
    value_give(s, with, "f_t", "criteria.tension", unit, "tension that the rule allows");
    sheet_formula(s, "f_there", "f_p + f_t", unit, "what may be taken away", NULL);
    write_loads(with, k, rule, at, s);
}

/* Continuity decides what the thrust keeps: it must be said, for all piers or for the first. */
static void needs_continuity(const CheckCase *with, CheckRow *row)
{
    if (kit_list_count(with, "spans", "length") < 2) return;
    const BridgeValue *first = bridge_value_at(with->bridge, "spans[1].pier");
    if (first && first->origin == ORIGIN_GIVEN) return;
    check_needs(row, with, "piers.connection",
                "whether the girders are continuous decides what the thrust keeps");
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k, const JointRule *rule,
                    const Governing *at)
{
    const char *name = arena_printf(with->arena, "joints: %s", rule->name);
    Sheet s = kit_sheet(with, k, name);
    if (rule->average)
        write_average(with, k, at, &s);
    else
        write_fibre(with, k, rule, at, &s);
    sheet_formula(&s, "m", "f_there - f_asked", with->shared->unit.stress,
                  "compression that is left", NULL);
    CheckRow *row = check_add(list, with, &s, name, sheet_SI(&s, "f_asked"),
                              sheet_SI(&s, "f_there"), DIM_STRESS);
    const char *fibre = rule->average ? "average" : at->top ? "top" : "soffit";
    check_place(row, k->name,
                arena_printf(with->arena, "%s, %s", k->line->joint[at->joint].mark, fibre),
                kit_when(with, k, at->time), rule->clause);
    if (!rule->counts) {
        row->state = CHECK_TOLD;
        return;
    }
    check_needs(row, with, "days.phase_1_cast",
                "the age of the panels at jacking decides what creep and shrinkage leave");
    needs_continuity(with, row);
    check_needs(row, with, "shims.friction", "friction decides what reaches the far joints");
}

Status check_joints(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        for (int r = 0; r < k->line->rule_count; r++) {
            Governing worst = {.joint = -1};
            if (worst_of_rule(k, r, &worst)) add_row(with, list, k, &k->line->rule[r], &worst);
        }
    }
    return STATUS_OK;
}
