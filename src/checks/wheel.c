/* A wheel on a joint: the deck as a strip between girders bends along the bridge as well and presses the
 * joint open from below. The estimate of `bridge` worked out line by line, beside the compression that is
 * there. docs/theory/connections.md. */
#include "table.h"
#include "values.h"

#include <math.h>

static const char plate[] =
    "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, articles 35, 36 (from memory)";

/* The rule of permanent stress and wheel alone; -1: none. And whether any rule with the wheel counts. */
static int wheel_rule(const BridgeLine *line, bool *counts)
{
    int rule = -1;
    *counts = false;
    for (int r = 0; r < line->rule_count; r++) {
        if (!(line->rule[r].wheel_1 > 0)) continue;
        *counts = *counts || line->rule[r].counts;
        if (rule < 0 && line->rule[r].live_1 == 0 && line->rule[r].gradient_1 == 0) rule = r;
    }
    return rule;
}

/* Joint, side, fibre and time in service that the wheel opens first. */
static bool worst_joint(const KitLine *k, int rule, Governing *worst)
{
    bool found = false;
    for (int j = 0; j < k->line->joint_count; j++)
        for (int side = -1; side <= 1; side += 2)
            for (int top = 0; top < 2; top++)
                for (int t = k->opening; t <= k->end; t++) {
                    Governing at;
                    const int only = thrust_joint_side(k->line, j);
                    if ((only != 0 && only != side) ||
                        !thrust_judge(k->answer, rule, j, side, top, t, &at))
                        continue;
                    if (found && at.demand - at.limit <= worst->demand - worst->limit) continue;
                    *worst = at;
                    found = true;
                }
    return found;
}

static void give_span(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "S", "girders.spacing", "in", "between girders");
    if (with->shared->tub) {
        value_give(s, with, "b_b", "girders.plates[1].bottom_width", "in", "bottom of a tub");
        value_give(s, with, "m_w", "girders.web_slope", "", "slope of the webs");
        value_give(s, with, "D", "girders.plates[1].web_depth", "in", "depth of the webs");
        sheet_formula(s, "S_w", "b_b + 2 m_w D", "in", "between webs", "closed form");
        sheet_formula(s, "S", "max(S_w, S - S_w)", "in", "span of the strip", "closed form");
    }
    value_give(s, with, "o", "girders.overhang", "in", "deck edge beyond the exterior girder");
    value_give(s, with, "b_r", "loads.barrier_width", "in", "barrier");
    sheet_formula(s, "X",
                  with->shared->tub ? "max(o - S_w / 2 - b_r - 12 [in], 0 [in])"
                                    : "max(o - b_r - 12 [in], 0 [in])",
                  "in", "wheel beyond the girder or web", "AASHTO LRFD 3.6.1.3.1 (from memory)");
    sheet_given_from(s, "t", with->shared->line[0].model->deck_thickness_m, "in",
                     "deck that carries", from_thickness);
    sheet_formula(s, "P_w", "16 * 1.33 [kip]", "kip", "wheel with impact",
                  "AASHTO LRFD 3.6.1.2.2, 3.6.2 (from memory)");
    sheet_formula(s, "nu", "0.2", "", "Poisson's ratio", "AASHTO LRFD 5.4.2.5 (from memory)");
}

/* The formulas of the estimate at the soffit, under a wheel. */
static void give_under(Sheet *s)
{
    sheet_formula(s, "c_0", "sqrt(200 [in^2] / pi)", "in", "circle of a patch of 20 by 10 in",
                  "AASHTO LRFD 3.6.1.2.5 (from memory)");
    sheet_formula(s, "c_w", "if(c_0 < 1.724 t, sqrt(1.6 c_0^2 + t^2) - 0.675 t, c_0)", "in",
                  "acts as wide as", "Westergaard 1926 (from memory)");
    sheet_formula(s, "S_e", "max(S, 3 X)", "in", "strip that bends as much, of overhang too",
                  "solids in finite elements, see docs/theory/connections.md");
    sheet_formula(s, "k_2", "if(S_e > 144 [in], ln(1 / tan(pi * 36 [in] / S_e)), 0)", "",
                  "where both wheels of an axle, 6 ft apart, fit between girders", plate);
    sheet_formula(s, "m_y", "max(((1 + nu) (ln(2 S_e / (pi c_w)) + k_2) + nu) / (4 pi), 0)", "",
                  "moment along the bridge under a wheel, over the wheel", plate);
    sheet_formula(s, "f_w", "1.2 m_y P_w / (t^2 / 6)", "ksi", "soffit under a wheel, presence 1.2",
                  "AASHTO LRFD 3.6.1.1.2 (from memory)");
}

/* At the top, over a girder. */
static void give_over(Sheet *s)
{
    sheet_formula(s, "m_i", "(S + 24 [in]) / 384 [in]", "",
                  "moment across the bridge over a girder, over the wheel",
                  "AASHTO Standard Specifications 3.24.3.1 (from memory)");
    sheet_formula(s, "m_o", "1.2 X / (45 [in] + 10 X / 12)", "", "the same from the overhang",
                  "AASHTO LRFD 4.6.2.1.3, 3.6.1.1.2 (from memory)");
    sheet_formula(s, "f_w", "nu max(m_i, m_o) P_w / (t^2 / 6)", "ksi",
                  "top over a girder: the slab is straight along it", plate);
}

static void wheel(const CheckCase *with, const KitLine *k, CheckList *list)
{
    bool counts;
    Governing at;
    const int rule = wheel_rule(k->line, &counts);
    if (rule < 0 || !worst_joint(k, rule, &at)) return;
    Sheet s = kit_sheet(with, k, "Wheel on a joint");
    give_span(&s, with);
    if (at.top)
        give_over(&s);
    else
        give_under(&s);
    sheet_given_from(&s, "f_p", at.permanent_Pa, "ksi", "permanent stress there, tension positive",
                     "stages, least compression in service");
    if (!counts)
        sheet_words(
            &s, "No rule of criteria.joints with the wheel counts: the thrust was not found for "
                "it, and the average of AASHTO LRFD 9.7.5.3 alone stands for the wheel.");
    sheet_given_from(&s, "f_l", at.limit, "ksi", "tension that is allowed",
                     "the rule of criteria.joints that governs");
    sheet_formula(&s, "f_r", "f_l - f_p", "ksi", "compression that closes the joint",
                  "law: superposition of stresses");
    CheckRow *row = check_add(list, with, &s, "wheel on a joint", sheet_SI(&s, "f_w"),
                              fmax(sheet_SI(&s, "f_r"), 0), DIM_STRESS);
    check_place(row, k->name,
                arena_printf(with->arena, "%s, %s", k->line->joint[at.joint].mark,
                             at.top ? "top" : "soffit"),
                kit_when(with, k, at.time), "local bending; common practice, no source");
    check_needs(row, with, "criteria.joints[1]", "whether the wheel counts is not chosen");
}

Status check_wheel(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) wheel(with, &with->shared->line[i], list);
    return STATUS_OK;
}
