/* Anchor panels: connectors for the factored thrust, length of their group, hold-down of the inner
 * edge, tie between the girders. docs/theory/connections.md. */
#include "strength.h"
#include "table.h"

#include <math.h>

static const char path_count[] = "connectors.anchor_count";

static double concrete_Pa(const CheckCase *with, const KitLine *k)
{
    return fmin(kit_value(with, "connectors.anchor_grout"), k->line->deck_jacking_strength_Pa);
}

/* The strength as a number that the engineer gives, where no connectors are chosen. */
static void by_given_strength(const CheckCase *with, const KitLine *k, CheckList *list)
{
    Sheet s = sheet_start("Connectors of an anchor panel", with->arena);
    give_factored(&s, with, k);
    const double V_r = connect_resist_given(&s, with);
    CheckRow *row = check_add(list, with, &s, "connectors of an anchor panel", sheet_SI(&s, "P_u"),
                              V_r, DIM_FORCE);
    check_place(row, k->name, "anchor panels", k->line->jacked, connect_clause(with));
}

static void connectors(const CheckCase *with, const KitLine *k, CheckList *list)
{
    Sheet s = sheet_start("Connectors of an anchor panel", with->arena);
    give_factored(&s, with, k);
    connect_give(&s, with, concrete_Pa(with, k), connect_group_m(with, k), false);
    const double need = connect_need(&s, with);
    value_chosen(&s, with, "n", path_count, need);
    const double V_r = connect_resist(&s, with);
    CheckRow *row = check_add(list, with, &s, "connectors of an anchor panel", sheet_SI(&s, "P_u"),
                              V_r, DIM_FORCE);
    check_place(row, k->name, "anchor panels", k->line->jacked, connect_clause(with));
    connect_needs(row, with, path_count, "connectors.anchor_grout", need);
}

static void group_length(const CheckCase *with, const KitLine *k, CheckList *list)
{
    Sheet s = sheet_start("Length of the group in an anchor panel", with->arena);
    give_factored(&s, with, k);
    connect_give(&s, with, concrete_Pa(with, k), connect_group_m(with, k), false);
    const double need = connect_need(&s, with);
    const int n = value_chosen(&s, with, "n", path_count, need);
    const int per_row = value_int(with, "connectors.per_row");
    const int rows = (n + per_row - 1) / per_row;
    sheet_given_from(&s, "n_r", rows, "", "rows of the group",
                     "n over connectors.per_row, rounded up");
    value_give(&s, with, "p", "connectors.pitch", "in", "between rows");
    sheet_formula(&s, "L_n", "(n_r - 1) p", "in", "length that the rows take",
                  "closed form: equal rows, pockets one behind the other");
    sheet_given_from(&s, "L_g", connect_group_m(with, k), "in", "length that is there",
                     "connectors.anchor_length, at most the panel");
    CheckRow *row = check_add(list, with, &s, "length of the group in an anchor panel",
                              sheet_SI(&s, "L_n"), sheet_SI(&s, "L_g"), DIM_LENGTH);
    check_place(row, k->name, "anchor panels", k->line->jacked,
                "closed form: rows and their pitch");
    connect_needs(row, with, path_count, "connectors.anchor_grout", need);
    check_needs(row, with, "connectors.pitch", "the length of the group hangs on it");
}

/* ---- the thrust acts above the connectors: its couple lifts the inner edge ---- */

/* Pressures between panel and girder straight along the group: closed form. */
static void give_prying(Sheet *s, const CheckCase *with, const KitLine *k)
{
    const StageModel *m = k->model;
    give_factored(s, with, k);
    sheet_given_from(s, "h", m->haunch_m, "in", "haunch", from_haunch);
    sheet_given_from(s, "t", m->deck_thickness_m, "in", "deck that carries", from_thickness);
    sheet_given_from(s, "L_g", connect_group_m(with, k), "in", "length of the group",
                     "connectors.anchor_length, at most the panel");
    value_give(s, with, "w_d", "deck.density", "kcf", "weight of the deck");
    value_give(s, with, "t_c", "deck.thickness", "in", "deck as cast");
    sheet_given_from(s, "b", k->line->width_m, "in", "deck on this line", from_width(k));
    sheet_formula(s, "M", "P_u (h + t/2)", "kip*in", "couple over the girder top",
                  "law: equilibrium");
    sheet_formula(s, "W", "0.9 w_d t_c b L_g / 1728 [in^3/ft^3]", "kip", "weight that helps",
                  "AASHTO LRFD table 3.4.1-2 (from memory): least factor on dead load");
    sheet_formula(s, "q_M", "6 M / L_g^2", "kip/in", "pull at the inner edge by the couple",
                  "closed form: straight along the group");
    sheet_formula(s, "q_W", "W / L_g", "kip/in", "pressure of the weight", "closed form");
    sheet_formula(s, "a", "if(q_M <= q_W, 0 [in], L_g (1 - q_W / q_M) / 2)", "in",
                  "length that pulls", "closed form");
    sheet_formula(s, "T_u", "max(q_M - q_W, 0) a / 2", "kip", "pull of that length", "closed form");
}

static void add_held(const CheckCase *with, const KitLine *k, CheckList *list, Sheet *s,
                     double capacity_N)
{
    CheckRow *row = check_add(list, with, s, "inner edge of an anchor panel held down",
                              sheet_SI(s, "T_u"), capacity_N, DIM_FORCE);
    check_place(row, k->name, "inner edge of the anchor panels", k->line->jacked,
                "law: equilibrium; AASHTO LRFD 6.16.4.3 and 6.5.4.2 (from memory), by analogy");
    if (isnan(capacity_N))
        check_needs(row, with, path_count,
                    text_in(with, "connectors in the pulled part must bear %s beside their shear",
                            sheet_SI(s, "T_u"), "kip", "kN"));
}

/* Tension beside shear in the same connectors: 1 is all they bear. */
static void add_interaction(const CheckCase *with, const KitLine *k, CheckList *list, Sheet *s)
{
    const bool bars = connect_bars(with);
    connect_give(s, with, concrete_Pa(with, k), connect_group_m(with, k), false);
    value_give(s, with, "n", path_count, "", "connectors of the group");
    connect_resist(s, with);
    sheet_formula(s, "n_t", "max(n a / L_g, 0.01)", "", "connectors in the pulled length",
                  "closed form: connectors spread alike");
    if (bars)
        sheet_formula(s, "N_r", "0.9 n_t A_b f_y", "kip", "their tension",
                      "AASHTO LRFD 5.5.4.2 (from memory)");
    else
        sheet_formula(s, "N_r", "0.75 n_t A_sc F_u", "kip", "their tension",
                      "AASHTO LRFD 6.16.4.3 and 6.5.4.2 (from memory)");
    sheet_formula(s, "I", bars ? "P_u / V_r + T_u / N_r" : "(P_u / V_r)^(5/3) + (T_u / N_r)^(5/3)",
                  "", "shear and tension together",
                  bars ? "straight interaction; common practice, no source"
                       : "AASHTO LRFD 6.16.4.3 (from memory)");
    CheckRow *row = check_add(list, with, s, "inner edge of an anchor panel held down",
                              sheet_value(s, "I"), 1, DIM_NONE);
    check_place(row, k->name, "inner edge of the anchor panels", k->line->jacked,
                "law: equilibrium; AASHTO LRFD 6.16.4.3 and 6.5.4.2 (from memory), by analogy");
    connect_needs(row, with, NULL, "connectors.anchor_grout", 0);
    check_needs(row, with, "connectors.height",
                "a connector that pulls must reach into the upper half of the panel");
}

static void held_down(const CheckCase *with, const KitLine *k, CheckList *list)
{
    Sheet s = sheet_start("Inner edge of an anchor panel", with->arena);
    give_prying(&s, with, k);
    if (!isnan(kit_value(with, "connectors.hold_down"))) {
        value_give(&s, with, "N_r", "connectors.hold_down", "kip", "resistance of the hold-down");
        add_held(with, k, list, &s, sheet_SI(&s, "N_r"));
    } else if (value_int(with, path_count) == 0)
        add_held(with, k, list, &s, NAN);
    else
        add_interaction(with, k, list, &s);
}

/* ---- between the girders an anchor panel is a deep beam that lies flat ---- */

/* Two girders are a simple span: what the overhangs take off is not counted on, since less of the
 * thrust may stand there. */
static void give_flat_moments(Sheet *s, const CheckCase *with)
{
    const bool two = value_int(with, "girders.count") == 2;
    value_give(s, with, "o", "girders.overhang", "ft", "overhang");
    sheet_formula(s, "M", two ? "p S^2 / 8" : "p S^2 / 10", "kip*ft",
                  "moment lying flat between the girders",
                  two ? "closed form: simple span of two girders"
                      : "continuous beam over the girders; common practice, no source");
    sheet_formula(s, "M_o", "p o^2 / 2", "kip*ft", "of the overhang", "closed form: cantilever");
    sheet_formula(s, "z", "k_z min(S, L_a)", "ft", "lever arm", "common practice, no source");
    sheet_formula(s, "z_o", "k_z min(2 o, L_a)", "ft", "of the overhang",
                  "common practice, no source");
}

static void tie(const CheckCase *with, CheckList *list)
{
    const KitLine *k = &with->shared->line[0];
    const double steel_m2 = kit_value(with, "panels.anchor_bars");
    Sheet s = sheet_start("Tie of an anchor panel between the girders", with->arena);
    sheet_given_from(&s, "T", with->answer->thrust_N, "kip", "thrust of the whole deck",
                     from_answer);
    value_give(&s, with, "B", "deck.width", "ft", "width of the deck");
    value_give(&s, with, "S", "girders.spacing", "ft", "between girders");
    sheet_given_from(&s, "L_a", line_anchor_m(k), "ft", "length of the anchor panel",
                     "layout of the panels");
    value_give(&s, with, "gamma", "criteria.thrust_factor", "", "factor on the thrust");
    value_give(&s, with, "k_z", "criteria.anchor_lever", "", "lever arm of the deep beam");
    sheet_formula(&s, "p", "T / B", "kip/ft", "thrust per width", "closed form");
    give_flat_moments(&s, with);
    sheet_formula(&s, "T_u", "gamma max(M / z, M_o / z_o)", "kip", "force of the tie",
                  "strut and tie, AASHTO LRFD 5.8.2 (from memory)");
    value_give(&s, with, "f_y", "panels.bar_yield", "ksi", "yield stress of the bars");
    value_give(&s, with, "phi", "criteria.flexure", "", "resistance factor of a tie");
    sheet_formula(&s, "A_req", "T_u / (phi f_y)", "in^2", "steel that is needed", "closed form");
    double capacity_N = NAN;
    if (!isnan(steel_m2)) {
        value_give(&s, with, "A_s", "panels.anchor_bars", "in^2", "steel that is there");
        sheet_formula(&s, "T_r", "phi A_s f_y", "kip", "resistance of the tie",
                      "AASHTO LRFD 5.5.4.2 (from memory)");
        capacity_N = sheet_SI(&s, "T_r");
    }
    CheckRow *row = check_add(list, with, &s, "tie of an anchor panel between the girders",
                              sheet_SI(&s, "T_u"), capacity_N, DIM_FORCE);
    check_place(row, "", "anchor panels", k->line->jacked,
                "AASHTO LRFD 5.8.2 (from memory), by analogy");
    if (isnan(steel_m2))
        check_needs(row, with, "panels.anchor_bars",
                    text_in(with, "%s of transverse steel is needed", sheet_SI(&s, "A_req"), "in^2",
                            "mm^2"));
}

Status check_anchor(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        if (connect_is_given(with))
            by_given_strength(with, k, list);
        else {
            connectors(with, k, list);
            group_length(with, k, list);
        }
        held_down(with, k, list);
    }
    tie(with, list);
    return STATUS_OK;
}
