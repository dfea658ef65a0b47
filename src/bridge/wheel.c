/* Local bending of the deck across a joint under a wheel: an estimate, and marked as one. */
#include <math.h>

#include "model.h"

/* The deck between two girders (or webs) as an infinite plate strip, simply supported, under the wheels
 * of one truck, 6 ft apart across. Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd
 * edition, articles 35 and 36 (from memory):
 *   under a circle of radius c at mid-span:  My = P/(4 pi) ((1 + nu) ln(2 a/(pi c)) + nu)
 *   two wheels d apart instead, a > 2 d:      (1 + nu) ln cot(pi d/(2 a)) more
 * My bends across the joint. Small circles act as if wider: Westergaard 1926 (from memory),
 * sqrt(1.6 c^2 + h^2) - 0.675 h for c < 1.724 h. That slabs go on over girders takes off 3 to 10 %
 * (solids in ccx, tests/data/wheel_oracle.h); it is not counted. A wheel on the overhang bends it like one on
 * a strip that is three times as wide as the wheel stands beyond the girder (found with the same solids).
 * The top opens beside and over a girder: the slab stays straight along it, so My = nu Mx there. Mx of
 * slabs between girders P (S + 2 ft)/(32 ft): AASHTO Standard Specifications 3.24.3.1 (from memory); of
 * the overhang a wheel 1 ft from the barrier on 45 in + 10 X: AASHTO LRFD 4.6.2.1.3 (from memory).
 * Wheel 16 kip on 20 by 10 in, one lane 1.2, impact 1.33: AASHTO LRFD 3.6.1.2.5, 3.6.1.1.2, 3.6.2 (from
 * memory). */
static const double pi = 3.14159265358979323846, nu = 0.2, presence_1 = 1.2;

static double webs_m(const Bridge *b)
{
    const PlateData *plate = b->girders.plates.item;
    if (b->girders.kind != GIRDER_TUB) return 0;
    return plate->bottom_width_m + 2 * b->girders.web_slope_1 * plate->web_depth_m;
}

static double strip_span_m(const Bridge *b)
{
    return fmax(webs_m(b), b->girders.spacing_m - webs_m(b));
}

/* Moment along the bridge under a wheel, over the wheel. */
static double under_1(double span_m, double h_m)
{
    const double patch_m2 = 200 / quantity_in(1, "in^2"), apart_m = 6 / quantity_in(1, "ft");
    double c_m = sqrt(patch_m2 / pi);
    if (c_m < 1.724 * h_m) c_m = sqrt(1.6 * c_m * c_m + h_m * h_m) - 0.675 * h_m;
    double log_1 = log(2 * span_m / (pi * c_m));
    if (span_m > 2 * apart_m) log_1 -= log(tan(pi * apart_m / (2 * span_m)));
    return fmax((1 + nu) * log_1 + nu, 0) / (4 * pi);
}

/* Of a wheel 1 ft from the barrier, beyond the exterior girder or web. */
static double lever_m(const Bridge *b)
{
    const double foot_m = 1 / quantity_in(1, "ft");
    return fmax(b->girders.overhang_m - webs_m(b) / 2 - b->loads.barrier_width_m - foot_m, 0);
}

/* Opposite moment over a girder or web, over the wheel. */
static double over_1(double span_m, double beyond_m)
{
    const double foot_m = 1 / quantity_in(1, "ft");
    const double between_1 = (span_m + 2 * foot_m) / (32 * foot_m);
    const double beyond_1 = presence_1 * beyond_m / (45.0 / 12 * foot_m + 10.0 / 12 * beyond_m);
    return nu * fmax(between_1, beyond_1);
}

WheelStress model_wheel(const Bridge *b)
{
    const double wheel_N = 16 / quantity_in(1, "kip") * 1.33, span_m = strip_span_m(b);
    const double h_m = b->deck.thickness_m - b->deck.wearing_m, modulus_m2 = h_m * h_m / 6;
    const double under = under_1(fmax(span_m, 3 * lever_m(b)), h_m);
    return (WheelStress){.top_Pa = wheel_N / modulus_m2 * over_1(span_m, lever_m(b)),
                         .bottom_Pa = wheel_N / modulus_m2 * presence_1 * under};
}
