/* Where the axles of an extreme stand: the search tells the lead axle alone, here the variable gaps
 * are found once more with their places kept. */
#include "walk.h"

#include <string.h>

/* Places of the axles on the clipped line, and what they add up to. */
typedef struct Stand {
    double x_m[AXLES_MAX];
    double effect; /* unit: of the effect */
} Stand;

static double behind(const Walk *w, int axle, double x, double *x_m);

/* The best of the axle in [low, high], the rest behind it at its best. */
static double best_between(const Walk *w, int axle, double low, double high, double *x_m)
{
    const Clip *c = w->clip;
    Stand trial;
    double best = behind(w, axle, high, x_m);
    for (int k = -1; k < w->offset_count[axle]; k++)
        for (int j = 0; j < (k < 0 ? 1 : c->vertex_count); j++) {
            const double x = k < 0 ? low : c->vertex_x[j] + w->offset[axle][k];
            if (x < low || x >= high) continue;
            trial.effect = behind(w, axle, x, trial.x_m);
            if (trial.effect <= best) continue;
            best = trial.effect;
            memcpy(x_m + axle, trial.x_m + axle, sizeof *x_m * (size_t)(AXLES_MAX - axle));
        }
    return best;
}

/* Effect of the axles from `axle` on, that one at x. */
static double behind(const Walk *w, int axle, double x, double *x_m)
{
    const Vehicle *v = w->vehicle;
    int hint = 0;
    x_m[axle] = x;
    const double here = v->axle_N[axle] * clip_at(w->clip, x, &hint);
    if (axle + 1 == v->axle_count) return here;
    const double low = x - v->gap_max_m[axle], high = x - v->gap_min_m[axle];
    if (low == high) return here + behind(w, axle + 1, high, x_m);
    return here + best_between(w, axle + 1, low, high, x_m);
}

/* The second vehicle of the train, its lead axle at `free` or farther back. */
static Stand stand_behind(const Walk *w, double free)
{
    Stand best, trial;
    best.effect = behind(w, 0, free, best.x_m);
    for (int k = 0; k < w->offset_count[0]; k++)
        for (int j = 0; j < w->clip->vertex_count; j++) {
            const double x = w->clip->vertex_x[j] + w->offset[0][k];
            if (x >= free) continue;
            trial.effect = behind(w, 0, x, trial.x_m);
            if (trial.effect > best.effect) best = trial;
        }
    return best;
}

/* Axles that do not add to the effect are left out. */
static int places_add(const Walk *w, const Stand *stand, bool forward, AxlePlace *place, int count)
{
    for (int i = 0; i < w->vehicle->axle_count; i++) {
        int hint = 0;
        if (!(clip_at(w->clip, stand->x_m[i], &hint) > 0)) continue;
        const double x_m = stand->x_m[i];
        place[count++] = (AxlePlace){forward ? x_m : -x_m, w->vehicle->axle_N[i]};
    }
    return count;
}

int traffic_places(const LiveLoad *live, const InfluenceLine *line, int sign, const LiveExtreme *at,
                   AxlePlace place[2 * AXLES_MAX], double *work)
{
    if (at->vehicle_index < 0) return 0;
    const Vehicle vehicle =
        at->train ? traffic_train_vehicle(live) : live->vehicle[at->vehicle_index];
    const Clip clip = clip_make(line, sign, !at->forward, work);
    Walk walk;
    Stand lead;
    walk_start(&walk, &clip, &vehicle);
    lead.effect = behind(&walk, 0, at->forward ? at->lead_x_m : -at->lead_x_m, lead.x_m);
    int count = places_add(&walk, &lead, at->forward, place, 0);
    if (!at->train) return count;
    const double free = lead.x_m[vehicle.axle_count - 1] - live->train_gap_m;
    const Stand second = stand_behind(&walk, free);
    return places_add(&walk, &second, at->forward, place, count);
}

double traffic_at(const InfluenceLine *line, double x_m)
{
    static const double slack_m = 1e-9; /* as the search: an axle set on an end stands on it */
    int i = 0;
    if (x_m < line->x_m[0] - slack_m || x_m > line->x_m[line->count - 1] + slack_m) return 0;
    while (i + 2 < line->count && x_m > line->x_m[i + 1]) i++;
    const double share = (x_m - line->x_m[i]) / (line->x_m[i + 1] - line->x_m[i]);
    return line->value[i] + share * (line->value[i + 1] - line->value[i]);
}

/* Of a piece from a to b, the part where u, straight between ua and ub, is above zero. */
static bool piece_above(double ua, double ub, double *from_1, double *to_1)
{
    *from_1 = 0;
    *to_1 = 1;
    if (ua <= 0 && ub <= 0) return false;
    if (ua < 0) *from_1 = ua / (ua - ub);
    if (ub < 0) *to_1 = ua / (ua - ub);
    return true;
}

double traffic_loaded_area(const InfluenceLine *line, int sign, const double *other,
                           double *length_m)
{
    double area = 0;
    *length_m = 0;
    for (int i = 0; i + 1 < line->count; i++) {
        double from_1, to_1;
        if (!piece_above(sign * line->value[i], sign * line->value[i + 1], &from_1, &to_1))
            continue;
        const double h_m = (to_1 - from_1) * (line->x_m[i + 1] - line->x_m[i]);
        const double middle_1 = 0.5 * (from_1 + to_1);
        area += h_m * (other[i] + middle_1 * (other[i + 1] - other[i]));
        *length_m += h_m;
    }
    return area;
}
