/* Largest effect of a live load on an influence line, and zones of negative moment. */
#include "walk.h"

#include <assert.h>
#include <math.h>

/* Reads the same in both directions: one is enough. */
static bool is_symmetric(const Vehicle *v)
{
    const int n = v->axle_count;
    for (int i = 0; i < n; i++)
        if (v->axle_N[i] != v->axle_N[n - 1 - i]) return false;
    for (int i = 0; i + 1 < n; i++)
        if (v->gap_min_m[i] != v->gap_min_m[n - 2 - i] ||
            v->gap_max_m[i] != v->gap_max_m[n - 2 - i])
            return false;
    return true;
}

Vehicle traffic_train_vehicle(const LiveLoad *live)
{
    Vehicle v = live->vehicle[live->train_vehicle];
    for (int i = 0; i + 1 < v.axle_count; i++)
        if (v.gap_min_m[i] != v.gap_max_m[i])
            v.gap_min_m[i] = v.gap_max_m[i] = live->train_axle_gap_m;
    return v;
}

/* Keeps `best` where it is more than the floor it was searched above. */
static void keep(LiveExtreme *most, Best best, double floor, LiveExtreme parts)
{
    if (best.effect <= floor) return;
    *most = parts; /* lane, vehicle_index, train, forward */
    most->vehicle *= best.effect;
    most->value = most->vehicle + most->lane;
    most->lead_x_m = most->forward ? best.lead_x : -best.lead_x;
}

static void try_vehicles(const LiveLoad *live, const Clip *clip, bool forward, double lane,
                         LiveExtreme *most)
{
    const double impact = 1 + live->impact_ratio;
    Walk walk;
    for (int i = 0; i < live->vehicle_count; i++) {
        if (!forward && is_symmetric(&live->vehicle[i])) continue;
        const double floor = (most->value - lane) / impact;
        walk_start(&walk, clip, &live->vehicle[i]);
        keep(
            most, walk_best(&walk, floor), floor,
            (LiveExtreme){.vehicle = impact, .lane = lane, .vehicle_index = i, .forward = forward});
    }
}

static void try_train(const LiveLoad *live, const Clip *clip, bool forward, double lane,
                      LiveExtreme *most)
{
    const Vehicle vehicle = traffic_train_vehicle(live);
    const double factor = live->train_factor_1 * (1 + live->impact_ratio);
    if (factor == 0 || (!forward && is_symmetric(&vehicle))) return;
    const double lane_part = live->train_factor_1 * lane;
    const double floor = (most->value - lane_part) / factor;
    Walk walk;
    walk_start(&walk, clip, &vehicle);
    keep(most, walk_train(&walk, live->train_gap_m, floor), floor,
         (LiveExtreme){.vehicle = factor,
                       .lane = lane_part,
                       .vehicle_index = live->train_vehicle,
                       .train = true,
                       .forward = forward});
}

LiveExtreme traffic_extreme(const LiveLoad *live, const InfluenceLine *line, int sign, bool train,
                            double *work)
{
    assert(sign == 1 || sign == -1);
    const Clip forward = clip_make(line, sign, false, work);
    const double lane = live->lane_N_per_m * clip_area(&forward);
    LiveExtreme most = {.value = lane, .lane = lane, .vehicle_index = -1, .forward = true};
    most.lead_x_m = line->x_m[0];
    train = train && live->train_vehicle >= 0;
    if (forward.vertex_count > 0) {
        try_vehicles(live, &forward, true, lane, &most);
        if (train) try_train(live, &forward, true, lane, &most);
        const Clip backward = clip_make(line, sign, true, work);
        try_vehicles(live, &backward, false, lane, &most);
        if (train) try_train(live, &backward, false, lane, &most);
    }
    most.value = sign * most.value + 0.0; /* + 0.0: no negative zero */
    most.vehicle = sign * most.vehicle + 0.0;
    most.lane = sign * most.lane + 0.0;
    return most;
}

/* ---- zones ---- */

static double crossing(const double *x, const double *m, int i)
{
    return x[i] + (x[i + 1] - x[i]) * m[i] / (m[i] - m[i + 1]);
}

int traffic_negative_zones(const double *x_m, const double *moment_Nm, int count,
                           double (*zone_m)[2], int room)
{
    double largest = 0;
    for (int i = 0; i < count; i++) largest = fmax(largest, fabs(moment_Nm[i]));
    const double zero = -1e-9 * largest; /* rounding of a solved structure */
    int zones = 0;
    bool inside = false;
    for (int i = 0; i < count && (zones < room || inside); i++) {
        const bool negative = moment_Nm[i] < zero;
        if (negative == inside) continue;
        inside = negative;
        const bool cut = i > 0 && (moment_Nm[i - 1] < 0) != (moment_Nm[i] < 0);
        const double x = cut ? crossing(x_m, moment_Nm, i - 1) : x_m[i > 0 && negative ? i - 1 : i];
        if (negative)
            zone_m[zones++][0] = x;
        else
            zone_m[zones - 1][1] = x;
    }
    if (inside) zone_m[zones - 1][1] = x_m[count - 1];
    return zones;
}
