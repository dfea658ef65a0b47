/* numeric: band matrices, roots, small dense solves. Arrays in, arrays out; no units, no memory. */
#ifndef CLENCH_NUMERIC_H
#define CLENCH_NUMERIC_H

#include <stdbool.h>

/* ---- symmetric band, lower half, row by row: A(i, j) with i - b <= j <= i stands at
 * a[i*(b+1) + b - (i - j)]; entries left of column 0 are never read ---- */

/* A = L D L' in place, no pivoting. Returns -1, or the first row whose pivot is below `tiny`
 * times the row's original diagonal (a mechanism); `negative` (may be NULL) counts D < 0. */
int band_factor(int n, int b, double *a, double tiny, int *negative);
/* Solves for `count` right sides, each n long, one behind the other. */
void band_solve(int n, int b, const double *factor, double *right, int count);
/* y = A x with the unfactored matrix. */
void band_multiply(int n, int b, const double *a, const double *x, double *y);

/* ---- general band with partial pivoting: row i holds columns i-b .. i+2b (the upper b are room
 * for fill) at a[i*(3*b+1) + (j - i + b)] ---- */

/* Returns -1 or the row of the first pivot below `tiny` times the largest entry of its column
 * before elimination. pivot: n ints. */
int band_lu_factor(int n, int b, double *a, int *pivot, double tiny);
void band_lu_solve(int n, int b, const double *factor, const int *pivot, double *right, int count);

/* ---- small dense systems (Gauss with row pivoting), row-major, in place ---- */
bool dense_solve(int n, double *a, double *right); /* false: singular; n at most 64 */

/* ---- one unknown: bracketing root by Brent's method. f(a) and f(b) must differ in sign ---- */
double root_between(double (*f)(double x, void *with), void *with, double a, double b,
                    double tolerance);

#endif
