/* Linear effects on the structure of one moment: influence lines by reciprocity (one solve an effect
 * gives the effect of a unit load at every station), and temperature over the depth. */
#include <math.h>
#include <string.h>

#include "stress.h"
#include "structure.h"

/* ---- influence lines ---- */

/* Adds the displacement rows of N_1 * N + M_1 * (M_from + M_to)/2 of one part: B' applied to unit
 * stresses gives them, since the work of a bar is L N e + L/6 (2 M1 + M2) k1 + ... */
static void add_rows(const StageStructure *s, int p, double per_N, double per_M, double *row)
{
    const PartSection *section = &s->history->model->section[s->history->model->part[p].section];
    const double EA = s->E_Pa[p] * section->area_m2, EI = s->E_Pa[p] * section->inertia_m4;
    const double L = s->place[p].length_m;
    /* per_M EI (k1 + k2)/2 = L/6 (3 c) (k1 + k2) for equal end moments c */
    const double c = per_M * EI / L;
    frame_bar_force(&s->place[p], per_N * EA / L, c, c, row);
}

static bool effect_row(const StageStructure *s, StageEffect effect, double *row)
{
    const StageModel *model = s->history->model;
    StressReach reach;
    memset(row, 0, sizeof(double) * (size_t)s->frame->n);
    if (!stress_reach(s->history, s->time, effect.chain, effect.station, effect.side, &reach))
        return false;
    const PartSection *section = &model->section[model->part[reach.near_part].section];
    const double per_N = 1 / section->area_m2;
    const double per_M = effect.top ? -section->top_m / section->inertia_m4
                                    : section->bottom_m / section->inertia_m4;
    add_rows(s, reach.near_part, reach.near_1 * per_N, reach.near_1 * per_M, row);
    add_rows(s, reach.far_part, reach.far_1 * per_N, reach.far_1 * per_M, row);
    return true;
}

/* effect = row' K^-1 F, F = -1 at the v of the loaded node: deck where there is one. */
static void read_line(const StageStructure *s, const double *moves, double *value)
{
    for (int i = 0; i < s->history->model->station_count; i++)
        value[i] = -moves[frame_unknown(i, s->there[2 * i + CHAIN_DECK] ? 1 : 0, 1)];
}

void stage_influence(const StageStructure *s, const StageEffect *effect, int count, double *value,
                     bool *done, double *work)
{
    const int n = s->frame->n, stations = s->history->model->station_count;
    for (int k = 0; k < count; k++)
        done[k] = effect_row(s, effect[k], work + (size_t)k * (size_t)n);
    frame_solve(s->frame, work, count);
    for (int k = 0; k < count; k++)
        read_line(s, work + (size_t)k * (size_t)n, value + (size_t)k * (size_t)stations);
}

void stage_influence_deck(const StageStructure *s, int element, double *value, double *work)
{
    const StageModel *model = s->history->model;
    memset(work, 0, sizeof(double) * (size_t)s->frame->n);
    for (int p = 0; p < model->part_count; p++)
        if (model->part[p].element == element && model->part[p].chain == CHAIN_DECK &&
            !model->part[p].shear && s->alive[p] && s->E_Pa[p] > 0)
            add_rows(s, p, 1, 0, work);
    frame_solve(s->frame, work, 1);
    read_line(s, work, value);
}

void stage_influence_part(const StageStructure *s, int part, double *value, double *work)
{
    memset(work, 0, sizeof(double) * (size_t)s->frame->n);
    if (s->alive[part] && s->E_Pa[part] > 0) add_rows(s, part, 1, 0, work);
    frame_solve(s->frame, work, 1);
    read_line(s, work, value);
}

bool stage_influence_reaction(const StageStructure *s, int support, double *value, double *work)
{
    const Support *at = &s->history->model->support[support];
    if (!s->supported[support]) return false;
    memset(work, 0, sizeof(double) * (size_t)s->frame->n);
    work[frame_unknown(at->station, 0, 1)] = -at->vertical_N_per_m; /* R = -k v */
    frame_solve(s->frame, work, 1);
    read_line(s, work, value);
    return true;
}

bool stage_influence_move(const StageStructure *s, int station, double *value, double *work)
{
    if (!s->there[2 * station + CHAIN_GIRDER]) return false;
    memset(work, 0, sizeof(double) * (size_t)s->frame->n);
    work[frame_unknown(station, CHAIN_GIRDER, 1)] = -1;
    frame_solve(s->frame, work, 1);
    read_line(s, work, value);
    return true;
}

/* ---- uniform load ---- */

void stage_uniform_moment(const StageStructure *s, double *moment, double *work)
{
    const StageModel *model = s->history->model;
    const int last = model->station_count - 1;
    structure_load(s, 1, work);
    frame_solve(s->frame, work, 1);
    /* moment of all parts about the girder top, means of the elements on both sides of a station */
    double *sum = work + s->frame->n;
    memset(sum, 0, sizeof(double) * (size_t)model->station_count);
    const double deck_level = model->haunch_m + 0.5 * model->deck_thickness_m;
    for (int p = 0; p < model->part_count; p++) {
        if (!s->alive[p] || s->E_Pa[p] == 0 || model->part[p].shear) continue;
        const PartSection *section = &model->section[model->part[p].section];
        const BarStrain d = frame_bar_strain(&s->place[p], work);
        const double N = s->E_Pa[p] * section->area_m2 * d.axial_1;
        const double M = s->E_Pa[p] * section->inertia_m4 * 0.5 * (d.from_per_m + d.to_per_m);
        const double height = 0.5 * (s->place[p].from_height_m + s->place[p].to_height_m) +
                              (s->place[p].chain == CHAIN_DECK ? deck_level : 0);
        sum[model->part[p].element] += M - N * height;
    }
    for (int i = 0; i <= last; i++)
        moment[i] = 0.5 * (sum[i > 0 ? i - 1 : 0] + sum[i < last ? i : last - 1]);
}

/* ---- temperature ---- */

/* Rise at a depth below the deck top. */
static double rise_at(const double *depth, const double *rise, int count, double at)
{
    if (count == 0 || at > depth[count - 1]) return 0;
    if (at <= depth[0]) return rise[0];
    for (int i = 1; i < count; i++)
        if (at <= depth[i])
            return depth[i] > depth[i - 1]
                       ? rise[i - 1] + (rise[i] - rise[i - 1]) * (at - depth[i - 1]) /
                                           (depth[i] - depth[i - 1])
                       : rise[i];
    return 0;
}

enum { FIELD_POINTS = 24 };

/* Mean free strain and curvature of a part, and the field at its fibres: alpha T = e - y k + rest. */
typedef struct Warmed {
    double axial_1, curvature_per_m, top_1, bottom_1; /* top, bottom: alpha T there */
} Warmed;

/* Centroid of a part below the deck top. */
static double centre_of(const StageModel *model, const Part *part)
{
    const double level = part->chain == CHAIN_DECK
                             ? 0.5 * model->deck_thickness_m
                             : model->deck_thickness_m + model->haunch_m; /* node below deck top */
    return level - 0.5 * (part->from_height_m + part->to_height_m);
}

static Warmed warmed(const StageModel *model, const Part *part, const double *depth,
                     const double *rise, int count)
{
    const PartSection *section = &model->section[part->section];
    const double alpha = model->material[part->material].expansion_per_K;
    const double centre = centre_of(model, part);
    Warmed out = {alpha * rise_at(depth, rise, count, centre), 0, 0, 0};
    if (section->profile.count < 2 || section->inertia_m4 <= 0) return out;
    const double top = centre - section->top_m, bottom = centre + section->bottom_m;
    double at[FIELD_POINTS], field[FIELD_POINTS];
    int n = 0;
    at[n] = 0, field[n++] = rise_at(depth, rise, count, top);
    for (int i = 0; i < count && n < FIELD_POINTS - 3; i++)
        if (depth[i] > top && depth[i] < bottom) at[n] = depth[i] - top, field[n++] = rise[i];
    const double end = count > 0 ? depth[count - 1] : 0;
    if (end > top && end < bottom) at[n] = end - top, field[n++] = 0; /* the step to zero, if any */
    at[n] = bottom - top, field[n] = rise_at(depth, rise, count, bottom), n++;
    double sum, moment;
    section_integrate(&section->profile, section->top_m, at, field, n, &sum, &moment);
    out.axial_1 = alpha * sum / section->area_m2;
    out.curvature_per_m = -alpha * moment / section->inertia_m4;
    out.top_1 = alpha * field[0];
    out.bottom_1 = alpha * field[n - 1];
    return out;
}

static void temperature_stress(const StageStructure *s, Chain chain, int station, int side,
                               const Warmed *warm, const double *x, FibreStress *out)
{
    const StageModel *model = s->history->model;
    StressReach reach;
    out->N_N = NAN;
    if (!stress_reach(s->history, s->time, chain, station, side, &reach)) return;
    double N = 0, M = 0;
    const int parts[2] = {reach.near_part, reach.far_part};
    const double share[2] = {reach.near_1, reach.far_1};
    for (int k = 0; k < 2; k++) {
        const int p = parts[k];
        const PartSection *section = &model->section[model->part[p].section];
        const BarStrain d = frame_bar_strain(&s->place[p], x);
        N += share[k] * s->E_Pa[p] * section->area_m2 * (d.axial_1 - warm[p].axial_1);
        M += share[k] * s->E_Pa[p] * section->inertia_m4 *
             (0.5 * (d.from_per_m + d.to_per_m) - warm[p].curvature_per_m);
    }
    const int p = reach.near_part;
    const PartSection *section = &model->section[model->part[p].section];
    *out = stress_of(section, N, M);
    const Warmed *w = &warm[p];
    if (section->profile.count < 2) return;
    out->top_Pa += s->E_Pa[p] * (w->axial_1 - section->top_m * w->curvature_per_m - w->top_1);
    out->bottom_Pa +=
        s->E_Pa[p] * (w->axial_1 + section->bottom_m * w->curvature_per_m - w->bottom_1);
}

void stage_temperature(const StageStructure *s, const double *depth, const double *rise, int count,
                       FibreStress *deck, FibreStress *girder, Arena *scratch)
{
    const StageModel *model = s->history->model;
    const size_t mark = arena_mark(scratch);
    Warmed *warm = ARENA_NEW(scratch, Warmed, model->part_count);
    double *x = ARENA_NEW(scratch, double, s->frame->n);
    for (int p = 0; p < model->part_count; p++) {
        if (!s->alive[p] || s->E_Pa[p] == 0 || model->part[p].shear) continue;
        warm[p] = warmed(model, &model->part[p], depth, rise, count);
        const PartSection *section = &model->section[model->part[p].section];
        const double M = s->E_Pa[p] * section->inertia_m4 * warm[p].curvature_per_m;
        frame_bar_force(&s->place[p], s->E_Pa[p] * section->area_m2 * warm[p].axial_1, M, M, x);
    }
    frame_solve(s->frame, x, 1);
    for (int i = 0; i < model->station_count; i++)
        for (int side = 0; side < 2; side++) {
            temperature_stress(s, CHAIN_DECK, i, side ? 1 : -1, warm, x, &deck[2 * i + side]);
            temperature_stress(s, CHAIN_GIRDER, i, side ? 1 : -1, warm, x, &girder[2 * i + side]);
        }
    arena_reset(scratch, mark);
}

bool stage_free_field(const StageStructure *s, const double *depth, const double *rise, int count,
                      const StageEffect *effect, FreeField *strain)
{
    const StageModel *model = s->history->model;
    StressReach reach;
    if (!stress_reach(s->history, s->time, effect->chain, effect->station, effect->side, &reach))
        return false;
    const Part *part = &model->part[reach.near_part];
    const Warmed w = warmed(model, part, depth, rise, count);
    *strain = (FreeField){.E_Pa = s->E_Pa[reach.near_part],
                          .expansion_per_K = model->material[part->material].expansion_per_K,
                          .axial_1 = w.axial_1,
                          .curvature_per_m = w.curvature_per_m,
                          .top_1 = w.top_1,
                          .bottom_1 = w.bottom_1,
                          .centre_m = centre_of(model, part),
                          .rest = model->section[part->section].profile.count >= 2};
    return true;
}
