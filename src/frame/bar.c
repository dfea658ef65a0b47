/* One bar of a chain: strains from displacements, nodal forces from stresses, stiffness. */
#include <string.h>

#include "frame_bar.h"

/* Rows of B in the six unknowns of the bar (u v theta from, u v theta to).
 * Axis: a straight line between points rigidly fixed to the nodes at both heights,
 *   axial = [(u2 - y2 t2) - (u1 - y1 t1)]/L + s (v2 - v1)/L,  s = (y2 - y1)/L.
 * Curvature of the cubic: v''(0) = 6 (v2 - v1)/L^2 - (4 t1 + 2 t2)/L, v''(L) mirrored. */
void bar_rows(const BarPlace *place, double B[3][6])
{
    const double L = place->length_m, y1 = place->from_height_m, y2 = place->to_height_m;
    const double s = (y2 - y1) / L;
    const double rows[3][6] = {
        {-1 / L, -s / L, y1 / L, 1 / L, s / L, -y2 / L},
        {0, -6 / (L * L), -4 / L, 0, 6 / (L * L), -2 / L},
        {0, 6 / (L * L), 2 / L, 0, -6 / (L * L), 4 / L},
    };
    memcpy(B, rows, sizeof rows);
}

int bar_unknown(const BarPlace *place, int k)
{
    return frame_unknown(place->station + k / 3, place->chain, k % 3);
}

BarStrain frame_bar_strain(const BarPlace *place, const double *x)
{
    const double *a = x + frame_unknown(place->station, place->chain, 0);
    const double *b = a + FRAME_UNKNOWNS;
    const double L = place->length_m, y1 = place->from_height_m, y2 = place->to_height_m;
    const double chord = (b[1] - a[1]) / L;
    return (BarStrain){
        .axial_1 = ((b[0] - y2 * b[2]) - (a[0] - y1 * a[2]) + (y2 - y1) * chord) / L,
        .from_per_m = (6 * chord - 4 * a[2] - 2 * b[2]) / L,
        .to_per_m = (-6 * chord + 2 * a[2] + 4 * b[2]) / L,
    };
}

/* p = B' [N L, L (2 M1 + M2)/6, L (M1 + 2 M2)/6]: work of N and of straight moments on straight
 * curvatures; multiplied out. */
void frame_bar_force(const BarPlace *place, double N, double M1, double M2, double *nodal)
{
    double *a = nodal + frame_unknown(place->station, place->chain, 0);
    double *b = a + FRAME_UNKNOWNS;
    const double y1 = place->from_height_m, y2 = place->to_height_m;
    const double shear = ((M2 - M1) - N * (y2 - y1)) / place->length_m;
    a[0] -= N;
    a[1] += shear;
    a[2] += N * y1 - M1;
    b[0] += N;
    b[1] -= shear;
    b[2] += M2 - N * y2;
}
