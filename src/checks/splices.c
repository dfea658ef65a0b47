/* Bolted splices of steel girders: the thrust puts the top flange into tension that it never had in an
 * ordinary composite girder. A splice that slips while the jacks act lets the thrust go. */
#include <math.h>

#include "cite.h"
#include "fibre.h"
#include "kit.h"
#include "steel.h"
#include "table.h"
#include "values.h"

static const char clause[] = "AASHTO LRFD 6.13.6.1 and 6.13.2.8, no slip (from memory)";
static const char list_path[] = "girders.splices";

typedef struct Pull {
    double stress_Pa, live_Pa; /* permanent; live with its lanes and factor */
    int time, side;
} Pull;

static int station_near(const KitLine *k, double x_m)
{
    int nearest = 0;
    for (int i = 1; i < k->model->station_count; i++)
        if (fabs(k->model->x_m[i] - x_m) < fabs(k->model->x_m[nearest] - x_m)) nearest = i;
    return nearest;
}

static Pull worst_pull(const CheckCase *with, const KitLine *k, int station)
{
    const double live_1 = kit_value(with, "criteria.steel_service_live") * k->line->lanes_1;
    const double thrust_1 = kit_value(with, "criteria.thrust_factor");
    Pull worst = {-INFINITY, 0, 0, 1};
    for (int side = -1; side <= 1; side += 2)
        for (int t = k->jacked; t <= k->end; t++) {
            FibreStress at, before;
            const KitLive *live = &k->girder_live[2 * station + (side > 0)];
            if (!stage_stress(k->history, t, CHAIN_GIRDER, station, side, &at) ||
                !stage_stress(k->history, k->before_jack, CHAIN_GIRDER, station, side, &before))
                continue;
            Pull one = {at.top_Pa, 0, t, side};
            if (t < k->opening)
                one.stress_Pa = before.top_Pa + thrust_1 * (at.top_Pa - before.top_Pa);
            else if (live->there)
                one.live_Pa = live_1 * live->top_Pa.most;
            if (one.stress_Pa + one.live_Pa > worst.stress_Pa + worst.live_Pa) worst = one;
        }
    return worst;
}

/* The permanent part; until opening what came with the thrust has its factor. */
static void write_pull(const CheckCase *with, const KitLine *k, int station, const Pull *pull,
                       Sheet *s)
{
    const Fibre now = {CHAIN_GIRDER, station, pull->side, pull->time, true};
    const Fibre before = {CHAIN_GIRDER, station, pull->side, k->before_jack, true};
    if (pull->time >= k->opening) {
        fibre_write(s, with, k, &now, "f_p", 1, "top flange under permanent loads and thrust");
        return;
    }
    sheet_words(s, "Before the thrust:");
    fibre_write(s, with, k, &before, "f_b", 1, "top flange before the thrust");
    sheet_words(s, "At the moment that is judged:");
    fibre_write(s, with, k, &now, "f_t", 1, "top flange");
    value_give(s, with, "g_P", "criteria.thrust_factor", "", "factor on the thrust");
    sheet_formula(s, "f_p", "f_b + g_P (f_t - f_b)", with->shared->unit.stress,
                  "top flange, thrust with its factor", NULL);
}

static void write_live(const CheckCase *with, const KitLine *k, int station, const Pull *pull,
                       Sheet *s)
{
    const char *unit = with->shared->unit.stress;
    if (pull->time < k->opening) {
        sheet_given(s, "f_LL", 0, unit, "no live load before opening");
        return;
    }
    const Cite cite = {.k = k,
                       .effect = {CHAIN_GIRDER, station, pull->side, true},
                       .load = &k->line->live,
                       .sign = 1,
                       .positive = 1};
    cite_stress(s, with, &cite, "f_1", "of one lane of live load with impact");
    give_lanes(s, with, k);
    value_give(s, with, "g_LL", "criteria.steel_service_live", "", "Service II on live load");
    sheet_formula(s, "f_LL", "g_LL g_m f_1", unit, "Service II live load", NULL);
}

static void add_splice(const CheckCase *with, CheckList *list, const KitLine *k, int index,
                       double x_m)
{
    static const char name[] = "bolted splice of the top flange";
    const KitUnits *u = &with->shared->unit;
    const int station = station_near(k, x_m);
    const Pull pull = worst_pull(with, k, station);
    const Plates p = steel_plates(with, k, station, pull.side);
    Sheet s = kit_sheet(with, k, name);
    write_pull(with, k, station, &pull, &s);
    write_live(with, k, station, &pull, &s);
    sheet_given_from(&s, "A_f", p.web_count * p.top_width_m * p.top_m, u->area, "the flange",
                     "girders.plates: width times thickness");
    sheet_formula(&s, "F_u", "max(f_p + f_LL, 0) A_f", u->force, "tension to be carried over",
                  NULL);
    value_give(&s, with, "R_s", arena_printf(with->arena, "%s[%d].slip", list_path, index),
               u->force, "resistance to slip of the splice's bolts");
    sheet_formula(&s, "r", "F_u / R_s", "", "demand over capacity", clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "F_u"), sheet_SI(&s, "R_s"), DIM_FORCE);
    check_place(row, k->name, kit_x(with, k, station), kit_when(with, k, pull.time), clause);
}

static void add_unsaid(const CheckCase *with, CheckList *list)
{
    static const char name[] = "bolted splices of the top flange";
    Sheet s = sheet_start(name, with->arena);
    const KitLine *k = &with->shared->line[0];
    const KitStress worst = kit_worst_stress(k, CHAIN_GIRDER, k->jacked, k->end, 1, true, false);
    sheet_given_from(&s, "f_t", worst.there ? fmax(0, worst.value_Pa) : 0,
                     with->shared->unit.stress,
                     "largest tension of the top flange while jacked and later", from_stages);
    sheet_words(&s, "A splice would have to carry the flange's tension without slip.");
    CheckRow *row = check_add(list, with, &s, name, sheet_SI(&s, "f_t"), (double)NAN, DIM_STRESS);
    check_place(row, k->name, "all splices", kit_when(with, k, worst.time), clause);
    check_needs(row, with, "girders.splices",
                "give place and resistance to slip of each, or girders.spliced: no");
}

Status check_splices(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (!with->shared->steel) return STATUS_OK;
    const int count = kit_list_count(with, list_path, "at");
    const BridgeValue *said = bridge_value_at(with->bridge, "girders.spliced");
    if (count == 0 && said->text[0] == 'n' && said->text[2] == '\0') return STATUS_OK; /* "no" */
    if (count == 0) add_unsaid(with, list);
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        const double from_m = k->line->start_m,
                     to_m = from_m + k->model->x_m[k->model->station_count - 1];
        for (int n = 1; n <= count; n++) {
            const double x_m = kit_value_in(with, list_path, n, "at");
            if (x_m >= from_m && x_m <= to_m) add_splice(with, list, k, n, x_m - from_m);
        }
    }
    return STATUS_OK;
}
