/* Steel flanges until the haunches are grouted: yield, buckling of the flange in compression, bending
 * of its web. Weights have their construction factor, the thrust its own; what relieves has less.
 *
 * The girders are in tension from the thrust: no column buckling. What can buckle is the flange that
 * bending presses more than the thrust pulls: the top one at mid-span under the panels, the bottom
 * one beside the anchors and over the piers. */
#include <math.h>

#include "fibre.h"
#include "steel.h"
#include "table.h"
#include "values.h"

enum { PIECES_MAX = 128 };
static const char clause[] =
    "AASHTO LRFD 6.10.3.2 and 3.4.2 (from memory), thrust 3.4.3.2 by analogy";

/* Stresses of both fibres at one moment: without the thrust, and what came with it. */
typedef struct Built {
    double dead_top_Pa, dead_bottom_Pa, push_top_Pa, push_bottom_Pa;
    double dead_1, push_1; /* factors, worst for the flange that is looked at */
    double factored_Pa;    /* of that flange */
    int station, side, time;
    bool top, there;
} Built;

static double factored_top(const Built *b)
{
    return b->dead_1 * b->dead_top_Pa + b->push_1 * b->push_top_Pa;
}
static double factored_bottom(const Built *b)
{
    return b->dead_1 * b->dead_bottom_Pa + b->push_1 * b->push_bottom_Pa;
}

typedef struct Factors {
    double dead_1, relief_1, push_1;
} Factors;

/* Factors that make the flange's stress worst for `sign` (1 tension, -1 compression). */
static void take_factors(const Factors *f, int sign, Built *b)
{
    const double dead = b->top ? b->dead_top_Pa : b->dead_bottom_Pa;
    const double push = b->top ? b->push_top_Pa : b->push_bottom_Pa;
    b->dead_1 = sign * dead > 0 ? f->dead_1 : f->relief_1;
    b->push_1 = sign * push > 0 ? f->push_1 : 1;
    b->factored_Pa = b->top ? factored_top(b) : factored_bottom(b);
}

static bool stresses_at(const KitLine *k, int time, int station, int side, Built *b)
{
    FibreStress now, then;
    if (!stage_stress(k->history, time, CHAIN_GIRDER, station, side, &now)) return false;
    const int before = time < k->before_jack ? time : k->before_jack;
    if (!stage_stress(k->history, before, CHAIN_GIRDER, station, side, &then)) return false;
    *b = (Built){.dead_top_Pa = then.top_Pa,
                 .dead_bottom_Pa = then.bottom_Pa,
                 .push_top_Pa = now.top_Pa - then.top_Pa,
                 .push_bottom_Pa = now.bottom_Pa - then.bottom_Pa,
                 .station = station,
                 .side = side,
                 .time = time,
                 .there = true};
    return true;
}

/* Worst of every piece of girder, for both flanges: worst[2 * section + top]. */
static void scan(const KitLine *k, const Factors *factors, int sign, Built *worst)
{
    for (int t = 0; t <= k->bonded; t++)
        for (int i = 0; i < k->model->station_count; i++)
            for (int side = -1; side <= 1; side += 2) {
                Built one;
                const int part = kit_girder_part(k, t, i, side);
                if (part < 0 || !stresses_at(k, t, i, side, &one)) continue;
                const int section = k->model->part[part].section;
                if (section >= PIECES_MAX) continue;
                for (int top = 0; top < 2; top++) {
                    Built *at = &worst[2 * section + top];
                    one.top = top;
                    take_factors(factors, sign, &one);
                    if (!at->there || sign * one.factored_Pa > sign * at->factored_Pa) *at = one;
                }
            }
}

/* ---- rows ---- */

static const char *flange_of(const Built *b) { return b->top ? "top flange" : "bottom flange"; }

static void write_stress(const CheckCase *with, const KitLine *k, const Built *b, int sign,
                         Sheet *s)
{
    const char *unit = with->shared->unit.stress;
    const int before = b->time < k->before_jack ? b->time : k->before_jack;
    const Fibre then = {CHAIN_GIRDER, b->station, b->side, before, b->top};
    const Fibre now = {CHAIN_GIRDER, b->station, b->side, b->time, b->top};
    sheet_words(s, "Under weights alone, before the thrust:");
    fibre_write(s, with, k, &then, "f_D", sign,
                sign > 0 ? "tension under weights alone" : "compression under weights alone");
    if (b->time == before) {
        sheet_given(s, "f_P", 0, unit, "of the thrust: none yet");
    } else {
        sheet_words(s, "At the moment that is judged:");
        fibre_write(s, with, k, &now, "f_t", sign, "all together");
        sheet_formula(s, "f_P", "f_t - f_D", unit, "came with the thrust and after it", NULL);
    }
    sheet_given_from(s, "g_D", b->dead_1, "", "factor on weights: less where they relieve",
                     "criteria.construction_dead, criteria.relief");
    sheet_given_from(s, "g_P", b->push_1, "", "factor on the thrust: 1 where it relieves",
                     "criteria.thrust_factor");
    sheet_formula(s, "f_bu", "g_D f_D + g_P f_P", unit, "factored stress of the flange", NULL);
}

static void place(const CheckCase *with, const KitLine *k, const Built *b, CheckRow *row)
{
    check_place(row, k->name,
                arena_printf(with->arena, "%s, %s", kit_x(with, k, b->station), flange_of(b)),
                kit_when(with, k, b->time), clause);
}

static void add_tension(const CheckCase *with, CheckList *list, const KitLine *k,
                        const Factors *factors)
{
    static const char name[] = "steel flanges while building, tension";
    const KitUnits *u = &with->shared->unit;
    Built worst[2 * PIECES_MAX] = {{.there = false}};
    scan(k, factors, 1, worst);
    const Built *b = &worst[0];
    for (int i = 1; i < 2 * PIECES_MAX; i++)
        if (worst[i].there && (!b->there || worst[i].factored_Pa > b->factored_Pa)) b = &worst[i];
    if (!b->there) return;
    Sheet s = kit_sheet(with, k, name);
    write_stress(with, k, b, 1, &s);
    value_give(&s, with, "F_y", "girders.steel_yield", u->stress, "yield stress");
    value_give(&s, with, "phi", "criteria.steel_flexure", "", "resistance factor");
    sheet_formula(&s, "f_lim", "phi F_y", u->stress, "first yield, homogeneous girder", clause);
    sheet_formula(&s, "r", "f_bu / f_lim", "", "demand over capacity", NULL);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "f_bu"), sheet_SI(&s, "f_lim"), DIM_STRESS);
    place(with, k, b, row);
    steel_needs_yield(with, row);
}

static void write_compression(const CheckCase *with, const KitLine *k, const Built *b, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const Plates p = steel_plates(with, k, b->station, b->side);
    const double Dc_m = steel_web_compression_m(&p, factored_top(b), factored_bottom(b));
    write_stress(with, k, b, -1, s);
    steel_compression(with, s, &p, b->top, Dc_m);
    sheet_given_from(s, "D", p.web_depth_m * p.along_1, u->length, "depth of the web, along it",
                     "girders.plates, web_depth along the web");
    sheet_formula(s, "k_w", "if(D_c >= D, 7.2, 9 * (D / max(D_c, D / 100))^2)", "",
                  "bend buckling coefficient of a web without longitudinal stiffeners",
                  "AASHTO LRFD 6.10.1.9.1 (from memory)");
    sheet_formula(s, "F_crw", "min(0.9 E k_w / (D / t_w)^2, F_y)", u->stress,
                  "bend buckling of the web", "AASHTO LRFD 6.10.1.9.1 (from memory)");
    value_give(s, with, "phi", "criteria.steel_flexure", "", "resistance factor");
    sheet_formula(s, "f_lim", "phi min(F_nc, F_crw)", u->stress, "resistance", clause);
    sheet_formula(s, "r", "max(f_bu, 0) / f_lim", "", "demand over capacity", NULL);
}

static void add_compression(const CheckCase *with, CheckList *list, const KitLine *k,
                            const Factors *factors)
{
    static const char name[] = "steel flanges while building, compression";
    Built worst[2 * PIECES_MAX] = {{.there = false}};
    const Built *b = NULL;
    Sheet kept = {0};
    double ratio_1 = -1;
    scan(k, factors, -1, worst);
    for (int i = 0; i < 2 * PIECES_MAX; i++) {
        if (!worst[i].there) continue;
        Sheet s = kit_sheet(with, k, name);
        write_compression(with, k, &worst[i], &s);
        if (s.status == STATUS_OK && sheet_SI(&s, "r") <= ratio_1) continue;
        ratio_1 = s.status == STATUS_OK ? sheet_SI(&s, "r") : (double)INFINITY;
        kept = s;
        b = &worst[i];
    }
    if (!b) return;
    CheckRow *row = check_add(list, with, &kept, name, sheet_SI(&kept, "f_bu"),
                              sheet_SI(&kept, "f_lim"), DIM_STRESS);
    place(with, k, b, row);
    if (!with->shared->tub || b->top)
        check_needs(row, with, "girders.unbraced",
                    "without the spacing of the bracing lateral buckling is not looked at");
    steel_needs_yield(with, row);
}

Status check_steel_building(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (!with->shared->steel) return STATUS_OK;
    const Factors factors = {kit_value(with, "criteria.construction_dead"),
                             kit_value(with, "criteria.relief"),
                             kit_value(with, "criteria.thrust_factor")};
    for (int i = 0; i < with->shared->count; i++) {
        add_tension(with, list, &with->shared->line[i], &factors);
        add_compression(with, list, &with->shared->line[i], &factors);
    }
    return STATUS_OK;
}
