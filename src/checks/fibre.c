/* A stress of the stages worked out from the forces of its part: what was one number becomes a line
 * that anybody can recompute. */
#include "fibre.h"
#include "values.h"

#include <assert.h>

static const PartSection *section_of(const KitLine *k, const Fibre *at)
{
    const int part = stage_part(k->history, at->time, at->chain, at->station, at->side);
    assert(part >= 0);
    return &k->model->section[k->model->part[part].section];
}

static double depth_m(const PartSection *section, bool top)
{
    return top ? -section->top_m : section->bottom_m;
}

static const char *part_name(const CheckCase *with, Chain chain)
{
    if (chain == CHAIN_DECK) return "deck";
    return with->shared->steel ? "steel girder" : "girder's concrete, strands apart";
}

static void write_force(Sheet *s, const CheckCase *with, const KitLine *k, const Fibre *at,
                        FibreStress *stress)
{
    const bool there = stage_stress(k->history, at->time, at->chain, at->station, at->side, stress);
    assert(there);
    (void)there;
    sheet_given_from(s, "N", stress->N_N, with->shared->unit.force,
                     arena_printf(s->arena,
                                  "axial force of the %s, tension positive, what creep, "
                                  "shrinkage and restraint lock in included",
                                  part_name(with, at->chain)),
                     from_stages);
}

void fibre_write(Sheet *s, const CheckCase *with, const KitLine *k, const Fibre *at,
                 const char *symbol, int sign, const char *words)
{
    const KitUnits *u = &with->shared->unit;
    const PartSection *section = section_of(k, at);
    FibreStress stress;
    write_force(s, with, k, at, &stress);
    sheet_given_from(s, "M", stress.M_Nm, u->moment,
                     "its moment about its own centroid, tension below positive", from_stages);
    sheet_given_from(s, "A", section->area_m2, u->area, "its area", from_sections);
    sheet_given_from(s, "I", section->inertia_m4, u->inertia, "its second moment of area",
                     from_sections);
    sheet_given_from(s, "y", depth_m(section, at->top), u->length,
                     at->top ? "its top, from its centroid, downwards positive"
                             : "its bottom, from its centroid, downwards positive",
                     from_sections);
    sheet_formula(s, symbol, sign < 0 ? "-(N / A + M y / I)" : "N / A + M y / I", u->stress, words,
                  "closed form: plane section");
}

void fibre_write_mean(Sheet *s, const CheckCase *with, const KitLine *k, const Fibre *at,
                      const char *symbol, int sign, const char *words)
{
    const KitUnits *u = &with->shared->unit;
    FibreStress stress;
    write_force(s, with, k, at, &stress);
    sheet_given_from(s, "A", section_of(k, at)->area_m2, u->area, "its area", from_sections);
    sheet_formula(s, symbol, sign < 0 ? "-(N / A)" : "N / A", u->stress, words,
                  "closed form: plane section");
}
