/* The log of the jacking day over HTTP. Each call opens the log, does its one thing and closes it: the command
 * line and other servers may write to it at the same time. Those who add here go one after the other. */
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "clench/sitelog.h"
#include "server_data.h"

enum { UNITS_MAX = 99, LOOK_BYTES = 16 << 20 };
static const size_t site_bytes = (size_t)1 << 30;

/* Of the query; 0 for the first. */
static Status unit_of(const Call *call, int *unit, Error *err)
{
    double number = 1;
    if (call->unit) TRY(query_number("unit", call->unit, 1, UNITS_MAX, &number, err));
    *unit = (int)number - 1;
    if (number != *unit + 1)
        return error_set(err, STATUS_BAD_INPUT, "unit=%.40s: not a whole number", call->unit);
    return STATUS_OK;
}

/* A log that could not be worked up within this server's memory is refused, not tried. */
static Status size_check(const char *path, Error *err)
{
    struct stat about;
    if (stat(path, &about) != 0 || about.st_size <= SERVER_SITE_MAX) return STATUS_OK;
    return error_set(err, STATUS_TOO_LARGE,
                     "the log \"%.160s\" has more than %d MiB: go on with clench site", path,
                     SERVER_SITE_MAX >> 20);
}

/* ---- looking ---- */

static void record_write(Json *json, const StoreRecord *r)
{
    json_open_map(json, NULL);
    json_int(json, "number", r->number);
    json_text(json, "id", r->id);
    json_text(json, "kind", r->kind);
    json_text(json, "at", r->at);
    json_text(json, "hash", r->hash);
    /* the file served has it; here it would be most of the answer */
    json_text(json, "body", strcmp(r->kind, "bridge") != 0 ? r->body : "");
    json_close_map(json);
}

/* What one look at a log finds; all zero where there is none. */
typedef struct Look {
    bool there;
    long last, after;
    char hash[SHA256_TEXT];
    const char *day, *job; /* record 2: its body and its hash */
    const StoreRecord *record;
    int count;
} Look;

static Status look_take(StoreLog *log, Arena *arena, Look *look, Error *err)
{
    const StoreRecord *plan;
    int count;
    TRY(store_log_last(log, &look->last, look->hash, err));
    TRY(store_log_page(log, 1, 1, arena, &plan, &count, err));
    if (count > 0 && strcmp(plan->kind, "plan") == 0)
        look->day = plan->body, look->job = plan->hash;
    return store_log_page(log, look->after, SERVER_RECORDS_SHOWN_MAX, arena, &look->record,
                          &look->count, err);
}

static Status look_at(const char *path, Arena *arena, Look *look, Error *err)
{
    StoreLog *log;
    TRY(size_check(path, err));
    TRY(store_log_open(path, false, &log, err));
    look->there = log != NULL;
    if (!log) return STATUS_OK;
    const Status status = look_take(log, arena, look, err);
    store_log_close(log);
    return status;
}

/* Once there is a record after `look->after`, or `seconds` later. Two changes within one tick of the file
 * system's clock look like one: hence a look each second. */
static Status look_wait(Server *server, const char *path, double seconds, Arena *arena, Look *look,
                        Error *err)
{
    const double end_s = monotonic_s() + seconds;
    const size_t level = arena_mark(arena);
    for (;;) {
        const Print print = print_take(path);
        TRY(look_at(path, arena, look, err));
        const double left_s = end_s - monotonic_s();
        if (look->count > 0 || left_s <= 0) return STATUS_OK;
        if (!print_wait(server, path, &print, left_s < 1 ? left_s : 1)) return STATUS_OK;
        arena_reset(arena, level);
    }
}

static void look_reply(const Server *server, const Call *call, int unit, const Look *look,
                       Reply *reply)
{
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_text(&json, "file", server->name);
    json_text(&json, "log", look->there && look->job ? "open" : "none");
    json_int(&json, "unit", unit + 1);
    json_text(&json, "role", call->role == ROLE_WRITER ? "writer" : "reader");
    json_text(&json, "job", look->job ? look->job : "");
    json_int(&json, "next", look->last);
    json_text(&json, "hash", look->hash);
    json_text(&json, "day", look->after < 2 ? look->day : NULL);
    json_open_list(&json, "records");
    /* what is left over is asked for next: the last number here is below `next` */
    for (int i = 0; i < look->count && text.length < LOOK_BYTES; i++)
        record_write(&json, &look->record[i]);
    json_close_list(&json);
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
    reply_pack(call, reply);
}

/* The answer is made in an arena of its own: records of a log are not bounded by a request. */
static Status look_answer(Server *server, const Call *call, double after, double wait_s,
                          Reply *reply, Error *err)
{
    int unit;
    Look look = {.after = (long)after};
    TRY(unit_of(call, &unit, err));
    Arena *const arena = arena_create(site_bytes);
    const char *const path = sitelog_path(server->path, unit, call->arena);
    const Status status = look_wait(server, path, wait_s, arena, &look, err);
    if (status == STATUS_OK) look_reply(server, call, unit, &look, reply);
    arena_free(arena);
    return status;
}

Status answer_site(Server *server, const Call *call, Reply *reply, Error *err)
{
    double after = 0, wait_s = 0;
    if (call->after) TRY(query_number("after", call->after, 0, STORE_RECORDS_MAX, &after, err));
    if (call->wait) TRY(query_number("wait", call->wait, 0, SERVER_WAIT_MAX_S, &wait_s, err));
    return look_answer(server, call, after, wait_s, reply, err);
}

/* ---- start ---- */

typedef struct Begin {
    int unit;
    const char *points;
} Begin;

static Status begin_use(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    StoreRecord record[2];
    const JackPlan *plan;
    bool other;
    const Begin *const begin = run->with;
    const SiteStart start = {.file = server->path,
                             .text = run->size ? run->text : "",
                             .size = run->size,
                             .unit = begin->unit,
                             .points = begin->points,
                             .source = &run->source};
    const Status status =
        sitelog_start(&start, run->result, run->scratch, record, &plan, &other, err);
    if (!other) return status;
    reply_errors(call, 409, NULL, err, reply);
    return STATUS_OK;
}

/* The file as it is on the disk, not a text of the page: the log is of what all see. */
Status answer_site_open(Server *server, const Call *call, Reply *reply, Error *err)
{
    static const char *const key[] = {"?points"};
    const char *points;
    FileState state;
    Begin begin = {0};
    TRY(unit_of(call, &begin.unit, err));
    TRY(body_texts(call, key, 1, &points, err));
    begin.points = points;
    TRY(served_read(server, call->arena, &state, err));
    Run run = {.text = state.text, .size = state.size, .with = &begin};
    reply->status = 0;
    TRY(run_use(server, call, &run, begin_use, reply, err));
    return reply->status ? STATUS_OK : look_answer(server, call, 0, 0, reply, err);
}

/* ---- adding ---- */

/* One who adds, with the log open; fills the reply. */
typedef Status (*SiteUse)(SiteLog *site, const Call *call, const void *with, Reply *reply,
                          Error *err);

static Status opened_use(Server *server, const Call *call, SiteLog *site, SiteUse use,
                         const void *with, Reply *reply, Error *err)
{
    int unit;
    TRY(unit_of(call, &unit, err));
    TRY(size_check(sitelog_path(server->path, unit, site->arena), err));
    const Status status = sitelog_open(server->path, unit, site, err);
    if (status == STATUS_BAD_INPUT) {
        reply_errors(call, 404, NULL, err, reply);
        return STATUS_OK;
    }
    TRY(status);
    TRY(sitelog_load(site, err));
    return use(site, call, with, reply, err);
}

static Status site_use(Server *server, const Call *call, SiteUse use, const void *with,
                       Reply *reply, Error *err)
{
    pthread_mutex_lock(&server->siting);
    SiteLog site = {.arena = arena_create(site_bytes), .scratch = arena_create(site_bytes)};
    const Status status = opened_use(server, call, &site, use, with, reply, err);
    sitelog_close(&site);
    arena_free(site.arena);
    arena_free(site.scratch);
    pthread_mutex_unlock(&server->siting);
    return status;
}

/* What a client wants is told of another job: yesterday's readings do not get into today's log. */
static bool job_other(const SiteLog *site, const char *job, const Call *call, Reply *reply)
{
    Error err = {0};
    if (!job || (site->count > 1 && strcmp(site->record[1].hash, job) == 0)) return false;
    error_set(&err, STATUS_BAD_INPUT, "this log is of another job than the one that is meant");
    reply_errors(call, 409, NULL, &err, reply);
    return true;
}

static void added_reply(const Call *call, const StoreRecord *record, const SiteTold *told,
                        Reply *reply)
{
    Text text = text_start(call->arena);
    Json json = json_start(&text);
    json_open_map(&json, NULL);
    json_int(&json, "number", record->number);
    json_text(&json, "hash", record->hash);
    json_bool(&json, "repeated", record->repeated);
    if (told) {
        json_raw(&json, "verdict", told->body);
        json_bool(&json, "kept", told->kept);
    }
    json_close_map(&json);
    reply_text(reply, "application/json", &text);
}

/* ---- readings ---- */

enum {
    R_ID,
    R_JOB,
    R_TIME,
    R_STEP,
    R_PHASE,
    R_DECK,
    R_GIRDER,
    R_CELL,
    R_WHO,
    R_REMARK,
    R_PRESSURE,
    R_MOVE = R_PRESSURE + JACK_SETS,
    R_COUNT = R_MOVE + SITE_POINTS
};

Status body_reading(const Call *call, BodyReading *reading, Error *err)
{
    static const char *const first[] = {"id",    "?job",    "time",  "step", "?phase",
                                        "?deck", "?girder", "?cell", "?who", "?remark"};
    const char *key[R_COUNT], *value[R_COUNT];
    for (int i = 0; i < R_PRESSURE; i++) key[i] = first[i];
    for (int i = 0; i < JACK_SETS; i++)
        key[R_PRESSURE + i] = arena_printf(call->arena, "?pressure %d", i + 1);
    for (int i = 0; i < SITE_POINTS; i++)
        key[R_MOVE + i] = arena_printf(call->arena, "?move %d", i + 1);
    TRY(body_texts(call, key, R_COUNT, value, err));
    TRY(sitelog_id(value[R_ID], err));
    LogbookWords *const words = &reading->words;
    reading->id = value[R_ID];
    reading->job = value[R_JOB];
    *words = (LogbookWords){.time = value[R_TIME],
                            .step = value[R_STEP],
                            .phase = value[R_PHASE],
                            .deck = value[R_DECK],
                            .girder = value[R_GIRDER],
                            .cell = value[R_CELL],
                            .who = value[R_WHO],
                            .remark = value[R_REMARK]};
    for (int i = 0; i < JACK_SETS; i++) words->pressure[i] = value[R_PRESSURE + i];
    for (int i = 0; i < SITE_POINTS; i++) words->move[i] = value[R_MOVE + i];
    return STATUS_OK;
}

static Status reading_use(SiteLog *site, const Call *call, const void *with, Reply *reply,
                          Error *err)
{
    const BodyReading *const reading = with;
    StoreRecord record = {.id = reading->id, .kind = "reading", .at = sitelog_now(site->arena)};
    SiteTold told;
    if (job_other(site, reading->job, call, reply)) return STATUS_OK;
    TRY(logbook_reading_body(&reading->words, &site->book.day, site->arena, &record.body, err));
    const Status status = store_log_add(site->log, &record, 1, err);
    if (status == STATUS_BAD_INPUT) {
        reply_errors(call, 409, NULL, err, reply);
        return STATUS_OK;
    }
    TRY(status);
    if (sitelog_judge(site, record.number, &told, err) != STATUS_OK) {
        reply_errors(call, 500, NULL, err,
                     reply); /* it is safe: the same id asked again adds nothing */
        return STATUS_OK;
    }
    added_reply(call, &record, &told, reply);
    return STATUS_OK;
}

Status answer_reading(Server *server, const Call *call, Reply *reply, Error *err)
{
    BodyReading reading;
    TRY(body_reading(call, &reading, err));
    return site_use(server, call, reading_use, &reading, reply, err);
}

/* ---- strikes ---- */

enum { S_RECORD, S_WHY, S_WHO, S_JOB, S_ID, S_COUNT };

static Status strike_use(SiteLog *site, const Call *call, const void *with, Reply *reply,
                         Error *err)
{
    const char *const *const value = with;
    StoreRecord record;
    bool other;
    long number;
    if (job_other(site, value[S_JOB], call, reply)) return STATUS_OK;
    TRY(path_id(value[S_RECORD], &number, err));
    const Status status =
        sitelog_strike(site, number, value[S_WHY], value[S_WHO], &record, &other, err);
    if (other) {
        reply_errors(call, 409, NULL, err, reply);
        return STATUS_OK;
    }
    TRY(status);
    added_reply(call, &record, NULL, reply);
    return STATUS_OK;
}

Status answer_strike(Server *server, const Call *call, Reply *reply, Error *err)
{
    static const char *const key[S_COUNT] = {"record", "why", "who", "?job", "?id"};
    const char *value[S_COUNT];
    TRY(body_texts(call, key, S_COUNT, value, err));
    return site_use(server, call, strike_use, value, reply, err);
}

/* ---- sheets ---- */

/* Judges every reading again, or lives the bridge's life again: a run of the engine, beside those who add. */
typedef Status (*SheetMake)(Server *server, const Call *call, SiteLog *site, int unit, Reply *reply,
                            Error *err);

static Status sheet_of(Server *server, const Call *call, SiteLog *site, SheetMake make,
                       Reply *reply, Error *err)
{
    int unit;
    TRY(unit_of(call, &unit, err));
    TRY(size_check(sitelog_path(server->path, unit, site->arena), err));
    const Status status = sitelog_open(server->path, unit, site, err);
    if (status == STATUS_BAD_INPUT) {
        reply_errors(call, 404, NULL, err, reply);
        return STATUS_OK;
    }
    TRY(status);
    TRY(sitelog_load(site, err));
    if (site->book.count > SERVER_EXPORT_MAX)
        return error_set(err, STATUS_TOO_LARGE,
                         "the log has more than %d readings: use clench site",
                         (int)SERVER_EXPORT_MAX);
    return make(server, call, site, unit, reply, err);
}

static Status sheet_use(Server *server, const Call *call, Run *run, Reply *reply, Error *err)
{
    const SheetMake *const make = run->with;
    SiteLog site = {.arena = run->result, .scratch = run->scratch};
    const Status status = sheet_of(server, call, &site, *make, reply, err);
    sitelog_close(&site);
    return status;
}

static Status sheet_reply(Server *server, const Call *call, SheetMake make, Reply *reply,
                          Error *err)
{
    Run run = {.with = &make};
    return run_plain(server, call, &run, sheet_use, reply, err);
}

/* "site.csv", of a further unit "site-2.csv". */
static const char *sheet_name(const Call *call, const char *what, int unit, const char *kind)
{
    return unit ? arena_printf(call->arena, "%s-%d.%s", what, unit + 1, kind)
                : arena_printf(call->arena, "%s.%s", what, kind);
}

static Status export_make(Server *server, const Call *call, SiteLog *site, int unit, Reply *reply,
                          Error *err)
{
    (void)server;
    (void)err;
    Text text = text_start(call->arena);
    logbook_csv(&site->book, site->scratch, &text);
    reply_text(reply, "text/csv; charset=utf-8", &text);
    reply->save_as = sheet_name(call, "site", unit, "csv");
    return STATUS_OK;
}

Status answer_site_export(Server *server, const Call *call, Reply *reply, Error *err)
{
    return sheet_reply(server, call, export_make, reply, err);
}

static Status record_make(Server *server, const Call *call, SiteLog *site, int unit, Reply *reply,
                          Error *err)
{
    char date[PAPER_DATE], revision[PAPER_REVISION];
    SiteAsBuilt *const built = ARENA_NEW(site->arena, SiteAsBuilt, 1);
    Diagnostics *const list = ARENA_NEW(site->arena, Diagnostics, 1);
    TRY(paper_date(server->epoch[0] ? server->epoch : NULL, date, err));
    const Status status = sitelog_built(site, unit, call->calendar, built, list, err);
    if (list->count) {
        reply_errors(call, 400, list, err, reply);
        return STATUS_OK;
    }
    TRY(status);
    paper_revision(site->book.bridge, strlen(site->book.bridge), revision);
    const PaperSettings settings = {paper_size(built->report.units), date, revision};
    Text pdf = text_start(call->arena);
    TRY(paper_draw(server, report_site_record(&built->source, site->arena), &settings, &pdf, err));
    reply_text(reply, "application/pdf", &pdf);
    reply->save_as = sheet_name(call, "site-record", unit, "pdf");
    return STATUS_OK;
}

Status answer_site_record(Server *server, const Call *call, Reply *reply, Error *err)
{
    return sheet_reply(server, call, record_make, reply, err);
}
