/* numeric: band matrices, roots, small dense solves. Arrays in, arrays out; no units, no memory. */
#ifndef CLENCH_NUMERIC_H
#define CLENCH_NUMERIC_H

#include <stdbool.h>

/* ---- symmetric band, lower half, row by row: A(i, j) with i - b <= j <= i stands at
 * a[i*(b+1) + b - (i - j)]; entries left of column 0 are never read ---- */

/* A = L D L' in place, no pivoting. Returns -1, or the first row whose pivot is in size not above
 * `tiny` times the row's original diagonal (a mechanism; then *negative is not written);
 * `negative` (may be NULL) counts D < 0. The factor holds L and, on the diagonal, 1/D. */
int band_factor(int n, int b, double *a, double tiny, int *negative);
/* Solves for `count` right sides, each n long, one behind the other. */
void band_solve(int n, int b, const double *factor, double *right, int count);
/* y = A x with the unfactored matrix; x and y must not overlap. */
void band_multiply(int n, int b, const double *a, const double *x, double *y);

/* ---- general band with partial pivoting: row i holds columns i-b .. i+2b (the upper b are room
 * for fill and need no value) at a[i*(3*b+1) + (j - i + b)]; b at least 1 ---- */

/* Returns -1 or the column whose best pivot is not above `tiny` times the largest entry that the
 * column had before elimination. pivot: n ints. */
int band_lu_factor(int n, int b, double *a, int *pivot, double tiny);
void band_lu_solve(int n, int b, const double *factor, const int *pivot, double *right, int count);

/* ---- small dense systems (Gauss with row pivoting), row-major, in place ---- */
/* false: singular to rounding, whatever the units of rows and columns; n at most 64. */
bool dense_solve(int n, double *a, double *right);

/* ---- one unknown: bracketing root by Brent's method. f(a) and f(b) must differ in sign;
 * a root at an end is one. The root is within `tolerance` (and rounding) of a change of sign ---- */
double root_between(double (*f)(double x, void *with), void *with, double a, double b,
                    double tolerance);

#endif
