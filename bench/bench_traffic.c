/* Live load on the influence lines of one bridge: three spans, 80 lines of moment, both signs, HL-93
 * with the train rule on the negative one. Prints minimum and median of many runs. */
#define _POSIX_C_SOURCE 200809L
#include "clench/traffic.h"

#include <stdlib.h>
#include <time.h>

#include "../tests/beam_lines.h"

enum { LINES = 80, COUNT_MAX = 601, RUNS = 101 };
typedef struct Bench {
    int count;
    double x_m[COUNT_MAX], value[LINES][COUNT_MAX], work[8 * (COUNT_MAX + 2)];
    double sum; /* so that nothing is optimised away */
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

static void fill(Bench *b, int count)
{
    const Beam beam = {3, {30, 40, 30}};
    b->count = count;
    for (int i = 0; i < count; i++) b->x_m[i] = 100.0 * i / (count - 1);
    for (int k = 0; k < LINES; k++)
        for (int i = 0; i < count; i++)
            b->value[k][i] = beam_moment(&beam, 100.0 * (k + 0.5) / LINES, b->x_m[i]);
}

static void all_lines(Bench *b, const LiveLoad *live)
{
    for (int k = 0; k < LINES; k++) {
        const InfluenceLine line = {b->count, b->x_m, b->value[k]};
        b->sum += traffic_extreme(live, &line, 1, false, b->work).value;
        b->sum += traffic_extreme(live, &line, -1, true, b->work).value;
    }
}

int main(void)
{
    static Bench bench;
    static const int counts[] = {150, 301, 601};
    const LiveLoad live = traffic_hl93();
    for (int c = 0; c < 3; c++) {
        double run[RUNS];
        fill(&bench, counts[c]);
        for (int r = 0; r < RUNS; r++) {
            const double start = seconds();
            all_lines(&bench, &live);
            run[r] = seconds() - start;
        }
        qsort(run, RUNS, sizeof run[0], by_size);
        printf("%d stations, %d lines, both signs: minimum %.3f ms, median %.3f ms\n", counts[c],
               LINES, run[0] * 1e3, run[RUNS / 2] * 1e3);
    }
    return bench.sum == 0;
}
