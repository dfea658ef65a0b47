/* Values between readings: weights, so that the noise of the readings can be followed. */
#include <math.h>

#include "clench/seating.h"

/* Lagrange's weights at x of the readings first .. first + count - 1. */
static Between lagrange(const double *x_m, int first, int count, double x)
{
    Between b = {.count = count};
    for (int i = 0; i < count; i++) {
        double w = 1;
        for (int k = 0; k < count; k++)
            if (k != i) w *= (x - x_m[first + k]) / (x_m[first + i] - x_m[first + k]);
        b.index[i] = first + i;
        b.weight_1[i] = w;
    }
    return b;
}

static int clamp(int i, int least, int most) { return i < least ? least : i > most ? most : i; }

/* The reading to the left of x, at least the first, at most the last but one. */
static int left_of(const double *x_m, int count, double x)
{
    int low = 0, high = count - 1;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        if (x_m[middle] <= x)
            low = middle;
        else
            high = middle;
    }
    return low;
}

static Between window(const double *x_m, int count, double x, int degree, int shift)
{
    const int points = degree + 1 < count ? degree + 1 : count;
    const int left = left_of(x_m, count, x);
    return lagrange(x_m, clamp(left - (points - 1) / 2 + shift, 0, count - points), points, x);
}

Between survey_between(const double *x_m, int count, double x, bool cubic)
{
    if (count == 1) return (Between){1, {0}, {1}};
    const bool outside = x < x_m[0] || x > x_m[count - 1];
    return window(x_m, count, x, cubic && !outside ? 3 : 1, 0);
}

double survey_value(const Between *b, const double *value)
{
    double sum = 0;
    for (int i = 0; i < b->count; i++) sum += b->weight_1[i] * value[b->index[i]];
    return sum;
}

double survey_doubt(const double *x_m, const double *value, int count, double x, bool cubic)
{
    if (count < 2) return 0;
    const Between here = survey_between(x_m, count, x, cubic);
    const double at = survey_value(&here, value);
    Between other = window(x_m, count, x, 3, 0);
    if (x < x_m[0] || x > x_m[count - 1])
        other = window(x_m, count, x, 2, 0); /* straight on, against a parabola */
    else if (cubic && count > 4) {
        other = window(x_m, count, x, 3, 1);
        if (other.index[0] == here.index[0]) other = window(x_m, count, x, 3, -1);
    } else if (cubic)
        other = window(x_m, count, x, count > 3 ? 2 : 1, 0);
    return fabs(survey_value(&other, value) - at);
}
