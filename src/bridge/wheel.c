/* Local bending of the deck across a joint under a wheel: an estimate, and marked as one. */
#include <math.h>

#include "model.h"

/* The deck between two girders (or webs) as an infinite plate strip, simply supported, under a wheel
 * at mid-span. Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition, articles
 * 35 and 36 (from memory; the sum of both moments is the strip's potential, checked by it):
 *   under a circle of radius c:    My = P/(4 pi) ((1 + nu) ln(2 a/(pi c)) + nu)
 *   at y beside it, b = pi y/a:    My = P/(4 pi) ((1 + nu) ln coth(b/2) - (1 - nu) b/sinh(b))
 * My bends across the joint. Small circles act as if wider: Westergaard 1926 (from memory),
 * sqrt(1.6 c^2 + h^2) - 0.675 h for c < 1.724 h. Slabs over several girders have 0.8 of it: AASHTO
 * Standard Specifications 3.24.3.1 (from memory). Wheel 16 kip on 20 by 10 in, one lane 1.2, impact
 * 1.33: AASHTO LRFD 3.6.1.2.5, 3.6.1.1.2, 3.6.2 (from memory). The other wheels are left out. */
static const double nu = 0.2, continuity_1 = 0.8;

static double beside_1(double b)
{
    return (1 + nu) * log(1 / tanh(b / 2)) - (1 - nu) * b / sinh(b);
}

/* The largest opposite moment ahead of the wheel: a minimum in b, found by trisection. */
static double opposite_1(void)
{
    double low = 1.5, high = 4.5;
    for (int i = 0; i < 60; i++) {
        const double a = low + (high - low) / 3, b = high - (high - low) / 3;
        if (beside_1(a) < beside_1(b))
            high = b;
        else
            low = a;
    }
    return -beside_1((low + high) / 2);
}

static double strip_span_m(const Bridge *b)
{
    const PlateData *plate = b->girders.plates.item;
    if (b->girders.kind != GIRDER_TUB) return b->girders.spacing_m;
    const double webs_m = plate->bottom_width_m + 2 * b->girders.web_slope_1 * plate->web_depth_m;
    return fmax(webs_m, b->girders.spacing_m - webs_m);
}

WheelStress model_wheel(const Bridge *b)
{
    const double pi = 3.14159265358979323846;
    const double wheel_N = 16 / quantity_in(1, "kip") * 1.2 * 1.33;
    const double patch_m2 = 200 / quantity_in(1, "in^2");
    const double span_m = strip_span_m(b), h_m = b->deck.thickness_m - b->deck.wearing_m;
    double c_m = sqrt(patch_m2 / pi);
    if (c_m < 1.724 * h_m) c_m = sqrt(1.6 * c_m * c_m + h_m * h_m) - 0.675 * h_m;
    const double under_1 = (1 + nu) * log(2 * span_m / (pi * c_m)) + nu;
    const double stress_Pa = continuity_1 * wheel_N / (4 * pi) / (h_m * h_m / 6);
    return (WheelStress){.top_Pa = stress_Pa * opposite_1(),
                         .bottom_Pa = stress_Pa * fmax(under_1, 0)};
}
