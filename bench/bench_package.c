/* Checks and calculation package inside one process.
 *
 *     bench_package [FILE]      run it from the root of the project: FILE is examples/causeway.yaml
 *
 * Prints minimum and median of processor time: checks alone with the answer at hand, every stage at a
 * given thrust with all checks, and the report with its PDF. The bytes of the file are read once. */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "clench/checks.h"
#include "clench/paper.h"
#include "clench/report.h"
#include "clench/text.h"

enum { RUNS = 21 };
static const size_t arena_bytes = (size_t)3 << 30;

typedef struct Laps {
    double find_s, lives_s, checks_s, other_s, report_s, pdf_s;
    double need_N;
    size_t pdf_bytes;
    int rows;
} Laps;

static double cpu_seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

static void must(Status status, const Error *err)
{
    if (status == STATUS_OK) return;
    fprintf(stderr, "bench_package: %s\n", err->text);
    exit(1);
}

static double since(double *last)
{
    const double now = cpu_seconds(), lap = now - *last;
    *last = now;
    return lap;
}

/* Construction and life of every line once more, from its first day, with the need at hand. */
static void live_again(const ThrustAnswer *answer, Laps *laps)
{
    Error err = {0};
    double last = cpu_seconds();
    const StageSettings settings = stage_settings_default();
    Arena *result = arena_create(arena_bytes), *scratch = arena_create(arena_bytes);
    const ThrustStart *start[LINES_MAX];
    const ThrustAnswer *again;
    for (int k = 0; k < answer->line_count; k++)
        must(thrust_start(answer->line[k].line, &settings, result, scratch, &start[k], &err), &err);
    must(thrust_again(answer, start, answer->thrust_N, result, scratch, &again, &err), &err);
    arena_free(result);
    arena_free(scratch);
    laps->lives_s = since(&last);
}

/* From the bytes to the PDF; given_N = 0 looks for the thrust too. */
static void package(const char *path, const char *bytes, size_t size, double given_N, Laps *laps)
{
    Error err = {0};
    double last = cpu_seconds();
    Arena *result = arena_create(arena_bytes), *scratch = arena_create(arena_bytes);
    Diagnostics *list = ARENA_NEW(result, Diagnostics, 1);
    Node *root = NULL;
    const CheckList *checks = NULL;
    ReportSource source = {.file = path};
    must(yaml_read(bytes, size, result, &root, list), &err);
    must(report_find(root, given_N, result, scratch, &source, list, &err), &err);
    laps->find_s = since(&last);
    live_again(source.answer, laps);
    last = cpu_seconds();
    const CheckCase with = {.bridge = source.bridge, .answer = source.answer, .arena = result};
    must(checks_run(&with, &checks, &err), &err);
    laps->checks_s = since(&last);
    laps->rows = checks->count;
    laps->need_N = source.answer->need_N;
    PackageSource pack = {
        .report = &source, .checks = checks, .revision = "", .date = "2031-05-04"};
    must(report_other(&source, 1.1, result, scratch, &pack.other, &err), &err);
    laps->other_s = since(&last);
    const Report *const report = report_package(&pack, result);
    laps->report_s = since(&last);
    const PaperSettings settings = {paper_size(source.units), pack.date, pack.revision};
    Text pdf = text_start(result);
    must(paper_pdf(report, &settings, &pdf, &err), &err);
    laps->pdf_s = since(&last);
    laps->pdf_bytes = pdf.length;
    arena_free(result);
    arena_free(scratch);
}

static int by_size(const void *one, const void *other)
{
    const double a = *(const double *)one, b = *(const double *)other;
    return (a > b) - (a < b);
}

static void print_ms(const char *what, double *seconds)
{
    qsort(seconds, RUNS, sizeof *seconds, by_size);
    printf("  %-56s minimum %8.2f ms   median %8.2f ms\n", what, seconds[0] * 1e3,
           seconds[RUNS / 2] * 1e3);
}

int main(int argc, char **argv)
{
    const char *path = argc > 1 ? argv[1] : "examples/causeway.yaml";
    static char bytes[1 << 20];
    FILE *file = fopen(path, "rb");
    if (!file) must(STATUS_IO, &(Error){.text = "cannot read the bridge file"});
    const size_t size = fread(bytes, 1, sizeof bytes, file);
    fclose(file);
    Laps first, laps;
    package(path, bytes, size, 0, &first); /* fonts are found here, and the thrust */
    double alone[RUNS], lived[RUNS], staged[RUNS], report[RUNS], whole[RUNS];
    for (int i = 0; i < RUNS; i++) {
        package(path, bytes, size, first.need_N, &laps);
        alone[i] = laps.checks_s;
        lived[i] = laps.lives_s + laps.checks_s;
        staged[i] = laps.find_s + laps.checks_s;
        report[i] = laps.report_s + laps.pdf_s;
        package(path, bytes, size, 0, &laps);
        whole[i] = laps.find_s + laps.checks_s + laps.other_s + laps.report_s + laps.pdf_s;
    }
    printf("%s: %d checks, PDF of %zu bytes; processor time, %d runs\n", path, laps.rows,
           laps.pdf_bytes, RUNS);
    print_ms("all checks, the answer at hand", alone);
    print_ms("every stage of all lines and all checks, need at hand", lived);
    print_ms("file, need and limits looked for, stages, checks", staged);
    print_ms("report and PDF, answer and checks at hand", report);
    print_ms("file to PDF with the thrust looked for", whole);
    printf("  first in a process, fonts looked for: PDF %.0f ms\n", first.pdf_s * 1e3);
    return 0;
}
