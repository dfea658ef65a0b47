/* Width profiles: properties of a section and integrals of a field over it. */
#include "clench/section.h"

#include <assert.h>
#include <math.h>

static Status check_profile(const WidthProfile *p, Error *err)
{
    if (p->count < 2 || p->count > WIDTH_POINTS)
        return error_set(err, STATUS_BAD_INPUT,
                         "a width profile has 2 to %d points, this one has %d", WIDTH_POINTS,
                         p->count);
    if (p->depth_m[0] != 0)
        return error_set(err, STATUS_BAD_INPUT, "a width profile starts at depth 0");
    for (int i = 0; i < p->count; i++) {
        if (!isfinite(p->depth_m[i]) || !isfinite(p->width_m[i]) || p->width_m[i] < 0)
            return error_set(err, STATUS_BAD_INPUT,
                             "point %d of the width profile is not a depth and a width", i + 1);
        if (i > 0 && p->depth_m[i] < p->depth_m[i - 1])
            return error_set(err, STATUS_BAD_INPUT,
                             "point %d of the width profile lies above the point before it", i + 1);
    }
    return STATUS_OK;
}

/* Area, its first moment and its second moment about the top fibre. Closed form: trapezium of
 * widths a (above), b (below) and height h from depth z; integrals of w, w*y, w*y^2. */
typedef struct Moments {
    double area, first, second;
} Moments;

static Moments trapezium(double z, double h, double a, double b)
{
    const double area = h * (a + b) / 2;
    const double first = h * h * (a + 2 * b) / 6;       /* about its own top */
    const double second = h * h * h * (a + 3 * b) / 12; /* about its own top */
    return (Moments){area, z * area + first, z * z * area + 2 * z * first + second};
}

/* Outline length of one straight piece, both sides: slopes, steps and flat parts alike. */
static double outline(double height, double width_change)
{
    return 2 * hypot(height, width_change / 2);
}

Status section_from_profile(const WidthProfile *profile, BeamSection *section, Error *err)
{
    TRY(check_profile(profile, err));
    const double *y = profile->depth_m, *w = profile->width_m;
    const int last = profile->count - 1;
    Moments sum = {0};
    double perimeter = w[0] + w[last];
    for (int i = 0; i < last; i++) {
        const Moments m = trapezium(y[i], y[i + 1] - y[i], w[i], w[i + 1]);
        sum.area += m.area, sum.first += m.first, sum.second += m.second;
        perimeter += outline(y[i + 1] - y[i], w[i + 1] - w[i]);
    }
    if (!(sum.area > 0)) return error_set(err, STATUS_BAD_INPUT, "the width profile has no area");
    const double below_top = sum.first / sum.area;
    *section = (BeamSection){
        .area_m2 = sum.area,
        .inertia_m4 = sum.second - sum.area * below_top * below_top,
        .centroid_m = y[last] - below_top,
        .depth_m = y[last],
        .perimeter_m = perimeter,
        .top_width_m = w[0],
        .profile = *profile,
    };
    return STATUS_OK;
}

static double between(double x, double x0, double x1, double y0, double y1)
{
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
}

/* Simpson's rule on [from, to], where width and field are both straight: exact, since the product
 * with the lever is a cubic. */
static void add_piece(const WidthProfile *p, int i, const double *depth, const double *field, int j,
                      double lever_from, double *integral, double *moment)
{
    const double from = fmax(p->depth_m[i], depth[j]);
    const double to = fmin(p->depth_m[i + 1], depth[j + 1]);
    if (to <= from) return;
    static const double weight[3] = {1.0 / 6, 4.0 / 6, 1.0 / 6}; /* closed form: Simpson */
    for (int k = 0; k < 3; k++) {
        const double y = from + (to - from) * k / 2;
        const double w =
            between(y, p->depth_m[i], p->depth_m[i + 1], p->width_m[i], p->width_m[i + 1]);
        const double f = between(y, depth[j], depth[j + 1], field[j], field[j + 1]);
        *integral += weight[k] * (to - from) * w * f;
        *moment += weight[k] * (to - from) * w * f * (lever_from - y);
    }
}

void section_integrate(const WidthProfile *profile, double centroid_depth_m, const double *depth_m,
                       const double *field, int count, double *integral, double *moment)
{
    assert(profile->count >= 2 && count >= 0);
    double sum = 0, sum_moment = 0;
    for (int i = 0; i + 1 < profile->count; i++)
        for (int j = 0; j + 1 < count; j++)
            add_piece(profile, i, depth_m, field, j, centroid_depth_m, &sum, &sum_moment);
    *integral = sum;
    *moment = sum_moment;
}
