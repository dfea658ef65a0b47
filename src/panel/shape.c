/* The shape of a panel, its weight and centre of gravity: docs/theory/panels.md. */
#include "clench/panel.h"

#include <math.h>

static double left_at(const PanelShape *s, double z_m) { return s->left_m + z_m * s->left_slope_1; }
static double right_at(const PanelShape *s, double z_m)
{
    return s->right_m + z_m * s->right_slope_1;
}
static double thickness_at(const PanelShape *s, double z_m)
{
    return s->edge_m + s->rise_1 * (s->half_m - fabs(z_m));
}

typedef struct Moments {
    double area_m2, volume_m3, x_m4, z_m4; /* first moments of the volume */
} Moments;

/* Width times thickness times place is a cubic of z: two Gauss points are exact. */
static void add_strip(const PanelShape *s, double from_m, double to_m, Moments *sum)
{
    if (!(to_m > from_m)) return;
    const double half_m = (to_m - from_m) / 2, middle_m = (from_m + to_m) / 2;
    for (int k = -1; k <= 1; k += 2) {
        const double z_m = middle_m + k * half_m / sqrt(3);
        const double width_m = right_at(s, z_m) - left_at(s, z_m);
        const double slice_m3 = half_m * width_m * thickness_at(s, z_m);
        sum->area_m2 += half_m * width_m;
        sum->volume_m3 += slice_m3;
        sum->x_m4 += slice_m3 * (right_at(s, z_m) + left_at(s, z_m)) / 2;
        sum->z_m4 += slice_m3 * z_m;
    }
}

/* Holes are small: the thickness at their middle goes for all of them. */
static void take_hole(const PanelShape *s, const PanelHole *hole, Moments *sum)
{
    const double depth_m = fmin(hole->depth_m, thickness_at(s, hole->z_m));
    const double volume_m3 = hole->along_m * hole->across_m * depth_m;
    sum->volume_m3 -= volume_m3;
    sum->x_m4 -= volume_m3 * hole->x_m;
    sum->z_m4 -= volume_m3 * hole->z_m;
}

/* ---- the outline ---- */

typedef struct Corner {
    double x_m, z_m;
} Corner;

/* Left joint from the first to the last z, then the right one back. */
static void corners(const PanelShape *s, Corner corner[4])
{
    corner[0] = (Corner){left_at(s, s->from_z_m), s->from_z_m};
    corner[1] = (Corner){left_at(s, s->to_z_m), s->to_z_m};
    corner[2] = (Corner){right_at(s, s->to_z_m), s->to_z_m};
    corner[3] = (Corner){right_at(s, s->from_z_m), s->from_z_m};
}

static double apart(Corner a, Corner b) { return hypot(a.x_m - b.x_m, a.z_m - b.z_m); }

/* The least width of a convex shape lies flat on one of its sides. */
static double least_width_m(const Corner corner[4])
{
    double least = INFINITY;
    for (int i = 0; i < 4; i++) {
        const Corner a = corner[i], b = corner[(i + 1) % 4];
        double far = 0;
        for (int k = 0; k < 4; k++) {
            const Corner c = corner[k];
            const double cross =
                (b.x_m - a.x_m) * (c.z_m - a.z_m) - (b.z_m - a.z_m) * (c.x_m - a.x_m);
            far = fmax(far, fabs(cross) / apart(a, b));
        }
        least = fmin(least, far);
    }
    return least;
}

bool panel_pinched(const PanelShape *s, double least_m)
{
    return right_at(s, s->from_z_m) - left_at(s, s->from_z_m) <= least_m ||
           right_at(s, s->to_z_m) - left_at(s, s->to_z_m) <= least_m;
}

PanelBody panel_body(const PanelShape *s, const PanelHole *hole, int hole_count)
{
    Moments m = {0};
    Corner corner[4];
    /* the thickness has its kink at z = 0 */
    add_strip(s, s->from_z_m, fmin(s->to_z_m, 0), &m);
    add_strip(s, fmax(s->from_z_m, 0), s->to_z_m, &m);
    corners(s, corner);
    const double side_1_m = corner[3].x_m - corner[0].x_m, side_2_m = corner[2].x_m - corner[1].x_m;
    PanelBody body = {.area_m2 = m.area_m2,
                      .gross_m3 = m.volume_m3,
                      .gross_x_m = m.x_m4 / m.volume_m3,
                      .gross_z_m = m.z_m4 / m.volume_m3,
                      .shortest_m = fmin(side_1_m, side_2_m),
                      .longest_m = fmax(side_1_m, side_2_m),
                      .left_edge_m = apart(corner[0], corner[1]),
                      .right_edge_m = apart(corner[2], corner[3]),
                      .diagonal_1_m = apart(corner[0], corner[2]),
                      .diagonal_2_m = apart(corner[1], corner[3]),
                      .haul_m = least_width_m(corner)};
    for (int i = 0; i < hole_count; i++) take_hole(s, &hole[i], &m);
    body.net_m3 = m.volume_m3;
    body.net_x_m = m.x_m4 / m.volume_m3;
    body.net_z_m = m.z_m4 / m.volume_m3;
    return body;
}

bool panel_holds(const PanelShape *s, const PanelHole *hole, double clear_m)
{
    for (int k = -1; k <= 1; k += 2) {
        const double z_m = hole->z_m + k * hole->across_m / 2;
        if (hole->x_m - hole->along_m / 2 < left_at(s, z_m) + clear_m) return false;
        if (hole->x_m + hole->along_m / 2 > right_at(s, z_m) - clear_m) return false;
    }
    return hole->z_m - hole->across_m / 2 >= s->from_z_m &&
           hole->z_m + hole->across_m / 2 <= s->to_z_m;
}

int panel_pocket_rows(double length_m, double spacing_m)
{
    const double rows = ceil(length_m / spacing_m - 1e-9);
    return rows < 1 ? 1 : (int)rows;
}

void panel_lift_points(const PanelShape *s, int across, double along_1, double across_1,
                       PanelPoint *point)
{
    const double wide_m = s->to_z_m - s->from_z_m;
    for (int i = 0; i < across; i++) {
        const double part_1 = across > 2 ? (i + 0.5) / across : i == 0 ? across_1 : 1 - across_1;
        const double z_m = s->from_z_m + part_1 * wide_m;
        const double left_m = left_at(s, z_m), right_m = right_at(s, z_m);
        point[i] = (PanelPoint){left_m + along_1 * (right_m - left_m), z_m};
        point[across + i] = (PanelPoint){right_m - along_1 * (right_m - left_m), z_m};
    }
}
