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

/* Q^2/b at a depth `y` into the piece under point i; Q of all that is above, about the centroid. */
static double shear_density(const WidthProfile *p, int i, double y, double centroid, double Q_above)
{
    const double height = p->depth_m[i + 1] - p->depth_m[i], a = p->width_m[i];
    const double b = a + (p->width_m[i + 1] - a) * y / height;
    const Moments above = trapezium(p->depth_m[i], y, a, b);
    const double Q = Q_above + centroid * above.area - above.first;
    return b > 0 ? Q * Q / b : 0; /* at a tip Q is zero too */
}

double section_shear_area_m2(const WidthProfile *profile)
{
    static const double at[3] = {0.1127016653792583, 0.5, 0.8872983346207417};
    static const double weight[3] = {5.0 / 18, 8.0 / 18, 5.0 / 18}; /* closed form: Gauss */
    BeamSection whole = {0};
    if (section_from_profile(profile, &whole, NULL) != STATUS_OK) return 0;
    const double centroid = whole.depth_m - whole.centroid_m;
    double Q = 0, sum = 0;
    for (int i = 0; i + 1 < profile->count; i++) {
        const double height = profile->depth_m[i + 1] - profile->depth_m[i];
        if (!(height > 0)) continue;
        for (int k = 0; k < 3; k++)
            sum += weight[k] * height * shear_density(profile, i, at[k] * height, centroid, Q);
        const Moments piece =
            trapezium(profile->depth_m[i], height, profile->width_m[i], profile->width_m[i + 1]);
        Q += centroid * piece.area - piece.first;
    }
    return whole.inertia_m4 * whole.inertia_m4 / sum;
}

/* A straight piece of a function of the depth. */
typedef struct Line {
    double from, to, at_from, at_to;
} Line;

static double line_at(Line line, double y)
{
    return line.at_from + (line.at_to - line.at_from) * (y - line.from) / (line.to - line.from);
}

/* Simpson's rule where width and field are both straight: exact, since the product with the lever
 * is a cubic. Adds the integral to sum[0], its first moment about `centroid` to sum[1]. */
static void add_piece(Line width, Line field, double centroid, double sum[2])
{
    const double from = fmax(width.from, field.from), to = fmin(width.to, field.to);
    if (to <= from) return;
    static const double weight[3] = {1.0 / 6, 4.0 / 6, 1.0 / 6}; /* closed form: Simpson */
    for (int k = 0; k < 3; k++) {
        const double y = from + (to - from) * k / 2;
        const double part = weight[k] * (to - from) * line_at(width, y) * line_at(field, y);
        sum[0] += part;
        sum[1] += part * (centroid - y);
    }
}

void section_integrate(const WidthProfile *profile, double centroid_depth_m, const double *depth_m,
                       const double *field, int count, double *integral, double *moment)
{
    assert(profile->count >= 2 && count >= 0);
    const double *y = profile->depth_m, *w = profile->width_m;
    double sum[2] = {0};
    for (int i = 0; i + 1 < profile->count; i++)
        for (int j = 0; j + 1 < count; j++)
            add_piece((Line){y[i], y[i + 1], w[i], w[i + 1]},
                      (Line){depth_m[j], depth_m[j + 1], field[j], field[j + 1]}, centroid_depth_m,
                      sum);
    *integral = sum[0];
    *moment = sum[1];
}
