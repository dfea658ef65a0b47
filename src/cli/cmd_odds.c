/* How sure: many lives of the deck, on all processors. */
#define _DEFAULT_SOURCE
#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "clench/batch.h"
#include "cli.h"

static const uint32_t usual_lives = 1000;

static volatile sig_atomic_t interrupted;
static void interrupt(int signal) { interrupted = signal; }

/* ---- options ---- */

static Status number_read(const char *option, const char *text, double least, double most,
                          double *value, Error *err)
{
    char *end;
    errno = 0;
    const unsigned long long read = strtoull(text, &end, 10);
    if (errno || *end || end == text || text[0] == '-' || (double)read < least ||
        (double)read > most)
        return error_set(err, STATUS_BAD_INPUT, "%s: '%.40s' is no whole number from %.0f to %.0f",
                         option, text, least, most);
    *value = (double)read;
    return STATUS_OK;
}

static Status sample_read(const char *text, SampleKind *kind, Error *err)
{
    static const char *const name[] = {"plain", "latin", "sobol"};
    for (int k = 0; k < 3; k++)
        if (!strcmp(text, name[k])) {
            *kind = (SampleKind)k;
            return STATUS_OK;
        }
    return error_set(err, STATUS_BAD_INPUT, "--draw: '%.40s' is none of plain, latin, sobol", text);
}

static Status wishes_read(const Request *request, OddsWish *odds, BatchWish *batch, Error *err)
{
    double lives = usual_lives, seed = 1, threads = 0;
    odds->sample = SAMPLE_LATIN;
    if (request->given[OPTION_LIVES])
        TRY(number_read("--lives", request->value[OPTION_LIVES], 20, ODDS_LIVES_MAX, &lives, err));
    if (request->given[OPTION_SEED])
        TRY(number_read("--seed", request->value[OPTION_SEED], 0, 4294967295.0, &seed, err));
    if (request->given[OPTION_THREADS])
        TRY(number_read("--threads", request->value[OPTION_THREADS], 1, BATCH_THREADS_MAX, &threads,
                        err));
    if (request->given[OPTION_DRAW])
        TRY(sample_read(request->value[OPTION_DRAW], &odds->sample, err));
    odds->lives = (uint32_t)lives;
    odds->seed = (uint64_t)seed;
    batch->threads = (int)threads;
    return STATUS_OK;
}

/* ---- a sign of life on a terminal ---- */

typedef struct Watch {
    struct timespec start;
    bool terminal;
} Watch;

static bool progress(void *with, uint32_t done, uint32_t total)
{
    const Watch *watch = with;
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    const double passed_s = (double)(now.tv_sec - watch->start.tv_sec) +
                            1e-9 * (double)(now.tv_nsec - watch->start.tv_nsec);
    if (watch->terminal && done > 0) {
        const double left_s = passed_s * (total - done) / done;
        fprintf(stderr, "\r%u of %u lives, %.0f s left\033[K", done, total, left_s);
        if (done == total) fputs("\r\033[K", stderr);
    }
    return interrupted != 0;
}

static Status run(const Answer *answer, const OddsStudy *study, BatchWish *wish, OddsAnswer *odds,
                  Error *err)
{
    Watch watch = {.terminal = isatty(STDERR_FILENO)};
    bool stopped;
    OddsLife *life = ARENA_NEW(answer->arena, OddsLife, study->lives);
    float *open_day =
        arena_take(answer->arena, sizeof *open_day * study->lives * (size_t)study->joint_count);
    clock_gettime(CLOCK_MONOTONIC, &watch.start);
    wish->progress = progress;
    wish->with = &watch;
    struct sigaction action = {0}, before;
    action.sa_handler = interrupt;
    sigaction(SIGINT, &action, &before);
    const Status status = batch_lives(study, wish, life, open_day, &stopped, err);
    sigaction(SIGINT, &before, NULL);
    TRY(status);
    if (stopped) return error_set(err, STATUS_IO, "interrupted: no answer without all lives");
    odds_answer(study, life, open_day, answer->arena, odds);
    return STATUS_OK;
}

static Status show(const Request *request, const Answer *answer, Error *err)
{
    OddsWish wish = {0};
    BatchWish batch = {0};
    OddsStudy study;
    OddsAnswer odds = {0};
    TRY(wishes_read(request, &wish, &batch, err));
    TRY(odds_study(answer->source.bridge, answer->source.answer, &wish, &study, err));
    TRY(run(answer, &study, &batch, &odds, err));
    const Report *report =
        report_odds(&answer->source, &odds, request->given[OPTION_HTML], answer->arena);
    if (request->given[OPTION_HTML]) TRY(output_page(report, request->value[OPTION_HTML], err));
    Text out = text_start(answer->arena);
    if (request->given[OPTION_JSON])
        report_odds_json(&answer->source, &odds, &out);
    else
        report_text(report, &out);
    TRY(output_print(&out, err));
    return odds.year[odds.year_count - 1].closed.share_1 >= study.odds->wanted_1 ? STATUS_OK
                                                                                 : STATUS_NOT_MET;
}

Status cmd_odds(const Request *request, Error *err)
{
    Answer answer;
    TRY(answer_find(request, &answer, err));
    const Status status = show(request, &answer, err);
    answer_free(&answer);
    return status;
}
