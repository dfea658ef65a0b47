/* Integral of the shear flow between deck and girder over the tributary length of a pocket. It is the
 * change of the deck's normal force over that length (law: equilibrium of the deck), so its influence
 * line is the difference of two of that force; what is permanent is the sum of the links'
 * forces in the stages. */
#include "pockets.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Sum of link forces between two stations; of those at its ends one half. */
static double links_N(const KitLine *k, int time, int from, int to)
{
    const int n = k->model->station_count;
    const LinkState *link = k->history->link + (ptrdiff_t)time * n;
    double sum = 0;
    for (int i = from; i <= to; i++) {
        const bool inside = (i > from || i == 0) && (i < to || i == n - 1);
        sum += (inside ? 1 : 0.5) * link[i].H_N;
    }
    return sum;
}

/* Influence of a downward unit load on the deck's normal force at a station, the mean of the elements
 * at both sides, added with `factor`. Zero beyond the ends of the deck. */
static void add_deck_force(const KitLine *k, int station, double factor, double *sum, double *work)
{
    const int n = k->model->station_count;
    if (station == 0 || station == n - 1) return;
    double *value = work + (ptrdiff_t)6 * n;
    for (int element = station - 1; element <= station; element++) {
        stage_influence_deck(live_structure(k->open_live), element, value, work);
        for (int i = 0; i < n; i++) sum[i] += 0.5 * factor * value[i];
    }
}

static void live_forces(const CheckCase *with, const KitLine *k, int from, int to, PocketForce *f)
{
    const int n = k->model->station_count;
    const size_t mark = arena_mark(with->arena);
    double *sum = ARENA_NEW(with->arena, double, n), *work = ARENA_NEW(with->arena, double, 7 * n);
    double *scan = ARENA_NEW(with->arena, double, 8 * (n + 2));
    add_deck_force(k, to, 1, sum, work);
    add_deck_force(k, from, -1, sum, work);
    const InfluenceLine line = {n, k->model->x_m, sum};
    const double lanes = k->line->lanes_shear_1, truck = k->line->lanes_fatigue_1;
    f->live_most_N = lanes * traffic_extreme(&k->line->live, &line, 1, false, scan).value;
    f->live_least_N = lanes * traffic_extreme(&k->line->live, &line, -1, false, scan).value;
    f->fatigue_N = truck * (traffic_extreme(&k->fatigue, &line, 1, false, scan).value -
                            traffic_extreme(&k->fatigue, &line, -1, false, scan).value);
    arena_reset(with->arena, mark);
}

/* The sudden changes at barrier, overlay and wearing surface are loads; all the rest from grouting on is
 * creep and shrinkage. */
static void permanent_forces(const KitLine *k, int from, int to, PocketForce *f)
{
    const StageHistory *h = k->history;
    f->thrust_N = links_N(k, k->bonded, from, to);
    double before_N = f->thrust_N;
    for (int t = k->bonded + 1; t <= k->end; t++) {
        const double now_N = links_N(k, t, from, to);
        const Event *event = h->event[t] >= 0 ? &h->model->event[h->event[t]] : NULL;
        if (event && event->kind == EVENT_LOAD && event->cause == CAUSE_SUPERIMPOSED)
            f->superimposed_N += now_N - before_N;
        before_N = now_N;
        if (t < k->opening) continue;
        const double later_N = now_N - f->thrust_N - f->superimposed_N;
        f->later_most_N = t == k->opening ? later_N : fmax(f->later_most_N, later_N);
        f->later_least_N = t == k->opening ? later_N : fmin(f->later_least_N, later_N);
    }
}

static void scale(PocketForce *f, double factor)
{
    double *const value[] = {&f->thrust_N,      &f->superimposed_N, &f->later_most_N,
                             &f->later_least_N, &f->live_most_N,    &f->live_least_N,
                             &f->fatigue_N};
    for (size_t i = 0; i < sizeof value / sizeof *value; i++) *value[i] *= factor;
}

PocketForce pocket_force(const CheckCase *with, const KitLine *k, double from_m, double to_m)
{
    const int n = k->model->station_count;
    PocketForce f = {.from_m = from_m, .to_m = to_m};
    int from = line_station(k, from_m), to = line_station(k, to_m);
    if (from == to) { /* the element around it */
        from = from > 0 ? from - 1 : from;
        to = to < n - 1 ? to + 1 : to;
    }
    live_forces(with, k, from, to, &f);
    permanent_forces(k, from, to, &f);
    scale(&f, (to_m - from_m) / (k->model->x_m[to] - k->model->x_m[from]));
    return f;
}

double pocket_strength_N(const CheckCase *with, const PocketForce *f, bool locked)
{
    const double wearing = kit_value(with, "criteria.strength_wearing");
    const double live = kit_value(with, "criteria.strength_live");
    const double s = f->superimposed_N, thrust_N = locked ? f->thrust_N : 0;
    const double most = fmax(wearing * s, 0.65 * s) + f->later_most_N + live * f->live_most_N;
    const double least = fmin(wearing * s, 0.65 * s) + f->later_least_N + live * f->live_least_N;
    return fmax(fabs(thrust_N + most), fabs(thrust_N + least));
}
