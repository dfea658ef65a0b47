/* What must hold of a raw model before it marches. */
#include "march.h"

static Status check_part(const StageModel *model, int p, Error *err)
{
    const Part *part = &model->part[p];
    const bool ok = part->element >= 0 && part->element + 1 < model->station_count &&
                    part->material >= 0 && part->material < model->material_count &&
                    part->section >= 0 && part->section < model->section_count;
    if (!ok)
        return error_set(err, STATUS_BAD_INPUT,
                         "part %d names element %d, material %d, section %d: out of range", p,
                         part->element, part->material, part->section);
    if (!(model->section[part->section].area_m2 > 0))
        return error_set(err, STATUS_BAD_INPUT, "part %d has no area", p);
    if (part->shear && (part->compression_only || model->section[part->section].inertia_m4 > 0))
        return error_set(err, STATUS_BAD_INPUT,
                         "part %d carries shear alone: it has no inertia and cannot open", p);
    if (part->compression_only && model->section[part->section].inertia_m4 > 0)
        return error_set(err, STATUS_BAD_INPUT,
                         "part %d works in compression only and must be a strip without inertia",
                         p);
    return STATUS_OK;
}

static Status check_link(const StageModel *model, int i, Error *err)
{
    const Link *link = &model->link[i];
    const bool shim = link->shim_vertical_N_per_m > 0 && link->shim_horizontal_N_per_m >= 0;
    const bool bonded = link->bond_vertical_N_per_m >= 0 && link->bond_horizontal_N_per_m >= 0;
    if (!shim || !bonded || !(link->friction_1 >= 0))
        return error_set(err, STATUS_BAD_INPUT,
                         "the link at station %d has a stiffness of nothing or friction below zero",
                         i);
    return STATUS_OK;
}

static Status check_gap(const StageModel *model, int g, Error *err)
{
    const Gap *gap = &model->gap[g];
    if (gap->left_station < 0 || gap->left_station >= gap->right_station ||
        gap->right_station >= model->station_count)
        return error_set(err, STATUS_BAD_INPUT, "gap %d has no length", g);
    if (!(gap->strut_N_per_m > 0))
        return error_set(err, STATUS_BAD_INPUT, "the locked jacks of gap %d have no stiffness", g);
    for (int k = 0; k < g; k++)
        if (gap->left_station < model->gap[k].right_station &&
            gap->right_station > model->gap[k].left_station)
            return error_set(err, STATUS_BAD_INPUT, "gaps %d and %d overlap", k, g);
    return STATUS_OK;
}

Status model_check(const StageModel *model, Error *err)
{
    if (model->station_count < 2)
        return error_set(err, STATUS_BAD_INPUT, "a line needs two stations at least");
    if (model->gap_count > FRAME_STRUTS)
        return error_set(err, STATUS_TOO_LARGE, "%d gaps on one line: %d at most", model->gap_count,
                         FRAME_STRUTS);
    for (int i = 1; i < model->station_count; i++)
        if (!(model->x_m[i] > model->x_m[i - 1]))
            return error_set(err, STATUS_BAD_INPUT, "stations must grow: number %d does not", i);
    for (int p = 0; p < model->part_count; p++) TRY(check_part(model, p, err));
    for (int s = 0; s < model->support_count; s++)
        if (model->support[s].station < 0 || model->support[s].station >= model->station_count)
            return error_set(err, STATUS_BAD_INPUT, "support %d names station %d", s,
                             model->support[s].station);
    for (int g = 0; g < model->gap_count; g++) TRY(check_gap(model, g, err));
    for (int p = 0; p < model->part_count; p++) { /* links count where there is a deck */
        if (model->part[p].chain != CHAIN_DECK) continue;
        TRY(check_link(model, model->part[p].element, err));
        TRY(check_link(model, model->part[p].element + 1, err));
    }
    return STATUS_OK;
}
