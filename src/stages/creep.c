/* Concrete in time: moduli of a step, free strains from history, and what is remembered.
 * Linear superposition, step by step; see docs/theory.md "Concrete in time". */
#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "march.h"

/* Fills the slots: concrete parts in the order of their materials. */
void creep_memory_make(March *march)
{
    const StageModel *model = march->model;
    CreepMemory *memory = &march->memory;
    int *part = ARENA_NEW(march->scratch, int, model->part_count);
    int *slot = ARENA_NEW(march->scratch, int, model->part_count);
    int *group = ARENA_NEW(march->scratch, int, model->material_count + 1);
    int count = 0;
    for (int p = 0; p < model->part_count; p++) slot[p] = -1;
    for (int m = 0; m < model->material_count; m++) {
        group[m] = count;
        if (model->material[m].kind != MATERIAL_CONCRETE) continue;
        for (int p = 0; p < model->part_count; p++)
            if (model->part[p].material == m) {
                slot[p] = count;
                part[count++] = p;
            }
    }
    group[model->material_count] = count;
    *memory = (CreepMemory){.count = count, .part = part, .slot = slot, .group = group};
}

static void used_materials(March *march)
{
    const StageModel *model = march->model;
    for (int m = 0; m < model->material_count; m++) march->material[m].ready = false;
    for (int p = 0; p < model->part_count; p++)
        if (march->alive[p]) march->material[model->part[p].material].ready = true;
}

/* 1/E* = J(end of step, age at which the step's increments count as loaded): the middle of an
 * interval, the moment of an event. */
static void concrete_step(March *march, int m, double from, double to)
{
    const Material *law = &march->model->material[m];
    StepMaterial *step = &march->material[m];
    step->loaded_day = 0.5 * (from + to);
    const double age = step->loaded_day - law->cast_day;
    const double after = to - step->loaded_day;
    assert(age > 0); /* parts are born after casting: checked at birth */
    concrete_creep_terms(&law->mix, age, step->term_per_Pa);
    double J = 1 / concrete_modulus_Pa(&law->mix, age);
    for (int k = 0; k < CONCRETE_TERMS; k++) {
        step->term_per_Pa[k] *= march->settings->creep_scale_1;
        J -= step->term_per_Pa[k] * expm1(-after / concrete_term_day[k]);
    }
    if (march->settings->plain_history) {
        const double elastic = 1 / concrete_modulus_Pa(&law->mix, age);
        const double all = concrete_compliance_per_Pa(&law->mix, to - law->cast_day, age);
        J = elastic + march->settings->creep_scale_1 * (all - elastic);
    }
    step->E_Pa = 1 / J;
    step->shrinkage_1 = to > from ? march->settings->shrinkage_scale_1 *
                                        (concrete_shrinkage_1(&law->mix, to - law->cast_day) -
                                         concrete_shrinkage_1(&law->mix, from - law->cast_day))
                                  : 0;
}

void creep_step_materials(March *march, double from, double to)
{
    used_materials(march);
    for (int m = 0; m < march->model->material_count; m++) {
        if (!march->material[m].ready) continue;
        if (march->model->material[m].kind == MATERIAL_CONCRETE)
            concrete_step(march, m, from, to);
        else
            march->material[m].E_Pa = march->model->material[m].E_Pa;
    }
}

/* sum_m q[m] (1 - exp(-dt/tau_m)): creep of the step without new stress, times area or inertia. */
static void creep_from_terms(const CreepMemory *memory, double dt, double *sum)
{
    const int n = memory->count;
    memset(sum, 0, sizeof(double) * (size_t)(3 * n));
    for (int k = 0; k < CONCRETE_TERMS; k++) {
        const double grown = -expm1(-dt / concrete_term_day[k]);
        for (int c = 0; c < 3; c++) {
            const double *q = memory->term + (ptrdiff_t)(c * CONCRETE_TERMS + k) * n;
            double *s = sum + (ptrdiff_t)c * n;
            for (int i = 0; i < n; i++) s[i] += q[i] * grown;
        }
    }
}

/* The reference: every increment with its own J. */
static void creep_from_all(const March *march, double from, double to, double *sum)
{
    const CreepMemory *memory = &march->memory;
    const int n = memory->count;
    const double scale = march->settings->creep_scale_1;
    memset(sum, 0, sizeof(double) * (size_t)(3 * n));
    for (int m = 0; m < march->model->material_count; m++) {
        const Material *law = &march->model->material[m];
        if (!march->material[m].ready || law->kind != MATERIAL_CONCRETE) continue;
        for (int k = 0; k < memory->kept; k++) {
            const double loaded = memory->kept_day[k] - law->cast_day;
            if (loaded <= 0) continue;
            const double dJ = concrete_compliance_per_Pa(&law->mix, to - law->cast_day, loaded) -
                              concrete_compliance_per_Pa(&law->mix, from - law->cast_day, loaded);
            for (int c = 0; c < 3; c++)
                for (int i = memory->group[m]; i < memory->group[m + 1]; i++)
                    sum[c * n + i] += scale * dJ * memory->kept_force[(k * 3 + c) * n + i];
        }
    }
}

static void relaxation_strain(March *march, int p, double from, double to)
{
    const Material *law = &march->model->material[march->model->part[p].material];
    if (law->kind != MATERIAL_STRAND || law->fpy_Pa <= 0) return;
    const double area = march->model->section[march->model->part[p].section].area_m2;
    const double intrinsic = march->force[p].N / area + march->relaxed_Pa[p];
    const double loss = strand_relaxation_Pa(intrinsic, law->fpy_Pa, from - law->tension_day,
                                             to - law->tension_day);
    march->relaxed_Pa[p] += loss;
    march->free.relaxation[p].axial_1 = loss / law->E_Pa;
}

void creep_no_strains(March *march)
{
    const size_t bytes = sizeof(BarStrain) * (size_t)march->model->part_count;
    memset(march->free.creep, 0, bytes);
    memset(march->free.shrinkage, 0, bytes);
    memset(march->free.relaxation, 0, bytes);
    memset(march->free.temperature, 0, bytes);
}

/* Free strains of creep, shrinkage and relaxation over an interval; what is not alive stays zero. */
void creep_free_strains(March *march, double from, double to)
{
    const StageModel *model = march->model;
    const CreepMemory *memory = &march->memory;
    const size_t mark = arena_mark(march->scratch);
    double *sum = ARENA_NEW(march->scratch, double, 3 * memory->count);
    if (march->settings->plain_history)
        creep_from_all(march, from, to, sum);
    else
        creep_from_terms(memory, to - from, sum);
    for (int i = 0, n = memory->count; i < n; i++) {
        const int p = memory->part[i];
        if (!march->alive[p]) continue;
        const PartSection *section = &model->section[model->part[p].section];
        const double per_inertia = section->inertia_m4 > 0 ? 1 / section->inertia_m4 : 0;
        march->free.creep[p] = (BarStrain){sum[i] / section->area_m2, sum[n + i] * per_inertia,
                                           sum[2 * n + i] * per_inertia};
        if (!model->part[p].shear)
            march->free.shrinkage[p].axial_1 = march->material[model->part[p].material].shrinkage_1;
    }
    arena_reset(march->scratch, mark);
    for (int p = 0; p < model->part_count; p++)
        if (march->alive[p]) relaxation_strain(march, p, from, to);
}

static void keep(March *march, const double *added, double day)
{
    CreepMemory *memory = &march->memory;
    const size_t row = 3 * (size_t)memory->count;
    memory->kept_day[memory->kept] = day;
    memcpy(memory->kept_force + (size_t)memory->kept * row, added, sizeof(double) * row);
    memory->kept++;
}

/* Decays what is remembered to the end of the step and adds the step's increments:
 * q[m] <- q[m] exp(-dt/tau) + d a_m exp(-(end - loaded)/tau). */
void creep_commit(March *march, double from, double to)
{
    CreepMemory *memory = &march->memory;
    const int n = memory->count;
    const size_t mark = arena_mark(march->scratch);
    double *added = ARENA_NEW(march->scratch, double, 3 * n);
    for (int i = 0; i < n; i++) {
        const int p = memory->part[i];
        added[i] = march->trial[p].N - march->force[p].N;
        added[n + i] = march->trial[p].M_from - march->force[p].M_from;
        added[2 * n + i] = march->trial[p].M_to - march->force[p].M_to;
    }
    if (march->settings->plain_history) keep(march, added, 0.5 * (from + to));
    for (int k = 0; k < CONCRETE_TERMS; k++) {
        const double decay = exp(-(to - from) / concrete_term_day[k]);
        const double half = exp(-0.5 * (to - from) / concrete_term_day[k]);
        for (int m = 0; m < march->model->material_count; m++) {
            if (!march->material[m].ready) continue;
            const double a = march->material[m].term_per_Pa[k] * half;
            for (int c = 0; c < 3; c++) {
                double *q = memory->term + (ptrdiff_t)(c * CONCRETE_TERMS + k) * n;
                const double *d = added + (ptrdiff_t)c * n;
                for (int i = memory->group[m]; i < memory->group[m + 1]; i++)
                    q[i] = q[i] * decay + d[i] * a;
            }
        }
    }
    arena_reset(march->scratch, mark);
}
