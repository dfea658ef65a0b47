/* From the bridge file to the answer. */
#define _DEFAULT_SOURCE
#include <errno.h>

#include <signal.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <unistd.h>

#include "cli.h"

static const size_t arena_bytes = (size_t)3 << 30;

Status output_print(const Text *text, Error *err)
{
    const bool good = fwrite(text->bytes, 1, text->length, stdout) == text->length;
    if (!good || fflush(stdout) != 0)
        return error_set(err, STATUS_IO, "standard output cannot be written: %s", strerror(errno));
    return STATUS_OK;
}

/* ---- a sign of life: a dot a second on a terminal, nothing anywhere else ---- */

static void tick(int signal)
{
    (void)signal;
    const int kept = errno;
    if (write(STDERR_FILENO, ".", 1) < 0) errno = kept;
}

static void progress_start(void)
{
    if (!isatty(STDERR_FILENO)) return;
    struct sigaction action = {0};
    action.sa_handler = tick;
    action.sa_flags = SA_RESTART;
    sigaction(SIGALRM, &action, NULL);
    const struct itimerval second = {{1, 0}, {1, 0}};
    setitimer(ITIMER_REAL, &second, NULL);
}

static void progress_stop(void)
{
    if (!isatty(STDERR_FILENO)) return;
    const struct itimerval never = {{0, 0}, {0, 0}};
    setitimer(ITIMER_REAL, &never, NULL);
    signal(SIGALRM, SIG_DFL);
    fputs("\r\033[K", stderr);
}

/* Columns of the terminal that shows the text, directly or through a pager; a file gets the full
 * width on every machine. */
static int screen_columns(void)
{
    struct stat out;
    struct winsize size;
    int seen = STDOUT_FILENO;
    if (fstat(STDOUT_FILENO, &out) == 0 && S_ISFIFO(out.st_mode)) seen = STDERR_FILENO;
    if (ioctl(seen, TIOCGWINSZ, &size) != 0 || size.ws_col == 0) return REPORT_COLUMNS;
    if (size.ws_col < REPORT_COLUMNS_LEAST) return REPORT_COLUMNS_LEAST;
    return size.ws_col < REPORT_COLUMNS ? size.ws_col : REPORT_COLUMNS;
}

/* ---- input ---- */

/* All errors of the input at once; the caller has nothing left to say. */
Status diagnostics_print(const Diagnostics *list, const char *file, Error *err)
{
    char text[1024];
    Status status = STATUS_BAD_INPUT;
    for (int i = 0; i < list->count; i++)
        fprintf(stderr, "error: %s\n", error_format(&list->item[i], file, text, sizeof text));
    if (list->dropped) fprintf(stderr, "error: %s: %d more errors\n", file, list->dropped);
    if (list->count) status = list->item[0].status;
    *err = (Error){.status = status};
    return status;
}

static Status tree_find(const char *path, Answer *answer, Diagnostics *list, Node **root,
                        Error *err)
{
    TRY(file_read(!strcmp(path, "-") ? "/dev/stdin" : path, YAML_SIZE_MAX, answer->arena,
                  &answer->bytes, &answer->size, err));
    if (yaml_read(answer->bytes, answer->size, answer->arena, root, list) != STATUS_OK)
        return diagnostics_print(list, path, err);
    return STATUS_OK;
}

static Status options_check(const Request *request, double *thrust_N, Error *err)
{
    const char *units = request->value[OPTION_UNITS], *thrust = request->value[OPTION_THRUST];
    *thrust_N = 0;
    if (units && strcmp(units, "US") != 0 && strcmp(units, "SI") != 0)
        return error_set(err, STATUS_BAD_INPUT, "--units is US or SI, not '%s'", units);
    if (request->given[OPTION_HTML] && !strcmp(request->value[OPTION_HTML], request->file))
        return error_set(err, STATUS_BAD_INPUT, "--html would replace the bridge file itself");
    if (request->given[OPTION_OUT] && !strcmp(request->value[OPTION_OUT], request->file))
        return error_set(err, STATUS_BAD_INPUT, "-o would replace the bridge file itself");
    if (!thrust) return STATUS_OK;
    Error why = {0};
    if (quantity_read(thrust, DIM_FORCE, thrust_N, &why) != STATUS_OK) {
        *err = why;
        err->from = err->to = (Place){0}; /* of the word, not of the file */
        snprintf(err->key, sizeof err->key, "--thrust");
        return err->status;
    }
    if (!(*thrust_N > 0))
        return error_set(err, STATUS_BAD_INPUT, "--thrust: '%s' is no thrust: it must push",
                         thrust);
    return STATUS_OK;
}

/* What the options say of the source. */
static void answer_dress(const Request *request, Answer *answer)
{
    answer->source.file = request->file;
    if (request->given[OPTION_UNITS])
        answer->source.units = !strcmp(request->value[OPTION_UNITS], "SI") ? UNITS_SI : UNITS_US;
    answer->source.all_defaults = request->given[OPTION_DEFAULTS];
    answer->source.columns = screen_columns();
}

static Status answer_compute(const Request *request, double thrust_N, Answer *answer, Error *err)
{
    Node *root;
    Diagnostics *list = ARENA_NEW(answer->arena, Diagnostics, 1);
    TRY(tree_find(request->file, answer, list, &root, err));
    progress_start();
    const Status status =
        report_find(root, thrust_N, answer->arena, answer->scratch, &answer->source, list, err);
    progress_stop();
    if (list->count) return diagnostics_print(list, request->file, err);
    TRY(status);
    answer_dress(request, answer);
    return STATUS_OK;
}

static Status answer_parse(const Request *request, Answer *answer, Error *err)
{
    Node *root;
    Diagnostics *list = ARENA_NEW(answer->arena, Diagnostics, 1);
    TRY(tree_find(request->file, answer, list, &root, err));
    if (report_read(root, answer->arena, &answer->source, list) != STATUS_OK || list->count)
        return diagnostics_print(list, request->file, err);
    answer_dress(request, answer);
    return STATUS_OK;
}

Status answer_read(const Request *request, Answer *answer, Error *err)
{
    double thrust_N;
    TRY(options_check(request, &thrust_N, err));
    *answer = (Answer){.arena = arena_create(arena_bytes), .scratch = arena_create(arena_bytes)};
    const Status status = answer_parse(request, answer, err);
    if (status != STATUS_OK) answer_free(answer);
    return status;
}

Status answer_find(const Request *request, Answer *answer, Error *err)
{
    double thrust_N;
    TRY(options_check(request, &thrust_N, err));
    *answer = (Answer){.arena = arena_create(arena_bytes), .scratch = arena_create(arena_bytes)};
    const Status status = answer_compute(request, thrust_N, answer, err);
    if (status != STATUS_OK) answer_free(answer);
    return status;
}

void answer_free(Answer *answer)
{
    arena_free(answer->arena);
    arena_free(answer->scratch);
    *answer = (Answer){0};
}

Status answer_verdict(const Answer *answer)
{
    return answer->source.answer->met ? STATUS_OK : STATUS_NOT_MET;
}
