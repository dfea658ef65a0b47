/* Ties through a pier: their force while the thrust passes through them and later, and the strength of
 * ties and diaphragm alone in negative and positive moment. The deck's joint there has no bars: once
 * decompressed it gives nothing, and what it was pressed with leaves the ties too. */
#include <math.h>
#include <string.h>

#include "block.h"
#include "table.h"
#include "ties.h"
#include "values.h"

enum { LEVELS = TIE_LEVELS };
static const char force_clause[] = "AASHTO LRFD 5.5.4.2 and 3.4.3.2 (from memory), by analogy";
static const char strength_clause[] = "AASHTO LRFD 5.6.2.1, 5.6.3.2 and 5.5.4.2 (from memory)";

static const char needs_yield[] = "the grade of the ties is not given";

bool tie_is(const KitLine *k, int part)
{
    const Part *p = &k->model->part[part];
    return p->chain == CHAIN_GIRDER && !p->compression_only && !p->shear &&
           k->model->section[p->section].inertia_m4 <= 0 &&
           k->model->material[p->material].kind == MATERIAL_ELASTIC;
}

int ties_of(const KitLine *k, int element, int part[TIE_LEVELS])
{
    int count = 0;
    for (int p = 0; p < k->model->part_count && count < LEVELS; p++)
        if (k->model->part[p].element == element && tie_is(k, p)) part[count++] = p;
    return count;
}

const char *tie_words(const CheckCase *with, const KitLine *k, int part)
{
    const char *unit = bridge_units(with->bridge) == UNITS_US ? "in" : "mm";
    return arena_printf(with->arena, "%s, ties %.4g %s below the girder top",
                        kit_x(with, k, k->model->part[part].element),
                        quantity_in(-k->model->part[part].from_height_m, unit), unit);
}

/* ---- force ---- */

typedef struct Pull {
    double force_N;
    int part, time;
    bool there;
} Pull;

static Pull worst_pull(const KitLine *k, double *area_m2)
{
    Pull worst = {.there = false};
    double largest_Pa = -INFINITY;
    for (int p = 0; p < k->model->part_count; p++) {
        if (!tie_is(k, p)) continue;
        const double A = k->model->section[k->model->part[p].section].area_m2;
        for (int t = k->jacked; t <= k->end; t++) {
            const double N =
                k->history->force[(size_t)t * (size_t)k->model->part_count + (size_t)p].N;
            if (N / A <= largest_Pa) continue;
            largest_Pa = N / A;
            worst = (Pull){N, p, t, true};
            *area_m2 = A;
        }
    }
    return worst;
}

static void add_force(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "ties through a pier under the thrust";
    const KitUnits *u = &with->shared->unit;
    double area_m2 = 0;
    const Pull pull = worst_pull(k, &area_m2);
    if (!pull.there) return;
    Sheet s = kit_sheet(with, k, name);
    sheet_given_from(&s, "N_t", fmax(0, pull.force_N), u->force,
                     "largest force of a level of ties, permanent loads and thrust", from_stages);
    value_give(&s, with, "g_P", "criteria.thrust_factor", "", "factor on the thrust");
    sheet_formula(&s, "N_u", "g_P N_t", u->force, "factored force", force_clause);
    sheet_given_from(&s, "A_t", area_m2, u->area, "area of that level", "piers.ties");
    value_give(&s, with, "f_y", "piers.tie_yield", u->stress, "yield stress");
    value_give(&s, with, "phi", "criteria.tie", "", "resistance factor");
    sheet_formula(&s, "N_r", "phi A_t f_y", u->force, "resistance", force_clause);
    CheckRow *row =
        check_add(list, with, &s, name, sheet_SI(&s, "N_u"), sheet_SI(&s, "N_r"), DIM_FORCE);
    row->part = "pier";
    check_place(row, k->name, tie_words(with, k, pull.part), kit_when(with, k, pull.time),
                force_clause);
    check_needs(row, with, "piers.tie_yield", needs_yield);
}

/* ---- strength ---- */

typedef struct Section {
    int count;
    double area_m2[LEVELS], depth_m[LEVELS]; /* from the compressed edge */
    double width_m, block_most_m, concrete_Pa, yield_Pa, modulus_Pa, alpha_1, beta_1;
} Section;

static double tie_stress_Pa(const Section *s, int i, double c_m)
{
    return fmax(-s->yield_Pa,
                fmin(s->yield_Pa, 0.003 * s->modulus_Pa * (s->depth_m[i] - c_m) / c_m));
}

static double pressed_minus_pulled(const Section *s, double c_m)
{
    double sum = s->alpha_1 * s->concrete_Pa * s->width_m * fmin(s->beta_1 * c_m, s->block_most_m);
    for (int i = 0; i < s->count; i++) sum -= s->area_m2[i] * tie_stress_Pa(s, i, c_m);
    return sum;
}

/* Compression grows and tension falls with the neutral axis: one crossing. */
static double neutral_axis_m(const Section *s)
{
    double low = 1e-4, high = 10;
    for (int i = 0; i < 80; i++) {
        const double middle = (low + high) / 2;
        if (pressed_minus_pulled(s, middle) < 0)
            low = middle;
        else
            high = middle;
    }
    return (low + high) / 2;
}

static Section section_of(const CheckCase *with, const KitLine *k, int element, int sign)
{
    int part[LEVELS];
    Section s = {.count = ties_of(k, element, part),
                 .yield_Pa = kit_value(with, "piers.tie_yield"),
                 .modulus_Pa = kit_value(with, "piers.tie_modulus")};
    const double depth_m = kit_value(with, "piers.diaphragm_depth");
    const double over_m = k->model->deck_thickness_m + k->model->haunch_m;
    for (int i = 0; i < s.count; i++) {
        const double below_m = -k->model->part[part[i]].from_height_m;
        s.area_m2[i] = k->model->section[k->model->part[part[i]].section].area_m2;
        s.depth_m[i] = sign < 0 ? depth_m - below_m : over_m + below_m;
    }
    s.width_m = sign < 0 ? kit_value(with, "piers.diaphragm_width") : k->line->width_m;
    s.block_most_m = sign < 0 ? depth_m : k->model->deck_thickness_m;
    s.concrete_Pa =
        sign < 0 ? kit_value(with, "concrete.diaphragm.strength") : k->line->deck_strength_Pa;
    s.alpha_1 = block_stress_1(s.concrete_Pa);
    s.beta_1 = block_depth_1(s.concrete_Pa);
    return s;
}

static void write_levels(const CheckCase *with, const Section *section, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    char pull[32 * LEVELS] = "", moment[48 * LEVELS] = "", symbol[24], formula[96];
    for (int i = 0; i < section->count; i++) {
        snprintf(symbol, sizeof symbol, "A_%d", i + 1);
        sheet_given_from(s, symbol, section->area_m2[i], u->area, "ties of a level", "piers.ties");
        snprintf(symbol, sizeof symbol, "d_%d", i + 1);
        sheet_given_from(s, symbol, section->depth_m[i], u->length, "from the pressed edge",
                         "piers.ties");
        snprintf(symbol, sizeof symbol, "f_%d", i + 1);
        snprintf(formula, sizeof formula, "max(-f_y, min(f_y, 0.003 E_t (d_%d - c) / c))", i + 1);
        sheet_formula(s, symbol, formula, u->stress,
                      "their stress: plane section, 0.003 at the edge", strength_clause);
        const size_t p = strlen(pull), m = strlen(moment);
        snprintf(pull + p, sizeof pull - p, "%sA_%d f_%d", i ? " + " : "", i + 1, i + 1);
        snprintf(moment + m, sizeof moment - m, "%sA_%d f_%d d_%d", i ? " + " : "", i + 1, i + 1,
                 i + 1);
    }
    sheet_formula(s, "T", pull, u->force, "force of the ties", NULL);
    sheet_formula(s, "C", "a_1 f'c b a", u->force, "of the concrete: the same", strength_clause);
    sheet_formula(s, "M_t", moment, u->moment, "moment of the ties about the edge", NULL);
    sheet_formula(s, "M_n", "M_t - C a / 2", u->moment, "nominal resistance", strength_clause);
}

void tie_write_phi(Sheet *s)
{
    static const char limits[] = "AASHTO LRFD 5.6.2.1 (from memory)";
    sheet_given_from(s, "f_k", sheet_SI(s, "f_y"), "ksi", "f_y as the clause has it",
                     "f_y above, in ksi");
    sheet_formula(s, "e_cl", "0.002 + 0.00005 [1/ksi] max(0 [ksi], f_k - 60 [ksi])", "",
                  "controlled by compression up to here", limits);
    sheet_formula(s, "e_tl", "0.005 + 0.00012 [1/ksi] max(0 [ksi], f_k - 75 [ksi])", "",
                  "controlled by tension from here on", limits);
    sheet_formula(
        s, "phi", "max(0.75, min(phi_t, 0.75 + (phi_t - 0.75) * (e_t - e_cl) / (e_tl - e_cl)))", "",
        "resistance factor at that strain", "AASHTO LRFD 5.5.4.2 (from memory), by analogy");
}

static void write_phi(const CheckCase *with, const Section *section, Sheet *s)
{
    int far = 0;
    for (int i = 1; i < section->count; i++)
        if (section->depth_m[i] > section->depth_m[far]) far = i;
    value_give(s, with, "phi_t", "criteria.tie", "", "resistance factor, tension-controlled");
    sheet_formula(s, "e_t", arena_printf(with->arena, "0.003 (d_%d - c) / c", far + 1), "",
                  "strain of the extreme ties", strength_clause);
    tie_write_phi(s);
}

static void write_strength(const CheckCase *with, const KitLine *k, int element, int sign, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const Section section = section_of(with, k, element, sign);
    const bool left = kit_factored_moment_Nm(with, k, element, 1, sign) >=
                      kit_factored_moment_Nm(with, k, element + 1, -1, sign);
    kit_write_moment(with, k, left ? element : element + 1, left ? 1 : -1, sign, s);
    sheet_given_from(s, "f_y", section.yield_Pa, u->stress, "yield of the ties", "piers.tie_yield");
    sheet_given_from(s, "E_t", section.modulus_Pa, u->stress, "modulus of the ties",
                     "piers.tie_modulus");
    sheet_given_from(s, "f'c", section.concrete_Pa, u->stress,
                     sign < 0 ? "strength of the diaphragm" : "strength of the deck",
                     sign < 0 ? "concrete.diaphragm.strength" : "concrete.panel.strength");
    sheet_given_from(s, "b", section.width_m, u->length,
                     sign < 0 ? "width of the diaphragm" : "deck on the line",
                     sign < 0 ? "piers.diaphragm_width" : from_width(k));
    sheet_given_from(s, "c", neutral_axis_m(&section), u->length,
                     "neutral axis from the pressed edge, found so that forces balance",
                     "T = C below");
    block_give(s, section.concrete_Pa, true);
    sheet_given_from(s, "a_m", section.block_most_m, u->length, "depth of the concrete there",
                     sign < 0 ? "piers.diaphragm_depth" : from_thickness);
    sheet_formula(s, "a", "min(b_1 c, a_m)", u->length, "stress block", strength_clause);
    write_levels(with, &section, s);
    write_phi(with, &section, s);
    sheet_formula(s, "M_r", "phi M_n", u->moment, "resistance", strength_clause);
    sheet_formula(s, "r", "max(M_u, 0) / M_r", "", "demand over capacity", NULL);
}

static void add_strength(const CheckCase *with, CheckList *list, const KitLine *k, int sign)
{
    const char *name = sign < 0 ? "ties and diaphragm in negative moment"
                                : "ties and deck in positive moment at a pier";
    int part[LEVELS], at = -1;
    double ratio_1 = -1;
    with->shared->comparing = true;
    for (int e = 0; e + 1 < k->model->station_count; e++) {
        if (ties_of(k, e, part) == 0) continue;
        Sheet s = kit_sheet(with, k, name);
        write_strength(with, k, e, sign, &s);
        const double r = s.status == STATUS_OK ? sheet_SI(&s, "r") : (double)INFINITY;
        if (r <= ratio_1) continue;
        ratio_1 = r;
        at = e;
    }
    with->shared->comparing = false;
    if (at < 0) return;
    Sheet kept = kit_sheet(with, k, name);
    write_strength(with, k, at, sign, &kept);
    CheckRow *row = check_add(list, with, &kept, name, sheet_SI(&kept, "M_u"),
                              sheet_SI(&kept, "M_r"), DIM_MOMENT);
    row->part = "pier";
    check_place(row, k->name, kit_x(with, k, at), "strength", strength_clause);
    check_needs(row, with, "piers.tie_yield", needs_yield);
}

Status check_ties(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    for (int i = 0; i < with->shared->count; i++) {
        add_force(with, list, &with->shared->line[i]);
        add_strength(with, list, &with->shared->line[i], -1);
        add_strength(with, list, &with->shared->line[i], 1);
    }
    return STATUS_OK;
}
