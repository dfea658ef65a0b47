/* Temperature through the depth. */
#include "clench/traffic.h"

#include <assert.h>

/* AASHTO LRFD 3.12.3, table 3.12.3-1 and figure 3.12.3-2 (from memory): T1 at the top, T2 4 in
 * below, zero A below that; T3 at the bottom is zero unless a site study says otherwise. */
static const double T1_degF[4] = {54, 46, 41, 38}, T2_degF[4] = {14, 12, 11, 9};

Gradient traffic_gradient(int zone, bool negative, bool asphalt, double depth_m)
{
    assert(zone >= 1 && zone <= 4 && depth_m > 0);
    const double inch = 1 / quantity_in(1, "in"), degF = 1 / quantity_in(1, "delta_degF");
    const double depth = depth_m / inch;
    const double A = depth >= 16 ? 12 : depth > 4 ? depth - 4 : 0;
    const double factor = !negative ? 1 : asphalt ? -0.20 : -0.30; /* 3.12.3 */
    const double unit = factor * degF;
    return (Gradient){
        .count = 3,
        .depth_m = {0, 4 * inch, (4 + A) * inch},
        .rise_K = {T1_degF[zone - 1] * unit, T2_degF[zone - 1] * unit, 0},
        .source = "AASHTO LRFD 3.12.3, table 3.12.3-1",
    };
}
