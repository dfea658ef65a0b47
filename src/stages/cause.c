/* What of the deck's change in a step is due to what: one right-hand side a cause on the tangent of
 * the step's end. What friction and contact took on the way is the rest, so that the sum is whole. */
#include <stddef.h>
#include <string.h>

#include "march.h"

typedef struct Booking {
    Cause cause;
    const BarStrain *free; /* NULL: an event's out-of-balance force */
} Booking;

/* Load of free strains: B' [EA e0, EI k0]. */
static void load_of_free(March *march, const BarStrain *free, double *nodal)
{
    const StageModel *model = march->model;
    memset(nodal, 0, sizeof(double) * (size_t)march->n);
    for (int p = 0; p < model->part_count; p++) {
        const BarStrain *f = &free[p];
        if (!march->alive[p] || (f->axial_1 == 0 && f->from_per_m == 0 && f->to_per_m == 0))
            continue;
        if (model->part[p].compression_only && march->trial_open_1[p] > 0) continue;
        part_force(&model->part[p], &march->place[p], march->EA_N[p] * f->axial_1,
                   march->EI_Nm2[p] * f->from_per_m, march->EI_Nm2[p] * f->to_per_m, nodal);
    }
}

static bool any(const March *march, const BarStrain *free)
{
    for (int p = 0; p < march->model->part_count; p++)
        if (march->alive[p] &&
            (free[p].axial_1 != 0 || free[p].from_per_m != 0 || free[p].to_per_m != 0))
            return true;
    return false;
}

static int what_happened(const March *march, const Step *step, Booking *booking)
{
    if (step->event >= 0) {
        booking[0] = (Booking){march->model->event[step->event].cause, NULL};
        return 1;
    }
    const Booking all[] = {{CAUSE_CREEP, march->free.creep},
                           {CAUSE_SHRINKAGE, march->free.shrinkage},
                           {CAUSE_RELAXATION, march->free.relaxation}};
    int count = 0;
    for (int k = 0; k < 3; k++)
        if (any(march, all[k].free)) booking[count++] = all[k];
    return count;
}

static bool deck_beam(const March *march, int p)
{
    const Part *part = &march->model->part[p];
    return march->alive[p] && part->chain == CHAIN_DECK &&
           march->model->section[part->section].inertia_m4 > 0;
}

static void add(CauseForce *sum, double N, double M)
{
    sum->N_N += N;
    sum->M_Nm += M;
}

/* Adds the deck's answer to one cause, and takes it from the rest. */
static void book_deck(const March *march, const Booking *booking, const double *x,
                      const BarStrain *temperature, CauseForce *cause, CauseForce *rest)
{
    const StageModel *model = march->model;
    for (int p = 0; p < model->part_count; p++) {
        if (!deck_beam(march, p)) continue;
        const BarStrain d = frame_bar_strain(&march->place[p], x);
        const BarStrain *f = booking->free ? &booking->free[p] : &temperature[p];
        const double N = march->EA_N[p] * (d.axial_1 - f->axial_1);
        const double M =
            0.5 * march->EI_Nm2[p] * (d.from_per_m - f->from_per_m + d.to_per_m - f->to_per_m);
        add(&cause[model->part[p].element], N, M);
        add(&rest[model->part[p].element], -N, -M);
    }
}

Status cause_book(March *march, const Step *step, CauseForce *deck_cause, Error *err)
{
    const int stations = march->model->station_count;
    CauseForce *friction = deck_cause + (ptrdiff_t)CAUSE_FRICTION * stations;
    bool deck = false;
    for (int p = 0; p < march->model->part_count; p++) {
        if (!deck_beam(march, p)) continue;
        deck = true;
        const PartForce *a = &march->force[p], *b = &march->trial[p];
        add(&friction[march->model->part[p].element], b->N - a->N,
            0.5 * (b->M_from - a->M_from + b->M_to - a->M_to));
    }
    if (!deck || !march->moved) return STATUS_OK;
    Booking booking[BOOKED_MAX];
    const int count = what_happened(march, step, booking);
    for (int k = 0; k < count; k++) {
        double *right = march->booked + (ptrdiff_t)k * march->n;
        if (booking[k].free)
            load_of_free(march, booking[k].free, right);
        else
            memcpy(right, march->start_residual, sizeof(double) * (size_t)march->n);
    }
    TRY(solve_tangent(march, err));
    frame_solve(march->frame, march->booked, count);
    for (int k = 0; k < count; k++)
        book_deck(march, &booking[k], march->booked + (ptrdiff_t)k * march->n,
                  march->free.temperature, deck_cause + (ptrdiff_t)booking[k].cause * stations,
                  friction);
    return STATUS_OK;
}
