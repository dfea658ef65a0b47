/* The whole of `clench thrust` inside one process, from the bytes of the file to the answer.
 *
 *     bench_thrust [FILE]       run it from the root of the project: FILE is examples/causeway.yaml
 *
 * Prints minimum and median of many runs: whole, its phases, factor-and-solve, twice the stations,
 * twice the times; then band kernels and those of LAPACK at the size of that bridge, and one
 * elastic step in the general-purpose solver ccx. Phases are seen through the linker (--wrap): the
 * engine is the one that ships. Whole runs are timed with the wrappers passing straight through. */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#include "bench_seen.h"
#include "clench/report.h"
#include "clench/text.h"

enum { RUNS = 61, SEEN_RUNS = 41, CCX_RUNS = 11 };
static const size_t arena_bytes = (size_t)3 << 30;

static double cpu_seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

typedef struct Sample {
    double least, median; /* unit: s */
} Sample;

static Sample sample(double *seconds, int count)
{
    qsort(seconds, (size_t)count, sizeof *seconds, by_size);
    return (Sample){seconds[0], seconds[count / 2]};
}

static void print_ms(const char *what, Sample s)
{
    printf("  %-40s minimum %8.3f ms   median %8.3f ms\n", what, s.least * 1e3, s.median * 1e3);
}

static void stop(const char *why)
{
    fprintf(stderr, "bench_thrust: %s\n", why);
    exit(1);
}

/* ---- one answer ---- */

typedef struct Wish {
    const char *bytes;
    size_t size;
    int fineness;
    double steps; /* intervals for each one of the usual */
} Wish;

typedef struct Laps {
    double read_s, model_s, find_s, wall_s, cpu_s;
    int stations, times, runs, factorisations, newton_steps, lines;
    size_t peak_bytes;
    double need_N;
} Laps;

static void answer(const Wish *wish, Laps *laps)
{
    Error err = {0};
    Node *root = NULL;
    const Bridge *bridge = NULL;
    const BridgeLine *line = NULL;
    const ThrustAnswer *found = NULL;
    int count = 0;
    ThrustWish how = {.settings = stage_settings_default()};
    how.settings.first_step_day /= wish->steps;
    how.settings.step_growth_1 = pow(how.settings.step_growth_1, 1.0 / wish->steps);
    seen_peak_bytes = 0;
    const double start = seen_clock(), cpu = cpu_seconds();
    Arena *result = arena_create(arena_bytes), *scratch = arena_create(arena_bytes);
    Diagnostics *list = ARENA_NEW(result, Diagnostics, 1);
    if (yaml_read(wish->bytes, wish->size, result, &root, list) != STATUS_OK ||
        bridge_read(root, result, &bridge, list) != STATUS_OK)
        stop(list->item[0].text);
    const double read = seen_clock();
    if (bridge_lines(bridge, wish->fineness, result, &line, &count, &err) != STATUS_OK)
        stop(err.text);
    const double model = seen_clock();
    if (thrust_find(line, count, &how, result, scratch, &found, &err) != STATUS_OK) stop(err.text);
    const double find = seen_clock();
    const LineAnswer *shown = &found->line[found->governing_line];
    *laps = (Laps){.read_s = read - start,
                   .model_s = model - read,
                   .find_s = find - model,
                   .stations = shown->line->model.station_count,
                   .times = shown->history->time_count,
                   .runs = found->runs,
                   .factorisations = shown->history->factorisations,
                   .newton_steps = shown->history->newton_steps,
                   .lines = found->line_count,
                   .need_N = found->need_N};
    arena_free(result);
    arena_free(scratch);
    laps->wall_s = seen_clock() - start;
    laps->cpu_s = cpu_seconds() - cpu;
    laps->peak_bytes = seen_peak_bytes;
}

/* ---- whole, finer, more steps: taken in turns, so that a busy machine is busy for all ---- */

enum { PLAIN, FINE, HALVED, DOUBLED, KINDS };

/* Events and the parts of a jacking are times too, which shorter intervals leave as they are: what
 * doubles the times is more than two intervals for one. */
static double doubling(const Wish *base)
{
    Wish wish = *base;
    Laps plain, more;
    answer(&wish, &plain);
    do {
        wish.steps += 0.1;
        answer(&wish, &more);
    } while (more.times < 2 * plain.times);
    return wish.steps;
}

/* Both: the whole answer, then the other one. */
static void print_against(const Laps *laps[2], const Sample wall[2], const Sample cpu[2])
{
    const double runs = (double)laps[0]->runs / laps[1]->runs;
    print_ms("wall", wall[1]);
    print_ms("cpu", cpu[1]);
    printf("  times the whole answer: wall %.2f (minima) %.2f (medians), cpu %.2f, %.2f\n",
           wall[1].least / wall[0].least, wall[1].median / wall[0].median,
           cpu[1].least / cpu[0].least, cpu[1].median / cpu[0].median);
    printf("  the same for one of its runs: cpu %.2f, %.2f\n", runs * cpu[1].least / cpu[0].least,
           runs * cpu[1].median / cpu[0].median);
}

static void wholes(const Wish *base, Laps last[KINDS])
{
    static double wall[KINDS][RUNS], cpu[KINDS][RUNS], part[3][RUNS];
    const Wish wish[KINDS] = {*base,
                              {base->bytes, base->size, 2, 1},
                              {base->bytes, base->size, 1, 2},
                              {base->bytes, base->size, 1, doubling(base)}};
    Sample w[KINDS], c[KINDS];
    for (int r = 0; r < RUNS; r++)
        for (int k = 0; k < KINDS; k++) {
            answer(&wish[k], &last[k]);
            wall[k][r] = last[k].wall_s;
            cpu[k][r] = last[k].cpu_s;
            if (k != PLAIN) continue;
            part[0][r] = last[k].read_s;
            part[1][r] = last[k].model_s;
            part[2][r] = last[k].find_s;
        }
    for (int k = 0; k < KINDS; k++) {
        w[k] = sample(wall[k], RUNS);
        c[k] = sample(cpu[k], RUNS);
    }
    printf("whole answer: %d lines, %d runs of %d times on %d stations, need %.1f kN\n",
           last[PLAIN].lines, last[PLAIN].runs, last[PLAIN].times, last[PLAIN].stations,
           last[PLAIN].need_N / 1e3);
    print_ms("wall", w[PLAIN]);
    print_ms("cpu", c[PLAIN]);
    print_ms("of it: text to bridge", sample(part[0], RUNS));
    print_ms("of it: bridge to models", sample(part[1], RUNS));
    print_ms("of it: thrust_find", sample(part[2], RUNS));
    printf("  memory of all arenas, summed: %.1f MB\n", (double)last[PLAIN].peak_bytes / 1048576);
    static const char *const name[] = {"", "fineness 2", "every interval halved", "times doubled"};
    for (int k = FINE; k < KINDS; k++) {
        printf("%s: %d stations (%.2f times as many), %d times (%.2f times as many), %d runs\n",
               name[k], last[k].stations, (double)last[k].stations / last[PLAIN].stations,
               last[k].times, (double)last[k].times / last[PLAIN].times, last[k].runs);
        const Laps *laps[2] = {&last[PLAIN], &last[k]};
        const Sample walls[2] = {w[PLAIN], w[k]}, cpus[2] = {c[PLAIN], c[k]};
        print_against(laps, walls, cpus);
    }
}

/* ---- where thrust_find spends its time ---- */

static void phases(const Wish *base)
{
    static double time[SEEN_COUNT][SEEN_RUNS], whole[SEEN_RUNS];
    Laps laps;
    for (int r = 0; r < SEEN_RUNS; r++) {
        seen_start();
        answer(base, &laps);
        seen_stop();
        whole[r] = laps.wall_s;
        for (int k = 0; k < SEEN_COUNT; k++) time[k][r] = seen_seconds[k];
    }
    const Sample all = sample(whole, SEEN_RUNS);
    puts("where it goes, watched (the watching costs a little; a call inside another counts in "
         "both)");
    print_ms("whole", all);
    for (int k = 0; k < SEEN_COUNT; k++) {
        const Sample s = sample(time[k], SEEN_RUNS);
        printf("  %-24s %6ld calls  minimum %8.3f ms   median %8.3f ms   %5.1f %%\n", seen_name(k),
               seen_calls[k], s.least * 1e3, s.median * 1e3, 100 * s.least / all.least);
    }
    const long factors = seen_calls[SEEN_BAND_FACTOR] + seen_calls[SEEN_BAND_LU_FACTOR];
    printf("  factorisations of the shown line: %d in %d Newton steps; of the whole answer: %ld\n",
           laps.factorisations, laps.newton_steps, factors);
}

/* ---- ccx beside it ---- */

static void beside_ccx(int stations, double whole_cpu_s)
{
    char command[256];
    double least = 0, median = 0, cpu = 0;
    snprintf(
        command, sizeof command,
        "command -v ccx >/dev/null && /usr/bin/python3 bench/elastic_step_ccx.py --stations %d "
        "--runs %d 2>/dev/null",
        stations, (int)CCX_RUNS);
    fflush(stdout);
    FILE *pipe = popen(command, "r"); /* NOLINT(cert-env33-c): our own words */
    const bool there = pipe && fscanf(pipe, "%lf %lf %lf", &least, &median, &cpu) == 3;
    if (pipe) pclose(pipe);
    if (!there) {
        puts("one elastic step in ccx: left out, ccx (Debian: calculix-ccx) or python3 is missing");
        return;
    }
    puts("one elastic step of one span in ccx, beams and links, whole process");
    print_ms("wall", (Sample){least, median});
    printf("  least cpu %.3f ms\n", cpu * 1e3);
    printf("  whole answer over that one step: %.2f (least cpu of both)\n", whole_cpu_s / cpu);
}

static char *file_bytes(const char *path, size_t *size)
{
    FILE *file = fopen(path, "rb");
    if (!file) stop("the bridge file cannot be opened: run it from the root of the project");
    char *bytes = malloc((size_t)YAML_SIZE_MAX + 1);
    if (!bytes) stop("no memory left");
    *size = fread(bytes, 1, YAML_SIZE_MAX, file);
    bytes[*size] = 0;
    fclose(file);
    return bytes;
}

int main(int count, char **word)
{
    Wish wish = {.fineness = 1, .steps = 1};
    char *bytes = file_bytes(count > 1 ? word[1] : "examples/causeway.yaml", &wish.size);
    Laps last[KINDS], first;
    wish.bytes = bytes;
    answer(&wish, &first); /* caches and pages warm */
    printf("first answer of the process: %.3f ms\n", first.wall_s * 1e3);
    wholes(&wish, last);
    phases(&wish);
    seen_kernels(6 * last[PLAIN].stations);
    double least = INFINITY;
    for (int r = 0; r < RUNS; r++) {
        answer(&wish, &first);
        least = fmin(least, first.cpu_s);
    }
    beside_ccx(last[PLAIN].stations, least);
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("largest resident size of this process, twice the stations included: %.1f MB\n",
           (double)usage.ru_maxrss / 1024);
    free(bytes);
    return 0;
}
