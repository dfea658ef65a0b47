/* One step to equilibrium: Newton on the changes of displacement since the step's start. Parts are
 * linear within a step; only links (friction, contact) and compression-only parts can change their
 * stiffness, so a step whose pattern stays settles at once. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "march.h"

/* What stays the same through the iterations of a step. */
static void prepare(March *march)
{
    const StageModel *model = march->model;
    const FreeStrain *free = &march->free;
    int count = 0;
    for (int p = 0; p < model->part_count; p++) {
        if (!march->alive[p]) continue;
        const PartSection *section = &model->section[model->part[p].section];
        const double E = march->material[model->part[p].material].E_Pa;
        const BarStrain *a = &free->creep[p], *b = &free->shrinkage[p], *c = &free->relaxation[p],
                        *d = &free->temperature[p];
        march->living[count++] = p;
        march->EA_N[p] = E * section->area_m2;
        march->EI_Nm2[p] = E * section->inertia_m4;
        march->free_sum[p] =
            (BarStrain){a->axial_1 + b->axial_1 + c->axial_1 + d->axial_1,
                        a->from_per_m + b->from_per_m + c->from_per_m + d->from_per_m,
                        a->to_per_m + b->to_per_m + c->to_per_m + d->to_per_m};
    }
    march->living_count = count;
}

/* A strip that only presses: z = N/EA + gape follows the strain; z < 0 presses, z > 0 gapes. */
static double one_sided(double EA, double N, double gape, double strain, double *gape_after)
{
    const double z = N / EA + gape + strain;
    *gape_after = fmax(z, 0);
    return EA * fmin(z, 0);
}

static void trial_part(March *march, int p, const double *change)
{
    const Part *part = &march->model->part[p];
    const BarStrain d = part_strain(part, &march->place[p], change);
    const BarStrain *f = &march->free_sum[p];
    const PartForce *start = &march->force[p];
    const double EA = march->EA_N[p], EI = march->EI_Nm2[p];
    PartForce end = {.N = start->N + EA * (d.axial_1 - f->axial_1)};
    if (part->compression_only)
        end.N = one_sided(EA, start->N, march->open_1[p], d.axial_1 - f->axial_1,
                          &march->trial_open_1[p]);
    end.M_from = start->M_from + EI * (d.from_per_m - f->from_per_m);
    end.M_to = start->M_to + EI * (d.to_per_m - f->to_per_m);
    march->trial[p] = end;
    part_force(part, &march->place[p], end.N, end.M_from, end.M_to, march->inner);
}

static void inner_supports(March *march, const double *change)
{
    for (int s = 0; s < march->model->support_count; s++) {
        const Support *support = &march->model->support[s];
        const SupportState *state = &march->support[s];
        if (!state->active) continue;
        const double *G = change + frame_unknown(support->station, 0, 0);
        const double below = support->below_top_m;
        const double H = state->horizontal_N - support->horizontal_N_per_m * (G[0] + below * G[2]);
        double *inner = march->inner + frame_unknown(support->station, 0, 0);
        inner[0] -= H;
        inner[1] -= state->vertical_N - support->vertical_N_per_m * G[1];
        inner[2] -= below * H;
    }
}

static Strut strut_of(const March *march, int g)
{
    const Gap *gap = &march->model->gap[g];
    return (Strut){gap->left_station, gap->right_station, gap->jack_above_mid_m,
                   gap->strut_N_per_m};
}

/* Inner forces p(change), and with them the trial state of parts and links. */
static void inner_forces(March *march, const double *change, const double *strut_change)
{
    const StageModel *model = march->model;
    memset(march->inner, 0, sizeof(double) * (size_t)march->n);
    for (int k = 0; k < march->living_count; k++) trial_part(march, march->living[k], change);
    for (int i = 0; i < model->station_count; i++) {
        if (march->shim[i].now.state == LINK_NONE) continue;
        double slip, lift;
        frame_link_strain(march->arms, i, change, &slip, &lift);
        march->trial_shim[i] = shim_trial(&model->link[i], &march->shim[i], slip, lift);
        const LinkState *end = &march->trial_shim[i].now;
        frame_link_force(march->arms, i, end->H_N, end->V_N, march->inner);
    }
    inner_supports(march, change);
    for (int g = 0; g < model->gap_count; g++) {
        if (!march->gap[g].locked) continue;
        const Strut strut = strut_of(march, g);
        const double force = march->gap[g].strut_N + strut_change[g] -
                             strut.stiffness_N_per_m * frame_strut_opening(&strut, change);
        frame_strut_force(&strut, -force, march->inner);
    }
}

static double residual(March *march)
{
    double worst = 0;
    for (int i = 0; i < march->n; i++) {
        march->residual[i] = march->load[i] - march->inner[i];
        const double size = fabs(march->residual[i]);
        if (!(size <= worst)) worst = size; /* not a number stays */
    }
    return worst;
}

static void hold_missing_nodes(March *march)
{
    const StageModel *model = march->model;
    const size_t mark = arena_mark(march->scratch);
    unsigned char *there = ARENA_NEW(march->scratch, unsigned char, 2 * (model->station_count + 1));
    for (int k = 0; k < march->living_count; k++) {
        const int p = march->living[k];
        unsigned char *node = there + (ptrdiff_t)2 * model->part[p].element + model->part[p].chain;
        node[0] = node[2] = 1;
    }
    for (int i = 0; i < model->station_count; i++)
        for (int c = 0; c < 2; c++)
            if (!there[2 * i + c]) frame_hold_node(march->frame, i, c);
    arena_reset(march->scratch, mark);
}

/* Tangent at the trial state. */
static Status factor(March *march, Error *err)
{
    const StageModel *model = march->model;
    Frame *frame = march->frame;
    frame_clear(frame);
    for (int k = 0; k < march->living_count; k++) {
        const int p = march->living[k];
        if (model->part[p].compression_only && march->trial_open_1[p] > 0) continue;
        part_add(frame, &model->part[p], &march->place[p], march->EA_N[p], march->EI_Nm2[p]);
    }
    for (int i = 0; i < model->station_count; i++) {
        if (march->shim[i].now.state == LINK_NONE) continue;
        double H_slip, H_lift, V_lift;
        shim_tangent(&model->link[i], &march->trial_shim[i], &H_slip, &H_lift, &V_lift);
        frame_add_link(frame, march->arms, i, H_slip, H_lift, V_lift);
    }
    for (int s = 0; s < model->support_count; s++)
        if (march->support[s].active)
            frame_add_spring(frame, model->support[s].station, -model->support[s].below_top_m,
                             model->support[s].horizontal_N_per_m,
                             model->support[s].vertical_N_per_m);
    for (int g = 0; g < model->gap_count; g++)
        if (march->gap[g].locked) {
            const Strut strut = strut_of(march, g);
            frame_add_strut(frame, &strut);
        }
    hold_missing_nodes(march);
    march->factorisations++;
    return frame_factor(frame, model->x_m, err);
}

/* A number that changes when some link or strip changes its way of working. */
static uint64_t pattern(const March *march)
{
    uint64_t sum = 1469598103934665603ULL; /* FNV-1a */
    for (int i = 0; i < march->model->station_count; i++) {
        if (march->shim[i].now.state == LINK_NONE) continue;
        const LinkState *end = &march->trial_shim[i].now;
        const unsigned long mode =
            end->state * 4UL +
            (end->state == LINK_SLIDE ? (end->H_N > 0) + 2UL * (end->H_N < 0) : 0UL);
        sum = (sum ^ mode) * 1099511628211ULL;
    }
    for (int p = 0; p < march->model->part_count; p++)
        if (march->alive[p] && march->model->part[p].compression_only)
            sum = (sum ^ (march->trial_open_1[p] > 0)) * 1099511628211ULL;
    return sum;
}

static Status gave_up(const March *march, double worst, const char *what, Error *err)
{
    int at = 0;
    if (isnan(worst))
        return error_set(err, STATUS_NO_CONVERGENCE, "%s on day %g: forces are not numbers", what,
                         march->day);
    for (int i = 1; i < march->n; i++)
        if (fabs(march->residual[i]) > fabs(march->residual[at])) at = i;
    return error_set(
        err, STATUS_NO_CONVERGENCE,
        "%s on day %g: friction and contact did not settle; %.3g of the largest force is "
        "left at x = %.3f m",
        what, march->day, worst / march->largest_force_N, march->model->x_m[at / FRAME_UNKNOWNS]);
}

/* The scale of the residual: the largest force that a part or a load puts on a node. */
static void largest_force(March *march)
{
    double largest = 1;
    for (int k = 0; k < march->living_count; k++) {
        const PartForce *f = &march->trial[march->living[k]];
        const double length = march->place[march->living[k]].length_m;
        const double couple = (fabs(f->M_from) + fabs(f->M_to)) / length;
        if (fabs(f->N) > largest) largest = fabs(f->N);
        if (couple > largest) largest = couple;
    }
    for (int i = 0; i < march->n; i++)
        if (fabs(march->load[i]) > largest) largest = fabs(march->load[i]);
    march->largest_force_N = largest;
}

/* A deck that slides as a whole is held by 1e-7 of its shims in the tangent: a correction can be a
 * million times too long. */
enum { halvings_max = 45 };

/* Adds step times the correction, halving while the residual grows. */
static double advance(March *march, double *correction, double before, const double *strut_change)
{
    double worst = 0, step = 1;
    for (int halvings = 0; halvings < halvings_max; halvings++) {
        for (int i = 0; i < march->n; i++) march->change[i] += step * correction[i];
        inner_forces(march, march->change, strut_change);
        worst = residual(march);
        if (worst < before || halvings == halvings_max - 1) break;
        for (int i = 0; i < march->n; i++) march->change[i] -= step * correction[i];
        step *= 0.5;
    }
    return worst;
}

/* Rounding keeps a short element's forces from closing to the tolerance: where the pattern stands and
 * a whole correction no longer helps, what is left is accepted and counted (worst_residual_1). */
static bool rounding_left(const March *march, double before, double worst)
{
    static const double at_most_1 = 1e-7;
    return worst > 0.25 * before && worst < at_most_1 * march->largest_force_N;
}

/* Afterwards: change, trial, trial_shim hold the end of the step, the frame its tangent. */
Status solve_step(March *march, double strut_change[FRAME_STRUTS], const char *what, Error *err)
{
    memset(march->change, 0, sizeof(double) * (size_t)march->n);
    prepare(march);
    inner_forces(march, march->change, strut_change);
    double worst = residual(march);
    largest_force(march);
    double wanted = march->settings->newton_tolerance_1 * march->largest_force_N;
    memcpy(march->start_residual, march->residual, sizeof(double) * (size_t)march->n);
    march->moved = !(worst <= wanted);
    uint64_t factored = 0;
    march->tangent_ready = false;
    for (int k = 0; !(worst <= wanted); k++) {
        if (k == march->settings->newton_max || isnan(worst))
            return gave_up(march, worst, what, err);
        const uint64_t now = pattern(march);
        const bool same = march->tangent_ready && now == factored;
        if (!same) TRY(factor(march, err));
        factored = now;
        march->tangent_ready = true;
        memcpy(march->booked, march->residual, sizeof(double) * (size_t)march->n);
        frame_solve(march->frame, march->booked, 1);
        const double before = worst;
        worst = advance(march, march->booked, worst, strut_change);
        if (k == 0) largest_force(march);
        wanted = march->settings->newton_tolerance_1 * march->largest_force_N;
        march->newton_steps++;
        if (same && pattern(march) == now && rounding_left(march, before, worst)) break;
    }
    march->worst_residual_1 = fmax(march->worst_residual_1, worst / march->largest_force_N);
    if (march->tangent_ready && pattern(march) != factored) march->tangent_ready = false;
    return STATUS_OK;
}

Status solve_tangent(March *march, Error *err)
{
    if (!march->tangent_ready) TRY(factor(march, err));
    march->tangent_ready = true;
    return STATUS_OK;
}
