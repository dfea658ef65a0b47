/* The log of a jacking job: records in a chain of hashes. */
#include <stdlib.h>
#include <string.h>

#include "clench/store.h"
#include "db.h"

struct StoreLog {
    Db db;
};

extern const char store_log_schema[]; /* log.sql, by the assembler; ends with a NUL */

static const DbKind kind = {
    .application_id = 0x636C656C, /* "clel" */
    .version = 1,
    .schema = store_log_schema,
    .what = "records of the site log",
    .cure = "keep that file as it is, it is evidence; go on with a copy of it from a backup",
    .size_max = STORE_BODY_MAX + (1 << 20)};

Status store_log_open(const char *path, bool make, StoreLog **log, Error *err)
{
    StoreLog *const l = calloc(1, sizeof *l);
    if (!l) return error_set(err, STATUS_IO, "no memory left");
    const Status status = db_open(&l->db, &kind, path, make, err);
    if (status == STATUS_OK) *log = l->db.db ? l : NULL;
    if (status != STATUS_OK || !l->db.db) free(l);
    return status;
}

void store_log_close(StoreLog *log)
{
    if (!log) return;
    db_close(&log->db);
    free(log);
}

/* ---- the chain ---- */

/* Each part with its length before it, so that no two records give the same bytes. */
static void part_add(Sha256 *sha, const char *text)
{
    char length[24];
    snprintf(length, sizeof length, "%zu:", strlen(text));
    sha256_add(sha, length, strlen(length));
    sha256_add(sha, text, strlen(text));
}

static void record_hash(const StoreRecord *record, const unsigned char before[SHA256_SIZE],
                        unsigned char hash[SHA256_SIZE])
{
    char number[24];
    snprintf(number, sizeof number, "%ld", record->number);
    Sha256 sha = sha256_start();
    sha256_add(&sha, before, SHA256_SIZE);
    part_add(&sha, number);
    part_add(&sha, record->id);
    part_add(&sha, record->kind);
    part_add(&sha, record->at);
    part_add(&sha, record->body);
    sha256_end(&sha, hash);
}

static bool hash_column(sqlite3_stmt *s, int place, unsigned char hash[SHA256_SIZE])
{
    if (sqlite3_column_bytes(s, place) != SHA256_SIZE) return false;
    memcpy(hash, sqlite3_column_blob(s, place), SHA256_SIZE);
    return true;
}

static const char *words(sqlite3_stmt *s, int place)
{
    const char *const text = (const char *)sqlite3_column_text(s, place);
    return text ? text : "";
}

/* Not copied: good until the next step of s. */
static StoreRecord record_row(sqlite3_stmt *s)
{
    return (StoreRecord){.number = (long)sqlite3_column_int64(s, 0),
                         .id = words(s, 1),
                         .kind = words(s, 2),
                         .at = words(s, 3),
                         .body = words(s, 4)};
}

#define RECORD_COLUMNS "SELECT number, id, kind, at, body, before, hash FROM record "

/* ---- adding ---- */

static Status size_check(const StoreRecord *record, Error *err)
{
    if (strlen(record->body) > STORE_BODY_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a record has at most %d bytes",
                         (int)STORE_BODY_MAX);
    const size_t length = strlen(record->id);
    if (length == 0 || length > STORE_ID_MAX)
        return error_set(err, STATUS_TOO_LARGE, "the id of a record has 1 to %d bytes",
                         (int)STORE_ID_MAX);
    return STATUS_OK;
}

/* A record of that id, if there is one. */
static Status repeated_find(const StoreLog *log, StoreRecord *record, Error *err)
{
    sqlite3_stmt *s;
    Status status = STATUS_OK;
    TRY(db_prepare(&log->db, RECORD_COLUMNS "WHERE id = ?1", &s, err));
    db_bind(s, 1, record->id);
    const int code = sqlite3_step(s);
    unsigned char hash[SHA256_SIZE];
    if (code == SQLITE_ROW) {
        const StoreRecord there = record_row(s);
        if (strcmp(there.kind, record->kind) != 0 || strcmp(there.body, record->body) != 0)
            status = error_set(err, STATUS_BAD_INPUT,
                               "record %ld has the id '%.100s' already and says something else",
                               there.number, record->id);
        record->repeated = true;
        record->number = there.number;
        if (hash_column(s, 6, hash)) sha256_text(hash, record->hash);
    } else if (code != SQLITE_DONE) {
        status = db_refuse(&log->db, "read", err);
    }
    sqlite3_finalize(s);
    return status;
}

static Status last_find(const StoreLog *log, long *number, unsigned char hash[SHA256_SIZE],
                        Error *err)
{
    sqlite3_stmt *s;
    TRY(db_prepare(&log->db, "SELECT number, hash FROM record ORDER BY number DESC LIMIT 1", &s,
                   err));
    const int code = sqlite3_step(s);
    *number = 0;
    memset(hash, 0, SHA256_SIZE);
    bool good = code == SQLITE_DONE;
    if (code == SQLITE_ROW) {
        *number = (long)sqlite3_column_int64(s, 0);
        good = hash_column(s, 1, hash);
    }
    const Status status = good ? STATUS_OK : db_refuse(&log->db, "read", err);
    sqlite3_finalize(s);
    return status;
}

static Status record_write(const StoreLog *log, StoreRecord *record, Error *err)
{
    sqlite3_stmt *s;
    unsigned char before[SHA256_SIZE], hash[SHA256_SIZE];
    long last = 0;
    record->repeated = false;
    TRY(repeated_find(log, record, err));
    if (record->repeated) return STATUS_OK;
    TRY(last_find(log, &last, before, err));
    if (last >= STORE_RECORDS_MAX) /* what could not be read again is not taken */
        return error_set(err, STATUS_TOO_LARGE,
                         "a log has at most %d records: go on with a new one",
                         (int)STORE_RECORDS_MAX);
    record->number = last + 1;
    record_hash(record, before, hash);
    sha256_text(hash, record->hash);
    TRY(db_prepare(&log->db, "INSERT INTO record VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)", &s, err));
    sqlite3_bind_int64(s, 1, record->number);
    db_bind(s, 2, record->id);
    db_bind(s, 3, record->kind);
    db_bind(s, 4, record->at);
    db_bind(s, 5, record->body);
    sqlite3_bind_blob(s, 6, before, SHA256_SIZE, SQLITE_STATIC);
    sqlite3_bind_blob(s, 7, hash, SHA256_SIZE, SQLITE_STATIC);
    const Status status =
        sqlite3_step(s) == SQLITE_DONE ? STATUS_OK : db_refuse(&log->db, "written", err);
    sqlite3_finalize(s);
    return status;
}

Status store_log_add(StoreLog *log, StoreRecord *record, int count, Error *err)
{
    for (int i = 0; i < count; i++) TRY(size_check(&record[i], err));
    TRY(db_run(&log->db, "BEGIN IMMEDIATE", "written", err));
    Status status = STATUS_OK;
    for (int i = 0; status == STATUS_OK && i < count; i++)
        status = record_write(log, &record[i], err);
    if (status == STATUS_OK) status = db_run(&log->db, "COMMIT", "written", err);
    if (status != STATUS_OK) (void)sqlite3_exec(log->db.db, "ROLLBACK", NULL, NULL, NULL);
    return status;
}

/* ---- reading ---- */

/* The columns of a row, copied. */
static void row_copy(sqlite3_stmt *s, Arena *arena, StoreRecord *r)
{
    unsigned char hash[SHA256_SIZE];
    *r = record_row(s);
    r->id = arena_text(arena, r->id);
    r->kind = arena_text(arena, r->kind);
    r->at = arena_text(arena, r->at);
    r->body = arena_text(arena, r->body);
    if (hash_column(s, 6, hash)) sha256_text(hash, r->hash);
}

Status store_log_page(StoreLog *log, long after, int most, Arena *arena, const StoreRecord **list,
                      int *count, Error *err)
{
    sqlite3_stmt *s;
    StoreRecord *const all = ARENA_NEW(arena, StoreRecord, most);
    int found = 0, code = SQLITE_DONE;
    TRY(db_prepare(&log->db, RECORD_COLUMNS "WHERE number > ?1 ORDER BY number", &s, err));
    sqlite3_bind_int64(s, 1, after);
    while (found < most && (code = sqlite3_step(s)) == SQLITE_ROW)
        row_copy(s, arena, &all[found++]);
    const Status status =
        found == most || code == SQLITE_DONE ? STATUS_OK : db_refuse(&log->db, "read", err);
    sqlite3_finalize(s);
    if (status != STATUS_OK) return status;
    *list = all;
    *count = found;
    return STATUS_OK;
}

Status store_log_last(StoreLog *log, long *number, char hash[SHA256_TEXT], Error *err)
{
    unsigned char bytes[SHA256_SIZE];
    TRY(last_find(log, number, bytes, err));
    hash[0] = 0;
    if (*number) sha256_text(bytes, hash);
    return STATUS_OK;
}

Status store_log_read(StoreLog *log, long after, Arena *arena, const StoreRecord **list, int *count,
                      Error *err)
{
    sqlite3_stmt *s;
    TRY(db_prepare(&log->db, RECORD_COLUMNS "WHERE number > ?1 ORDER BY number", &s, err));
    sqlite3_bind_int64(s, 1, after);
    StoreRecord *all = NULL;
    int found = 0, room = 0, code;
    while ((code = sqlite3_step(s)) == SQLITE_ROW && found < STORE_RECORDS_MAX) {
        if (found == room) {
            StoreRecord *const more = ARENA_NEW(arena, StoreRecord, room ? 2 * room : 64);
            if (found) memcpy(more, all, sizeof *all * (size_t)found);
            all = more;
            room = room ? 2 * room : 64;
        }
        row_copy(s, arena, &all[found++]);
    }
    Status status = code == SQLITE_DONE ? STATUS_OK : db_refuse(&log->db, "read", err);
    if (code == SQLITE_ROW)
        status = error_set(err, STATUS_TOO_LARGE, "a log has at most %d records",
                           (int)STORE_RECORDS_MAX);
    sqlite3_finalize(s);
    if (status != STATUS_OK) return status;
    *list = all;
    *count = found;
    return STATUS_OK;
}

/* The record in s against the chain so far; moves the chain on. */
static void record_verify(sqlite3_stmt *s, const char *known, unsigned char last[SHA256_SIZE],
                          StoreChain *chain)
{
    const StoreRecord r = record_row(s);
    unsigned char before[SHA256_SIZE], hash[SHA256_SIZE], found[SHA256_SIZE];
    const char *why = NULL;
    record_hash(&r, last, found);
    if (r.number != chain->count + 1)
        why = "the records before it are not all there";
    else if (!hash_column(s, 5, before) || memcmp(before, last, SHA256_SIZE) != 0)
        why = "it does not follow the record before";
    else if (!hash_column(s, 6, hash) || memcmp(hash, found, SHA256_SIZE) != 0)
        why = "it does not say what was written";
    chain->count++;
    if (why && !chain->broken) {
        chain->broken = r.number > 0 ? r.number : chain->count;
        chain->why = why;
    }
    memcpy(last, found, SHA256_SIZE);
    sha256_text(found, chain->last);
    if (known && strcmp(known, chain->last) == 0) chain->known = r.number;
}

Status store_log_verify(StoreLog *log, const char *hash, StoreChain *chain, Error *err)
{
    sqlite3_stmt *s;
    StoreChain found = {0};
    unsigned char last[SHA256_SIZE] = {0};
    int code;
    TRY(db_prepare(&log->db, RECORD_COLUMNS "ORDER BY number", &s, err));
    while ((code = sqlite3_step(s)) == SQLITE_ROW) record_verify(s, hash, last, &found);
    const Status status = code == SQLITE_DONE ? STATUS_OK : db_refuse(&log->db, "read", err);
    sqlite3_finalize(s);
    if (status == STATUS_OK) *chain = found;
    return status;
}
