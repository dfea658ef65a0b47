#include "strength.h"

#include <math.h>

static const char studs[] = "AASHTO LRFD 6.10.10.4.3 (from memory)";
static const char interface[] = "AASHTO LRFD 5.7.4.3 (from memory)";
static const char constants[] = "AASHTO LRFD 5.7.4.4 (from memory)";

bool connect_bars(const CheckCase *with) { return value_int(with, "connectors.kind") == 1; }

const char *connect_clause(const CheckCase *with)
{
    return connect_bars(with) ? "AASHTO LRFD 5.7.4.3 (from memory), by analogy"
                              : "AASHTO LRFD 6.10.10.4 (from memory), by analogy";
}

static void give_stud(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "F_u", "connectors.strength", "ksi", "strength of the stud");
    value_give(s, with, "w_c", "connectors.grout_density", "kcf", "weight of the grout");
    sheet_formula(s, "A_sc", "3.14159265 d^2 / 4", "in^2", "shank", "closed form: circle");
    sheet_empirical(s, "E_c", "33000 w_c^1.5 sqrt(f'c)", "ksi", "modulus of the concrete",
                    "AASHTO LRFD 5.4.2.4 up to 2014 (from memory)");
    sheet_formula(s, "Q_n", "min(0.5 A_sc sqrt(f'c E_c), A_sc F_u)", "kip", "one stud", studs);
    value_give(s, with, "phi", "criteria.anchor", "", "resistance factor of studs");
    sheet_formula(s, "Q_r", "phi Q_n", "kip", "one stud, reduced", studs);
}

/* Width of the interface: given, else the top flange. */
static void give_width(Sheet *s, const CheckCase *with)
{
    if (isnan(kit_value(with, "connectors.width")))
        sheet_given_from(s, "b_v", line_top_width_m(with), "in",
                         "width of the interface: top flange", from_flange);
    else
        value_give(s, with, "b_v", "connectors.width", "in", "width of the interface");
}

static bool rough(const CheckCase *with, const char *path) { return value_int(with, path) == 0; }

/* Constants of the weaker of two planes: grout on the girder top, and on the panel's soffit, which is
 * cast against a form unless it is roughened. */
static void give_constants(Sheet *s, const CheckCase *with, bool cohesion)
{
    const bool top = rough(with, "connectors.surface"), soffit = rough(with, "connectors.soffit");
    const struct {
        const char *symbol, *top[2], *soffit[2], *unit, *words; /* [1]: roughened */
    } row[] = {
        {"c", {"0.075", "0.28"}, {"0.075", "0.24"}, "ksi", "cohesion: girder top, panel soffit"},
        {"mu", {"0.6", "1.0"}, {"0.6", "1.0"}, "", "friction: girder top, panel soffit"},
        {"K_1", {"0.2", "0.3"}, {"0.2", "0.25"}, "", "cap of the concrete, likewise"},
        {"K_2", {"0.8", "1.8"}, {"0.8", "1.5"}, "ksi", "cap, likewise"}};
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        const char *unit = row[i].unit[0] ? " [ksi]" : "";
        if (i == 0 && !cohesion)
            sheet_formula(s, "c", "0 [ksi]", "ksi",
                          "bond is not counted on: a part of the length is pulled open",
                          "common practice, no source");
        else
            sheet_formula(s, row[i].symbol,
                          arena_printf(s->arena, "min(%s%s, %s%s)", row[i].top[top], unit,
                                       row[i].soffit[soffit], unit),
                          row[i].unit, row[i].words, constants);
    }
}

/* The least steel counts the whole interface. Beside the thrust's couple the caps count what stays pressed:
 * pressures straight along the group pull at most half of it open. Permanent compression would bring friction
 * of its own: it is not counted, which is safe. */
static void give_interface(Sheet *s, const CheckCase *with, double length_m, bool cohesion)
{
    give_width(s, with);
    sheet_given_from(s, "L_v", length_m, "in", "length of the interface",
                     "pocket's spacing, or the group's length");
    sheet_formula(s, "A_cv", "b_v L_v", "in^2", "interface", interface);
    if (cohesion)
        sheet_formula(s, "A_k", "A_cv", "in^2", "of it for the caps: all", interface);
    else
        sheet_formula(s, "A_k", "A_cv / 2", "in^2",
                      "of it for the caps: the thrust's couple pulls at most half open",
                      "closed form: straight along the group");
    sheet_formula(s, "P_c", "0 [kip]", "kip",
                  "permanent compression: not counted, on the safe side",
                  "common practice, no source");
    value_give(s, with, "f_bar", "connectors.yield", "ksi", "yield stress of the bars");
    sheet_formula(s, "f_y", "min(f_bar, 60 [ksi])", "ksi", "that counts", interface);
    give_constants(s, with, cohesion);
    sheet_formula(s, "A_b", "3.14159265 d^2 / 4", "in^2", "one bar", "closed form: circle");
    value_give(s, with, "phi", "criteria.bars", "", "resistance factor of interface shear");
    sheet_formula(s, "Q_r", "phi mu A_b f_y", "kip", "one bar, reduced", interface);
}

/* Friction of the weaker face, one bar and its yield stress: the same numbers as above. */
void connect_give_friction(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "d", "connectors.diameter", "in", "diameter of a bar");
    sheet_formula(s, "A_b", "3.14159265 d^2 / 4", "in^2", "one bar", "closed form: circle");
    value_give(s, with, "f_bar", "connectors.yield", "ksi", "yield stress of the bars");
    sheet_formula(s, "f_y", "min(f_bar, 60 [ksi])", "ksi", "that counts", interface);
    const bool both = rough(with, "connectors.surface") && rough(with, "connectors.soffit");
    sheet_formula(s, "mu", both ? "1.0" : "0.6", "", "friction of the weaker face", constants);
}

void connect_give(Sheet *s, const CheckCase *with, double concrete_Pa, double length_m,
                  bool cohesion)
{
    value_give(s, with, "d", "connectors.diameter", "in", "diameter of a connector");
    sheet_given_from(s, "f'c", concrete_Pa, "ksi", "the weaker of grout and panel at that time",
                     "smaller of grout (connectors) and panel (concrete with time)");
    if (connect_bars(with))
        give_interface(s, with, length_m, cohesion);
    else
        give_stud(s, with);
}

double connect_need(Sheet *s, const CheckCase *with)
{
    if (!connect_bars(with))
        return sheet_formula(s, "n_req", "P_u / Q_r", "", "studs that are needed", studs);
    sheet_formula(s, "n_min", "0.05 [ksi] A_cv / (f_y A_b)", "", "least number of bars",
                  "AASHTO LRFD 5.7.4.2 (from memory)");
    return sheet_formula(s, "n_req", "max((P_u - phi c A_cv) / Q_r, n_min)", "",
                         "bars that are needed", interface);
}

double connect_resist(Sheet *s, const CheckCase *with)
{
    if (connect_bars(with)) {
        sheet_formula(s, "V_n", "min(c A_cv + mu (n A_b f_y + P_c), K_1 f'c A_k, K_2 A_k)", "kip",
                      "nominal", interface);
        sheet_formula(s, "V_r", "phi V_n", "kip", "resistance of the group", interface);
    } else
        sheet_formula(s, "V_r", "n Q_r", "kip", "resistance of the group", studs);
    return sheet_SI(s, "V_r");
}

double connect_group_m(const CheckCase *with, const KitLine *k)
{
    const double given_m = kit_value(with, "connectors.anchor_length");
    return isnan(given_m) ? line_anchor_m(k) : fmin(given_m, line_anchor_m(k));
}

bool connect_is_given(const CheckCase *with)
{
    return value_int(with, "connectors.anchor_count") == 0 &&
           !isnan(kit_value(with, "panels.anchor_connectors"));
}

double connect_resist_given(Sheet *s, const CheckCase *with)
{
    value_give(s, with, "V_n", "panels.anchor_connectors", "kip", "nominal, given");
    value_give(s, with, "phi", "criteria.anchor", "", "resistance factor");
    sheet_formula(s, "V_r", "phi V_n", "kip", "resistance", connect_clause(with));
    return sheet_SI(s, "V_r");
}

void connect_needs(CheckRow *row, const CheckCase *with, const char *count_path,
                   const char *grout_path, double need_1)
{
    if (count_path)
        check_needs(row, with, count_path,
                    arena_printf(with->arena, "the number is not chosen: %.0f are needed",
                                 isfinite(need_1) ? fmax(ceil(need_1 - 1e-9), 1) : 0.0));
    check_needs(row, with, "connectors.diameter", "the strength of a connector hangs on it");
    if (connect_bars(with) && rough(with, "connectors.soffit")) /* else the soffit is the weaker */
        check_needs(row, with, "connectors.surface",
                    "roughened tops have four times the cohesion of others");
    if (grout_path) check_needs(row, with, grout_path, "strength of the grout at that time");
}
