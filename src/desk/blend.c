/* A history between two: stress is affine in the thrust while contact and slip keep their pattern
 * (docs/theory/thrust.md "Prediction"). Which links stick, slide or lift is that of the nearer one. */
#include <math.h>
#include <string.h>

#include "desk_data.h"

static void *copied(const void *from, size_t bytes, Arena *arena)
{
    return bytes ? memcpy(arena_take(arena, bytes), from, bytes) : NULL;
}

static int first_jack(const StageHistory *h)
{
    for (int t = 0; t < h->time_count; t++)
        if (h->event[t] >= 0 && h->model->event[h->event[t]].kind == EVENT_JACK) return t;
    return h->time_count;
}

/* The first row that differs: steps of the jacks on the same day come before their event's end. */
static int first_row(const StageHistory *h)
{
    int t = first_jack(h);
    while (t > 0 && t < h->time_count && h->event[t - 1] < 0 && h->day[t - 1] >= h->day[t]) t--;
    return t;
}

void blend_make(Blend *blend, const StageHistory *a, const StageHistory *b, Arena *arena)
{
    const StageModel *m = a->model;
    const size_t times = (size_t)a->time_count, parts = times * (size_t)m->part_count;
    const size_t stations = times * (size_t)m->station_count, gaps = times * (size_t)m->gap_count;
    const size_t supports = times * (size_t)m->support_count;
    *blend = (Blend){.a = a, .b = b, .first = first_row(a), .history = *a};
    StageHistory *h = &blend->history;
    h->force = blend->force = copied(a->force, parts * sizeof *a->force, arena);
    h->link = blend->link = copied(a->link, stations * sizeof *a->link, arena);
    h->move = blend->move = copied(a->move, 2 * stations * sizeof *a->move, arena);
    h->gap_force_N = blend->gap_force_N = copied(a->gap_force_N, gaps * sizeof(double), arena);
    h->gap_opening_m = blend->gap_opening_m =
        copied(a->gap_opening_m, gaps * sizeof(double), arena);
    h->reaction_N = blend->reaction_N = copied(a->reaction_N, supports * sizeof(double), arena);
    h->reaction_x_N = blend->reaction_x_N =
        copied(a->reaction_x_N, supports * sizeof(double), arena);
    if (a->gape_1) h->gape_1 = blend->gape_1 = copied(a->gape_1, parts * sizeof(double), arena);
    if (a->deck_cause && b->deck_cause)
        h->deck_cause = blend->cause =
            copied(a->deck_cause, CAUSE_COUNT * stations * sizeof *a->deck_cause, arena);
    blend->laid = ARENA_NEW(arena, bool, times);
    blend->caused = ARENA_NEW(arena, bool, times);
}

size_t blend_bytes(const StageHistory *h)
{
    const StageModel *m = h->model;
    const size_t stations = (size_t)m->station_count, parts = (size_t)m->part_count;
    return (size_t)h->time_count *
           (parts * (sizeof(PartForce) + sizeof(double) + 1) +
            stations *
                (sizeof(LinkState) + 2 * sizeof(NodeMove) + CAUSE_COUNT * sizeof(CauseForce)) +
            2 * (size_t)(m->gap_count + m->support_count) * sizeof(double) + 64);
}

void blend_share(Blend *blend, double share_1)
{
    blend->share_1 = share_1;
    const size_t times = (size_t)blend->history.time_count;
    memset(blend->laid, 0, times * sizeof *blend->laid);
    memset(blend->caused, 0, times * sizeof *blend->caused);
}

/* Numbers that lie in structs of doubles alone are laid as plain arrays. */
static void lay(double *out, const double *a, const double *b, double share_1, size_t count)
{
    for (size_t i = 0; i < count; i++) out[i] = a[i] + share_1 * (b[i] - a[i]);
}

static void lay_links(Blend *blend, size_t from, size_t count)
{
    const bool near_a = blend->share_1 < 0.5;
    for (size_t i = from; i < from + count; i++) {
        const LinkState *a = &blend->a->link[i], *b = &blend->b->link[i];
        const double w = blend->share_1;
        blend->link[i] = (LinkState){.H_N = a->H_N + w * (b->H_N - a->H_N),
                                     .V_N = a->V_N + w * (b->V_N - a->V_N),
                                     .slip_m = a->slip_m + w * (b->slip_m - a->slip_m),
                                     .lift_m = a->lift_m + w * (b->lift_m - a->lift_m),
                                     .state = near_a ? a->state : b->state};
    }
}

static void lay_causes(Blend *blend, size_t time)
{
    const size_t row = CAUSE_COUNT * (size_t)blend->a->model->station_count;
    lay(&blend->cause[time * row].N_N, &blend->a->deck_cause[time * row].N_N,
        &blend->b->deck_cause[time * row].N_N, blend->share_1, 2 * row);
}

void blend_row(Blend *blend, int time, bool causes)
{
    const StageHistory *a = blend->a, *b = blend->b;
    const StageModel *m = a->model;
    const double w = blend->share_1;
    const size_t t = (size_t)time, parts = (size_t)m->part_count;
    const size_t stations = (size_t)m->station_count, gaps = (size_t)m->gap_count;
    const size_t supports = (size_t)m->support_count;
    if (time < blend->first) return;
    if (causes && blend->cause && !blend->caused[time]) {
        blend->caused[time] = true;
        lay_causes(blend, t);
    }
    if (blend->laid[time]) return;
    blend->laid[time] = true;
    lay(&blend->force[t * parts].N, &a->force[t * parts].N, &b->force[t * parts].N, w, 3 * parts);
    lay(&blend->move[2 * t * stations].u_m, &a->move[2 * t * stations].u_m,
        &b->move[2 * t * stations].u_m, w, 6 * stations);
    lay_links(blend, t * stations, stations);
    lay(blend->gap_force_N + t * gaps, a->gap_force_N + t * gaps, b->gap_force_N + t * gaps, w,
        gaps);
    lay(blend->gap_opening_m + t * gaps, a->gap_opening_m + t * gaps, b->gap_opening_m + t * gaps,
        w, gaps);
    lay(blend->reaction_N + t * supports, a->reaction_N + t * supports,
        b->reaction_N + t * supports, w, supports);
    lay(blend->reaction_x_N + t * supports, a->reaction_x_N + t * supports,
        b->reaction_x_N + t * supports, w, supports);
    for (size_t p = t * parts; blend->gape_1 && p < (t + 1) * parts; p++)
        blend->gape_1[p] = fmax(0, a->gape_1[p] + w * (b->gape_1[p] - a->gape_1[p]));
}
