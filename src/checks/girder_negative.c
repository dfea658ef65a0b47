/* Negative moment of pretensioned girders between tied piers, at strength. The deck's joints have no bars
 * and give nothing once decompressed, and what they were pressed with leaves the girder too: ties as far
 * as they reach, and strands, pull against the girder's lower flange. docs/theory/checks.md. */
#include <math.h>
#include <string.h>

#include "block.h"
#include "table.h"
#include "ties.h"
#include "values.h"

static const char flexure[] = "AASHTO LRFD 5.6.2.1 and 5.6.3.2 (from memory)";
static const char reach_path[] = "piers.tie_reach";

/* A row of strands between the block's edge and the neutral axis. */
typedef struct Pressed {
    double area_m2, height_m, modulus_Pa;
} Pressed;
enum { PRESSED_MAX = 32 };

/* A section beside a station at a time: heights above the soffit, tension positive. */
typedef struct Section {
    int station, side, time, count;
    double area_m2[TIE_LEVELS], height_m[TIE_LEVELS]; /* ties that reach it */
    double from_end_m;                                /* from the nearest tied end */
    double strand_N, strand_Nm;                       /* effective; about the soffit */
    double yield_Pa, modulus_Pa, concrete_Pa, alpha_1, beta_1, phi_most_1;
    const PartSection *girder;
    /* found */
    double axis_m, block_m2, block_m3, phi_1, M_r_Nm; /* block_m3: about the soffit */
    int pressed_count;
    Pressed pressed[PRESSED_MAX];
    double lost_Nm; /* of them, about the soffit */
} Section;

static double depth_of(const PartSection *girder) { return girder->top_m + girder->bottom_m; }

/* The ties of a pier reach a section of the girder that ends there. */
static void add_ties(const CheckCase *with, const KitLine *k, Section *s)
{
    const StageModel *m = k->model;
    const double reach_m = kit_value(with, reach_path);
    int part[TIE_LEVELS], nearest = -1;
    s->from_end_m = INFINITY;
    for (int e = 0; e + 1 < m->station_count; e++) {
        if (ties_of(k, e, part) == 0) continue;
        const double away_m =
            s->station <= e ? m->x_m[e] - m->x_m[s->station] : m->x_m[s->station] - m->x_m[e + 1];
        if (away_m >= s->from_end_m) continue;
        s->from_end_m = away_m;
        nearest = e;
    }
    s->count = 0;
    if (nearest < 0 || (!isnan(reach_m) && s->from_end_m > reach_m))
        return; /* not given: as if they reached everywhere */
    s->count = ties_of(k, nearest, part);
    for (int i = 0; i < s->count; i++) {
        s->area_m2[i] = m->section[m->part[part[i]].section].area_m2;
        s->height_m[i] = depth_of(s->girder) + m->part[part[i]].from_height_m;
    }
}

/* Strands keep their effective force while the axis is found: in the pulled part they are not developed for
 * more; in the pressed part they would lose some of it, which is taken off below. */
static void add_strands(const KitLine *k, Section *s)
{
    const StageModel *m = k->model;
    const int element = s->side < 0 ? s->station - 1 : s->station;
    const PartForce *force = k->history->force + (size_t)s->time * (size_t)m->part_count;
    s->strand_N = s->strand_Nm = 0;
    for (int p = 0; p < m->part_count; p++) {
        const Part *part = &m->part[p];
        if (part->element != element || m->material[part->material].kind != MATERIAL_STRAND)
            continue;
        const double below_m = -(s->side < 0 ? part->to_height_m : part->from_height_m);
        s->strand_N += force[p].N;
        s->strand_Nm += force[p].N * (depth_of(s->girder) - below_m);
    }
}

static double tie_Pa(const Section *s, int i, double axis_m)
{
    return fmax(-s->yield_Pa,
                fmin(s->yield_Pa, 0.003 * s->modulus_Pa * (s->height_m[i] - axis_m) / axis_m));
}

/* Area of the girder up to a height, and its first moment about the soffit. */
static void take_block(Section *s, double height_m)
{
    const double depth_m = depth_of(s->girder), one[2] = {1, 1};
    const double between[2] = {fmax(0, depth_m - height_m), depth_m};
    double about_centroid_m3;
    section_integrate(&s->girder->profile, s->girder->top_m, between, one, 2, &s->block_m2,
                      &about_centroid_m3);
    s->block_m3 = about_centroid_m3 + s->block_m2 * s->girder->bottom_m;
}

/* What presses less what pulls; it grows with the neutral axis. */
static double balance_N(Section *s, double axis_m)
{
    take_block(s, s->beta_1 * axis_m);
    double sum = s->alpha_1 * s->concrete_Pa * s->block_m2 - s->strand_N;
    for (int i = 0; i < s->count; i++) sum -= s->area_m2[i] * tie_Pa(s, i, axis_m);
    return sum;
}

/* Resistance factor by the strain of the highest ties, 5.5.4.2 and 5.6.2.1 (from memory), whose limits grow
 * with the yield stress; both lines go on beyond 100 ksi. Without ties the least. */
static double phi_1(const Section *s)
{
    double top_m = 0;
    for (int i = 0; i < s->count; i++) top_m = fmax(top_m, s->height_m[i]);
    const double strain_1 = 0.003 * (top_m - s->axis_m) / s->axis_m;
    const double yield_ksi = quantity_in(s->yield_Pa, "ksi");
    const double least_1 = 0.002 + 0.00005 * fmax(0, yield_ksi - 60);
    const double most_1 = 0.005 + 0.00012 * fmax(0, yield_ksi - 75);
    const double over_1 = (strain_1 - least_1) / (most_1 - least_1);
    return fmax(0.75, fmin(s->phi_most_1, 0.75 + (s->phi_most_1 - 0.75) * over_1));
}

static double loss_N(const Section *s, const Pressed *row)
{
    return row->area_m2 * row->modulus_Pa * 0.003 * (s->axis_m - row->height_m) / s->axis_m;
}

/* Strands between the block's edge a and the axis c lose tension as the plane section shortens them, and
 * the block gives back as much at its edge: the moment falls by the loss times y - a. Here by the loss times
 * y, with the axis of the larger forces: what is left of the prestress' own strain and the block's relief
 * are not counted, to the safe side. Within the block, below a, less tension would help: it is left whole. */
static void take_off(const KitLine *k, Section *s)
{
    const StageModel *m = k->model;
    const int element = s->side < 0 ? s->station - 1 : s->station;
    s->pressed_count = 0;
    s->lost_Nm = 0;
    for (int p = 0; p < m->part_count; p++) {
        const Part *part = &m->part[p];
        const Material *law = &m->material[part->material];
        if (part->element != element || law->kind != MATERIAL_STRAND) continue;
        const Pressed row = {m->section[part->section].area_m2,
                             depth_of(s->girder) +
                                 (s->side < 0 ? part->to_height_m : part->from_height_m),
                             law->E_Pa};
        if (row.height_m <= s->beta_1 * s->axis_m || row.height_m >= s->axis_m) continue;
        s->lost_Nm += loss_N(s, &row) * row.height_m;
        if (s->pressed_count < PRESSED_MAX) s->pressed[s->pressed_count++] = row;
    }
}

static void find_resistance(const KitLine *k, Section *s)
{
    double low = 1e-4, high = 4 * depth_of(s->girder);
    for (int i = 0; i < 80; i++) {
        const double middle = (low + high) / 2;
        if (balance_N(s, middle) < 0)
            low = middle;
        else
            high = middle;
    }
    s->axis_m = (low + high) / 2;
    take_block(s, s->beta_1 * s->axis_m);
    take_off(k, s);
    double moment = s->strand_Nm - s->lost_Nm - s->alpha_1 * s->concrete_Pa * s->block_m3;
    for (int i = 0; i < s->count; i++)
        moment += s->area_m2[i] * tie_Pa(s, i, s->axis_m) * s->height_m[i];
    s->phi_1 = phi_1(s);
    s->M_r_Nm = s->phi_1 * moment;
}

static Section section_at(const CheckCase *with, const KitLine *k, int station, int side, int time)
{
    const int part = kit_girder_part(k, k->opening, station, side);
    Section s = {.station = station,
                 .side = side,
                 .time = time,
                 .yield_Pa = kit_value(with, "piers.tie_yield"),
                 .modulus_Pa = kit_value(with, "piers.tie_modulus"),
                 .concrete_Pa = kit_value(with, "concrete.girder.strength"),
                 .phi_most_1 = kit_value(with, "criteria.tie"),
                 .girder = &k->model->section[k->model->part[part].section]};
    s.alpha_1 = block_stress_1(s.concrete_Pa);
    s.beta_1 = block_depth_1(s.concrete_Pa);
    add_ties(with, k, &s);
    add_strands(k, &s);
    if (s.girder->profile.count >= 2) find_resistance(k, &s);
    return s;
}

/* ---- sheet and row ---- */

/* Returns what they take off the moment: " - dP_1 y_1 - dP_2 y_2". */
static const char *write_pressed(const CheckCase *with, const Section *section, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    Text lost = text_start(with->arena);
    char A[16], y[16], dP[16];
    if (section->pressed_count == 0) return "";
    sheet_given_from(s, "E_p", section->pressed[0].modulus_Pa, u->stress, "modulus of the strands",
                     "girders.strand_modulus");
    for (int i = 0; i < section->pressed_count; i++) {
        snprintf(A, sizeof A, "A_s%d", i + 1);
        snprintf(y, sizeof y, "y_%d", i + 1);
        snprintf(dP, sizeof dP, "dP_%d", i + 1);
        sheet_given_from(s, A, section->pressed[i].area_m2, u->area,
                         "strands between the block and the neutral axis",
                         "girders.strands, share of the transfer length");
        sheet_given_from(s, y, section->pressed[i].height_m, u->length, "above the soffit",
                         "girders.strands");
        sheet_formula(s, dP, arena_printf(with->arena, "0.003 %s E_p (c - %s) / c", A, y), u->force,
                      "tension that they lose there, at most", "law: plane section");
        text_printf(&lost, " - %s %s", dP, y);
    }
    return lost.bytes;
}

static void write_ties(const CheckCase *with, const Section *section, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    char pull[32 * TIE_LEVELS] = "", moment[48 * TIE_LEVELS] = "", symbol[24], formula[96];
    for (int i = 0; i < section->count; i++) {
        snprintf(symbol, sizeof symbol, "A_%d", i + 1);
        sheet_given_from(s, symbol, section->area_m2[i], u->area, "ties of a level", "piers.ties");
        snprintf(symbol, sizeof symbol, "d_%d", i + 1);
        sheet_given_from(s, symbol, section->height_m[i], u->length, "above the soffit",
                         "piers.ties");
        snprintf(symbol, sizeof symbol, "f_%d", i + 1);
        snprintf(formula, sizeof formula, "max(-f_y, min(f_y, 0.003 E_t (d_%d - c) / c))", i + 1);
        sheet_formula(s, symbol, formula, u->stress,
                      "their stress: plane section, 0.003 at the soffit", flexure);
        const size_t p = strlen(pull), m = strlen(moment);
        snprintf(pull + p, sizeof pull - p, "A_%d f_%d + ", i + 1, i + 1);
        snprintf(moment + m, sizeof moment - m, "A_%d f_%d d_%d + ", i + 1, i + 1, i + 1);
    }
    sheet_formula(s, "T", arena_printf(with->arena, "%sP_e", pull), u->force,
                  "what pulls: ties that reach here, and strands", "law: equilibrium");
    sheet_formula(s, "C", "a_1 f'c A_c", u->force, "the concrete: the same", flexure);
    const char *lost = write_pressed(with, section, s);
    sheet_formula(s, "M_n", arena_printf(with->arena, "%sM_e%s - a_1 f'c Q_c", moment, lost),
                  u->moment, "nominal resistance, about the soffit", flexure);
}

/* The strain of the highest ties, which are the first level that is given highest. */
static void write_phi(const CheckCase *with, const Section *section, Sheet *s)
{
    value_give(s, with, "phi_t", "criteria.tie", "", "resistance factor, tension-controlled");
    if (section->count == 0) {
        sheet_formula(s, "phi", "0.75", "", "no ties: as controlled by compression",
                      "AASHTO LRFD 5.5.4.2 (from memory)");
        return;
    }
    int top = 0;
    for (int i = 1; i < section->count; i++)
        if (section->height_m[i] > section->height_m[top]) top = i;
    sheet_formula(s, "e_t", arena_printf(with->arena, "0.003 (d_%d - c) / c", top + 1), "",
                  "strain of the highest ties", flexure);
    tie_write_phi(s);
}

static void write_sheet(const CheckCase *with, const KitLine *k, const Section *section, Sheet *s)
{
    const KitUnits *u = &with->shared->unit;
    kit_write_moment(with, k, section->station, section->side, -1, s);
    sheet_given_from(s, "x_e", section->from_end_m, u->length, "from the girder's tied end",
                     "station and the girder's end");
    if (!isnan(kit_value(with, reach_path)))
        value_give(s, with, "L_t", reach_path, u->length, "how far the ties reach");
    sheet_given_from(s, "P_e", section->strand_N, u->force, "strands, effective", from_stages);
    sheet_given_from(s, "M_e", section->strand_Nm, u->moment, "their moment about the soffit",
                     "stages");
    value_give(s, with, "f_y", "piers.tie_yield", u->stress, "yield of the ties");
    value_give(s, with, "E_t", "piers.tie_modulus", u->stress, "modulus of the ties");
    if (section->girder->profile.count < 2) return;
    value_give(s, with, "f'c", "concrete.girder.strength", u->stress, "strength of the girder");
    block_give(s, section->concrete_Pa, true);
    sheet_given_from(s, "c", section->axis_m, u->length,
                     "neutral axis above the soffit, found so that forces balance", "T = C below");
    sheet_formula(s, "a", "b_1 c", u->length, "stress block", flexure);
    sheet_given_from(s, "A_c", section->block_m2, u->area, "girder up to that height",
                     "widths of the shape, section properties");
    sheet_given_from(s, "Q_c", section->block_m3, u->modulus, "its first moment about the soffit",
                     "widths of the shape, section properties");
    write_ties(with, section, s);
    write_phi(with, section, s);
    sheet_formula(s, "M_r", "phi M_n", u->moment, "resistance", flexure);
}

static double ratio_of(const CheckCase *with, const KitLine *k, const Section *s)
{
    const double M_u = kit_factored_moment_Nm(with, k, s->station, s->side, -1);
    return s->M_r_Nm > 0 ? M_u / s->M_r_Nm : (double)INFINITY;
}

/* Both ends of the time in service: strands lose force. */
static bool worst_section(const CheckCase *with, const KitLine *k, Section *worst)
{
    const int time[2] = {k->opening, k->end};
    bool found = false;
    for (int i = 0; i < 2 * k->model->station_count; i++) {
        const int station = i / 2, side = i % 2 ? 1 : -1;
        if (kit_girder_part(k, k->opening, station, side) < 0 ||
            kit_factored_moment_Nm(with, k, station, side, -1) <= 0)
            continue;
        for (int t = 0; t < 2; t++) {
            const Section one = section_at(with, k, station, side, time[t]);
            if (found && ratio_of(with, k, &one) <= ratio_of(with, k, worst)) continue;
            *worst = one;
            found = true;
        }
    }
    return found;
}

static void add_row(const CheckCase *with, CheckList *list, const KitLine *k)
{
    static const char name[] = "pretensioned girder in negative moment";
    Section worst;
    if (!worst_section(with, k, &worst)) return;
    const bool shaped = worst.girder->profile.count >= 2;
    Sheet s = kit_sheet(with, k, name);
    write_sheet(with, k, &worst, &s);
    CheckRow *row = check_add(list, with, &s, name, sheet_SI(&s, "M_u"),
                              value_known(&s, "M_r", shaped), DIM_MOMENT);
    check_place(row, k->name, kit_x(with, k, worst.station), "strength", flexure);
    if (!shaped)
        check_needs(row, with, "girders.shape",
                    "of a section of its own the lower flange's width is not known");
    check_needs(row, with, reach_path,
                "how far the ties are anchored in the girders; here they reach everywhere");
    check_needs(row, with, "piers.tie_yield", "the grade of the ties is not given");
    check_needs(row, with, "girders.strand_area", "the force of the strands hangs on their size");
}

Status check_girder_negative(const CheckCase *with, CheckList *list, Error *err)
{
    (void)err;
    if (with->shared->steel) return STATUS_OK;
    for (int i = 0; i < with->shared->count; i++) {
        const KitLine *k = &with->shared->line[i];
        int part[TIE_LEVELS];
        bool tied = false;
        for (int e = 0; e + 1 < k->model->station_count; e++)
            tied = tied || ties_of(k, e, part) > 0;
        if (tied) add_row(with, list, k);
    }
    return STATUS_OK;
}
