/* Bending of the panel across the bridge: strip between girders, strip over girders, overhang.
 * docs/theory/connections.md. */
#include "strip.h"
#include "block.h"
#include "table.h"
#include "values.h"

#include <math.h>

static const char factors[] = "AASHTO LRFD tables 3.4.1-1 and -2 (from memory)";

/* ---- bars ---- */

static const char *bar_path(bool top, bool spacing)
{
    if (top) return spacing ? "panels.top_bar_spacing" : "panels.top_bar";
    return spacing ? "panels.bottom_bar_spacing" : "panels.bottom_bar";
}

/* Effective depth; of bars that are not chosen those of 5/8 in. */
static void give_depth(Sheet *s, const CheckCase *with, bool top)
{
    value_give(s, with, "t_c", "deck.thickness", "in", "panel as cast");
    value_give(s, with, "t_w", "deck.wearing_allowance", "in", "ground or worn off");
    value_give(s, with, "c_c", top ? "panels.top_cover" : "panels.bottom_cover", "in",
               "clear cover");
    if (isnan(kit_value(with, bar_path(top, false))))
        sheet_formula(s, "A_b", "0.31 [in^2]", "in^2", "bar not chosen: one of 5/8 in",
                      "common practice, no source");
    else
        value_give(s, with, "A_b", bar_path(top, false), "in^2", "one bar");
    sheet_formula(s, "d_b", "sqrt(4 A_b / 3.14159265)", "in", "diameter", "closed form: circle");
    sheet_formula(s, "d_e", top ? "t_c - c_c - d_b / 2" : "t_c - t_w - c_c - d_b / 2", "in",
                  "effective depth", "closed form");
}

static void give_concrete(Sheet *s, const CheckCase *with)
{
    const double fc_Pa = with->shared->line[0].line->deck_strength_Pa;
    sheet_given_from(s, "f'c", fc_Pa, "ksi", "panels", "concrete.panel.strength");
    block_give(s, fc_Pa, false);
}

CheckRow *strip_add(const CheckCase *with, CheckList *list, Sheet *s, const StripRow *of)
{
    static const char clause[] = "AASHTO LRFD 5.6.3.2 (from memory)";
    const bool known = !isnan(kit_value(with, bar_path(of->top, false))) &&
                       !isnan(kit_value(with, bar_path(of->top, true)));
    double capacity_N = NAN;
    give_depth(s, with, of->top);
    give_concrete(s, with);
    value_give(s, with, "f_y", "panels.bar_yield", "ksi", "yield stress of the bars");
    value_give(s, with, "phi", "criteria.flexure", "", "resistance factor of bending");
    sheet_formula(s, "k_f", "a_1 f'c * 12 [in/ft] / f_y", "in/ft", "block over steel", clause);
    sheet_formula(s, "M_max", "phi k_f f_y d_e^2 / 2 / 12 [in/ft]", "kip*ft/ft",
                  "most that this depth bears with any steel: block over the whole depth", clause);
    const bool thin = sheet_SI(s, "M_u") > sheet_SI(s, "M_max");
    if (thin)
        sheet_words(s, "The section is too thin: no amount of steel bears the moment.");
    else
        sheet_formula(s, "A_req",
                      "k_f (d_e - sqrt(max(d_e^2 - 2 M_u * 12 [in/ft] / (phi k_f f_y), 0)))",
                      "in^2/ft", "steel that is needed", clause);
    if (known) {
        value_give(s, with, "s_b", bar_path(of->top, true), "in", "between bars");
        sheet_formula(s, "A_s", "A_b * 12 [in/ft] / s_b", "in^2/ft", "steel", "closed form");
        sheet_formula(s, "a", "A_s / k_f", "in", "depth of the block", clause);
        sheet_formula(s, "M_r", "phi A_s f_y (d_e - a / 2) / 12 [in/ft]", "kip*ft/ft", "resistance",
                      clause);
        capacity_N = sheet_SI(s, "M_r");
    } else if (thin)
        capacity_N = sheet_SI(s, "M_max");
    CheckRow *row = check_add(list, with, s, of->name, sheet_SI(s, "M_u"), capacity_N, DIM_FORCE);
    check_place(row, "", of->where, "strength", of->clause);
    if (!known && !thin)
        check_needs(row, with, bar_path(of->top, false),
                    text_in(with, "%s of transverse steel is needed", sheet_SI(s, "A_req"),
                            "in^2/ft", "mm^2/m"));
    return row;
}

/* ---- strips ---- */

/* Clear of tubs the deck spans between webs. */
static void give_span(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "S_g", "girders.spacing", "ft", "between girders");
    if (!with->shared->tub) {
        sheet_formula(s, "S", "S_g", "ft", "span of the strip", "AASHTO LRFD 4.6.2.1.5");
        return;
    }
    value_give(s, with, "b_b", "girders.plates[1].bottom_width", "ft", "bottom of a tub");
    value_give(s, with, "m_w", "girders.web_slope", "", "slope of the webs");
    value_give(s, with, "D", "girders.plates[1].web_depth", "ft", "depth of the webs");
    sheet_formula(s, "S_w", "b_b + 2 m_w D", "ft", "between the webs of a tub", "closed form");
    sheet_formula(s, "S", "max(S_w, S_g - S_w)", "ft", "span of the strip",
                  "AASHTO LRFD 4.6.2.1.5 (from memory)");
}

static void give_dead(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "w_d", "deck.density", "kcf", "weight of the deck");
    value_give(s, with, "t_d", "deck.thickness", "ft", "panel as cast");
    value_give(s, with, "w_o", "loads.overlay", "ksf", "overlay");
    value_give(s, with, "w_f", "loads.future", "ksf", "future wearing surface");
    value_give(s, with, "g_d", "criteria.strength_dead", "", "on dead load");
    value_give(s, with, "g_w", "criteria.strength_wearing", "", "on overlays");
    value_give(s, with, "g_l", "criteria.strength_live", "", "on live load");
}

static void give_sum(Sheet *s)
{
    sheet_formula(s, "M_D", "w_d t_d S^2 / 10", "kip*ft/ft", "own weight",
                  "continuous strip; common practice, no source");
    sheet_formula(s, "M_W", "(w_o + w_f) S^2 / 10", "kip*ft/ft", "overlays", "the same");
    sheet_formula(s, "M_u", "g_d M_D + g_w M_W + g_l M_L", "kip*ft/ft", "Strength I", factors);
}

/* Section beside the girder: quarter of a steel flange; third of a concrete one, at most 15 in. */
static void give_section(Sheet *s, const CheckCase *with)
{
    sheet_given_from(s, "b_f", line_top_width_m(with), "in", "width of the top flange",
                     from_flange);
    sheet_formula(s, "x", with->shared->steel ? "b_f / 4" : "min(b_f / 3, 15 [in])", "in",
                  "design section from the girder's middle", "AASHTO LRFD 4.6.2.1.6 (from memory)");
}

/* Where the table does not hold, in words; NULL where it does. */
static const char *outside(const CheckCase *with, double span_m)
{
    const int count = value_int(with, "girders.count") * (with->shared->tub ? 2 : 1);
    const double outer_m =
        kit_value(with, "girders.spacing") * (value_int(with, "girders.count") - 1);
    if (count < 3) return "AASHTO LRFD table A4-1 asks for three girders";
    if (outer_m < 14 * 0.3048 - 1e-6)
        return "AASHTO LRFD table A4-1 asks for 14 ft between the outer girders";
    if (!strip_covers(span_m)) return "AASHTO LRFD table A4-1 goes from 4 ft to 15 ft";
    return NULL;
}

static void strip(const CheckCase *with, CheckList *list, bool top)
{
    const StripRow of = {top ? "strip over a girder, top bars"
                             : "strip between girders, bottom bars",
                         top ? "beside the girders" : "midway between girders",
                         "AASHTO LRFD appendix A4 and 5.6.3.2 (from memory)", top};
    Sheet s = sheet_start(top ? "Strip over a girder" : "Strip between girders", with->arena);
    give_span(&s, with);
    const char *why = outside(with, sheet_SI(&s, "S"));
    if (why) {
        sheet_words(&s, why);
        CheckRow *row = check_add(list, with, &s, of.name, 0, NAN, DIM_FORCE);
        check_place(row, "", of.where, "strength", of.clause);
        check_needs(row, with, NULL, why);
        return;
    }
    give_dead(&s, with);
    if (top) {
        give_section(&s, with);
        strip_negative(&s);
    } else
        strip_positive(&s);
    give_sum(&s);
    CheckRow *row = strip_add(with, list, &s, &of);
    check_needs(row, with, top ? "panels.top_cover" : "panels.bottom_cover",
                "the effective depth hangs on the cover");
}

/* Barrier, own weight and overlays of the overhang at its design section: M_D and M_W. */
static void give_cantilever(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "o", "girders.overhang", "ft", "deck edge beyond the exterior girder");
    give_section(s, with);
    if (with->shared->tub) {
        give_span(s, with);
        sheet_formula(s, "L_o", "o - S_w / 2 - x / 12 [in/ft]", "ft",
                      "edge from the design section beyond the outer web", "closed form");
    } else
        sheet_formula(s, "L_o", "o - x / 12 [in/ft]", "ft", "edge from the design section",
                      "closed form");
    value_give(s, with, "p_b", "loads.barrier", "kip/ft", "one barrier");
    value_give(s, with, "b_b", "loads.barrier_width", "ft", "its width");
    give_dead(s, with);
    sheet_formula(s, "M_D", "p_b max(L_o - b_b / 2, 0 [ft]) + w_d t_d max(L_o, 0 [ft])^2 / 2",
                  "kip*ft/ft", "barrier, its middle over its weight, and own weight",
                  "closed form: cantilever");
    sheet_formula(s, "M_W", "(w_o + w_f) max(L_o - b_b, 0 [ft])^2 / 2", "kip*ft/ft", "overlays",
                  "closed form: cantilever");
}

static bool impact_known(const CheckCase *with)
{
    return !isnan(kit_value(with, "loads.barrier_moment")) &&
           !isnan(kit_value(with, "loads.barrier_pull"));
}

/* A wheel 1 ft from the barrier; without collision. */
static void overhang(const CheckCase *with, CheckList *list)
{
    static const char strip_source[] = "AASHTO LRFD 4.6.2.1.3 (from memory)";
    Sheet s = sheet_start("Overhang", with->arena);
    give_cantilever(&s, with);
    sheet_formula(&s, "X", "max(L_o - b_b - 1 [ft], 0 [ft])", "ft", "wheel from the section",
                  "AASHTO LRFD 3.6.1.3.1 (from memory): 1 ft from the barrier");
    sheet_empirical(&s, "b_s", "45 + 10 X", "in", "width of the strip", strip_source);
    sheet_formula(&s, "M_L", "1.2 * 1.33 * 16 [kip] * X * 12 [in/ft] / b_s", "kip*ft/ft",
                  "wheel with presence 1.2 and impact 1.33",
                  "AASHTO LRFD 3.6.1.1.2, 3.6.1.2.2 and 3.6.2 (from memory)");
    sheet_formula(&s, "M_u", "g_d M_D + g_w M_W + g_l M_L", "kip*ft/ft", "Strength I", factors);
    const StripRow of = {"overhang without collision, top bars", "overhang",
                         "AASHTO LRFD 4.6.2.1.3 and 5.6.3.2 (from memory)", true};
    CheckRow *row = strip_add(with, list, &s, &of);
    check_needs(row, with, "panels.top_cover", "the effective depth hangs on the cover");
    if (!impact_known(with))
        check_needs(row, with, NULL,
                    "loads.barrier_moment, loads.barrier_pull: a vehicle against the barrier "
                    "(AASHTO LRFD A13.4, from memory) usually governs");
}

/* The overhang is to be stronger than the barrier on it: its moment and pull at the deck, which do not
 * spread on their way to the design section, to the safe side. */
static void impact(const CheckCase *with, CheckList *list)
{
    static const char clause[] = "AASHTO LRFD A13.4.1, A13.4.2, Extreme Event II (from memory)";
    const bool known = !isnan(kit_value(with, bar_path(true, false))) &&
                       !isnan(kit_value(with, bar_path(true, true)));
    if (!impact_known(with)) return;
    Sheet s = sheet_start("Overhang under a vehicle against the barrier", with->arena);
    give_cantilever(&s, with);
    value_give(&s, with, "M_c", "loads.barrier_moment", "kip*ft/ft",
               "barrier's strength at its foot");
    value_give(&s, with, "T", "loads.barrier_pull", "kip/ft", "pull across, at the same time");
    sheet_formula(&s, "M_u", "M_c + M_D + M_W", "kip*ft/ft", "all factors 1.0", clause);
    give_depth(&s, with, true);
    double capacity_N = NAN;
    if (known) {
        give_concrete(&s, with);
        value_give(&s, with, "f_y", "panels.bar_yield", "ksi", "yield stress of the bars");
        value_give(&s, with, "s_b", bar_path(true, true), "in", "between bars");
        sheet_formula(&s, "A_s", "A_b * 12 [in/ft] / s_b", "in^2/ft", "steel", "closed form");
        sheet_formula(&s, "a", "max(A_s f_y - T, 0 [kip/ft]) / (a_1 f'c * 12 [in/ft])", "in",
                      "depth of the block", "AASHTO LRFD 5.6.3.2 (from memory)");
        sheet_formula(&s, "M_r",
                      "if(A_s f_y > T, (A_s f_y (d_e - a / 2) - T (t_c / 2 - a / 2)) / 12 [in/ft], "
                      "0 [kip*ft/ft])",
                      "kip*ft/ft", "resistance beside the pull, factor 1.0",
                      "law: equilibrium about mid-depth");
        capacity_N = sheet_SI(&s, "M_r");
    }
    CheckRow *row = check_add(list, with, &s, "overhang under a vehicle against the barrier",
                              sheet_SI(&s, "M_u"), capacity_N, DIM_FORCE);
    check_place(row, "", "overhang", "extreme event", clause);
    check_needs(row, with, "panels.top_cover", "the effective depth hangs on the cover");
    if (!known) check_needs(row, with, bar_path(true, false), "the top bars are not chosen");
}

Status check_strips(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    strip(with, list, false);
    strip(with, list, true);
    overhang(with, list);
    impact(with, list);
    return STATUS_OK;
}
