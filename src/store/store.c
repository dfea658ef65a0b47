/* Revisions of one bridge file. */
#include "clench/store.h"

#include <stdlib.h>
#include <string.h>

#include "db.h"

struct Store {
    Db db;
};

extern const char store_schema[]; /* schema.sql, by the assembler; ends with a NUL */

static const DbKind kind = {.application_id = 0x636C656E, /* "clen" */
                            .version = 1,
                            .schema = store_schema,
                            .what = "revisions",
                            .cure = "move that file away to start new ones",
                            .size_max = STORE_TEXT_MAX + (1 << 20)};

Status store_open(const char *path, bool make, Store **store, Error *err)
{
    Store *const s = calloc(1, sizeof *s);
    if (!s) return error_set(err, STATUS_IO, "no memory left");
    const Status status = db_open(&s->db, &kind, path, make, err);
    if (status == STATUS_OK) *store = s->db.db ? s : NULL;
    if (status != STATUS_OK || !s->db.db) free(s);
    return status;
}

void store_close(Store *store)
{
    if (!store) return;
    db_close(&store->db);
    free(store);
}

Status store_add(Store *store, const StoreRevision *revision, long *id, Error *err)
{
    sqlite3_stmt *s;
    if (strlen(revision->note) > STORE_NOTE_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a note has at most %d bytes", (int)STORE_NOTE_MAX);
    if (strlen(revision->text) > STORE_TEXT_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a bridge file has at most %d bytes",
                         (int)STORE_TEXT_MAX);
    TRY(db_prepare(&store->db,
                   "INSERT INTO revision (at, note, mark, content) VALUES (?1, ?2, ?3, ?4)", &s,
                   err));
    db_bind(s, 1, revision->when);
    db_bind(s, 2, revision->note);
    db_bind(s, 3, revision->mark);
    db_bind(s, 4, revision->text);
    const bool done = sqlite3_step(s) == SQLITE_DONE;
    const Status status = done ? STATUS_OK : db_refuse(&store->db, "written", err);
    if (done) *id = (long)sqlite3_last_insert_rowid(store->db.db);
    sqlite3_finalize(s);
    return status;
}

static StoreRevision revision_row(sqlite3_stmt *s, Arena *arena)
{
    return (StoreRevision){.id = (long)sqlite3_column_int64(s, 0),
                           .when = db_column(s, 1, arena),
                           .note = db_column(s, 2, arena),
                           .mark = db_column(s, 3, arena)};
}

Status store_list(Store *store, int most, Arena *arena, const StoreRevision **list, int *count,
                  Error *err)
{
    sqlite3_stmt *s;
    TRY(db_prepare(&store->db, "SELECT id, at, note, mark FROM revision ORDER BY id DESC LIMIT ?1",
                   &s, err));
    sqlite3_bind_int(s, 1, most);
    StoreRevision *const row = ARENA_NEW(arena, StoreRevision, most);
    int found = 0, code = SQLITE_ROW;
    while (found < most && (code = sqlite3_step(s)) == SQLITE_ROW)
        row[found++] = revision_row(s, arena);
    const bool good = code == SQLITE_ROW || code == SQLITE_DONE;
    const Status status = good ? STATUS_OK : db_refuse(&store->db, "read", err);
    sqlite3_finalize(s);
    if (!good) return status;
    *list = row;
    *count = found;
    return STATUS_OK;
}

Status store_find(Store *store, long id, Arena *arena, StoreRevision *revision, Error *err)
{
    sqlite3_stmt *s;
    TRY(db_prepare(&store->db, "SELECT id, at, note, mark, content FROM revision WHERE id = ?1", &s,
                   err));
    sqlite3_bind_int64(s, 1, id);
    const int code = sqlite3_step(s);
    Status status = STATUS_OK;
    if (code == SQLITE_ROW) {
        *revision = revision_row(s, arena);
        revision->text = db_column(s, 4, arena);
    } else if (code == SQLITE_DONE) {
        status = error_set(err, STATUS_BAD_INPUT, "there is no revision %ld", id);
    } else {
        status = db_refuse(&store->db, "read", err);
    }
    sqlite3_finalize(s);
    return status;
}
