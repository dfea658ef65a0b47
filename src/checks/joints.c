/* Joints: what each rule of the bridge takes away from the compression that is there. */
#include <math.h>
#include <string.h>

#include "fibre.h"
#include "table.h"

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
    const char *unit = with->shared->unit.stress;
    fibre_write_mean(s, with, k, &fibre, "f_there", -1, "average compression after losses");
    sheet_given(s, "f_asked", -at->limit, unit, "average compression that the rule asks");
}

enum { SUM_MAX = 96 };

/* A load of the rule with its factor, into the sum. */
static void write_load(Sheet *s, const char *unit, const char *symbol, double factored_Pa,
                       double factor_1, const char *words, char sum[SUM_MAX])
{
    if (factor_1 <= 0) return;
    char f[16], g[16];
    snprintf(f, sizeof f, "f_%s", symbol);
    snprintf(g, sizeof g, "g_%s", symbol);
    sheet_given(s, f, factored_Pa / factor_1, unit, words);
    sheet_given(s, g, factor_1, "", "its factor in the rule");
    const size_t used = strlen(sum);
    snprintf(sum + used, SUM_MAX - used, "%s%s %s", used ? " + " : "", g, f);
}

static void write_fibre(const CheckCase *with, const KitLine *k, const JointRule *rule,
                        const Governing *at, Sheet *s)
{
    const Fibre fibre = fibre_of(at);
    const char *unit = with->shared->unit.stress;
    char sum[SUM_MAX] = "";
    fibre_write(s, with, k, &fibre, "f_p", -1, "compression of the fibre, permanent loads");
    sheet_given(s, "f_t", at->limit, unit, "tension that the rule allows");
    sheet_formula(s, "f_there", "f_p + f_t", unit, "what may be taken away", NULL);
    write_load(s, unit, "LL", at->live_Pa, rule->live_1, "tension of live load with impact", sum);
    write_load(s, unit, "TG", at->gradient_Pa, rule->gradient_1,
               "tension of the temperature gradient", sum);
    write_load(s, unit, "w", at->wheel_Pa, rule->wheel_1,
               "tension of a wheel at the joint, local bending", sum);
    if (sum[0])
        sheet_formula(s, "f_asked", sum, unit, "what the loads take away", NULL);
    else
        sheet_given(s, "f_asked", 0, unit, "no load beside the permanent ones");
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
