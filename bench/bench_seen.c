/* Wrappers that the linker puts before functions of the engine (--wrap); kernels by themselves. */
#define _POSIX_C_SOURCE 200809L
#include "bench_seen.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "../src/thrust/trial.h"
#include "clench/frame.h"
#include "clench/numeric.h"
#ifdef BENCH_LAPACK
#include <lapacke.h>
#endif

double seen_seconds[SEEN_COUNT];
long seen_calls[SEEN_COUNT];
size_t seen_peak_bytes;
static bool watching;

double seen_clock(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

const char *seen_name(int seen)
{
    static const char *const name[] = {
#define X(id, linked) linked,
        SEEN_LIST(X)
#undef X
    };
    return name[seen];
}

void seen_start(void)
{
    memset(seen_seconds, 0, sizeof seen_seconds);
    memset(seen_calls, 0, sizeof seen_calls);
    watching = true;
}

void seen_stop(void) { watching = false; }

/* NOLINTBEGIN(bugprone-reserved-identifier): the linker makes these names */
/* clang-format off */
#define WATCH(id, type, name, parameters, values)                 \
    type __real_##name parameters;                                \
    type __wrap_##name parameters;                                \
    type __wrap_##name parameters                                 \
    {                                                             \
        if (!watching) return __real_##name values;               \
        const double start_ = seen_clock();                       \
        const type returned_ = __real_##name values;                 \
        seen_seconds[SEEN_##id] += seen_clock() - start_;         \
        seen_calls[SEEN_##id]++;                                  \
        return returned_;                                            \
    }
#define WATCH_VOID(id, name, parameters, values)                  \
    void __real_##name parameters;                                \
    void __wrap_##name parameters;                                \
    void __wrap_##name parameters                                 \
    {                                                             \
        const double start_ = watching ? seen_clock() : 0;         \
        __real_##name values;                                     \
        if (!watching) return;                                    \
        seen_seconds[SEEN_##id] += seen_clock() - start_;         \
        seen_calls[SEEN_##id]++;                                  \
    }

WATCH(TRIAL_BASE, Status, trial_base, (const BridgeLine *line, const StageSettings *settings,
      Arena *arena, Arena *scratch, TrialBase *base, Error *err),
      (line, settings, arena, scratch, base, err))
WATCH(TRIAL_RUN, Status, trial_run, (const TrialBase *base, double thrust_N, bool leave_causes,
      Arena *result, Trial *trial, Error *err),
      (base, thrust_N, leave_causes, result, trial, err))
WATCH(STEP, Status, stage_step, (StageRun *run, Error *err), (run, err))
WATCH(LOADS, Status, loads_at, (const BridgeLine *line, const StageHistory *history, int time,
      Arena *result, Arena *scratch, const JointLoad **load, Error *err),
      (line, history, time, result, scratch, load, err))
WATCH_VOID(RULES, rules_judge, (LineAnswer *answer, const Moments *moments, const Trial *a,
           const Trial *b), (answer, moments, a, b))
WATCH_VOID(LIMITS, limits_judge, (LineAnswer *answer, const Moments *moments, const Trial *a,
           const Trial *b), (answer, moments, a, b))
WATCH(FRAME_FACTOR, Status, frame_factor, (Frame *frame, const double *x_m, Error *err),
      (frame, x_m, err))
WATCH_VOID(FRAME_SOLVE, frame_solve, (const Frame *frame, double *right, int count),
           (frame, right, count))
WATCH(BAND_FACTOR, int, band_factor, (int n, int b, double *a, double tiny, int *negative),
      (n, b, a, tiny, negative))
WATCH_VOID(BAND_SOLVE, band_solve, (int n, int b, const double *factor, double *right, int count),
           (n, b, factor, right, count))
WATCH(BAND_LU_FACTOR, int, band_lu_factor, (int n, int b, double *a, int *pivot, double tiny),
      (n, b, a, pivot, tiny))
WATCH_VOID(BAND_LU_SOLVE, band_lu_solve, (int n, int b, const double *factor, const int *pivot,
           double *right, int count), (n, b, factor, pivot, right, count))
/* clang-format on */

void __real_arena_free(Arena *arena);
void __wrap_arena_free(Arena *arena);
void __wrap_arena_free(Arena *arena)
{
    if (arena) seen_peak_bytes += arena_peak(arena);
    __real_arena_free(arena);
}
/* NOLINTEND(bugprone-reserved-identifier) */

/* ---- kernels by themselves ---- */

enum { BAND = FRAME_BAND, WIDE = 3 * FRAME_BAND + 1, N_MAX = 12000, KERNEL_RUNS = 201 };

/* One matrix in four layouts, diagonally dominant; `factor` is what the runs destroy. */
typedef struct Matrix {
    int n, pivot[N_MAX];
    double lower[N_MAX * (BAND + 1)], general[N_MAX * WIDE];
    double lapack_lower[N_MAX * (BAND + 1)], lapack_general[N_MAX * WIDE];
    double factor[N_MAX * WIDE], right[N_MAX];
#ifdef BENCH_LAPACK
    lapack_int lapack_pivot[N_MAX];
#endif
} Matrix;

static void fill(Matrix *t, int n)
{
    memset(t, 0, sizeof *t);
    t->n = n;
    for (int i = 0; i < n; i++)
        for (int j = i < BAND ? 0 : i - BAND; j <= i; j++) {
            const double a = i == j ? 2.0 * BAND + 1 : ((i * 31 + j * 17) % 23 - 11) / 11.0;
            t->lower[i * (BAND + 1) + BAND - (i - j)] = a;
            t->general[i * WIDE + j - i + BAND] = t->general[j * WIDE + i - j + BAND] = a;
            t->lapack_lower[j * (BAND + 1) + i - j] = a;
            t->lapack_general[j * WIDE + 2 * BAND + i - j] = a;
            t->lapack_general[i * WIDE + 2 * BAND + j - i] = a;
        }
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static void our_factor(Matrix *t)
{
    if (band_factor(t->n, BAND, t->factor, 1e-12, NULL) >= 0) abort();
}
static void our_solve(Matrix *t) { band_solve(t->n, BAND, t->factor, t->right, 1); }
static void our_lu_factor(Matrix *t)
{
    if (band_lu_factor(t->n, BAND, t->factor, t->pivot, 1e-14) >= 0) abort();
}
static void our_lu_solve(Matrix *t) { band_lu_solve(t->n, BAND, t->factor, t->pivot, t->right, 1); }
#ifdef BENCH_LAPACK
static void lapack_factor(Matrix *t)
{
    if (LAPACKE_dpbtrf_work(LAPACK_COL_MAJOR, 'L', t->n, BAND, t->factor, BAND + 1)) abort();
}
static void lapack_solve(Matrix *t)
{
    if (LAPACKE_dpbtrs_work(LAPACK_COL_MAJOR, 'L', t->n, BAND, 1, t->factor, BAND + 1, t->right,
                            t->n))
        abort();
}
static void lapack_lu_factor(Matrix *t)
{
    if (LAPACKE_dgbtrf_work(LAPACK_COL_MAJOR, t->n, t->n, BAND, BAND, t->factor, WIDE,
                            t->lapack_pivot))
        abort();
}
static void lapack_lu_solve(Matrix *t)
{
    if (LAPACKE_dgbtrs_work(LAPACK_COL_MAJOR, 'N', t->n, BAND, BAND, 1, t->factor, WIDE,
                            t->lapack_pivot, t->right, t->n))
        abort();
}
#endif

static void time_pair(Matrix *t, const char *name, const double *matrix, void (*factor)(Matrix *),
                      void (*solve)(Matrix *))
{
    static double first[KERNEL_RUNS], second[KERNEL_RUNS];
    for (int r = 0; r < KERNEL_RUNS; r++) {
        memcpy(t->factor, matrix, sizeof t->factor[0] * (size_t)(t->n * WIDE));
        for (int i = 0; i < t->n; i++) t->right[i] = 1 + i % 7;
        const double start = seen_clock();
        factor(t);
        const double middle = seen_clock();
        solve(t);
        second[r] = seen_clock() - middle;
        first[r] = middle - start;
    }
    qsort(first, KERNEL_RUNS, sizeof *first, by_size);
    qsort(second, KERNEL_RUNS, sizeof *second, by_size);
    printf("  %-22s factor: minimum %7.1f us, median %7.1f us   solve: %6.1f, %6.1f us\n", name,
           first[0] * 1e6, first[KERNEL_RUNS / 2] * 1e6, second[0] * 1e6,
           second[KERNEL_RUNS / 2] * 1e6);
}

void seen_kernels(int n)
{
    Matrix *t = malloc(sizeof *t);
    if (!t || n > N_MAX) {
        puts("band kernels by themselves: left out, the bridge is too large for this bench");
        free(t);
        return;
    }
    fill(t, n);
    printf("band kernels by themselves: n = %d, half bandwidth %d, one right side\n", n, (int)BAND);
    time_pair(t, "L D L'", t->lower, our_factor, our_solve);
    time_pair(t, "L U", t->general, our_lu_factor, our_lu_solve);
#ifdef BENCH_LAPACK
    time_pair(t, "LAPACK dpbtrf, dpbtrs", t->lapack_lower, lapack_factor, lapack_solve);
    time_pair(t, "LAPACK dgbtrf, dgbtrs", t->lapack_general, lapack_lu_factor, lapack_lu_solve);
#else
    puts("  LAPACK: left out, liblapacke-dev is missing");
#endif
    free(t);
}
