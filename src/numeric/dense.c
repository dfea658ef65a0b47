/* Gauss elimination with row pivoting on rows scaled to 1, so that the test for a singular matrix
 * asks neither the units of the equations nor those of the unknowns. */
#include "clench/numeric.h"

#include <assert.h>
#include <float.h>
#include <math.h>

enum { DENSE_MAX = 64 };

static bool scale_rows(int n, double *a, double *right)
{
    for (int i = 0; i < n; i++) {
        double largest = 0;
        for (int j = 0; j < n; j++) largest = fmax(largest, fabs(a[i * n + j]));
        if (!(largest > 0)) return false;
        for (int j = 0; j < n; j++) a[i * n + j] /= largest;
        right[i] /= largest;
    }
    return true;
}

static void largest_of_columns(int n, const double *a, double *largest)
{
    for (int j = 0; j < n; j++) {
        largest[j] = 0;
        for (int i = 0; i < n; i++) largest[j] = fmax(largest[j], fabs(a[i * n + j]));
    }
}

static void swap(double *one, double *two)
{
    const double keep = *one;
    *one = *two;
    *two = keep;
}

/* Brings the largest entry of column k to the diagonal and returns its size. */
static double bring_pivot(int n, int k, double *a, double *right)
{
    int best = k;
    for (int i = k + 1; i < n; i++)
        if (fabs(a[i * n + k]) > fabs(a[best * n + k])) best = i;
    if (best != k) {
        for (int j = k; j < n; j++) swap(&a[k * n + j], &a[best * n + j]);
        swap(&right[k], &right[best]);
    }
    return fabs(a[k * n + k]);
}

static void eliminate(int n, int k, double *a, double *right)
{
    for (int i = k + 1; i < n; i++) {
        const double factor = a[i * n + k] / a[k * n + k];
        for (int j = k + 1; j < n; j++) a[i * n + j] -= factor * a[k * n + j];
        right[i] -= factor * right[k];
    }
}

bool dense_solve(int n, double *a, double *right)
{
    assert(n >= 0 && n <= DENSE_MAX);
    double largest[DENSE_MAX];
    if (!scale_rows(n, a, right)) return false;
    largest_of_columns(n, a, largest);
    for (int k = 0; k < n; k++) {
        if (!(bring_pivot(n, k, a, right) > n * DBL_EPSILON * largest[k])) return false;
        eliminate(n, k, a, right);
    }
    for (int k = n - 1; k >= 0; k--) {
        for (int j = k + 1; j < n; j++) right[k] -= a[k * n + j] * right[j];
        right[k] /= a[k * n + k];
    }
    return true;
}
