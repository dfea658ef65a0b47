/* Symmetric band: A = L D L' row by row, so that each row's original diagonal is still at hand when
 * its pivot is judged. Method: Golub and Van Loan, Matrix Computations, 4th ed., 4.1.2 and 4.3
 * (from memory). The factor's diagonal holds 1/D. */
#include "clench/numeric.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

/* The usual half bandwidth of a girder line: the width that pays for
 * its own copy of the loops. */
enum { USUAL_BAND = 8 };

/* Row i of A -> w = row of L times D, by forward substitution with the rows above it. */
static inline __attribute__((always_inline)) void reduce_row(int b, int first, double *row)
{
    for (int p = first + 1; p < b; p++) {
        const double *const above = row - (ptrdiff_t)(b - p) * (b + 1) + (b - p);
        double w = row[p];
        for (int q = first; q < p; q++) w -= row[q] * above[q];
        row[p] = w;
    }
}

/* w -> L, and the pivot of the row. */
static inline __attribute__((always_inline)) double scale_row(int b, int first, double *row)
{
    double pivot = row[b];
    for (int p = first; p < b; p++) {
        const double w = row[p];
        const double l = w * row[b - (ptrdiff_t)(b - p) * (b + 1)];
        pivot -= w * l;
        row[p] = l;
    }
    return pivot;
}

static inline __attribute__((always_inline)) int factor_rows(int n, int b, double *a, double tiny,
                                                             int *negative)
{
    int below_zero = 0;
    for (int i = 0; i < n; i++) {
        double *const row = a + (ptrdiff_t)i * (b + 1);
        const double original = row[b];
        const int first = i < b ? b - i : 0;
        reduce_row(b, first, row);
        const double pivot = scale_row(b, first, row);
        if (!(fabs(pivot) > tiny * fabs(original))) return i;
        if (pivot < 0) below_zero++;
        row[b] = 1 / pivot;
    }
    if (negative) *negative = below_zero;
    return -1;
}

int band_factor(int n, int b, double *a, double tiny, int *negative)
{
    assert(n >= 0 && b >= 0 && tiny >= 0);
    if (b == USUAL_BAND) return factor_rows(n, USUAL_BAND, a, tiny, negative);
    return factor_rows(n, b, a, tiny, negative);
}

/* The newest unknown comes last in each sum: only one product waits for the row before. */
static inline __attribute__((always_inline)) void solve_one(int n, int b, const double *factor,
                                                            double *x)
{
    for (int i = 0; i < n; i++) {
        const double *const row = factor + (ptrdiff_t)i * (b + 1);
        double sum = x[i];
        for (int p = i < b ? b - i : 0; p < b; p++) sum -= row[p] * x[i - b + p];
        x[i] = sum;
    }
    for (int i = 0; i < n; i++) x[i] *= factor[(ptrdiff_t)i * (b + 1) + b];
    for (int i = n - 1; i > 0; i--) {
        const double *const row = factor + (ptrdiff_t)i * (b + 1);
        const double done = x[i];
        for (int p = i < b ? b - i : 0; p < b; p++) x[i - b + p] -= row[p] * done;
    }
}

void band_solve(int n, int b, const double *factor, double *right, int count)
{
    assert(n >= 0 && b >= 0 && count >= 0);
    for (int k = 0; k < count; k++) {
        double *const x = right + (ptrdiff_t)k * n;
        if (b == USUAL_BAND)
            solve_one(n, USUAL_BAND, factor, x);
        else
            solve_one(n, b, factor, x);
    }
}

void band_multiply(int n, int b, const double *a, const double *x, double *y)
{
    assert(n >= 0 && b >= 0);
    for (int i = 0; i < n; i++) {
        const double *const row = a + (ptrdiff_t)i * (b + 1);
        double sum = row[b] * x[i];
        for (int p = i < b ? b - i : 0; p < b; p++) {
            sum += row[p] * x[i - b + p];
            y[i - b + p] += row[p] * x[i];
        }
        y[i] = sum;
    }
}
