/* Live loads as data. Loads and lengths of AASHTO are in kip and ft; converted at this edge. */
#include "clench/traffic.h"

#include <math.h>

LiveLoad traffic_hl93(void)
{
    const double kip = 1 / quantity_in(1, "kip"), ft = 1 / quantity_in(1, "ft");
    return (LiveLoad){
        .name = "HL-93",
        .source = "AASHTO LRFD 3.6.1.2, 3.6.1.3.1, 3.6.2.1",
        .vehicle_count = 2,
        .vehicle = {{.name = "truck", /* 3.6.1.2.2 */
                     .axle_count = 3,
                     .axle_N = {8 * kip, 32 * kip, 32 * kip},
                     .gap_min_m = {14 * ft, 14 * ft},
                     .gap_max_m = {14 * ft, 30 * ft}},
                    {.name = "tandem", /* 3.6.1.2.3 */
                     .axle_count = 2,
                     .axle_N = {25 * kip, 25 * kip},
                     .gap_min_m = {4 * ft},
                     .gap_max_m = {4 * ft}}},
        .lane_N_per_m = 0.64 * kip / ft, /* 3.6.1.2.4 */
        .impact_ratio = 0.33,            /* table 3.6.2.1-1; not on the lane */
        .train_vehicle = 0,              /* 3.6.1.3.1, third bullet */
        .train_gap_m = 50 * ft,
        .train_axle_gap_m = 14 * ft,
        .train_factor_1 = 0.9,
    };
}

LiveLoad traffic_hl93_fatigue(void)
{
    const double ft = 1 / quantity_in(1, "ft");
    LiveLoad live = traffic_hl93();
    live.name = "HL-93 fatigue";
    live.source = "AASHTO LRFD 3.6.1.4.1, 3.6.2.1";
    live.vehicle_count = 1;
    live.vehicle[0].gap_min_m[1] = live.vehicle[0].gap_max_m[1] = 30 * ft;
    live.lane_N_per_m = 0;
    live.impact_ratio = 0.15;
    live.train_vehicle = -1;
    return live;
}

static bool at_least_zero(double value) { return isfinite(value) && value >= 0; }

static Status check_vehicle(const Vehicle *v, int number, Error *err)
{
    if (v->axle_count < 1 || v->axle_count > AXLES_MAX)
        return error_set(err, STATUS_BAD_INPUT, "vehicle %d has %d axles: write 1 to %d", number,
                         v->axle_count, AXLES_MAX);
    int variable = 0;
    for (int i = 0; i < v->axle_count; i++) {
        if (!at_least_zero(v->axle_N[i]))
            return error_set(err, STATUS_BAD_INPUT, "axle %d of vehicle %d has no load", i + 1,
                             number);
        if (i + 1 == v->axle_count) break;
        if (!at_least_zero(v->gap_min_m[i]) || !isfinite(v->gap_max_m[i]) ||
            v->gap_max_m[i] < v->gap_min_m[i])
            return error_set(err, STATUS_BAD_INPUT,
                             "the gap behind axle %d of vehicle %d needs 0 <= least <= most", i + 1,
                             number);
        variable += v->gap_max_m[i] > v->gap_min_m[i];
    }
    if (variable > VARIABLE_GAPS_MAX)
        return error_set(err, STATUS_TOO_LARGE, "vehicle %d has %d variable gaps, at most %d go",
                         number, variable, VARIABLE_GAPS_MAX);
    return STATUS_OK;
}

static Status check_train(const LiveLoad *live, Error *err)
{
    if (live->train_vehicle >= live->vehicle_count)
        return error_set(err, STATUS_BAD_INPUT, "the train's vehicle is not in the list");
    const int axles = live->vehicle[live->train_vehicle].axle_count;
    if (axles > TRAIN_AXLES_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a vehicle of a train has at most %d axles, not %d",
                         TRAIN_AXLES_MAX, axles);
    if (!at_least_zero(live->train_gap_m) || !at_least_zero(live->train_axle_gap_m) ||
        !at_least_zero(live->train_factor_1))
        return error_set(err, STATUS_BAD_INPUT,
                         "gaps and factor of the train must not be negative");
    return STATUS_OK;
}

Status traffic_check(const LiveLoad *live, Error *err)
{
    if (live->vehicle_count < 0 || live->vehicle_count > VEHICLES_MAX)
        return error_set(err, STATUS_BAD_INPUT, "a live load has 0 to %d vehicles, not %d",
                         VEHICLES_MAX, live->vehicle_count);
    for (int i = 0; i < live->vehicle_count; i++) TRY(check_vehicle(&live->vehicle[i], i + 1, err));
    if (!at_least_zero(live->lane_N_per_m) || !at_least_zero(live->impact_ratio))
        return error_set(err, STATUS_BAD_INPUT, "lane load and impact must not be negative");
    return live->train_vehicle < 0 ? STATUS_OK : check_train(live, err);
}
