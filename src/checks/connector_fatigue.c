/* Fatigue of connectors between girder and deck, in pockets and in anchor panels: studs by their range of
 * shear for infinite life; bars by the range of the tension that shear friction gives them where the bond
 * of the interface is gone, for which there is no provision of its own. docs/theory/connections.md. */
#include "pockets.h"
#include "table.h"

#include <math.h>

static const char studs[] = "AASHTO LRFD 6.10.10.2 (from memory)";
static const char bars[] =
    "AASHTO LRFD 5.5.3.2, 8th edition, with 5.7.4.3 (from memory), by analogy";

/* What the number of connectors goes with: for bars the stress that stays on lowers the threshold,
 * 22 ksi over at most 60. */
double fatigue_measure_N(const CheckCase *with, const PocketForce *f)
{
    const double range_N = kit_value(with, "criteria.fatigue_live") * f->fatigue_N;
    if (!connect_bars(with)) return range_N;
    const double yield_ksi = quantity_in(kit_value(with, "connectors.yield"), "ksi");
    return range_N + 22 / fmin(yield_ksi, 60) * pocket_permanent_N(f);
}

static void give_range(Sheet *s, const CheckCase *with, const KitLine *k, const PocketForce *f)
{
    pocket_write_fatigue(s, with, k, f);
    value_give(s, with, "g_f", "criteria.fatigue_live", "", "Fatigue I");
    sheet_formula(s, "F_f", "g_f F_r", "kip", "range on these connectors", studs);
}

/* Returns the number that is needed; adds n, as chosen or else as needed. */
static double give_studs(Sheet *s, const CheckCase *with, const char *count_path)
{
    value_give(s, with, "d", "connectors.diameter", "in", "diameter of a stud");
    sheet_formula(s, "Z_r", "5.5 [ksi] d^2", "kip", "range of one stud, infinite life", studs);
    const double need = sheet_formula(s, "n_req", "F_f / Z_r", "", "studs needed", studs);
    value_chosen(s, with, "n", count_path, need);
    sheet_formula(s, "Z", "n Z_r", "kip", "range of these studs", studs);
    return need;
}

static double give_bars(Sheet *s, const CheckCase *with, const PocketForce *f,
                        const char *count_path)
{
    sheet_given_from(s, "F_p", pocket_permanent_N(f), "kip",
                     "largest force that stays on in service, without factors",
                     "sum of the links in the stages");
    connect_give_friction(s, with);
    const double need = sheet_formula(
        s, "n_req", "max((F_f + 22 [ksi] F_p / f_y) / (26 [ksi] mu A_b), F_p / (mu A_b f_y))", "",
        "bars needed: both conditions below", "closed form");
    value_chosen(s, with, "n", count_path, need);
    sheet_formula(s, "f_min", "min(F_p / (mu n A_b), f_y)", "ksi",
                  "tension that stays on, bond gone, no permanent compression",
                  "AASHTO LRFD 5.7.4.3 (from memory)");
    sheet_formula(s, "df", "F_f / (mu n A_b)", "ksi", "range of the tension, likewise", bars);
    sheet_formula(s, "dF_TH", "26 [ksi] - 22 [ksi] f_min / f_y", "ksi", "threshold of bars", bars);
    return need;
}

/* Bond holds a pocket besides: what its bars do not bear alone is not shown to fail. */
void fatigue_of_pocket(const CheckCase *with, const KitLine *k, const PocketForce *f,
                       CheckList *list)
{
    static const char path[] = "connectors.per_cluster", name[] = "fatigue of a pocket";
    Sheet s = kit_sheet(with, k, "Fatigue of a pocket");
    give_range(&s, with, k, f);
    CheckRow *row;
    double need;
    if (connect_bars(with)) {
        need = give_bars(&s, with, f, path);
        const bool met = sheet_SI(&s, "df") <= sheet_SI(&s, "dF_TH");
        row = check_add(list, with, &s, name, sheet_SI(&s, "df"), value_known(&s, "dF_TH", met),
                        DIM_STRESS);
        if (!met)
            check_needs(row, with, NULL,
                        arena_printf(with->arena,
                                     "no provision covers bars of a bonded interface in fatigue: "
                                     "without its bond %.0f in a pocket would do",
                                     ceil(need - 1e-9)));
    } else {
        need = give_studs(&s, with, path);
        row = check_add(list, with, &s, name, sheet_SI(&s, "F_f"), sheet_SI(&s, "Z"), DIM_FORCE);
    }
    check_place(row, k->name, kit_x(with, k, line_station(k, (f->from_m + f->to_m) / 2)),
                "in service", connect_bars(with) ? bars : studs);
    connect_needs(row, with, path, connect_bars(with) ? NULL : "connectors.grout", need);
    kit_needs_fatigue_truck(with, row);
}

/* The panel with its range in, and the length that the range is of. */
typedef struct WorstAnchor {
    PocketForce panel, range;
} WorstAnchor;

static WorstAnchor worst_anchor(const CheckCase *with, const KitLine *k)
{
    WorstAnchor worst = {0};
    for (int right = 0; right < 2; right++) {
        WorstAnchor one = {.panel = anchor_force(with, k, right)};
        one.range = anchor_fatigue(with, k, &one.panel);
        one.panel.fatigue_N = one.range.fatigue_N;
        if (!right || fatigue_measure_N(with, &one.panel) > fatigue_measure_N(with, &worst.panel))
            worst = one;
    }
    return worst;
}

void fatigue_of_anchor(const CheckCase *with, const KitLine *k, CheckList *list)
{
    static const char path[] = "connectors.anchor_count";
    const WorstAnchor worst = worst_anchor(with, k);
    const PocketForce f = worst.panel;
    const bool given = connect_is_given(with), bar = connect_bars(with);
    const char *demand = bar ? "df" : "F_f", *capacity = bar ? "dF_TH" : "Z";
    Sheet s = kit_sheet(with, k, "Fatigue of the connectors of an anchor panel");
    give_range(&s, with, k, &worst.range);
    const double need = bar ? give_bars(&s, with, &f, path) : give_studs(&s, with, path);
    CheckRow *row = check_add(list, with, &s, "fatigue of the connectors of an anchor panel",
                              sheet_SI(&s, demand), value_known(&s, capacity, !given),
                              bar ? DIM_STRESS : DIM_FORCE);
    check_place(row, k->name, kit_x(with, k, line_station(k, (f.from_m + f.to_m) / 2)),
                "in service", bar ? bars : studs);
    row->part = "anchor panel";
    if (given)
        check_needs(row, with, path,
                    arena_printf(with->arena,
                                 "a strength that is given says nothing of fatigue: %.0f "
                                 "connectors of the diameter of the file would do",
                                 ceil(need - 1e-9)));
    else
        connect_needs(row, with, path, bar ? NULL : "connectors.anchor_grout", need);
    kit_needs_fatigue_truck(with, row);
}
