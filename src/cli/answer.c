/* From the bridge file to the answer. */
#define _XOPEN_SOURCE 700
#include <errno.h>

#include <signal.h>
#include <string.h>
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

/* ---- input ---- */

/* All errors of the input at once; the caller has nothing left to say. */
static Status diagnostics_print(const Diagnostics *list, const char *file, Error *err)
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

static Status bridge_find(const char *path, Answer *answer, Error *err)
{
    const char *bytes;
    size_t size;
    Node *root;
    Diagnostics *list = ARENA_NEW(answer->arena, Diagnostics, 1);
    TRY(file_read(!strcmp(path, "-") ? "/dev/stdin" : path, YAML_SIZE_MAX, answer->arena, &bytes,
                  &size, err));
    if (yaml_read(bytes, size, answer->arena, &root, list) != STATUS_OK ||
        bridge_read(root, answer->arena, &answer->bridge, list) != STATUS_OK)
        return diagnostics_print(list, path, err);
    return STATUS_OK;
}

static void source_fill(Answer *answer, const Request *request)
{
    ReportSource *s = &answer->source;
    const int count = bridge_value_count(answer->bridge);
    const BridgeValue **value = ARENA_NEW(answer->arena, const BridgeValue *, count + 1);
    for (int i = 0; i < count; i++) value[i] = bridge_value(answer->bridge, i);
    const BridgeValue *title = bridge_value_at(answer->bridge, "title");
    s->name = title ? title->text : "";
    s->file = request->file;
    s->version = CLENCH_VERSION;
    s->value = value;
    s->value_count = count;
    s->units = bridge_units(answer->bridge);
    if (request->given[OPTION_UNITS])
        s->units = !strcmp(request->value[OPTION_UNITS], "SI") ? UNITS_SI : UNITS_US;
    s->all_defaults = request->given[OPTION_DEFAULTS];
}

static Status options_check(const Request *request, double *thrust_N, Error *err)
{
    const char *units = request->value[OPTION_UNITS], *thrust = request->value[OPTION_THRUST];
    *thrust_N = 0;
    if (units && strcmp(units, "US") != 0 && strcmp(units, "SI") != 0)
        return error_set(err, STATUS_BAD_INPUT, "--units is US or SI, not '%s'", units);
    if (request->given[OPTION_HTML] && !strcmp(request->value[OPTION_HTML], request->file))
        return error_set(err, STATUS_BAD_INPUT, "--html would replace the bridge file itself");
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

static Status answer_compute(const Request *request, double thrust_N, Answer *answer, Error *err)
{
    const BridgeLine *line;
    int line_count;
    TRY(bridge_find(request->file, answer, err));
    source_fill(answer, request);
    TRY(bridge_lines(answer->bridge, 1, answer->arena, &line, &line_count, err));
    const ThrustWish wish = {.given_N = thrust_N, .settings = stage_settings_default()};
    progress_start();
    const Status status = thrust_find(line, line_count, &wish, answer->arena, answer->scratch,
                                      &answer->source.answer, err);
    progress_stop();
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
