/* One SQLite file of ours: what revisions and site log have in common. */
#ifndef CLENCH_STORE_DB_H
#define CLENCH_STORE_DB_H

#include <sqlite3.h>

#include "clench/base.h"

/* A kind of file. Its schema has "-- step N" before what lifts a file to version N. */
typedef struct DbKind {
    int application_id; /* tells our files from others', https://www.sqlite.org/pragma.html */
    int version;
    const char *schema, *what; /* "revisions" */
    const char *cure;          /* of a damaged file: "move that file away ..." */
    int size_max;              /* bytes of one value */
} DbKind;

typedef struct Db {
    sqlite3 *db;
    const DbKind *kind;
    char path[4096];
} Db;

/* `make`: make the file where there is none; else `db` is left empty (db->db is NULL). On an error it
 * is closed. */
MUST_USE Status db_open(Db *db, const DbKind *kind, const char *path, bool make, Error *err);
void db_close(Db *db);

/* What SQLite has to say: "the revisions in ... cannot be `doing`: ..." */
Status db_refuse(const Db *db, const char *doing, Error *err);
MUST_USE Status db_run(const Db *db, const char *sql, const char *doing, Error *err);
MUST_USE Status db_prepare(const Db *db, const char *sql, sqlite3_stmt **statement, Error *err);
void db_bind(sqlite3_stmt *s, int place, const char *text);      /* from 1 */
const char *db_column(sqlite3_stmt *s, int place, Arena *arena); /* from 0 */

#endif
