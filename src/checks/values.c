#include "values.h"

#include <assert.h>
#include <math.h>
#include <string.h>

const char from_thickness[] = "deck.thickness less deck.wearing_allowance";
const char from_haunch[] = "deck.haunch";
const char from_flange[] = "girders.top_width, or the first of girders.plates";
const char from_sections[] = "section properties";
const char from_stages[] = "stages";
const char from_answer[] = "the answer";
const char from_time[] = "concrete with time";

const char *from_width(const KitLine *k)
{
    return strncmp(k->line->name, "exterior", 8) == 0 ? "girders.spacing / 2 + girders.overhang"
                                                      : "girders.spacing";
}

int value_int(const CheckCase *with, const char *path)
{
    return (int)lround(kit_value(with, path));
}

void value_give(Sheet *sheet, const CheckCase *with, const char *symbol, const char *path,
                const char *unit, const char *words)
{
    static const char *const from[] = {"default", "bridge file", "derived"};
    const BridgeValue *value = bridge_value_at(with->bridge, path);
    assert(value);
    sheet_given_from(sheet, symbol, value->value, unit, words,
                     arena_printf(sheet->arena, "%s, %s", path, from[value->origin]));
}

bool value_is_given(const CheckCase *with, const char *path)
{
    const BridgeValue *value = bridge_value_at(with->bridge, path);
    assert(value);
    return value->origin == ORIGIN_GIVEN;
}

int value_chosen(Sheet *sheet, const CheckCase *with, const char *symbol, const char *path,
                 double need_1)
{
    const int given = value_int(with, path);
    const double least = isfinite(need_1) ? fmin(fmax(ceil(need_1 - 1e-9), 1), 1e6) : 1;
    const int count = given > 0 ? given : (int)least;
    if (given > 0)
        value_give(sheet, with, symbol, path, "", "chosen number");
    else
        sheet_given_from(sheet, symbol, count, "", "not chosen: the least number that does",
                         arena_printf(sheet->arena, "%s is open", path));
    return count;
}

double value_known(const Sheet *sheet, const char *symbol, bool known)
{
    if (!known) return NAN;
    return sheet_SI(sheet, symbol);
}

const char *text_in(const CheckCase *with, const char *format, double value, const char *US,
                    const char *SI)
{
    const char *unit = bridge_units(with->bridge) == UNITS_SI ? SI : US;
    char number[32];
    snprintf(number, sizeof number, "%.3g", quantity_in(value, unit));
    const char *at = strstr(format, "%s");
    assert(at);
    return arena_printf(with->arena, "%.*s%s %s%s", (int)(at - format), format, number, unit,
                        at + 2);
}

double give_thrust(Sheet *sheet, const CheckCase *with, const KitLine *k)
{
    const double share = fmax(k->line->share_1, k->line->share_stiff_1);
    sheet_given_from(sheet, "T", with->answer->thrust_N, "kip", "thrust of the whole deck",
                     from_answer);
    sheet_given_from(
        sheet, "r", share, "", "share of this line",
        "share of the thrust: the larger of tributary width and stiffness of the lines");
    sheet_given_from(sheet, "F_a", k->answer->anchor_force_N, "kip",
                     "arrives at an anchor panel in the stages, friction taken off",
                     "for comparison: friction is not counted on");
    return sheet_formula(sheet, "P", "T r", "kip", "line thrust without friction",
                         "upper bound; common practice, no source");
}

double give_factored(Sheet *sheet, const CheckCase *with, const KitLine *k)
{
    give_thrust(sheet, with, k);
    value_give(sheet, with, "gamma", "criteria.thrust_factor", "", "factor on the thrust");
    return sheet_formula(sheet, "P_u", "gamma P", "kip", "factored line thrust",
                         "AASHTO LRFD 3.4.3.2 (from memory), by analogy");
}

static const char *lanes_from(Sheet *sheet, const CheckCase *with, const KitLine *k,
                              const char *clause)
{
    const char *path =
        strncmp(k->line->name, "exterior", 8) == 0 ? "live.lanes_exterior" : "live.lanes_interior";
    if (isnan(kit_value(with, path)))
        return arena_printf(sheet->arena, "lanes on a girder line, %s, derived", clause);
    return arena_printf(sheet->arena, "%s, bridge file", path);
}

void give_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k)
{
    sheet_given_from(sheet, "g_m", k->line->lanes_1, "", "lanes on the line",
                     lanes_from(sheet, with, k, "AASHTO LRFD 4.6.2.2 (from memory)"));
}

void give_shear_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k)
{
    sheet_given_from(sheet, "g_v", k->line->lanes_shear_1, "", "lanes on the line, shear",
                     lanes_from(sheet, with, k, "AASHTO LRFD 4.6.2.2.3 (from memory)"));
}

void give_fatigue_shear_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k)
{
    sheet_given_from(
        sheet, "g_vf", k->line->lanes_fatigue_shear_1, "",
        "lanes on the line, shear, one truck, no multiple presence",
        lanes_from(sheet, with, k, "AASHTO LRFD 4.6.2.2.3 and 3.6.1.1.2 (from memory)"));
}

void give_fatigue_lanes(Sheet *sheet, const CheckCase *with, const KitLine *k)
{
    sheet_given_from(sheet, "g_f", k->line->lanes_fatigue_1, "",
                     "lanes on the line, one truck, no multiple presence",
                     lanes_from(sheet, with, k, "AASHTO LRFD 4.6.2.2 and 3.6.1.1.2 (from memory)"));
}

double line_anchor_m(const KitLine *k)
{
    const BridgeLine *l = k->line;
    const double *x_m = l->model.x_m;
    const double left_m = x_m[l->joint[0].station] - x_m[0];
    const double right_m =
        x_m[l->model.station_count - 1] - x_m[l->joint[l->joint_count - 1].station];
    return fmin(left_m, right_m);
}

double line_panel_m(const KitLine *k)
{
    const BridgeLine *l = k->line;
    double longest = 0;
    for (int j = 0; j + 1 < l->joint_count; j++)
        if (!l->joint[j].at_gap || !l->joint[j + 1].at_gap)
            longest = fmax(longest, l->model.x_m[l->joint[j + 1].station] -
                                        l->model.x_m[l->joint[j].station]);
    return longest;
}

const PartSection *line_girder(const KitLine *k, int station, const Material **material)
{
    const StageModel *m = k->model;
    const int element = station < m->station_count - 1 ? station : station - 1;
    for (int p = 0; p < m->part_count; p++) {
        const PartSection *section = &m->section[m->part[p].section];
        if (m->part[p].element != element || m->part[p].chain != CHAIN_GIRDER ||
            section->inertia_m4 <= 0)
            continue;
        if (material) *material = &m->material[m->part[p].material];
        return section;
    }
    return NULL;
}

int line_station(const KitLine *k, double x_m)
{
    const StageModel *m = k->model;
    int best = 0;
    for (int i = 1; i < m->station_count; i++)
        if (fabs(m->x_m[i] - x_m) < fabs(m->x_m[best] - x_m)) best = i;
    return best;
}

double line_top_width_m(const CheckCase *with)
{
    const BridgeValue *plate = bridge_value_at(with->bridge, "girders.plates[1].top_width");
    return plate ? plate->value : kit_value(with, "girders.top_width");
}
