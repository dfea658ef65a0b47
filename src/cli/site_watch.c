/* A transducer into the log: a reading now and then until Ctrl-C. */
#define _GNU_SOURCE
#include <errno.h>
#include <math.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "clench/transducer.h"
#include "site.h"

static const size_t row_bytes = (size_t)1 << 30;

typedef struct Watch {
    const Request *request;
    TransducerMap map;
    Transducer *device;
    LogbookWords fixed;
    long most; /* rows; 0: until Ctrl-C */
    sigset_t ends;
    Status last; /* of the last verdict */
    bool silent; /* told already */
} Watch;

static Status times_read(const Request *request, long *most, Error *err)
{
    const char *const text = request->value[OPTION_TIMES];
    char *end = NULL;
    *most = text ? strtol(text, &end, 10) : 0;
    if (text && (*end || *most < 1 || *most > LOGBOOK_ROWS_MAX))
        return error_set(err, STATUS_BAD_INPUT, "--times: '%.40s' is no number of rows: 1 to %d",
                         text, (int)LOGBOOK_ROWS_MAX);
    return STATUS_OK;
}

/* "2031-05-04T09:30:00.250Z" */
static const char *time_now(Arena *arena)
{
    struct timespec now;
    struct tm parts;
    char text[32];
    clock_gettime(CLOCK_REALTIME, &now);
    gmtime_r(&now.tv_sec, &parts);
    strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%S", &parts);
    return arena_printf(arena, "%s.%03ldZ", text, now.tv_nsec / 1000000);
}

/* ---- one row ---- */

static Status row_say(SiteLog *site, const LogbookWords *words, const StoreRecord *record,
                      const SiteTold *told, Error *err)
{
    const char *const call = site_call_name(told->verdict.call);
    const char *const told_too = words->remark && *words->remark ? words->remark : NULL;
    TRY(site_say(site, err, "record %ld, %s, %s%s%s\n", record->number, words->time, call,
                 told_too ? "; " : "", told_too ? told_too : ""));
    return told->verdict.call == SITE_GO ? STATUS_OK
                                         : site_say(site, err, "%s\n", told->verdict.reason);
}

/* As a row of a logger: the same words, the same record. */
static Status row_keep(SiteLog *site, const LogbookWords *words, Watch *w, Error *err)
{
    SiteTold told;
    StoreRecord record = {.kind = "reading", .at = sitelog_now(site->arena)};
    TRY(logbook_reading_body(words, &site->book.day, site->arena, &record.body, err));
    record.id = logbook_row_id(record.body, site->arena);
    TRY(store_log_add(site->log, &record, 1, err));
    TRY(sitelog_judge(site, record.number, &told, err));
    w->last = told.verdict.call == SITE_GO ? STATUS_OK : STATUS_NOT_MET;
    return row_say(site, words, &record, &told, err);
}

static Status row_with(SiteLog *site, Watch *w, const double *number, Error *err)
{
    LogbookWords words = w->fixed;
    words.time = time_now(site->arena);
    transducer_words(&w->map, number, site->arena, &words);
    return row_keep(site, &words, w, err);
}

/* Memory and log of each row by itself: a watch may go on all day. */
static Status row_take(Watch *w, const double *number, Error *err)
{
    int unit;
    TRY(site_unit(w->request, &unit, err));
    SiteLog site = {.arena = arena_create(row_bytes), .scratch = arena_create(row_bytes)};
    Status status = sitelog_open(w->request->file, unit, &site, err);
    if (status == STATUS_OK) status = sitelog_load(&site, err);
    if (status == STATUS_OK) status = row_with(&site, w, number, err);
    sitelog_close(&site);
    arena_free(site.arena);
    arena_free(site.scratch);
    return status;
}

/* ---- the watch ---- */

static bool any_read(const Watch *w, const double *number)
{
    bool any = false;
    for (int i = 0; i < w->map.count; i++) any = any || isfinite(number[i]);
    return any;
}

/* A device that is silent is told once, and when it answers again. */
static Status once(Watch *w, SiteLog *site, bool *kept, Error *err)
{
    double number[TRANSDUCER_VALUES];
    Error why = {0};
    *kept = false;
    const Status status = transducer_read(w->device, number, &why);
    if (status != STATUS_OK || !any_read(w, number)) {
        const bool told = w->silent;
        w->silent = true;
        return told
                   ? STATUS_OK
                   : site_say(site, err, "no reading: %s; tried again until it answers\n",
                              status != STATUS_OK ? why.text : "the device refuses every register");
    }
    if (w->silent) TRY(site_say(site, err, "it answers again\n"));
    w->silent = false;
    *kept = true;
    return row_take(w, number, err);
}

static struct timespec after(struct timespec t, double seconds)
{
    const long long ns = t.tv_nsec + (long long)(seconds * 1e9);
    return (struct timespec){t.tv_sec + (time_t)(ns / 1000000000), (long)(ns % 1000000000)};
}

/* Until `next`; true where Ctrl-C ends it. */
static bool pause_or_end(const Watch *w, struct timespec next)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    const double left_s =
        (double)(next.tv_sec - now.tv_sec) + (double)(next.tv_nsec - now.tv_nsec) / 1e9;
    const struct timespec wait = after((struct timespec){0, 0}, left_s > 0 ? left_s : 0);
    return sigtimedwait(&w->ends, NULL, &wait) > 0;
}

static Status rows_watch(Watch *w, SiteLog *site, Error *err)
{
    struct timespec next;
    long rows = 0;
    bool kept;
    clock_gettime(CLOCK_MONOTONIC, &next);
    for (;;) {
        TRY(once(w, site, &kept, err));
        rows += kept;
        if (w->most && rows == w->most) break;
        struct timespec now;
        clock_gettime(CLOCK_MONOTONIC, &now);
        next = after(next, w->map.every_day * 86400);
        if (next.tv_sec < now.tv_sec) next = now; /* late: no row is made up for */
        if (pause_or_end(w, next)) break;
    }
    TRY(site_say(site, err, "%ld rows kept\n", rows));
    return w->last;
}

static Status watch(const Request *request, SiteLog *site, Error *err)
{
    Watch w = {.request = request};
    const Node *root;
    Diagnostics *const list = ARENA_NEW(site->arena, Diagnostics, 1);
    const char *const where = request->value[OPTION_MODBUS];
    if (!where || !request->given[OPTION_MAP])
        return error_set(err, STATUS_BAD_INPUT,
                         "clench site watch needs --modbus tcp:HOST:PORT or rtu:DEVICE, and --map");
    TRY(times_read(request, &w.most, err));
    TRY(site_words(request, site, &w.fixed, err));
    TRY(site_map(request->value[OPTION_MAP], site->arena, &root, err));
    if (transducer_map(root, &site->book.day, site->arena, &w.map, list) != STATUS_OK)
        return diagnostics_print(list, request->value[OPTION_MAP], err);
    TRY(transducer_open(where, &w.map, &w.device, err));
    sigemptyset(&w.ends);
    sigaddset(&w.ends, SIGINT);
    sigaddset(&w.ends, SIGTERM);
    sigaddset(&w.ends, SIGHUP);
    sigprocmask(SIG_BLOCK, &w.ends, NULL);
    signal(SIGPIPE, SIG_IGN);
    const Status status = rows_watch(&w, site, err);
    transducer_close(w.device);
    return status;
}

Status site_watch(const Request *request, Error *err)
{
    return site_act(request, true, watch, err);
}
