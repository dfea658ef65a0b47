#include "db.h"

#include <assert.h>
#include <errno.h>
#include <string.h>
#include <sys/stat.h>

#include "clench/store.h"

/* ---- errors ---- */

Status db_refuse(const Db *db, const char *doing, Error *err)
{
    const int code = sqlite3_extended_errcode(db->db);
    if ((code & 0xFF) == SQLITE_NOTADB || (code & 0xFF) == SQLITE_CORRUPT)
        return error_set(err, STATUS_IO, "the %s in \"%.160s\" are damaged (%s); %s",
                         db->kind->what, db->path, sqlite3_errmsg(db->db), db->kind->cure);
    int machine = 0; /* what the machine said of the file last */
    if ((code & 0xFF) == SQLITE_IOERR)
        (void)sqlite3_file_control(db->db, "main", SQLITE_FCNTL_LAST_ERRNO, &machine);
    return error_set(err, STATUS_IO, "the %s in \"%.160s\" cannot be %s: %s%s%s", db->kind->what,
                     db->path, doing, sqlite3_errmsg(db->db), machine ? ": " : "",
                     machine ? strerror(machine) : "");
}

Status db_run(const Db *db, const char *sql, const char *doing, Error *err)
{
    if (sqlite3_exec(db->db, sql, NULL, NULL, NULL) != SQLITE_OK) return db_refuse(db, doing, err);
    return STATUS_OK;
}

Status db_prepare(const Db *db, const char *sql, sqlite3_stmt **statement, Error *err)
{
    if (sqlite3_prepare_v2(db->db, sql, -1, statement, NULL) != SQLITE_OK)
        return db_refuse(db, "read", err);
    return STATUS_OK;
}

void db_bind(sqlite3_stmt *s, int place, const char *text)
{
    sqlite3_bind_text(s, place, text, -1, SQLITE_STATIC);
}

const char *db_column(sqlite3_stmt *s, int place, Arena *arena)
{
    const char *const text = (const char *)sqlite3_column_text(s, place);
    return arena_text(arena, text ? text : "");
}

/* The first column of the first row of a question without parameters, as a number. */
static Status ask(const Db *db, const char *sql, long *value, Error *err)
{
    sqlite3_stmt *s;
    TRY(db_prepare(db, sql, &s, err));
    const bool row = sqlite3_step(s) == SQLITE_ROW;
    if (row) *value = (long)sqlite3_column_int64(s, 0);
    const Status status = row ? STATUS_OK : db_refuse(db, "read", err);
    sqlite3_finalize(s);
    return status;
}

/* ---- opening ---- */

/* The text of the schema behind "-- step N", up to the next step. */
static const char *step_text(const char *schema, int step, size_t *length)
{
    char head[32];
    snprintf(head, sizeof head, "-- step %d\n", step);
    const char *const start = strstr(schema, head);
    assert(start);
    const char *const next = strstr(start + strlen(head), "\n-- step ");
    *length = next ? (size_t)(next - start) : strlen(start);
    return start;
}

static Status upgrade(const Db *db, long version, Error *err)
{
    for (int step = (int)version + 1; step <= db->kind->version; step++) {
        char sql[4096], number[64];
        size_t length;
        const char *const text = step_text(db->kind->schema, step, &length);
        assert(length < sizeof sql);
        snprintf(sql, sizeof sql, "%.*s", (int)length, text);
        TRY(db_run(db, sql, "upgraded", err));
        snprintf(number, sizeof number, "PRAGMA user_version = %d", step);
        TRY(db_run(db, number, "upgraded", err));
    }
    return STATUS_OK;
}

static Status identity_check(const Db *db, long version, Error *err)
{
    long id = 0, tables = 0;
    TRY(ask(db, "PRAGMA application_id", &id, err));
    TRY(ask(db, "SELECT count(*) FROM sqlite_schema", &tables, err));
    if (id != db->kind->application_id && (id != 0 || version != 0 || tables != 0))
        return error_set(err, STATUS_IO,
                         "\"%.160s\" is a database of another program: move it away", db->path);
    if (version > db->kind->version)
        return error_set(err, STATUS_IO, "the %s in \"%.160s\" were written by a newer clench",
                         db->kind->what, db->path);
    return STATUS_OK;
}

/* Under the writer's lock, so that two programs do not make the tables at once. */
static Status tables_make(const Db *db, Error *err)
{
    long version = 0;
    char mine[64];
    snprintf(mine, sizeof mine, "PRAGMA application_id = %d", db->kind->application_id);
    TRY(db_run(db, "BEGIN IMMEDIATE", "written", err));
    Status status = ask(db, "PRAGMA user_version", &version, err);
    if (status == STATUS_OK) status = identity_check(db, version, err);
    if (status == STATUS_OK) status = db_run(db, mine, "written", err);
    if (status == STATUS_OK) status = upgrade(db, version, err);
    if (status == STATUS_OK) status = db_run(db, "COMMIT", "written", err);
    if (status != STATUS_OK) (void)sqlite3_exec(db->db, "ROLLBACK", NULL, NULL, NULL);
    return status;
}

static Status integrity_check(const Db *db, Error *err)
{
    sqlite3_stmt *s;
    TRY(db_prepare(db, "PRAGMA quick_check(1)", &s, err));
    Status status = STATUS_OK;
    if (sqlite3_step(s) != SQLITE_ROW)
        status = db_refuse(db, "read", err);
    else if (strcmp((const char *)sqlite3_column_text(s, 0), "ok") != 0)
        status = error_set(err, STATUS_IO, "the %s in \"%.160s\" are damaged; %s", db->kind->what,
                           db->path, db->kind->cure);
    sqlite3_finalize(s);
    return status;
}

/* What a file from elsewhere could make SQLite do is switched off (https://www.sqlite.org/security.html).
 * EXTRA, not FULL: with FULL the folder is not synced once the journal is taken away, and a journal
 * that comes back after a loss of power takes the last record with it
 * (https://www.sqlite.org/pragma.html#pragma_synchronous; tests/test_store_power.c shows it). */
static Status settle(const Db *db, Error *err)
{
    long version = 0;
    sqlite3_busy_timeout(db->db, STORE_BUSY_S * 1000);
    sqlite3_db_config(db->db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(db->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    sqlite3_limit(db->db, SQLITE_LIMIT_LENGTH, db->kind->size_max);
    TRY(db_run(db, "PRAGMA cell_size_check = ON; PRAGMA synchronous = EXTRA", "opened", err));
    TRY(integrity_check(db, err));
    TRY(ask(db, "PRAGMA user_version", &version, err));
    TRY(identity_check(db, version, err));
    return version == db->kind->version ? STATUS_OK : tables_make(db, err);
}

Status db_open(Db *db, const DbKind *kind, const char *path, bool make, Error *err)
{
    struct stat about;
    const bool there = stat(path, &about) == 0;
    *db = (Db){.kind = kind};
    if (!there && errno != ENOENT)
        return error_set(err, STATUS_IO, "\"%.200s\" cannot be opened: %s", path, strerror(errno));
    if (!there && !make) return STATUS_OK;
    if (there && !S_ISREG(about.st_mode))
        return error_set(err, STATUS_IO, "\"%.200s\" is not a file", path);
    snprintf(db->path, sizeof db->path, "%s", path);
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | (make ? SQLITE_OPEN_CREATE : 0);
    Status status = STATUS_OK;
    if (sqlite3_open_v2(path, &db->db, flags, NULL) != SQLITE_OK)
        status = db_refuse(db, "opened", err);
    else
        status = settle(db, err);
    if (status != STATUS_OK) db_close(db);
    return status;
}

void db_close(Db *db)
{
    sqlite3_close(db->db);
    db->db = NULL;
}
