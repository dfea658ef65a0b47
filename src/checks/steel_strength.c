/* Strength of steel girders: the composite section in positive moment by its plastic moment, the steel
 * alone in negative moment. Locked-in compression balances itself within the section: it moves first
 * yield, not the plastic moment, and an unreinforced joint gives nothing once it has opened. */
#include <math.h>

#include "block.h"
#include "steel.h"
#include "table.h"
#include "values.h"

enum { PIECES_MAX = 128 };
static const char flexure[] = "AASHTO LRFD 6.10.7.1 and D6.1 (from memory)";

/* Where the factored moment of a sign is largest, for each piece of girder. */
typedef struct Most {
    double moment_Nm;
    int station, side;
    bool there;
} Most;

static double find_most(const CheckCase *with, const KitLine *k, int sign, Most most[PIECES_MAX])
{
    double largest = 0;
    for (int i = 0; i < k->model->station_count; i++)
        for (int side = -1; side <= 1; side += 2) {
            const int part = kit_girder_part(k, k->opening, i, side);
            const int piece = part < 0 ? PIECES_MAX : k->model->part[part].section;
            if (piece >= PIECES_MAX) continue;
            const double moment_Nm = kit_factored_moment_Nm(with, k, i, side, sign);
            largest = fmax(largest, moment_Nm);
            if (!most[piece].there || moment_Nm > most[piece].moment_Nm)
                most[piece] = (Most){moment_Nm, i, side, true};
        }
    return largest;
}

/* ---- positive moment ---- */

static void write_section(const CheckCase *with, const KitLine *k, const Plates *p, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const double slope = with->shared->tub ? kit_value(with, "girders.web_slope") : 0;
    sheet_given_from(s, "A", p->area_m2, u->area, "area of the steel", from_sections);
    sheet_given_from(s, "d", p->depth_m, u->length, "depth of the steel", "girders.plates");
    sheet_given_from(s, "y_s", p->above_soffit_m, u->length, "its centroid above the bottom",
                     from_sections);
    value_give(s, with, "F_y", "girders.steel_yield", u->stress, "yield stress");
    sheet_given_from(s, "A_f", p->web_count * p->top_width_m * p->top_m, u->area, "top flange",
                     "girders.plates: width times thickness");
    sheet_given_from(s, "t_f", p->top_m, u->length, "its thickness", "girders.plates");
    sheet_given_from(s, "t_w", p->web_count * p->web_m * sqrt(1 + slope * slope), u->length,
                     "web, of all webs, measured level", "girders.plates, all webs cut level");
    sheet_given_from(s, "b", k->line->width_m, u->length, "deck on the line", from_width(k));
    sheet_given_from(s, "t", k->model->deck_thickness_m, u->length, "deck that carries",
                     from_thickness);
    sheet_given_from(s, "h", k->model->haunch_m, u->length, "haunch, its concrete not counted",
                     from_haunch);
    const double fc_Pa =
        fmin(k->line->deck_strength_Pa, kit_value(with, "concrete.closure.strength"));
    sheet_given_from(s, "f'c", fc_Pa, u->stress,
                     "strength of the deck, the weaker of panels and closure",
                     "concrete.panel.strength, concrete.closure.strength");
    block_give(s, fc_Pa, false);
}

static void write_plastic(const CheckCase *with, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    sheet_formula(s, "P_s", "a_1 f'c b t", u->force, "slab all in compression", flexure);
    sheet_formula(s, "P_y", "F_y A", u->force, "steel all in tension", flexure);
    sheet_formula(s, "a", "min(P_s, P_y) / (a_1 f'c b)", u->length,
                  "depth of the slab in compression", flexure);
    sheet_formula(s, "A_c", "max(0, (A - P_s / F_y) / 2)", u->area,
                  "steel in compression: equilibrium", flexure);
    sheet_formula(s, "y_f", "min(A_c, A_f) / A_f * t_f", u->length, "top flange in compression",
                  flexure);
    sheet_formula(s, "y_w", "max(0, A_c - A_f) / t_w", u->length,
                  "web in compression, measured vertically", flexure);
    sheet_formula(s, "S_c", "min(A_c, A_f) y_f / 2 + y_w t_w (t_f + y_w / 2)", u->modulus,
                  "first moment of the steel in compression about the girder top", flexure);
    sheet_formula(s, "M_p", "P_y (t + h + d - y_s - a / 2) - 2 * F_y (S_c + A_c (t + h - a / 2))",
                  u->moment, "plastic moment, about the middle of the slab's compression", flexure);
    sheet_formula(s, "D_p", "if(A_c <= 0 A, a, t + h + y_f + y_w)", u->length,
                  "deck top to plastic neutral axis", flexure);
    sheet_formula(s, "D_t", "t + h + d", u->length, "depth of the composite section", flexure);
    sheet_formula(s, "M_duc", "if(D_p <= 0.1 D_t, M_p, M_p (1.07 - 0.7 D_p / D_t))", u->moment,
                  "reduced for ductility", "AASHTO LRFD 6.10.7.1.2 (from memory)");
}

/* Section with the deck at modulus E_c over `k`: 1 for what comes and goes, 3 for what stays. */
static void write_composite(const KitUnits *u, bool lasting, Sheet *s)
{
    static const char source[] = "closed form; 3 n for what stays: AASHTO LRFD 6.10.1.1.1b (from "
                                 "memory)";
    if (lasting) {
        sheet_formula(s, "A_3", "A_d / 3", u->area, "deck in terms of steel, at 3 n", source);
        sheet_formula(s, "y_3", "y_s + e A_3 / (A + A_3)", u->length, "centroid of both", source);
        sheet_formula(s, "S_3", "(I_s + A_3 t^2 / 12 + e^2 A A_3 / (A + A_3)) / y_3", u->modulus,
                      "modulus at the bottom, at 3 n", source);
        return;
    }
    sheet_formula(s, "y_b", "y_s + e A_d / (A + A_d)", u->length,
                  "centroid of both above the bottom", "closed form");
    sheet_formula(s, "I_n", "I_s + A_d t^2 / 12 + e^2 A A_d / (A + A_d)", u->inertia,
                  "second moment of both", "closed form");
    sheet_formula(s, "S_b", "I_n / y_b", u->modulus, "modulus at the bottom", "closed form");
}

/* M_y = M_D + S (F_y - f_D) at the bottom flange, f_D with all that is locked in; moments and stresses
 * of dead loads have their factors, what is locked in has none. */
static void write_yield(const CheckCase *with, const KitLine *k, const Plates *p, const Most *at,
                        Sheet *s)
{
    static const char source[] = "AASHTO LRFD D6.2.2 (from memory), with the locked-in stress";
    const KitUnits *u = &with->shared->unit;
    const KitMoment *m = &k->moment[2 * at->station + (at->side > 0)];
    FibreStress girder = {0};
    stage_stress(k->history, k->opening, CHAIN_GIRDER, at->station, at->side, &girder);
    const int element = at->side < 0 ? at->station - 1 : at->station;
    double Ec_Pa = 0;
    for (int q = 0; q < k->model->part_count; q++) {
        const Part *part = &k->model->part[q];
        const Material *law = &k->model->material[part->material];
        if (part->element == element && part->chain == CHAIN_DECK && Ec_Pa <= 0)
            Ec_Pa = concrete_modulus_Pa(&law->mix, k->history->day[k->opening] - law->cast_day);
    }
    value_give(s, with, "E_s", "girders.steel_modulus", u->stress, "modulus of steel");
    sheet_given_from(s, "E_c", Ec_Pa, u->stress, "modulus of the deck at opening", from_time);
    sheet_given_from(s, "I_s", p->inertia_m4, u->inertia, "second moment of the steel",
                     from_sections);
    sheet_formula(s, "A_d", "b t E_c / E_s", u->area, "deck in terms of steel", NULL);
    sheet_formula(s, "e", "d - y_s + h + t / 2", u->length, "steel centroid to deck middle", NULL);
    write_composite(u, false, s);
    write_composite(u, true, s);
    sheet_given_from(s, "M_s", m->bare_Nm, u->moment,
                     "weights that came before the deck was composite", from_stages);
    sheet_given_from(s, "M_lo", m->locked_open_Nm, u->moment, "moment locked in at opening",
                     from_stages);
    sheet_given_from(s, "f_p", girder.bottom_Pa, u->stress,
                     "permanent stress of the bottom flange, thrust in, not factored", from_stages);
    sheet_formula(s, "f_D",
                  "f_p + (g_DC - 1) (M_s y_s / I_s + (M_DC - M_s) / S_3) + (g_DW - 1) M_DW / S_3",
                  u->stress, "with the factors of Strength I on dead loads", source);
    sheet_formula(s, "M_D", "g_DC M_DC + g_DW M_DW + M_lo", u->moment,
                  "factored moment of dead loads", source);
    sheet_formula(s, "M_y", "M_D + S_b (F_y - f_D)", u->moment, "first yield", source);
}

static void write_positive(const CheckCase *with, const KitLine *k, const Most *at, bool continuous,
                           Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const Plates p = steel_plates(with, k, at->station, at->side);
    kit_write_moment(with, k, at->station, at->side, 1, s);
    write_section(with, k, &p, s);
    write_plastic(with, s);
    write_yield(with, k, &p, at, s);
    sheet_given_from(s, "t_1", p.web_m, u->length, "thickness of one web", "girders.plates");
    sheet_given_from(s, "D", p.web_depth_m * p.along_1, u->length, "depth of the web, along it",
                     "girders.plates, web_depth along the web");
    sheet_given_from(s, "k_s", p.along_1, "", "length along the web over its vertical depth",
                     "sqrt(1 + girders.web_slope^2)");
    sheet_formula(s, "D_cp", "k_s y_w", u->length, "web in compression, along it",
                  "AASHTO LRFD 6.11.2.1 (from memory)");
    sheet_formula(s, "q_w", "max(D / t_1 / 150, 2 * D_cp / t_1 / (3.76 sqrt(E_s / F_y)))", "",
                  "compact web up to 1", "AASHTO LRFD 6.10.6.2.2 (from memory)");
    sheet_formula(s, "M_n",
                  continuous ? "min(M_duc, if(q_w <= 1, 1.3, 1) M_y)"
                             : "if(q_w <= 1, M_duc, min(M_duc, M_y))",
                  u->moment,
                  continuous ? "nominal resistance; continuous span: at most 1.3 of first yield"
                             : "nominal resistance",
                  "AASHTO LRFD 6.10.7.1.2, 6.10.7.2 (from memory)");
    value_give(s, with, "phi", "criteria.steel_flexure", "", "resistance factor");
    sheet_formula(s, "M_r", "phi M_n", u->moment, "resistance", flexure);
    sheet_formula(s, "r", "M_u / M_r", "", "demand over capacity", NULL);
}

static int inner_supports(const KitLine *k)
{
    int count = 0;
    for (int i = 0; i < k->model->support_count; i++) {
        const int station = k->model->support[i].station;
        count += station > 0 && station + 1 < k->model->station_count;
    }
    return count;
}

/* The sheet with the largest ratio r over the pieces; false where no piece has such a moment. */
typedef void Write(const CheckCase *with, const KitLine *k, const Most *at, bool flag, Sheet *s);
typedef struct Search {
    const CheckCase *with;
    const KitLine *k;
    const char *name;
    Write *write;
    bool flag;
    double least_Nm;
} Search;

static bool worst_piece(const Search *search, const Most most[PIECES_MAX], Sheet *kept, Most *at)
{
    double ratio_1 = -1;
    search->with->shared->comparing = true;
    for (int i = 0; i < PIECES_MAX; i++) {
        if (!most[i].there || most[i].moment_Nm <= search->least_Nm) continue;
        Sheet s = kit_sheet(search->with, search->k, search->name);
        search->write(search->with, search->k, &most[i], search->flag, &s);
        const double r = s.status == STATUS_OK ? sheet_SI(&s, "r") : (double)INFINITY;
        if (r <= ratio_1) continue;
        ratio_1 = r;
        *at = most[i];
    }
    search->with->shared->comparing = false;
    if (ratio_1 < 0) return false;
    *kept = kit_sheet(search->with, search->k, search->name);
    search->write(search->with, search->k, at, search->flag, kept);
    return true;
}

static void add_positive(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "composite section in positive moment";
    static const char ductility[] = "ductility of the composite section";
    Most most[PIECES_MAX] = {{.there = false}}, at;
    Sheet s;
    find_most(with, k, 1, most);
    const Search search = {with, k, name, write_positive, inner_supports(k) > 0, 0};
    if (!worst_piece(&search, most, &s, &at)) return;
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "M_u"), sheet_SI(&s, "M_r"), DIM_MOMENT);
    check_place(row, k->name, kit_x(with, k, at.station), "strength", flexure);
    steel_needs_yield(with, row);
    Sheet d = kit_sheet(with, k, ductility);
    const Plates p = steel_plates(with, k, at.station, at.side);
    write_section(with, k, &p, &d);
    write_plastic(with, &d);
    sheet_formula(&d, "D_lim", "0.42 D_t", with->shared->unit.length,
                  "largest depth: the slab must not crush first",
                  "AASHTO LRFD 6.10.7.3 (from memory)");
    row = check_add(list, with, &d, ductility, sheet_SI(&d, "D_p"), sheet_SI(&d, "D_lim"),
                    DIM_LENGTH);
    check_place(row, k->name, kit_x(with, k, at.station), "strength",
                "AASHTO LRFD 6.10.7.3 (from memory)");
    steel_needs_yield(with, row);
}

/* ---- negative moment: the steel alone ---- */

static const char alone[] =
    "AASHTO LRFD 6.10.8.1 (from memory), deck without bars across its joints";

static void write_negative(const CheckCase *with, const KitLine *k, const Most *at, bool top,
                           Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const Plates p = steel_plates(with, k, at->station, at->side);
    const double up_m = p.depth_m - p.above_soffit_m;
    sheet_words(s,
                "The steel alone: a joint without bars gives nothing once it has opened, and the "
                "compression that is locked in leaves with the tension of the girder.");
    kit_write_moment(with, k, at->station, at->side, -1, s);
    sheet_given_from(s, "I_s", p.inertia_m4, u->inertia, "second moment of the steel",
                     from_sections);
    sheet_given_from(s, "y", top ? up_m : p.above_soffit_m, u->length,
                     top ? "centroid to the top" : "centroid to the bottom", from_sections);
    sheet_formula(s, "f_bu", "M_u y / I_s", u->stress, "factored stress of the flange",
                  "closed form: bending of the steel alone");
    if (top) {
        value_give(s, with, "F_y", "girders.steel_yield", u->stress, "yield stress");
        sheet_formula(s, "F_nc", "F_y", u->stress, "nominal resistance of a flange in tension",
                      "AASHTO LRFD 6.10.8.3 (from memory)");
    } else {
        steel_compression(with, s, &p, false, steel_web_compression_m(&p, up_m, -p.above_soffit_m));
    }
    value_give(s, with, "phi", "criteria.steel_flexure", "", "resistance factor");
    sheet_formula(s, "F_r", "phi F_nc", u->stress, "resistance", alone);
    sheet_formula(s, "r", "f_bu / F_r", "", "demand over capacity", NULL);
}

static void add_negative(const CheckCase *with, CheckList *list, const KitLine *k, bool top)
{
    const char *name = top ? "steel alone in negative moment, top flange"
                           : "steel alone in negative moment, bottom flange";
    Most most[PIECES_MAX] = {{.there = false}}, at;
    Sheet s;
    const double largest_Nm = find_most(with, k, -1, most);
    const Search search = {with, k, name, write_negative, top, 0.01 * largest_Nm};
    if (inner_supports(k) == 0 || !worst_piece(&search, most, &s, &at)) return;
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "f_bu"), sheet_SI(&s, "F_r"), DIM_STRESS);
    check_place(row, k->name, kit_x(with, k, at.station), "strength", alone);
    if (!top && !with->shared->tub)
        check_needs(row, with, "girders.unbraced",
                    "without the spacing of the bracing lateral buckling is not looked at");
    steel_needs_yield(with, row);
}

Status check_steel_strength(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (!with->shared->steel) return STATUS_OK;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        add_positive(with, list, k);
        add_negative(with, list, k, false);
        add_negative(with, list, k, true);
    }
    return STATUS_OK;
}
