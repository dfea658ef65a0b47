/* General band with row pivoting; the multipliers stay where they were made and the row changes are
 * repeated in the solve. Method: Golub and Van Loan, Matrix Computations, 4th ed., 4.3.3 (from
 * memory). */
#include "clench/numeric.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>

static inline int smaller(int p, int q) { return p < q ? p : q; }
static inline int larger(int p, int q) { return p > q ? p : q; }

/* &A(i, i): entry (i, j) is diagonal[j - i]. */
static inline ptrdiff_t diagonal(int i, int b) { return (ptrdiff_t)i * (3 * b + 1) + b; }

static double largest_of_column(int n, int b, const double *a, int k)
{
    const double *entry = a + diagonal(k, b);
    double largest = 0;
    for (int i = larger(-b, -k); i <= smaller(b, n - 1 - k); i++) {
        const double size = fabs(entry[(ptrdiff_t)i * 3 * b]);
        if (size > largest) largest = size; /* fmax is a call */
    }
    return largest;
}

/* Empties the room for fill. The place of (k, k + 2b) is free until step k: it keeps the largest
 * entry of column k until then. */
static void prepare(int n, int b, double *a)
{
    const ptrdiff_t last = 2 * (ptrdiff_t)b;
    for (int k = 0; k < n; k++) {
        double *const row = a + diagonal(k, b);
        for (int c = b + 1; c < 2 * b; c++) row[c] = 0;
        row[last] = largest_of_column(n, b, a, k);
    }
}

static int pivot_row(int k, int last, int b, const double *a)
{
    int best = k;
    double size = fabs(a[diagonal(k, b)]);
    for (int i = k + 1; i <= last; i++) {
        const double other = fabs(a[diagonal(i, b) + (k - i)]);
        if (other > size) {
            size = other;
            best = i;
        }
    }
    return best;
}

/* The first `count` entries of two different rows from one column on. */
static void swap_rows(int count, double *restrict one, double *restrict two)
{
    for (int c = 0; c < count; c++) {
        const double keep = one[c];
        one[c] = two[c];
        two[c] = keep;
    }
}

/* The usual length of a row behind its pivot where no rows were changed: half bandwidth 8. With a
 * constant count the compiler works on several entries at once. */
enum { USUAL_COUNT = 8 };

static inline void subtract_row(int count, double factor, const double *restrict pivot,
                                double *restrict row)
{
    if (count == USUAL_COUNT) {
        for (int c = 1; c <= USUAL_COUNT; c++) row[c] -= factor * pivot[c];
        return;
    }
    for (int c = 1; c <= count; c++) row[c] -= factor * pivot[c];
}

int band_lu_factor(int n, int b, double *a, int *pivot, double tiny)
{
    assert(n >= 0 && b >= 1 && tiny >= 0);
    prepare(n, b, a);
    int end = 0; /* last column that the rows in work reach */
    for (int k = 0; k < n; k++) {
        double *const row = a + diagonal(k, b);
        double *const kept = row + 2 * (ptrdiff_t)b; /* by prepare */
        const double largest = *kept;
        *kept = 0;
        const int last = smaller(k + b, n - 1);
        const int best = pivot_row(k, last, b, a);
        if (!(fabs(a[diagonal(best, b) + (k - best)]) > tiny * largest)) return k;
        pivot[k] = best;
        end = larger(end, smaller(best + b, n - 1));
        if (best != k) swap_rows(end - k + 1, row, a + diagonal(best, b) + (k - best));
        const double inverse = 1 / row[0];
        for (int i = k + 1; i <= last; i++) {
            double *const other = a + diagonal(i, b) + (k - i);
            if (other[0] == 0) continue;
            other[0] *= inverse;
            subtract_row(end - k, other[0], row, other);
        }
    }
    return -1;
}

static void lu_solve_one(int n, int b, const double *factor, const int *pivot, double *x)
{
    for (int k = 0; k < n; k++) {
        const double value = x[pivot[k]];
        x[pivot[k]] = x[k];
        x[k] = value;
        for (int i = k + 1; i <= smaller(k + b, n - 1); i++)
            x[i] -= factor[diagonal(i, b) + (k - i)] * value;
    }
    for (int k = n - 1; k >= 0; k--) {
        const double *const row = factor + diagonal(k, b);
        double sum = x[k];
        for (int c = smaller(2 * b, n - 1 - k); c > 0; c--) sum -= row[c] * x[k + c];
        x[k] = sum / row[0];
    }
}

void band_lu_solve(int n, int b, const double *factor, const int *pivot, double *right, int count)
{
    assert(n >= 0 && b >= 1 && count >= 0);
    for (int m = 0; m < count; m++) lu_solve_one(n, b, factor, pivot, right + (ptrdiff_t)m * n);
}
