/* Reactions: while the jacks act (a continuous unit lifts off its piers as it hogs) and in service with
 * live load on the other spans; and what they are at each stage. */
#include <math.h>

#include "cite.h"
#include "table.h"
#include "values.h"

static double reaction_N(const KitLine *k, int time, int support)
{
    return k->history->reaction_N[(size_t)time * (size_t)k->model->support_count + (size_t)support];
}

static bool carries(const KitLine *k, int support)
{
    return k->model->support[support].vertical_N_per_m > 0;
}

static const char *bearing_at(const CheckCase *with, const KitLine *k, int support)
{
    return arena_printf(with->arena, "bearing at %s",
                        kit_x(with, k, k->model->support[support].station));
}

/* Of one lane with impact: the largest (sign 1) or the smallest, written positive in the direction of `positive`. */
static void cite_reaction(Sheet *s, const CheckCase *with, const KitLine *k, int support, int sign,
                          int positive)
{
    const LiveEffect effect = {LIVE_REACTION, .at = support};
    const Cite cite = {
        .k = k, .other = &effect, .load = &k->line->live, .sign = sign, .positive = positive};
    cite_effect(s, with, &cite, sign > 0 ? "R_a" : "R_b", with->shared->unit.force,
                sign > 0       ? "largest of one lane of live load with impact"
                : positive < 0 ? "uplift of one lane of live load with impact"
                               : "smallest of one lane");
}

/* ---- while jacked ---- */

static int bearing_count(const KitLine *k)
{
    int count = 0;
    for (int i = 0; i < k->model->support_count; i++) count += carries(k, i);
    return count;
}

/* What the thrust, with its factor, takes off a bearing, over what is there with the least factor. */
static void add_jacked(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "bearing keeps its load while jacked";
    static const char clause[] = "AASHTO LRFD 3.4.3.2 and table 3.4.1-2 (from memory), by analogy";
    if (bearing_count(k) <= 2) return; /* a thrust within a simple span changes no reaction */
    const char *unit = with->shared->unit.force;
    const double thrust_1 = kit_value(with, "criteria.thrust_factor");
    const double relief_1 = kit_value(with, "criteria.relief");
    int at = -1, time = 0;
    double least_N = INFINITY;
    for (int i = 0; i < k->model->support_count; i++)
        for (int t = k->jacked; t <= k->bonded && carries(k, i); t++) {
            const double before = reaction_N(k, k->before_jack, i);
            const double left =
                relief_1 * before + thrust_1 * fmin(0, reaction_N(k, t, i) - before);
            if (left >= least_N) continue;
            least_N = left;
            at = i;
            time = t;
        }
    if (at < 0) return;
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "R_0", reaction_N(k, k->before_jack, at), unit, "reaction before jacking",
                     from_stages);
    sheet_given_from(&s, "R_t", reaction_N(k, time, at), unit, "reaction with the thrust",
                     from_stages);
    value_give(&s, with, "g_P", "criteria.thrust_factor", "", "factor on the thrust");
    value_give(&s, with, "g_D", "criteria.relief", "", "factor on weights that hold down");
    sheet_formula(&s, "U", "g_P max(R_0 - R_t, 0)", unit, "taken off by the thrust", clause);
    sheet_formula(&s, "R_d", "g_D R_0", unit, "that may be taken off", clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "U"), sheet_SI(&s, "R_d"), DIM_FORCE);
    check_place(row, k->name, bearing_at(with, k, at), kit_when(with, k, time), clause);
}

/* ---- in service ---- */

static void add_service(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "bearing keeps its load in service";
    static const char clause[] = "AASHTO LRFD 3.4.1 and table 3.4.1-2, Strength I (from memory)";
    const char *unit = with->shared->unit.force;
    const double live_1 = kit_value(with, "criteria.strength_live");
    const double relief_1 = kit_value(with, "criteria.relief");
    int at = -1, time = 0;
    double least_N = INFINITY;
    for (int i = 0; i < k->model->support_count; i++) {
        LiveRange range;
        if (!carries(k, i) || !live_reaction(k->open_live, &k->line->live, i, &range)) continue;
        for (int t = k->opening; t <= k->end; t++) {
            const double left =
                relief_1 * reaction_N(k, t, i) + live_1 * k->line->lanes_shear_1 * range.least;
            if (left >= least_N) continue;
            least_N = left;
            at = i;
            time = t;
        }
    }
    if (at < 0) return;
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "R_p", reaction_N(k, time, at), unit, "least permanent reaction",
                     from_stages);
    cite_reaction(&s, with, k, at, -1, -1);
    give_shear_lanes(&s, with, k);
    value_give(&s, with, "g_LL", "criteria.strength_live", "", "factor on live load");
    value_give(&s, with, "g_D", "criteria.relief", "", "factor on what holds down");
    sheet_formula(&s, "U", "g_LL g_v R_b", unit, "uplift", clause);
    sheet_formula(&s, "R_d", "g_D R_p", unit, "that holds down", clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "U"), sheet_SI(&s, "R_d"), DIM_FORCE);
    check_place(row, k->name, bearing_at(with, k, at), kit_when(with, k, time), clause);
}

/* ---- told ---- */

/* Reactions of every bearing at the named moments. */
static void tell_reactions(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char *const moments[] = {"panels set", "jacked", "haunches grouted", "opening",
                                          "end of life"};
    const char *unit = with->shared->unit.force;
    for (int i = 0; i < k->model->support_count; i++) {
        if (!carries(k, i)) continue;
        Sheet s = kit_sheet(with, k, "reactions of a bearing");
        double largest_N = 0;
        for (size_t m = 0; m < sizeof moments / sizeof *moments; m++) {
            const int t = stage_time_named(k->history, moments[m]);
            if (t < 0) continue;
            char symbol[16];
            snprintf(symbol, sizeof symbol, "R_%d", (int)m + 1);
            sheet_given_from(&s, symbol, reaction_N(k, t, i), unit,
                             arena_printf(with->arena, "reaction: %s", moments[m]), from_stages);
            largest_N = fmax(largest_N, reaction_N(k, t, i));
        }
        cite_reaction(&s, with, k, i, 1, 1);
        cite_reaction(&s, with, k, i, -1, 1);
        give_shear_lanes(&s, with, k);
        sheet_formula(&s, "R_max", "g_v R_a", unit, "largest of live load, lanes and impact in",
                      "law: superposition");
        sheet_formula(&s, "R_min", "g_v R_b", unit, "smallest of live load", "law: superposition");
        CheckRow *row =
            check_tell(list, with, &s, "largest permanent reaction", largest_N, DIM_FORCE);
        check_place(row, k->name, bearing_at(with, k, i), "all stages", NULL);
    }
}

Status check_bearings(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        add_jacked(with, list, &with->shared->line[i]);
        add_service(with, list, &with->shared->line[i]);
        tell_reactions(with, list, &with->shared->line[i]);
    }
    return STATUS_OK;
}
