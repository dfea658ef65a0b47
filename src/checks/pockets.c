/* Integral of the shear flow between deck and girder over the tributary length of a pocket. It is the
 * change of the deck's normal force over that length (law: equilibrium of the deck), so its influence
 * line is the difference of two of that force; what is permanent is the sum of the links'
 * forces in the stages. */
#include "pockets.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* The length between the middles of two elements. Left of element 0 and right of the last one the deck
 * ends and its normal force is zero: elements -1 and station_count - 1. */
typedef struct Window {
    int left, right; /* elements */
} Window;

/* Sum of the links between the two elements. */
static double links_N(const KitLine *k, int time, Window w)
{
    const LinkState *link = k->history->link + (ptrdiff_t)time * k->model->station_count;
    double sum = 0;
    for (int i = w.left + 1; i <= w.right; i++) sum += link[i].H_N;
    return sum;
}

/* Influence of a downward unit load on the deck's normal force in an element, added with `factor`. */
static void add_deck_force(const KitLine *k, int element, double factor, double *sum, double *work)
{
    const int n = k->model->station_count;
    if (element < 0 || element >= n - 1) return;
    double *value = work + (ptrdiff_t)6 * n;
    stage_influence_deck(live_structure(k->open_live), element, value, work);
    for (int i = 0; i < n; i++) sum[i] += factor * value[i];
}

static double modulus_Pa(const Material *material, double day)
{
    if (material->kind != MATERIAL_CONCRETE) return material->E_Pa;
    return concrete_modulus_Pa(&material->mix, day - material->cast_day);
}

/* First over second moment of the transformed section beside a station, with the moduli of opening: N of
 * the deck is -M times it (closed form: full interaction). 0 where deck or girder is missing. */
static double first_over_second_per_m(const KitLine *k, int station)
{
    const StageModel *m = k->model;
    const double day = k->history->day[k->opening];
    const Material *steel = NULL;
    const PartSection *g = line_girder(k, station, &steel);
    const int part = stage_part(k->history, k->opening, CHAIN_DECK, station, 1);
    if (!g || part < 0) return 0;
    const Material *panel = &m->material[m->part[part].material];
    const double t_m = m->deck_thickness_m, b_m = k->line->width_m;
    const double girder_Pa = modulus_Pa(steel, day), deck_Pa = modulus_Pa(panel, day);
    const double deck_m = g->bottom_m + g->top_m + m->haunch_m + t_m / 2;
    const SectionPart both[2] = {{g->area_m2, g->inertia_m4, g->bottom_m, girder_Pa / deck_Pa},
                                 {b_m * t_m, b_m * t_m * t_m * t_m / 12, deck_m, 1}};
    const TransformedSection all = section_transform(both, 2);
    return b_m * t_m * (deck_m - all.centroid_m) / all.inertia_m4;
}

/* V s Q/I: AASHTO LRFD 6.10.10.1.2 (from memory); the force is minus the change of M Q/I. */
void pocket_at_least_full(const KitLine *k, PocketForce *f)
{
    const int station = line_station(k, (f->from_m + f->to_m) / 2);
    const double flow_1 = first_over_second_per_m(k, station) * (f->to_m - f->from_m);
    const LiveRange live = live_shear(k->open_live, &k->line->live, station, 1);
    const LiveRange truck = live_shear(k->open_live, &k->fatigue, station, 1);
    const double lanes = k->line->lanes_shear_1, one = k->line->lanes_fatigue_shear_1;
    f->live_most_N = fmax(f->live_most_N, -lanes * live.least * flow_1);
    f->live_least_N = fmin(f->live_least_N, -lanes * live.most * flow_1);
    f->fatigue_N = fmax(f->fatigue_N, one * (truck.most - truck.least) * flow_1);
}

/* All of the deck's force at the inner face of an anchor panel, likewise: M Q/I. */
static void face_at_least_full(const KitLine *k, int face, bool right, PocketForce *f)
{
    const double per_m = first_over_second_per_m(k, face) * k->line->lanes_shear_1;
    const LiveRange live = live_moment(k->open_live, &k->line->live, face);
    const double most_N = per_m * (right ? live.most : -live.least);
    const double least_N = per_m * (right ? live.least : -live.most);
    f->live_most_N = fmax(f->live_most_N, most_N);
    f->live_least_N = fmin(f->live_least_N, least_N);
    const LiveRange truck = live_moment(k->open_live, &k->fatigue, face);
    const double one_per_m = first_over_second_per_m(k, face) * k->line->lanes_fatigue_shear_1;
    f->fatigue_N = fmax(f->fatigue_N, one_per_m * (truck.most - truck.least));
}

static void live_forces(const CheckCase *with, const KitLine *k, Window w, PocketForce *f)
{
    const int n = k->model->station_count;
    const size_t mark = arena_mark(with->arena);
    double *sum = ARENA_NEW(with->arena, double, n), *work = ARENA_NEW(with->arena, double, 7 * n);
    double *scan = ARENA_NEW(with->arena, double, 8 * (n + 2));
    add_deck_force(k, w.right, 1, sum, work);
    add_deck_force(k, w.left, -1, sum, work);
    const InfluenceLine line = {n, k->model->x_m, sum};
    const double lanes = k->line->lanes_shear_1, truck = k->line->lanes_fatigue_shear_1;
    f->live_most_N = lanes * traffic_extreme(&k->line->live, &line, 1, false, scan).value;
    f->live_least_N = lanes * traffic_extreme(&k->line->live, &line, -1, false, scan).value;
    f->fatigue_N = truck * (traffic_extreme(&k->fatigue, &line, 1, false, scan).value -
                            traffic_extreme(&k->fatigue, &line, -1, false, scan).value);
    arena_reset(with->arena, mark);
}

/* The sudden changes at barrier, overlay and wearing surface are loads; all the rest from grouting on is
 * creep and shrinkage. */
static void permanent_forces(const KitLine *k, Window w, PocketForce *f)
{
    const StageHistory *h = k->history;
    f->thrust_N = links_N(k, k->bonded, w);
    double before_N = f->thrust_N;
    for (int t = k->bonded + 1; t <= k->end; t++) {
        const double now_N = links_N(k, t, w);
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

static double middle_m(const KitLine *k, int element)
{
    const int last = k->model->station_count - 1;
    if (element < 0) return k->model->x_m[0];
    if (element >= last) return k->model->x_m[last];
    return 0.5 * (k->model->x_m[element] + k->model->x_m[element + 1]);
}

/* Between the middles of the first and the last element inside, so that a wheel at either end of the
 * length has its whole effect; the shear flow there stands for that of the length. */
PocketForce pocket_force(const CheckCase *with, const KitLine *k, double from_m, double to_m)
{
    const int last = k->model->station_count - 1;
    const int from = line_station(k, from_m), to = line_station(k, to_m);
    Window w = {from == 0 ? -1 : from, to == last ? last : to - 1};
    if (w.right <= w.left) { /* one element inside: its neighbours too */
        w.left = w.left > 0 ? w.left - 1 : w.left;
        w.right = w.left + 2 < last ? w.left + 2 : last;
    }
    PocketForce f = {.from_m = from_m, .to_m = to_m};
    live_forces(with, k, w, &f);
    permanent_forces(k, w, &f);
    scale(&f, (to_m - from_m) / (middle_m(k, w.right) - middle_m(k, w.left)));
    return f;
}

/* All connectors of an anchor panel, that at its inner face too. */
PocketForce anchor_force(const CheckCase *with, const KitLine *k, bool right)
{
    const BridgeLine *l = k->line;
    const int last = k->model->station_count - 1;
    const int face = l->joint[right ? l->joint_count - 1 : 0].station;
    const Window w = right ? (Window){face - 1, last} : (Window){-1, face};
    PocketForce f = {.from_m = k->model->x_m[right ? face : 0],
                     .to_m = k->model->x_m[right ? last : face]};
    live_forces(with, k, w, &f);
    face_at_least_full(k, face, right, &f);
    permanent_forces(k, w, &f);
    return f;
}

/* The largest shear flow of a pocket's length inside, as if it went over the whole panel: in fatigue
 * connectors that are stiff do not even out what they carry. Never less than what the whole panel has. */
double anchor_fatigue_N(const CheckCase *with, const KitLine *k, const PocketForce *anchor)
{
    const double length_m = anchor->to_m - anchor->from_m;
    const double s_m = fmin(kit_value(with, "connectors.spacing"), length_m);
    const int count = (int)ceil(length_m / s_m - 1e-6);
    double range_N = anchor->fatigue_N;
    for (int i = 0; i < count; i++) { /* the last one ends with the panel */
        const double x_m = fmin(anchor->from_m + i * s_m, anchor->to_m - s_m);
        PocketForce f = pocket_force(with, k, x_m, x_m + s_m);
        pocket_at_least_full(k, &f);
        range_N = fmax(range_N, f.fatigue_N * length_m / s_m);
    }
    return range_N;
}

double pocket_permanent_N(const PocketForce *f)
{
    const double sum_N = f->thrust_N + f->superimposed_N;
    return fmax(fabs(sum_N + f->later_most_N), fabs(sum_N + f->later_least_N));
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
