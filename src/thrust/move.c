/* Vertical movement of the girder under live load: influence lines of bending by reciprocity, shear of the
 * girder added by virtual work. */
#include <math.h>
#include <stddef.h>

#include "clench/thrust.h"

struct LiveMove {
    const StageModel *model;
    const StageStructure *structure;
    bool *supported;  /* [support]: active, with a vertical spring */
    double *reaction; /* [support * stations + station]; unit: none */
    double *slide;    /* [element]: of the girder under a unit shear force; unit: m/N */
    double *sum, *work;
};

/* Of a section of which no widths are known: low for the usual shapes (common practice, no source). */
static const double web_share_1 = 0.3;

/* G A of a part of the girder; Poisson's ratio 0.3 of steel, 0.2 of concrete (AASHTO LRFD 5.4.2.5, from
 * memory). */
static double shear_stiffness_N(const StageModel *model, const Part *part, double day)
{
    const Material *law = &model->material[part->material];
    const PartSection *section = &model->section[part->section];
    const double area_m2 = section->profile.count >= 2 ? section_shear_area_m2(&section->profile)
                                                       : web_share_1 * section->area_m2;
    if (law->kind != MATERIAL_CONCRETE) return law->E_Pa / (2 * 1.3) * area_m2;
    return concrete_modulus_Pa(&law->mix, day - law->cast_day) / (2 * 1.2) * area_m2;
}

/* The girder carries all the shear: the deck's help is left out. Between girder ends nothing slides
 * here: the key there is a part of the structure. */
static void find_slides(LiveMove *move, const StageHistory *h, int time)
{
    const StageModel *model = move->model;
    for (int e = 0; e + 1 < model->station_count; e++) {
        const int *beam =
            h->beam + ((ptrdiff_t)CHAIN_GIRDER * model->station_count + e) * STAGE_BEAMS;
        double GA_N = 0;
        for (int k = 0; k < STAGE_BEAMS && beam[k] >= 0; k++)
            if (h->alive[(ptrdiff_t)time * model->part_count + beam[k]])
                GA_N += shear_stiffness_N(model, &model->part[beam[k]], h->day[time]);
        move->slide[e] = GA_N > 0 ? (model->x_m[e + 1] - model->x_m[e]) / GA_N : 0;
    }
}

static void find_reactions(LiveMove *move)
{
    const StageModel *model = move->model;
    for (int k = 0; k < model->support_count; k++)
        move->supported[k] = model->support[k].vertical_N_per_m > 0 &&
                             stage_influence_reaction(
                                 move->structure, k,
                                 move->reaction + (ptrdiff_t)k * model->station_count, move->work);
}

Status live_move_start(const BridgeLine *line, const StageHistory *history, int time, Arena *arena,
                       LiveMove **move, Error *err)
{
    const int n = line->model.station_count;
    LiveMove *out = ARENA_NEW(arena, LiveMove, 1);
    out->model = &line->model;
    TRY(stage_structure_loose(history, time, arena, &out->structure, err));
    out->supported = ARENA_NEW(arena, bool, line->model.support_count);
    out->reaction = ARENA_NEW(arena, double, line->model.support_count *n);
    out->slide = ARENA_NEW(arena, double, n);
    out->sum = ARENA_NEW(arena, double, n);
    out->work = ARENA_NEW(arena, double, 6 * n);
    find_reactions(out);
    find_slides(out, history, time);
    *move = out;
    return STATUS_OK;
}

/* Shear in an element under a unit load at a station, upwards on its left side. */
static double unit_shear(const LiveMove *move, int element, int loaded)
{
    const StageModel *model = move->model;
    double shear = loaded <= element ? -1 : 0;
    for (int k = 0; k < model->support_count; k++)
        if (move->supported[k] && model->support[k].station <= element)
            shear += move->reaction[(ptrdiff_t)k * model->station_count + loaded];
    return shear;
}

/* Sum over the elements of V_i V_j h/(G A), i the loaded station: V_i is put together of steps at the
 * supports and at i, so that the sums of V_j h/(G A) from the right end on give it. */
static void find_shear_line(const LiveMove *move, int station, double *shear)
{
    const StageModel *model = move->model;
    const int n = model->station_count;
    double *sum = move->sum;
    sum[n - 1] = 0;
    for (int e = n - 2; e >= 0; e--)
        sum[e] = sum[e + 1] + unit_shear(move, e, station) * move->slide[e];
    for (int i = 0; i < n; i++) {
        shear[i] = -sum[i];
        for (int k = 0; k < model->support_count; k++)
            if (move->supported[k])
                shear[i] += move->reaction[(ptrdiff_t)k * n + i] * sum[model->support[k].station];
    }
}

bool live_move(const LiveMove *move, int station, double *value, double *shear)
{
    if (!stage_influence_move(move->structure, station, value, move->work)) return false;
    find_shear_line(move, station, shear);
    for (int i = 0; i < move->model->station_count; i++) value[i] += shear[i];
    return true;
}
