/* Medians, lines and fits that one wild value does not turn. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "clench/numeric.h"

static int by_size(const void *a, const void *b)
{
    const double left = *(const double *)a, right = *(const double *)b;
    return (left > right) - (left < right);
}

static double middle(int n, const double *sorted)
{
    return n % 2 ? sorted[n / 2] : (sorted[n / 2 - 1] + sorted[n / 2]) / 2;
}

double robust_median(int n, double *x)
{
    assert(n > 0);
    qsort(x, (size_t)n, sizeof *x, by_size);
    return middle(n, x);
}

double robust_spread(int n, double *x)
{
    const double centre = robust_median(n, x);
    for (int i = 0; i < n; i++) x[i] = fabs(x[i] - centre);
    return robust_median(n, x) / 0.6744897501960817; /* normal_quantile(0.75) */
}

/* ---- quantiles ---- */

double normal_share(double z_1) { return 0.5 * erfc(-z_1 / sqrt(2)); }

/* Newton on the share, from Hastings' approximation (Abramowitz and Stegun 26.2.23). */
double normal_quantile(double share_1)
{
    assert(share_1 > 0 && share_1 < 1);
    const double tail_1 = fmin(share_1, 1 - share_1), t = sqrt(-2 * log(tail_1));
    double z_1 = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                         (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    for (int i = 0; i < 4; i++)
        z_1 += (normal_share(-z_1) - tail_1) * sqrt(2 * acos(-1)) * exp(z_1 * z_1 / 2);
    return share_1 < 0.5 ? -z_1 : z_1;
}

double student_quantile(double share_1, double freedom_1)
{
    const double z = normal_quantile(share_1), v = freedom_1, z2 = z * z;
    return z + z * (z2 + 1) / (4 * v) + z * ((5 * z2 + 16) * z2 + 3) / (96 * v * v) +
           z * (((3 * z2 + 19) * z2 + 17) * z2 - 15) / (384 * v * v * v) +
           z * ((((79 * z2 + 776) * z2 + 1482) * z2 - 1920) * z2 - 945) / (92160 * v * v * v * v);
}

/* ---- line ---- */

/* Sum over groups of equal values of g (g - 1) (2 g + 5); reorders x. */
static double ties(int n, double *x)
{
    double sum = 0;
    qsort(x, (size_t)n, sizeof *x, by_size);
    for (int i = 0, j = 0; i < n; i = j) {
        while (j < n && x[j] == x[i]) j++;
        const double g = j - i;
        sum += g * (g - 1) * (2 * g + 5);
    }
    return sum;
}

/* Sen 1968, eq. 2.6: ranks of the slopes that bound. */
static void bound(int n, double tied, int count, const double *slope, double sure_1,
                  RobustLine *line)
{
    const double z_1 = normal_quantile(0.5 + sure_1 / 2);
    /* ties in both x and y may take off more than there is */
    const double sigma = sqrt(fmax(0, (double)n * (n - 1) * (2 * n + 5) - tied) / 18);
    const int upper = (int)nearbyint((count + z_1 * sigma) / 2);
    const int lower = (int)nearbyint((count - z_1 * sigma) / 2) - 1;
    line->bounded = upper < count && lower >= 0;
    line->low = slope[lower < 0 ? 0 : lower];
    line->high = slope[upper < count ? upper : count - 1];
}

bool robust_line(int n, const double *x, const double *y, double sure_1, RobustLine *line)
{
    double slope[ROBUST_LINE_MAX * (ROBUST_LINE_MAX - 1) / 2], copy[ROBUST_LINE_MAX];
    int count = 0;
    assert(n >= 2 && n <= ROBUST_LINE_MAX);
    for (int i = 0; i < n; i++)
        for (int j = 0; j < i; j++)
            if (x[i] != x[j]) slope[count++] = (y[i] - y[j]) / (x[i] - x[j]);
    if (count == 0) return false;
    line->slope = robust_median(count, slope);
    memcpy(copy, y, sizeof *y * (size_t)n);
    double tied = ties(n, copy);
    memcpy(copy, x, sizeof *x * (size_t)n);
    tied += ties(n, copy);
    for (int i = 0; i < n; i++) copy[i] = y[i] - line->slope * x[i];
    line->level = robust_median(n, copy);
    bound(n, tied, count, slope, sure_1, line);
    return true;
}

/* ---- fit ---- */

static const double knee = 1.345; /* 95 % efficient where errors are normal (Huber 1981) */

static bool weighted(int rows, int columns, const double *x, const double *y, const double *weight,
                     double *value)
{
    double a[ROBUST_FIT_COLUMNS * ROBUST_FIT_COLUMNS] = {0}, right[ROBUST_FIT_COLUMNS] = {0};
    for (int i = 0; i < rows; i++) {
        const double *row = &x[(size_t)i * (size_t)columns];
        for (int k = 0; k < columns; k++) {
            right[k] += weight[i] * row[k] * y[i];
            for (int j = 0; j < columns; j++) a[k * columns + j] += weight[i] * row[k] * row[j];
        }
    }
    if (!dense_solve(columns, a, right)) return false;
    memcpy(value, right, sizeof *value * (size_t)columns);
    return true;
}

static void residuals(int rows, int columns, const double *x, const double *y, const double *value,
                      double *left)
{
    for (int i = 0; i < rows; i++) {
        left[i] = y[i];
        for (int k = 0; k < columns; k++) left[i] -= value[k] * x[i * columns + k];
    }
}

/* About zero, as residuals are; of the `rows - columns` largest, since as many are made small by the
 * fit. */
static double spread_of(int rows, int columns, const double *left, double *copy)
{
    for (int i = 0; i < rows; i++) copy[i] = fabs(left[i]);
    qsort(copy, (size_t)rows, sizeof *copy, by_size);
    return middle(rows - columns, copy + columns) / 0.6744897501960817;
}

/* Huber 1973: K^2 s^2 / (share within the knee)^2 (X'X)^-1. */
static bool spread_out(int rows, int columns, const double *x, const double *left,
                       double least_spread, RobustFit *fit)
{
    double square = 0, within = 0;
    for (int i = 0; i < rows; i++) {
        const double psi = fmax(-knee, fmin(knee, left[i] / fit->spread));
        square += psi * psi;
        within += fabs(left[i]) <= knee * fit->spread;
    }
    const double share = within / rows;
    const double K = 1 + columns * (1 - share) / (rows * share);
    const double psi2 = square / (rows - columns) / (share * share);
    const double factor =
        fmax(K * K * fit->spread * fit->spread * psi2, least_spread * least_spread);
    for (int k = 0; k < columns; k++) {
        double a[ROBUST_FIT_COLUMNS * ROBUST_FIT_COLUMNS] = {0}, unit[ROBUST_FIT_COLUMNS] = {0};
        unit[k] = factor;
        for (int i = 0; i < rows; i++)
            for (int m = 0; m < columns * columns; m++)
                a[m] += x[i * columns + m / columns] * x[i * columns + m % columns];
        if (!dense_solve(columns, a, unit)) return false;
        for (int j = 0; j < columns; j++) fit->covariance[j][k] = unit[j];
    }
    return true;
}

bool robust_fit(int rows, int columns, const double *x, const double *y, double least_spread,
                RobustFit *fit)
{
    double weight[ROBUST_FIT_ROWS], left[ROBUST_FIT_ROWS], copy[ROBUST_FIT_ROWS];
    assert(columns <= ROBUST_FIT_COLUMNS && rows > columns && rows <= ROBUST_FIT_ROWS);
    *fit = (RobustFit){.freedom = rows - columns};
    for (int i = 0; i < rows; i++) weight[i] = 1;
    for (int round = 0; round < 200; round++) {
        double before[ROBUST_FIT_COLUMNS], change = 0, size = 0;
        memcpy(before, fit->value, sizeof before);
        if (!weighted(rows, columns, x, y, weight, fit->value)) return false;
        residuals(rows, columns, x, y, fit->value, left);
        fit->spread = fmax(least_spread, spread_of(rows, columns, left, copy));
        for (int i = 0; i < rows; i++)
            weight[i] = fmin(1, knee * fit->spread / fmax(fabs(left[i]), 1e-300));
        for (int k = 0; k < columns; k++) {
            change = fmax(change, fabs(fit->value[k] - before[k]));
            size = fmax(size, fabs(fit->value[k]));
        }
        if (change <= 1e-13 * size) break;
    }
    if (fit->spread <= 0) { /* exact data */
        return true;
    }
    return spread_out(rows, columns, x, left, least_spread, fit);
}
