/* numeric: band matrices, roots, small dense solves, robust statistics, drawn numbers. Arrays in, arrays
 * out; no units, no memory. */
#ifndef CLENCH_NUMERIC_H
#define CLENCH_NUMERIC_H

#include <stdbool.h>
#include <stdint.h>

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

/* ---- robust statistics: one wild value does not turn them. No value is not a number ---- */

/* Reorders x; the mean of the middle two where n is even. n at least 1. */
double robust_median(int n, double *x);
/* Normal consistent median of the distances from the median (MAD / 0.6745); reorders x. */
double robust_spread(int n, double *x);
/* Of the standard normal law, and of Student's with `freedom` degrees (Abramowitz and Stegun 26.7.5, to
 * 0.3 % from 5 degrees on); 0 < share_1 < 1. */
double normal_quantile(double share_1);
double student_quantile(double share_1, double freedom_1);
double normal_share(double z_1); /* below z */

/* Straight line by the median of all slopes (Theil 1950), interval of the slope by Sen 1968 with ties;
 * level: median of y - slope x (the median of y alone would shift by a rank with each wild value). */
typedef struct RobustLine {
    double slope, low, high, level; /* unit: of y over x; of y */
    bool bounded;                   /* the interval is one: values enough for it */
} RobustLine;
enum { ROBUST_LINE_MAX = 64 };
/* 2 to ROBUST_LINE_MAX values; false: all x alike. sure_1: of the interval, 0.95. */
bool robust_line(int n, const double *x, const double *y, double sure_1, RobustLine *line);

/* Least squares with Huber's loss (knee 1.345 spreads of the residuals, spread by MAD, both iterated):
 * y = sum of value[k] * column k, covariance by Huber 1973. */
enum { ROBUST_FIT_COLUMNS = 4, ROBUST_FIT_ROWS = 256 };
typedef struct RobustFit {
    double value[ROBUST_FIT_COLUMNS];                          /* unit: of y over the column's */
    double covariance[ROBUST_FIT_COLUMNS][ROBUST_FIT_COLUMNS]; /* unit: products of those */
    double spread;                                             /* unit: of y */
    int freedom;
} RobustFit;
/* x row-major, rows * columns, more rows than columns. least_spread: what the spread is never below,
 * so that readings that repeat each other do not look exact. false: columns that depend on each other. */
bool robust_fit(int rows, int columns, const double *x, const double *y, double least_spread,
                RobustFit *fit);

/* ---- numbers drawn by their place, not by a state: the same for any order and any number of threads ---- */

/* Philox 4x32-10: Salmon, Moraes, Dror, Shaw, SC11, 2011. */
void philox(const uint32_t counter[4], const uint32_t key[2], uint32_t word[4]);

/* How the points of a study fill the unit cube. */
typedef enum SampleKind {
    SAMPLE_PLAIN, /* independent */
    SAMPLE_LATIN, /* Latin hypercube: each variable once in each of `count` equal shares */
    SAMPLE_SOBOL /* Sobol's sequence with the direction numbers of Joe and Kuo 2008, shifted by key */
} SampleKind;
enum { SAMPLE_DIMENSIONS = 16 };
/* Variable `dimension` of point `index` of `count`, inside (0, 1); count at most 2^31. */
double sample_share(SampleKind kind, uint32_t index, uint32_t count, int dimension, uint64_t seed);
/* Sobol's sequence as it stands, in Gray code's order; the point 0 is the origin. */
double sobol_share(uint32_t index, int dimension);

/* ---- shares of a count ---- */

/* Incomplete beta function ratio I_x(a, b), a and b > 0. */
double beta_share(double x_1, double a_1, double b_1);
/* Interval of the share behind `hits` of `count` by Clopper and Pearson 1934, sure_1 (0.95) or more. */
void share_interval(int hits, int count, double sure_1, double *low_1, double *high_1);
/* The same for a quantile of a sorted sample: indices of the order statistics; -1 and count: no bound. */
void quantile_interval(int count, double share_1, double sure_1, int *low, int *high);

#endif
