/* Strength of the pretensioned girder with its deck in positive moment. Thrust and prestress balance
 * themselves within the section; at strength the strands have f_ps, and the deck is pressed by the
 * moment alone. */
#include <math.h>

#include "block.h"
#include "table.h"
#include "values.h"

static const char flexure[] = "AASHTO LRFD 5.6.3.1.1 and 5.6.3.2 (from memory)";

/* Strands of the lower half beside a station: area and depth below the deck top. */
typedef struct Strands {
    double area_m2, depth_m;
} Strands;

static Strands strands_at(const CheckCase *with, const KitLine *k, int station, int side)
{
    const StageModel *model = k->model;
    const int element = side < 0 ? station - 1 : station;
    const double half_m = kit_value(with, "girders.depth") / 2;
    Strands out = {0, 0};
    for (int p = 0; p < model->part_count; p++) {
        const Part *part = &model->part[p];
        if (part->element != element || model->material[part->material].kind != MATERIAL_STRAND)
            continue;
        const double below_m = -(side < 0 ? part->to_height_m : part->from_height_m);
        const double area_m2 = model->section[part->section].area_m2;
        if (below_m < half_m) continue;
        out.area_m2 += area_m2;
        out.depth_m += area_m2 * (model->deck_thickness_m + model->haunch_m + below_m);
    }
    if (out.area_m2 > 0) out.depth_m /= out.area_m2;
    return out;
}

static void write_given(const CheckCase *with, const KitLine *k, const Strands *strands, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    const double fc_Pa =
        fmin(k->line->deck_strength_Pa, kit_value(with, "concrete.closure.strength"));
    sheet_given_from(s, "A_ps", strands->area_m2, u->area, "strands in the lower half",
                     "girders.strands below mid-depth, share of the transfer length");
    sheet_given_from(s, "d_p", strands->depth_m, u->length, "their centroid below the deck top",
                     "their heights, depth of girder, haunch and deck");
    value_give(s, with, "f_pu", "girders.strand_strength", u->stress, "tensile strength of strand");
    value_give(s, with, "f_py", "girders.strand_yield", u->stress, "yield of strand");
    sheet_given_from(s, "f'c", fc_Pa, u->stress,
                     "strength of the deck, the weaker of panels and closure",
                     "concrete.panel.strength, concrete.closure.strength");
    block_give(s, fc_Pa, true);
    sheet_given_from(s, "b", k->line->width_m, u->length, "deck on the line", from_width(k));
    sheet_given_from(s, "t", k->model->deck_thickness_m, u->length, "deck that carries",
                     from_thickness);
    value_give(s, with, "b_w", "girders.top_width", u->length,
               "width under the deck: haunch and top flange");
    sheet_given_from(s, "h", k->model->haunch_m, u->length, "haunch", from_haunch);
}

static void write_strength(const CheckCase *with, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    sheet_formula(s, "k", "2 * (1.04 - f_py / f_pu)", "", "of the strand", flexure);
    sheet_formula(s, "c_r", "A_ps f_pu / (a_1 f'c b_1 b + k A_ps f_pu / d_p)", u->length,
                  "neutral axis of a rectangle", flexure);
    sheet_formula(s, "c",
                  "if(b_1 c_r <= t, c_r, (A_ps f_pu - a_1 f'c (b - b_w) t) / "
                  "(a_1 f'c b_1 b_w + k A_ps f_pu / d_p))",
                  u->length, "neutral axis; below the slab with the deck's strength", flexure);
    sheet_formula(s, "a", "b_1 c", u->length, "stress block", flexure);
    sheet_formula(s, "f_ps", "f_pu (1 - k c / d_p)", u->stress, "stress of the strands", flexure);
    sheet_formula(s, "M_n",
                  "A_ps f_ps (d_p - a / 2) + if(a <= t, 0, "
                  "a_1 f'c (b - b_w) t (a / 2 - t / 2))",
                  u->moment, "nominal resistance", flexure);
    sheet_formula(s, "e_t", "0.003 (d_p - c) / c", "", "strain at the strands",
                  "AASHTO LRFD 5.6.2.1 (from memory)");
    value_give(s, with, "phi_t", "criteria.prestressed", "",
               "resistance factor, tension-controlled");
    sheet_formula(s, "phi", "min(phi_t, max(0.75, 0.75 + 0.25 (e_t - 0.002) / 0.003))", "",
                  "resistance factor at that strain", "AASHTO LRFD 5.5.4.2 (from memory)");
    sheet_formula(s, "M_r", "phi M_n", u->moment, "resistance", flexure);
    sheet_formula(s, "r", "M_u / M_r", "", "demand over capacity", NULL);
}

static void write_all(const CheckCase *with, const KitLine *k, int station, int side, Sheet *s)
{
    const Strands strands = strands_at(with, k, station, side);
    kit_write_moment(with, k, station, side, 1, s);
    write_given(with, k, &strands, s);
    write_strength(with, s);
}

/* Places where the factored moment is large, with a pace: strands rise towards the ends. */
static bool worth_a_look(const CheckCase *with, const KitLine *k, int station, double largest_Nm)
{
    const double here_Nm = kit_factored_moment_Nm(with, k, station, 1, 1);
    if (here_Nm >= largest_Nm) return true;
    return station % 4 == 0 && here_Nm > 0.5 * largest_Nm;
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "composite section in positive moment";
    double largest_Nm = 0, ratio_1 = -1;
    int at = -1;
    for (int i = 0; i < k->model->station_count; i++)
        if (kit_girder_part(k, k->opening, i, 1) >= 0)
            largest_Nm = fmax(largest_Nm, kit_factored_moment_Nm(with, k, i, 1, 1));
    with->shared->comparing = true;
    for (int i = 0; i < k->model->station_count; i++) {
        if (kit_girder_part(k, k->opening, i, 1) < 0 || !worth_a_look(with, k, i, largest_Nm))
            continue;
        Sheet s = kit_sheet(with, k, name);
        write_all(with, k, i, 1, &s);
        const double r = s.status == STATUS_OK ? sheet_SI(&s, "r") : (double)INFINITY;
        if (r <= ratio_1) continue;
        ratio_1 = r;
        at = i;
    }
    with->shared->comparing = false;
    if (at < 0) return;
    Sheet kept = kit_sheet(with, k, name);
    write_all(with, k, at, 1, &kept);
    CheckRow *row = check_add(list, with, &kept, name, sheet_SI(&kept, "M_u"),
                              sheet_SI(&kept, "M_r"), DIM_MOMENT);
    check_place(row, k->name, kit_x(with, k, at), "strength", flexure);
    check_needs(row, with, "girders.strand_strength", "the grade of the strand is not given");
    check_needs(row, with, "girders.strand_area", "the size of the strand is not given");
}

Status check_concrete_strength(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (with->shared->steel) return STATUS_OK;
    for (int i = 0; i < with->shared->count; i++) add_row(with, list, &with->shared->line[i]);
    return STATUS_OK;
}
