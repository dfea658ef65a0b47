/* Our band solvers against LAPACK on the same matrices: a chain of stations with six unknowns each
 * and half bandwidth 8. Prints minimum and median of many runs, and how far the solutions differ. */
#define _POSIX_C_SOURCE 200809L
#include "clench/numeric.h"

#include <lapacke.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { BAND = 8, N_MAX = 3000, RUNS = 51, RIGHTS_MAX = 200, WIDE = 3 * BAND + 1 };

/* One matrix in four layouts, with its right sides; `work` copies are what the runs destroy. */
typedef struct Bench {
    int n, rights;
    double lower[N_MAX * (BAND + 1)], general[N_MAX * WIDE];
    double lapack_lower[N_MAX * (BAND + 1)], lapack_general[N_MAX * WIDE];
    double right[N_MAX * RIGHTS_MAX];
    double factor[N_MAX * WIDE], ours[N_MAX * RIGHTS_MAX], theirs[N_MAX * RIGHTS_MAX];
    int pivot[N_MAX];
    lapack_int lapack_pivot[N_MAX];
} Bench;

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

/* Deterministic entries, diagonally dominant. */
static void fill(Bench *t)
{
    memset(t->general, 0, sizeof t->general);
    memset(t->lapack_general, 0, sizeof t->lapack_general);
    memset(t->lower, 0, sizeof t->lower);
    for (int i = 0; i < t->n; i++)
        for (int j = i < BAND ? 0 : i - BAND; j <= i; j++) {
            const double a = i == j ? 2.0 * BAND + 1 : ((i * 31 + j * 17) % 23 - 11) / 11.0;
            t->lower[i * (BAND + 1) + BAND - (i - j)] = a;
            t->general[i * WIDE + j - i + BAND] = t->general[j * WIDE + i - j + BAND] = a;
            /* LAPACK, by columns: lower A(i,j) at [i - j], general at [2 b + i - j] */
            t->lapack_lower[j * (BAND + 1) + i - j] = a;
            t->lapack_general[j * WIDE + 2 * BAND + i - j] = a;
            t->lapack_general[i * WIDE + 2 * BAND + j - i] = a;
        }
    for (int k = 0; k < t->n * t->rights; k++) t->right[k] = 1 + k % 7;
}

static void our_factor(Bench *t)
{
    if (band_factor(t->n, BAND, t->factor, 1e-12, NULL) >= 0) abort();
}
static void our_solve(Bench *t) { band_solve(t->n, BAND, t->factor, t->ours, t->rights); }
static void our_lu_factor(Bench *t)
{
    if (band_lu_factor(t->n, BAND, t->factor, t->pivot, 1e-14) >= 0) abort();
}
static void our_lu_solve(Bench *t)
{
    band_lu_solve(t->n, BAND, t->factor, t->pivot, t->ours, t->rights);
}
static void lapack_factor(Bench *t)
{
    if (LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', t->n, BAND, t->factor, BAND + 1)) abort();
}
static void lapack_solve(Bench *t)
{
    if (LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', t->n, BAND, t->rights, t->factor, BAND + 1,
                            t->theirs, t->n))
        abort();
}
static void lapack_lu_factor(Bench *t)
{
    if (LAPACKE_dgbtrf_work(LAPACK_COL_MAJOR, t->n, t->n, BAND, BAND, t->factor, WIDE,
                            t->lapack_pivot))
        abort();
}
static void lapack_lu_solve(Bench *t)
{
    if (LAPACKE_dgbtrs_work(LAPACK_COL_MAJOR, 'N', t->n, BAND, BAND, t->rights, t->factor, WIDE,
                            t->lapack_pivot, t->theirs, t->n))
        abort();
}

static void print_times(const char *name, double *time)
{
    qsort(time, RUNS, sizeof *time, by_size);
    printf("  %-22s min %9.1f us   median %9.1f us\n", name, 1e6 * time[0], 1e6 * time[RUNS / 2]);
}

typedef struct Contender {
    const char *name;
    void (*factor)(Bench *t), (*solve)(Bench *t);
    size_t matrix, solution; /* offsets in Bench */
    size_t matrix_size;
} Contender;

static void run(const Contender *who, Bench *t)
{
    double factor[RUNS], solve[RUNS];
    char name[64];
    double *const solution = (double *)((char *)t + who->solution);
    for (int k = 0; k < RUNS; k++) {
        memcpy(t->factor, (char *)t + who->matrix, who->matrix_size);
        memcpy(solution, t->right, sizeof(double) * (size_t)(t->n * t->rights));
        const double start = seconds();
        who->factor(t);
        const double middle = seconds();
        who->solve(t);
        solve[k] = seconds() - middle;
        factor[k] = middle - start;
    }
    snprintf(name, sizeof name, "%s factor", who->name);
    print_times(name, factor);
    snprintf(name, sizeof name, "%s solve", who->name);
    print_times(name, solve);
}

static double largest_difference(const Bench *t)
{
    double largest = 0;
    for (int k = 0; k < t->n * t->rights; k++)
        largest = fmax(largest, fabs(t->ours[k] - t->theirs[k]));
    return largest;
}

int main(void)
{
    static Bench t;
#define OF(factor, solve, matrix, solution) \
    factor, solve, offsetof(Bench, matrix), offsetof(Bench, solution), sizeof t.matrix
    const Contender ours = {"LDL'", OF(our_factor, our_solve, lower, ours)};
    const Contender theirs = {"dpbtrf/s", OF(lapack_factor, lapack_solve, lapack_lower, theirs)};
    const Contender our_lu = {"LU", OF(our_lu_factor, our_lu_solve, general, ours)};
    const Contender their_lu = {"dgbtrf/s",
                                OF(lapack_lu_factor, lapack_lu_solve, lapack_general, theirs)};
#undef OF
    const int sizes[] = {600, 3000}, rights[] = {1, 200};
    for (int s = 0; s < 2; s++)
        for (int r = 0; r < 2; r++) {
            t.n = sizes[s];
            t.rights = rights[r];
            fill(&t);
            printf("n = %d, b = %d, %d right sides, %d runs\n", t.n, BAND, t.rights, RUNS);
            run(&ours, &t);
            run(&theirs, &t);
            printf("  solutions differ by %.1e\n", largest_difference(&t));
            run(&our_lu, &t);
            run(&their_lu, &t);
            printf("  solutions differ by %.1e\n", largest_difference(&t));
        }
    return 0;
}
