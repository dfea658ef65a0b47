/* A panel off its bed, on the hook, on the road and at the crane. docs/theory/connections.md. */
#include "table.h"
#include "values.h"

#include <math.h>

/* Numbers of the words of panels.skew and panels.crown. */
enum { SKEW_ALL = 1, CROWN_THICKENED = 2, CROWN_CLOSURE = 3 };

/* Panels of two halves beside a longitudinal closure. */
static double piece_width_m(const CheckCase *with)
{
    const bool halves = value_int(with, "panels.crown") == CROWN_CLOSURE;
    const double width_m = kit_value(with, "deck.width");
    return halves ? (width_m - kit_value(with, "panels.strip")) / 2 : width_m;
}

/* The longest panel; with full width. A skewed one has its sides along the joints. */
static PanelLifted longest_panel(const CheckCase *with)
{
    double longest_m = line_anchor_m(&with->shared->line[0]);
    for (int i = 0; i < with->shared->count; i++) {
        longest_m = fmax(longest_m, line_panel_m(&with->shared->line[i]));
        longest_m = fmax(longest_m, line_anchor_m(&with->shared->line[i]));
    }
    const bool all = value_int(with, "panels.skew") == SKEW_ALL;
    const double skew_rad = kit_value(with, "deck.skew_degrees") * acos(-1) / 180;
    const double cosine = all ? cos(skew_rad) : 1;
    const bool thick = value_int(with, "panels.crown") == CROWN_THICKENED;
    const double width_m = piece_width_m(with);
    /* cut by the skew, an end panel has one side that is longer */
    if (!all) longest_m += width_m / 2 * fabs(tan(skew_rad));
    return (PanelLifted){longest_m * cosine, width_m / cosine,
                         kit_value(with, "deck.thickness") +
                             (thick ? kit_value(with, "deck.crossfall") * width_m / 4 : 0)};
}

static void give_panel(Sheet *s, const CheckCase *with, const PanelLifted *panel)
{
    const bool plain = fabs(panel->mean_m - kit_value(with, "deck.thickness")) < 1e-9;
    sheet_given_from(s, "L", panel->length_m, "in", "longest panel along the bridge",
                     "layout of the panels, skew");
    if (fabs(panel->width_m - kit_value(with, "deck.width")) < 1e-9)
        value_give(s, with, "B", "deck.width", "in", "its length across the bridge");
    else
        sheet_given_from(s, "B", panel->width_m, "in",
                         "its length across the bridge, along its joints", "deck.width and skew");
    value_give(s, with, "t", "deck.thickness", "in", "as cast");
    value_give(s, with, "w_d", "deck.density", "kcf", "weight of the panel");
    if (!plain)
        sheet_given_from(s, "t_w", panel->mean_m, "in", "mean thickness, the crown's in",
                         "deck.thickness and crossfall");
    sheet_formula(s, "W", plain ? "w_d L B t / 1728 [in^3/ft^3]" : "w_d L B t_w / 1728 [in^3/ft^3]",
                  "kip", "weight of the panel", "closed form");
}

typedef struct Lift {
    const char *name, *when, *factor_path, *strength_path;
} Lift;

/* Points across, n_p above: two of them stand at r_a from the ends; more share the weight alike, each in
 * the middle of its part. */
static void give_across(Sheet *s, const CheckCase *with, int points)
{
    value_give(s, with, "r_a", "handling.inset_across", "", "lifting points from the ends, across");
    if (points <= 2)
        sheet_formula(s, "m_a", "max(r_a^2 / 2, (1 - 2 r_a)^2 / 8 - r_a^2 / 2)", "",
                      "moment over w B^2", "closed form: beam with two overhangs");
    else
        sheet_formula(s, "m_a", "1 / (8 n_p^2)", "", "moment over w B^2",
                      "closed form: equal reactions in the middle of equal parts");
}

/* Both strips: two rows of points each carry half of the panel; widths that bend are those of precast
 * practice, less the pockets. */
static void give_stresses(Sheet *s, const CheckCase *with, int points)
{
    static const char practice[] = "precast design handbook practice, lifting points (from memory)";
    give_across(s, with, points);
    value_give(s, with, "r_l", "handling.inset_along", "", "from the edges, along");
    value_give(s, with, "q_s", "handling.sling_degrees", "",
               "slings above the horizontal, degrees");
    value_give(s, with, "l_p", "handling.pocket", "in", "length of a pocket");
    value_give(s, with, "s_p", "connectors.spacing", "in", "between pockets");
    value_give(s, with, "n_g", "girders.count", "", "rows of pockets");
    sheet_formula(s, "F_h", "gamma W / (2 n_p) / tan(q_s * 3.14159265 / 180)", "kip",
                  "a sling's pull along the panel", "law: equilibrium");
    sheet_formula(s, "M_h", "F_h (t / 2 + 3 [in])", "kip*in", "its moment, 3 in above the panel",
                  practice);
    sheet_formula(s, "w_a", "gamma W / 2 / B", "kip/in", "on half of the panel, across",
                  "closed form");
    sheet_formula(s, "M_a", "m_a w_a B^2 + M_h", "kip*in", "moment across the bridge",
                  "law: superposition");
    sheet_formula(s, "b_a", "min(L / 2, 15 t) max(1 - l_p / s_p, 0.1)", "in",
                  "width that bends, less pockets", practice);
    sheet_formula(s, "f_a", "1000 [psi/ksi] M_a / (b_a t^2 / 6)", "psi", "stress across the bridge",
                  "closed form");
    sheet_formula(s, "w_l", "gamma W / 2 / L", "kip/in", "on half of the panel, along",
                  "closed form");
    sheet_formula(s, "M_l", "w_l L^2 max(r_l^2 / 2, (1 - 2 r_l)^2 / 8 - r_l^2 / 2)", "kip*in",
                  "moment along the bridge", "closed form: beam with two overhangs");
    sheet_formula(s, "b_l", "min(B / 2, 15 t) max(1 - n_g l_p / B, 0.1)", "in",
                  "width that bends, less pockets", practice);
    sheet_formula(s, "f_s", "1000 [psi/ksi] M_l / (b_l t^2 / 6)", "psi", "stress along the bridge",
                  "closed form");
    sheet_formula(s, "f_t", "max(f_a, f_s)", "psi", "larger one", "closed form");
}

static const char no_cracks[] =
    "7.5 sqrt(f'c) over 1.5, precast design handbook practice (from memory)";

static Sheet lift_sheet(const CheckCase *with, const PanelLifted *panel, const Lift *of, int points)
{
    const bool chosen = value_int(with, "handling.points") > 0;
    Sheet s = sheet_start(of->name, with->arena);
    give_panel(&s, with, panel);
    value_give(&s, with, "gamma", of->factor_path, "", "on the weight");
    sheet_given_from(&s, "n_p", points, "", "lifting points across, in each of two rows",
                     chosen ? "handling.points, bridge file" : "not chosen");
    give_stresses(&s, with, points);
    value_give(&s, with, "f'ci", of->strength_path, "psi", "strength then");
    sheet_empirical(&s, "f_r", "7.5 sqrt(f'ci) / 1.5", "psi", "stress without cracks", no_cracks);
    return s;
}

/* Points across: chosen, else the least number that keeps the panel free of cracks, at most 12. */
static int points_across(const CheckCase *with, const PanelLifted *panel, const Lift *of)
{
    int points = value_int(with, "handling.points");
    if (points > 0) return points;
    for (points = 2; points < 12; points += 2) {
        const Sheet s = lift_sheet(with, panel, of, points);
        if (s.status != STATUS_OK || sheet_SI(&s, "f_t") <= sheet_SI(&s, "f_r")) break;
    }
    return points;
}

/* In the order of PanelLift. */
static const Lift lifts[PANEL_LIFT_COUNT] = {
    {"panel lifted off the bed", "stripping", "handling.stripping_factor",
     "handling.stripping_strength"},
    {"panel lifted onto the girders", "erection", "handling.erection_factor",
     "concrete.panel.strength"}};

Status checks_lift(const CheckCase *with, const PanelLifted *panel, PanelLift which,
                   PanelLiftAnswer *answer, Error *err)
{
    const Lift *of = &lifts[which];
    const int points = points_across(with, panel, of);
    Sheet *s = ARENA_NEW(with->arena, Sheet, 1);
    *s = lift_sheet(with, panel, of, points);
    if (s->status != STATUS_OK) {
        *err = s->err;
        return s->status;
    }
    const double degrees = kit_value(with, "handling.sling_degrees");
    *answer = (PanelLiftAnswer){.name = of->name,
                                .points = points,
                                .chosen = value_int(with, "handling.points") > 0,
                                .factor_1 = kit_value(with, of->factor_path),
                                .sling_degrees = degrees,
                                .stress_Pa = sheet_SI(s, "f_t"),
                                .limit_Pa = sheet_SI(s, "f_r"),
                                .strength_Pa = kit_value(with, of->strength_path),
                                .weight_N = sheet_SI(s, "W"),
                                .sheet = s};
    answer->leg_N =
        answer->factor_1 * answer->weight_N / (2 * points) / sin(degrees * acos(-1) / 180);
    return STATUS_OK;
}

static void lift(const CheckCase *with, CheckList *list, const Lift *of)
{
    const PanelLifted panel = longest_panel(with);
    const int points = points_across(with, &panel, of);
    const Sheet s = lift_sheet(with, &panel, of, points);
    CheckRow *row =
        check_add(list, with, &s, of->name, sheet_SI(&s, "f_t"), sheet_SI(&s, "f_r"), DIM_STRESS);
    check_place(row, "", "longest panel", of->when, no_cracks);
    check_needs(row, with, "handling.points",
                arena_printf(with->arena,
                             "the lifting points are not chosen: two rows of %d are needed",
                             points));
    check_needs(row, with, of->strength_path, "the panel's strength on that day");
    if (points <= 2)
        check_needs(row, with, "handling.inset_across", "where the lifting points stand");
    check_needs(row, with, "handling.sling_degrees", "the slings are not chosen");
}

static void inserts(const CheckCase *with, CheckList *list)
{
    const PanelLifted panel = longest_panel(with);
    const int off_points = points_across(with, &panel, &lifts[PANEL_OFF_BED]);
    const int on_points = points_across(with, &panel, &lifts[PANEL_ON_GIRDERS]);
    const bool known = !isnan(kit_value(with, "handling.insert"));
    Sheet s = sheet_start("Lifting inserts", with->arena);
    give_panel(&s, with, &panel);
    value_give(&s, with, "g_s", "handling.stripping_factor", "", "on the weight off the bed");
    value_give(&s, with, "g_e", "handling.erection_factor", "", "on the weight later");
    value_give(&s, with, "q_s", "handling.sling_degrees", "",
               "slings above the horizontal, degrees");
    sheet_given_from(&s, "n_p", off_points > on_points ? off_points : on_points, "",
                     "lifting points across, in each of two rows", "workings of lifting");
    value_give(&s, with, "k_i", "handling.insert_margin", "", "strength over load");
    sheet_formula(&s, "F_i", "max(g_s, g_e) W / (2 n_p) / sin(q_s * 3.14159265 / 180)", "kip",
                  "one insert, slings that even out", "law: equilibrium");
    sheet_formula(&s, "R_req", "k_i F_i", "kip", "strength that is needed", "29 CFR 1926.704");
    if (known) value_give(&s, with, "R", "handling.insert", "kip", "strength of an insert");
    CheckRow *row = check_add(list, with, &s, "lifting inserts", sheet_SI(&s, "R_req"),
                              value_known(&s, "R", known), DIM_FORCE);
    check_place(row, "", "longest panel", "lifting", "29 CFR 1926.704 (excerpt seen)");
    check_needs(row, with, "handling.insert",
                text_in(with, "inserts of %s are needed", sheet_SI(&s, "R_req"), "kip", "kN"));
    check_needs(row, with, "handling.sling_degrees", "the slings are not chosen");
}

/* Against what is given, else against what is legal without a permit, which proves nothing. */
static void hauling(const CheckCase *with, CheckList *list)
{
    static const char legal[] = "23 CFR 658 (from memory): 80 kip in all, 8.5 ft wide";
    const bool weight = !isnan(kit_value(with, "handling.truck"));
    const bool width = !isnan(kit_value(with, "handling.truck_width"));
    const PanelLifted panel = longest_panel(with);
    Sheet s = sheet_start("Panel on the road", with->arena);
    give_panel(&s, with, &panel);
    if (weight)
        value_give(&s, with, "W_t", "handling.truck", "kip", "payload");
    else
        sheet_formula(&s, "W_t", "45 [kip]", "kip", "payload of a legal truck", legal);
    if (width)
        value_give(&s, with, "b_t", "handling.truck_width", "in", "width that may travel");
    else
        sheet_formula(&s, "b_t", "102 [in]", "in", "width without a permit", legal);
    sheet_formula(&s, "b", "min(L, B)", "in", "the panel lies lengthwise", "closed form");
    CheckRow *row = check_add(list, with, &s, "weight of a panel on the road", sheet_SI(&s, "W"),
                              value_known(&s, "W_t", weight), DIM_FORCE);
    check_place(row, "", "longest panel", "hauling", weight ? "bridge file" : legal);
    check_needs(row, with, "handling.truck",
                text_in(with, "a payload of %s is needed", sheet_SI(&s, "W"), "kip", "kN"));
    row = check_add(list, with, &s, "width of a panel on the road", sheet_SI(&s, "b"),
                    value_known(&s, "b_t", width), DIM_LENGTH);
    check_place(row, "", "longest panel", "hauling", width ? "bridge file" : legal);
    check_needs(row, with, "handling.truck_width",
                text_in(with,
                        sheet_SI(&s, "b") > sheet_SI(&s, "b_t") * (1 + 1e-9)
                            ? "%s needs a permit, or other panels"
                            : "%s is legal where no stricter limit holds",
                        sheet_SI(&s, "b"), "ft", "m"));
}

static void crane(const CheckCase *with, CheckList *list)
{
    const bool known = !isnan(kit_value(with, "handling.crane"));
    const PanelLifted panel = longest_panel(with);
    Sheet s = sheet_start("Crane", with->arena);
    give_panel(&s, with, &panel);
    value_give(&s, with, "g_c", "handling.crane_factor", "", "on the weight for the crane");
    value_give(&s, with, "W_r", "handling.rigging", "kip", "slings and frame");
    value_give(&s, with, "k_c", "handling.crane_share", "", "of the chart that is used");
    sheet_formula(&s, "C_req", "(g_c W + W_r) / k_c", "kip", "capacity that is needed",
                  "common practice, no source");
    if (known) value_give(&s, with, "C", "handling.crane", "kip", "chart at the worst radius");
    CheckRow *row = check_add(list, with, &s, "crane", sheet_SI(&s, "C_req"),
                              value_known(&s, "C", known), DIM_FORCE);
    check_place(row, "", "longest panel", "erection", "common practice, no source");
    check_needs(row, with, "handling.crane",
                text_in(with, "a chart of %s at the worst radius is needed", sheet_SI(&s, "C_req"),
                        "kip", "kN"));
}

Status check_handling(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < PANEL_LIFT_COUNT; i++) lift(with, list, &lifts[i]);
    inserts(with, list);
    hauling(with, list);
    crane(with, list);
    return STATUS_OK;
}
