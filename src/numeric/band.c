/* Symmetric band: A = L D L' row by row, so that each row's original diagonal is still at hand when
 * its pivot is judged. Method: Golub and Van Loan, Matrix Computations, 4th ed., 4.1.2 and 4.3
 * (from memory). The factor's diagonal holds 1/D. */
#include "clench/numeric.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

/* The usual half bandwidth of a girder line. Its own copy of the loops, unrolled, factors 1.7 times
 * faster than the loops for any width (bench_band). */
enum { USUAL_BAND = 8 };

/* Row i of A -> w = row of L times D, by forward substitution with the rows above it. */
static inline __attribute__((always_inline)) void reduce_row(int b, int first, double *row)
{
#pragma GCC unroll 8
    for (int p = first + 1; p < b; p++) {
        const double *const above = row - (ptrdiff_t)(b - p) * (b + 1) + (b - p);
        double w = row[p];
#pragma GCC unroll 8
        for (int q = first; q < p; q++) w -= row[q] * above[q];
        row[p] = w;
    }
}

/* w -> L, and the pivot of the row. */
static inline __attribute__((always_inline)) double scale_row(int b, int first, double *row)
{
    double pivot = row[b];
#pragma GCC unroll 8
    for (int p = first; p < b; p++) {
        const double w = row[p];
        const double l = w * row[b - (ptrdiff_t)(b - p) * (b + 1)];
        pivot -= w * l;
        row[p] = l;
    }
    return pivot;
}

/* Row i, whose entries begin at `first`; false: no pivot. */
static inline __attribute__((always_inline)) bool factor_row(int b, int first, double tiny,
                                                             double *row, int *negative)
{
    const double original = row[b];
    reduce_row(b, first, row);
    const double pivot = scale_row(b, first, row);
    if (!(fabs(pivot) > tiny * fabs(original))) return false;
    *negative += pivot < 0;
    row[b] = 1 / pivot;
    return true;
}

static inline __attribute__((always_inline)) int factor_rows(int n, int b, double *a, double tiny,
                                                             int *negative)
{
    int i = 0, below_zero = 0;
    for (; i < b && i < n; i++)
        if (!factor_row(b, b - i, tiny, a + (ptrdiff_t)i * (b + 1), &below_zero)) return i;
    for (; i < n; i++)
        if (!factor_row(b, 0, tiny, a + (ptrdiff_t)i * (b + 1), &below_zero)) return i;
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

/* Two right sides at once: their chains of products do not wait for each other. */
static inline __attribute__((always_inline)) void solve_two(int n, int b, const double *factor,
                                                            double *restrict x, double *restrict y)
{
    for (int i = 0; i < n; i++) {
        const double *const row = factor + (ptrdiff_t)i * (b + 1);
        double sum_x = x[i], sum_y = y[i];
        for (int p = i < b ? b - i : 0; p < b; p++) {
            sum_x -= row[p] * x[i - b + p];
            sum_y -= row[p] * y[i - b + p];
        }
        x[i] = sum_x;
        y[i] = sum_y;
    }
    for (int i = 0; i < n; i++) {
        const double inverse = factor[(ptrdiff_t)i * (b + 1) + b];
        x[i] *= inverse;
        y[i] *= inverse;
    }
    for (int i = n - 1; i > 0; i--) {
        const double *const row = factor + (ptrdiff_t)i * (b + 1);
        const double done_x = x[i], done_y = y[i];
        for (int p = i < b ? b - i : 0; p < b; p++) {
            x[i - b + p] -= row[p] * done_x;
            y[i - b + p] -= row[p] * done_y;
        }
    }
}

void band_solve(int n, int b, const double *factor, double *right, int count)
{
    assert(n >= 0 && b >= 0 && count >= 0);
    int k = 0;
    for (; k + 1 < count; k += 2) {
        double *const x = right + (ptrdiff_t)k * n;
        if (b == USUAL_BAND)
            solve_two(n, USUAL_BAND, factor, x, x + n);
        else
            solve_two(n, b, factor, x, x + n);
    }
    if (k < count) solve_one(n, b, factor, right + (ptrdiff_t)k * n);
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
