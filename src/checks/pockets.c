/* Integral of the shear flow between deck and girder over the tributary length of a pocket. It is the
 * change of the deck's normal force over that length (law: equilibrium of the deck), so its influence
 * line is the difference of two of that force; what is permanent is the sum of the links'
 * forces in the stages. */
#include "pockets.h"

#include <math.h>

/* Sum of the links between the two elements. */
static double links_N(const KitLine *k, int time, LiveEffect w)
{
    const LinkState *link = k->history->link + (ptrdiff_t)time * k->model->station_count;
    double sum = 0;
    for (int i = w.at + 1; i <= w.to; i++) sum += link[i].H_N;
    return sum;
}

static double modulus_Pa(const Material *material, double day)
{
    if (material->kind != MATERIAL_CONCRETE) return material->E_Pa;
    return concrete_modulus_Pa(&material->mix, day - material->cast_day);
}

PocketSection pocket_section(const KitLine *k, int station)
{
    const StageModel *m = k->model;
    const double day = k->history->day[k->opening];
    const Material *steel = NULL;
    const PartSection *g = line_girder(k, station, &steel);
    const int part = stage_part(k->history, k->opening, CHAIN_DECK, station, 1);
    if (!g || part < 0) return (PocketSection){0};
    const double t_m = m->deck_thickness_m, b_m = k->line->width_m;
    PocketSection s = {.girder = g,
                       .girder_Pa = modulus_Pa(steel, day),
                       .deck_Pa = modulus_Pa(&m->material[m->part[part].material], day),
                       .width_m = b_m,
                       .deck_m = t_m,
                       .above_m = g->bottom_m + g->top_m + m->haunch_m + t_m / 2};
    const SectionPart both[2] = {{g->area_m2, g->inertia_m4, g->bottom_m, s.girder_Pa / s.deck_Pa},
                                 {b_m * t_m, b_m * t_m * t_m * t_m / 12, s.above_m, 1}};
    const TransformedSection all = section_transform(both, 2);
    s.per_m = b_m * t_m * (s.above_m - all.centroid_m) / all.inertia_m4;
    return s;
}

/* V s Q/I: AASHTO LRFD 6.10.10.1.2 (from memory); the force is minus the change of M Q/I. */
void pocket_at_least_full(const KitLine *k, PocketForce *f)
{
    const double flow_1 = pocket_section(k, f->station).per_m * (f->to_m - f->from_m);
    const LiveRange live = live_shear(k->open_live, &k->line->live, f->station, 1);
    const LiveRange truck = live_shear(k->open_live, &k->fatigue, f->station, 1);
    const double lanes = k->line->lanes_shear_1, one = k->line->lanes_fatigue_shear_1;
    f->live_most_N = fmax(f->live_most_N, -lanes * live.least * flow_1);
    f->live_least_N = fmin(f->live_least_N, -lanes * live.most * flow_1);
    f->fatigue_N = fmax(f->fatigue_N, one * (truck.most - truck.least) * flow_1);
}

/* All of the deck's force at the inner face of an anchor panel, likewise: M Q/I. */
static void face_at_least_full(const KitLine *k, PocketForce *f)
{
    const bool right = f->kind == ANCHOR_RIGHT;
    const double flow_per_m = pocket_section(k, f->station).per_m;
    const double per_m = flow_per_m * k->line->lanes_shear_1;
    const LiveRange live = live_moment(k->open_live, &k->line->live, f->station);
    const double most_N = per_m * (right ? live.most : -live.least);
    const double least_N = per_m * (right ? live.least : -live.most);
    f->live_most_N = fmax(f->live_most_N, most_N);
    f->live_least_N = fmin(f->live_least_N, least_N);
    const LiveRange truck = live_moment(k->open_live, &k->fatigue, f->station);
    const double one_per_m = flow_per_m * k->line->lanes_fatigue_shear_1;
    f->fatigue_N = fmax(f->fatigue_N, one_per_m * (truck.most - truck.least));
}

static void live_forces(const CheckCase *with, const KitLine *k, PocketForce *f)
{
    const size_t mark = arena_mark(with->arena);
    double *value = ARENA_NEW(with->arena, double, k->model->station_count);
    live_line(k->open_live, &f->deck, value);
    const LiveRange live = live_range(k->open_live, &k->line->live, &f->deck, value);
    const LiveRange truck = live_range(k->open_live, &k->fatigue, &f->deck, value);
    f->live_most_N = k->line->lanes_shear_1 * live.most;
    f->live_least_N = k->line->lanes_shear_1 * live.least;
    f->fatigue_N = k->line->lanes_fatigue_shear_1 * (truck.most - truck.least);
    arena_reset(with->arena, mark);
}

/* The sudden changes at barrier, overlay and wearing surface are loads; all the rest from grouting on is
 * creep and shrinkage. */
static void permanent_forces(const KitLine *k, PocketForce *f)
{
    const StageHistory *h = k->history;
    f->thrust_N = links_N(k, k->bonded, f->deck);
    double before_N = f->thrust_N;
    for (int t = k->bonded + 1; t <= k->end; t++) {
        const double now_N = links_N(k, t, f->deck);
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

/* Between the middles of the first and the last element inside, so that a wheel at either end of the
 * length has its whole effect; the shear flow there stands for that of the length. */
PocketForce pocket_force(const CheckCase *with, const KitLine *k, double from_m, double to_m)
{
    const int last = k->model->station_count - 1;
    const int from = line_station(k, from_m), to = line_station(k, to_m);
    LiveEffect w = {LIVE_DECK, .at = from == 0 ? -1 : from, .to = to == last ? last : to - 1};
    if (w.to <= w.at) { /* one element inside: its neighbours too */
        w.at = w.at > 0 ? w.at - 1 : w.at;
        w.to = w.at + 2 < last ? w.at + 2 : last;
    }
    PocketForce f = {.from_m = from_m,
                     .to_m = to_m,
                     .deck = w,
                     .station = line_station(k, (from_m + to_m) / 2),
                     .over_1 = 1};
    live_forces(with, k, &f);
    permanent_forces(k, &f);
    scale(&f, (to_m - from_m) / (kit_middle_m(k, w.to) - kit_middle_m(k, w.at)));
    return f;
}

/* All connectors of an anchor panel, that at its inner face too. */
PocketForce anchor_force(const CheckCase *with, const KitLine *k, bool right)
{
    const BridgeLine *l = k->line;
    const int last = k->model->station_count - 1;
    const int face = l->joint[right ? l->joint_count - 1 : 0].station;
    PocketForce f = {.from_m = k->model->x_m[right ? face : 0],
                     .to_m = k->model->x_m[right ? last : face],
                     .deck = {LIVE_DECK, .at = right ? face - 1 : -1, .to = right ? last : face},
                     .station = face,
                     .kind = right ? ANCHOR_RIGHT : ANCHOR_LEFT,
                     .over_1 = 1};
    live_forces(with, k, &f);
    face_at_least_full(k, &f);
    permanent_forces(k, &f);
    return f;
}

/* The largest shear flow of a pocket's length inside, as if it went over the whole panel: in fatigue
 * connectors that are stiff do not even out what they carry. Never less than what the whole panel has. */
PocketForce anchor_fatigue(const CheckCase *with, const KitLine *k, const PocketForce *anchor)
{
    const double length_m = anchor->to_m - anchor->from_m;
    const double s_m = fmin(kit_value(with, "connectors.spacing"), length_m);
    const int count = (int)ceil(length_m / s_m - 1e-6);
    PocketForce worst = *anchor;
    for (int i = 0; i < count; i++) { /* the last one ends with the panel */
        const double x_m = fmin(anchor->from_m + i * s_m, anchor->to_m - s_m);
        PocketForce f = pocket_force(with, k, x_m, x_m + s_m);
        pocket_at_least_full(k, &f);
        f.over_1 = length_m / s_m;
        f.fatigue_N *= f.over_1;
        if (f.fatigue_N > worst.fatigue_N) worst = f;
    }
    return worst;
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
