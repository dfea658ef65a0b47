#include "clench/store.h"

#include <assert.h>
#include <errno.h>
#include <limits.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

struct Store {
    sqlite3 *db;
    char path[4096];
};

/* "clen": tells our files from others' (https://www.sqlite.org/pragma.html#pragma_application_id). */
enum { APPLICATION_ID = 0x636C656E, VERSION = 1 };

extern const char store_schema[]; /* schema.sql, by the assembler; ends with a NUL */

/* ---- errors ---- */

static Status refuse(const Store *store, const char *doing, Error *err)
{
    const int code = sqlite3_extended_errcode(store->db);
    if ((code & 0xFF) == SQLITE_NOTADB || (code & 0xFF) == SQLITE_CORRUPT)
        return error_set(err, STATUS_IO,
                         "the revisions in \"%.160s\" are damaged (%s); move that file away to "
                         "start new ones",
                         store->path, sqlite3_errmsg(store->db));
    return error_set(err, STATUS_IO, "the revisions in \"%.160s\" cannot be %s: %s", store->path,
                     doing, sqlite3_errmsg(store->db));
}

static Status run(const Store *store, const char *sql, const char *doing, Error *err)
{
    if (sqlite3_exec(store->db, sql, NULL, NULL, NULL) != SQLITE_OK)
        return refuse(store, doing, err);
    return STATUS_OK;
}

static Status prepare(const Store *store, const char *sql, sqlite3_stmt **statement, Error *err)
{
    if (sqlite3_prepare_v2(store->db, sql, -1, statement, NULL) != SQLITE_OK)
        return refuse(store, "read", err);
    return STATUS_OK;
}

/* The first column of the first row of a question without parameters, as a number. */
static Status ask(const Store *store, const char *sql, long *value, Error *err)
{
    sqlite3_stmt *s;
    TRY(prepare(store, sql, &s, err));
    const bool row = sqlite3_step(s) == SQLITE_ROW;
    if (row) *value = (long)sqlite3_column_int64(s, 0);
    const Status status = row ? STATUS_OK : refuse(store, "read", err);
    sqlite3_finalize(s);
    return status;
}

/* ---- opening ---- */

/* The text of schema.sql behind "-- step N", up to the next step. */
static const char *step_text(int step, size_t *length)
{
    char head[32];
    snprintf(head, sizeof head, "-- step %d\n", step);
    const char *const start = strstr(store_schema, head);
    assert(start);
    const char *const next = strstr(start + strlen(head), "\n-- step ");
    *length = next ? (size_t)(next - start) : strlen(start);
    return start;
}

static Status upgrade(const Store *store, long version, Error *err)
{
    for (int step = (int)version + 1; step <= VERSION; step++) {
        char sql[4096], number[64];
        size_t length;
        const char *const text = step_text(step, &length);
        assert(length < sizeof sql);
        snprintf(sql, sizeof sql, "%.*s", (int)length, text);
        TRY(run(store, sql, "upgraded", err));
        snprintf(number, sizeof number, "PRAGMA user_version = %d", step);
        TRY(run(store, number, "upgraded", err));
    }
    return STATUS_OK;
}

static Status identity_check(const Store *store, long version, Error *err)
{
    long id = 0, tables = 0;
    TRY(ask(store, "PRAGMA application_id", &id, err));
    TRY(ask(store, "SELECT count(*) FROM sqlite_schema", &tables, err));
    if (id != APPLICATION_ID && (id != 0 || version != 0 || tables != 0))
        return error_set(err, STATUS_IO,
                         "\"%.160s\" is a database of another program: move it away", store->path);
    if (version > VERSION)
        return error_set(err, STATUS_IO,
                         "the revisions in \"%.160s\" were written by a newer clench", store->path);
    return STATUS_OK;
}

/* Under the writer's lock, so that two programs do not make the tables at once. */
static Status tables_make(const Store *store, Error *err)
{
    long version = 0;
    char mine[64];
    snprintf(mine, sizeof mine, "PRAGMA application_id = %d", (int)APPLICATION_ID);
    TRY(run(store, "BEGIN IMMEDIATE", "written", err));
    Status status = ask(store, "PRAGMA user_version", &version, err);
    if (status == STATUS_OK) status = identity_check(store, version, err);
    if (status == STATUS_OK) status = run(store, mine, "written", err);
    if (status == STATUS_OK) status = upgrade(store, version, err);
    if (status == STATUS_OK) status = run(store, "COMMIT", "written", err);
    if (status != STATUS_OK) (void)run(store, "ROLLBACK", "written", NULL);
    return status;
}

static Status integrity_check(const Store *store, Error *err)
{
    sqlite3_stmt *s;
    TRY(prepare(store, "PRAGMA quick_check(1)", &s, err));
    Status status = STATUS_OK;
    if (sqlite3_step(s) != SQLITE_ROW)
        status = refuse(store, "read", err);
    else if (strcmp((const char *)sqlite3_column_text(s, 0), "ok") != 0)
        status = error_set(err, STATUS_IO,
                           "the revisions in \"%.160s\" are damaged; move that file away to start "
                           "new ones",
                           store->path);
    sqlite3_finalize(s);
    return status;
}

/* What a file from elsewhere could make SQLite do is switched off (https://www.sqlite.org/security.html). */
static Status settle(const Store *store, Error *err)
{
    long version = 0;
    sqlite3_busy_timeout(store->db, STORE_BUSY_S * 1000);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(store->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    sqlite3_limit(store->db, SQLITE_LIMIT_LENGTH, STORE_TEXT_MAX + (1 << 20));
    TRY(run(store, "PRAGMA cell_size_check = ON; PRAGMA synchronous = FULL", "opened", err));
    TRY(integrity_check(store, err));
    TRY(ask(store, "PRAGMA user_version", &version, err));
    TRY(identity_check(store, version, err));
    return version == VERSION ? STATUS_OK : tables_make(store, err);
}

Status store_open(const char *path, bool make, Store **store, Error *err)
{
    struct stat about;
    const bool there = stat(path, &about) == 0;
    if (!there && errno != ENOENT)
        return error_set(err, STATUS_IO, "\"%.200s\" cannot be opened: %s", path, strerror(errno));
    if (!there && !make) {
        *store = NULL;
        return STATUS_OK;
    }
    if (there && !S_ISREG(about.st_mode))
        return error_set(err, STATUS_IO, "\"%.200s\" is not a file", path);
    Store *const s = calloc(1, sizeof *s);
    if (!s) return error_set(err, STATUS_IO, "no memory left");
    snprintf(s->path, sizeof s->path, "%s", path);
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | (make ? SQLITE_OPEN_CREATE : 0);
    Status status = STATUS_OK;
    if (sqlite3_open_v2(path, &s->db, flags, NULL) != SQLITE_OK)
        status = refuse(s, "opened", err);
    else
        status = settle(s, err);
    if (status == STATUS_OK)
        *store = s;
    else
        store_close(s);
    return status;
}

void store_close(Store *store)
{
    if (!store) return;
    sqlite3_close(store->db);
    free(store);
}

/* ---- revisions ---- */

static void bind(sqlite3_stmt *s, int place, const char *text)
{
    sqlite3_bind_text(s, place, text, -1, SQLITE_STATIC);
}

Status store_add(Store *store, const StoreRevision *revision, long *id, Error *err)
{
    sqlite3_stmt *s;
    if (strlen(revision->note) > STORE_NOTE_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a note has at most %d bytes", (int)STORE_NOTE_MAX);
    if (strlen(revision->text) > STORE_TEXT_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a bridge file has at most %d bytes",
                         (int)STORE_TEXT_MAX);
    TRY(prepare(store, "INSERT INTO revision (at, note, mark, content) VALUES (?1, ?2, ?3, ?4)", &s,
                err));
    bind(s, 1, revision->when);
    bind(s, 2, revision->note);
    bind(s, 3, revision->mark);
    bind(s, 4, revision->text);
    const bool done = sqlite3_step(s) == SQLITE_DONE;
    const Status status = done ? STATUS_OK : refuse(store, "written", err);
    if (done) *id = (long)sqlite3_last_insert_rowid(store->db);
    sqlite3_finalize(s);
    return status;
}

static const char *column(sqlite3_stmt *s, int place, Arena *arena)
{
    const char *const text = (const char *)sqlite3_column_text(s, place);
    return arena_text(arena, text ? text : "");
}

static StoreRevision revision_row(sqlite3_stmt *s, Arena *arena)
{
    return (StoreRevision){.id = (long)sqlite3_column_int64(s, 0),
                           .when = column(s, 1, arena),
                           .note = column(s, 2, arena),
                           .mark = column(s, 3, arena)};
}

Status store_list(Store *store, int most, Arena *arena, const StoreRevision **list, int *count,
                  Error *err)
{
    sqlite3_stmt *s;
    TRY(prepare(store, "SELECT id, at, note, mark FROM revision ORDER BY id DESC LIMIT ?1", &s,
                err));
    sqlite3_bind_int(s, 1, most);
    StoreRevision *const row = ARENA_NEW(arena, StoreRevision, most);
    int found = 0, code = SQLITE_ROW;
    while (found < most && (code = sqlite3_step(s)) == SQLITE_ROW)
        row[found++] = revision_row(s, arena);
    const bool good = code == SQLITE_ROW || code == SQLITE_DONE;
    const Status status = good ? STATUS_OK : refuse(store, "read", err);
    sqlite3_finalize(s);
    if (!good) return status;
    *list = row;
    *count = found;
    return STATUS_OK;
}

Status store_find(Store *store, long id, Arena *arena, StoreRevision *revision, Error *err)
{
    sqlite3_stmt *s;
    TRY(prepare(store, "SELECT id, at, note, mark, content FROM revision WHERE id = ?1", &s, err));
    sqlite3_bind_int64(s, 1, id);
    const int code = sqlite3_step(s);
    Status status = STATUS_OK;
    if (code == SQLITE_ROW) {
        *revision = revision_row(s, arena);
        revision->text = column(s, 4, arena);
    } else if (code == SQLITE_DONE) {
        status = error_set(err, STATUS_BAD_INPUT, "there is no revision %ld", id);
    } else {
        status = refuse(store, "read", err);
    }
    sqlite3_finalize(s);
    return status;
}
