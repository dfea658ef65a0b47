/* The profile: tangents and parabolas, cross slope. */
#include <math.h>

#include "work.h"

/* Grade between point i and the next; beyond the ends that of the ends. */
static double tangent_1(const Grade *g, int i)
{
    const GradePoint *p = &g->point[i];
    return (p[1].elevation_m - p[0].elevation_m) / (p[1].station_m - p[0].station_m);
}

/* The tangent that holds at a station: index of its left point. */
static int tangent_at(const Grade *g, double station_m)
{
    int i = 0;
    while (i + 2 < g->point_count && station_m > g->point[i + 1].station_m) i++;
    return i;
}

/* The point whose curve reaches over the station, -1: a tangent. */
static int curve_at(const Grade *g, double station_m)
{
    for (int i = 1; i + 1 < g->point_count; i++) {
        const GradePoint *p = &g->point[i];
        if (p->curve_m > 0 && fabs(station_m - p->station_m) < p->curve_m / 2) return i;
    }
    return -1;
}

/* Symmetrical parabola, y = y_BVC + g1 x + (g2 - g1) x^2 / (2 L): surveying handbooks, from memory. */
double grade_elevation_m(const Grade *g, double station_m)
{
    const int i = tangent_at(g, station_m), c = curve_at(g, station_m);
    const GradePoint *p = &g->point[c < 0 ? i : c];
    if (c < 0) return p->elevation_m + tangent_1(g, i) * (station_m - p->station_m);
    const double g1 = tangent_1(g, c - 1), g2 = tangent_1(g, c), L = p->curve_m;
    const double x = station_m - (p->station_m - L / 2);
    return p->elevation_m - g1 * L / 2 + g1 * x + (g2 - g1) * x * x / (2 * L);
}

double grade_slope_1(const Grade *g, double station_m)
{
    const int c = curve_at(g, station_m);
    if (c < 0) return tangent_1(g, tangent_at(g, station_m));
    const GradePoint *p = &g->point[c];
    const double x = station_m - (p->station_m - p->curve_m / 2);
    return tangent_1(g, c - 1) + grade_bend_per_m(g, station_m) * x;
}

double grade_bend_per_m(const Grade *g, double station_m)
{
    const int c = curve_at(g, station_m);
    return c < 0 ? 0 : (tangent_1(g, c) - tangent_1(g, c - 1)) / g->point[c].curve_m;
}

static double from_crown_m(const Grade *g, double z_m)
{
    return z_m < g->crown_m ? g->left_slope_1 * (g->crown_m - z_m)
                            : g->right_slope_1 * (z_m - g->crown_m);
}

double grade_across_m(const Grade *g, double z_m)
{
    return from_crown_m(g, z_m) - from_crown_m(g, g->line_m);
}

double grade_top_m(const Grade *g, double x_m, double z_m)
{
    return grade_elevation_m(g, g->left_end_m + x_m) + grade_across_m(g, z_m) + g->above_m +
           g->raise_m + g->tilt_1 * (x_m - g->middle_m);
}

/* ---- from the bridge file ---- */

static GradePoint point_of(const Bridge *b, int number)
{
    static const char *const key[] = {"station", "elevation", "curve"};
    double value[3];
    char path[64];
    for (int k = 0; k < 3; k++) {
        snprintf(path, sizeof path, "profile.points[%d].%s", number, key[k]);
        value[k] = seat_value(b, path);
    }
    return (GradePoint){value[0], value[1], value[2]};
}

static Status grade_covers(const Grade *g, double length_m, const char *unit, Error *err)
{
    const double first_m = g->point[0].station_m, last_m = g->point[g->point_count - 1].station_m;
    if (first_m <= g->left_end_m + 1e-6 && last_m >= g->left_end_m + length_m - 1e-6)
        return STATUS_OK;
    return error_set(
        err, STATUS_BAD_INPUT,
        "profile.points: they go from station %.6g to %.6g %s, the bridge from %.6g to "
        "%.6g %s: the profile must reach over all of it; or profile.left_end is not "
        "the station of its left end",
        quantity_in(first_m, unit), quantity_in(last_m, unit), unit,
        quantity_in(g->left_end_m, unit), quantity_in(g->left_end_m + length_m, unit), unit);
}

Status grade_of(const Bridge *b, Arena *arena, Grade *grade, Error *err)
{
    int count = 0;
    char path[64];
    for (;; count++) {
        snprintf(path, sizeof path, "profile.points[%d].station", count + 1);
        if (!bridge_value_at(b, path)) break;
    }
    if (count < 2)
        return error_set(err, STATUS_BAD_INPUT,
                         "profile.points: the file does not give the road's profile, which the "
                         "deck is to meet: see profile in the reference of the bridge file");
    GradePoint *point = ARENA_NEW(arena, GradePoint, count);
    for (int i = 0; i < count; i++) point[i] = point_of(b, i + 1);
    double length_m = 0;
    for (int i = 1;; i++) {
        snprintf(path, sizeof path, "spans[%d].length", i);
        const BridgeValue *span = bridge_value_at(b, path);
        if (!span) break;
        length_m += span->value;
    }
    *grade = (Grade){.point_count = count,
                     .point = point,
                     .left_end_m = seat_value(b, "profile.left_end"),
                     .line_m = seat_value(b, "profile.line"),
                     .crown_m = seat_value(b, "profile.crown"),
                     .left_slope_1 = seat_value(b, "profile.left_slope"),
                     .right_slope_1 = seat_value(b, "profile.right_slope"),
                     .above_m = seat_value(b, "profile.grind") - seat_value(b, "profile.overlay"),
                     .raise_m = seat_value(b, "profile.raise"),
                     .tilt_1 = seat_value(b, "profile.tilt"),
                     .middle_m = length_m / 2};
    return grade_covers(grade, length_m, quantity_unit(bridge_units(b), DIM_LENGTH), err);
}
