/* store: revisions of one bridge file, and the log of a jacking job, each in an SQLite file. Values reach
 * SQL as bound parameters only.
 *
 * A file is made at the first revision, or record. It keeps a rollback journal, not a write-ahead log: that
 * works on every file system and leaves one file. Several programs may use it at once; a writer
 * waits for another up to STORE_BUSY_S. A file that is damaged, of another program or of a newer
 * version is refused, never changed. */
#ifndef CLENCH_STORE_H
#define CLENCH_STORE_H

#include "clench/logbook.h"

enum {
    STORE_BUSY_S = 5,
    STORE_TEXT_MAX = 4 << 20, /* bytes of a bridge file */
    STORE_NOTE_MAX = 1000     /* bytes */
};

typedef struct Store Store; /* for one thread at a time */

typedef struct StoreRevision {
    long id;
    const char *when; /* "2031-05-04T09:30:00Z" */
    const char *note; /* what the user says of it, may be empty */
    const char *mark; /* of the text */
    const char *text; /* NULL in a list */
} StoreRevision;

/* `make`: make the file where there is none; else *store is NULL then. Errors: IO. */
MUST_USE Status store_open(const char *path, bool make, Store **store, Error *err);
void store_close(Store *store); /* NULL is allowed */
/* Durable once it returns. Errors: TOO_LARGE, IO. */
MUST_USE Status store_add(Store *store, const StoreRevision *revision, long *id, Error *err);
/* Newest first, at most `most` of them, without their texts. Lives in `arena`. */
MUST_USE Status store_list(Store *store, int most, Arena *arena, const StoreRevision **list,
                           int *count, Error *err);
/* Errors: BAD_INPUT where there is no such revision. */
MUST_USE Status store_find(Store *store, long id, Arena *arena, StoreRevision *revision,
                           Error *err);

/* ---- the log of a jacking job ----
 * Records in their order, chained: the hash of each covers the one before. The database refuses to change,
 * replace or take out a record, and one that does not follow the last. Who rewrites the file with other
 * means can make a new chain: a hash noted elsewhere (on the signed sheet) shows it. What a record says is
 * for logbook.h to know. A handle is for one thread at a time; each thread opens its own. */

enum { STORE_BODY_MAX = 4 << 20, STORE_ID_MAX = 100, STORE_RECORDS_MAX = 1000000 };

typedef struct StoreLog StoreLog;

typedef LogbookRecord StoreRecord;

typedef struct StoreChain {
    long count;
    char last[SHA256_TEXT]; /* hash of the last record; empty without one */
    long broken;            /* number of the first record that is not as it was written; 0: none */
    const char *why;        /* NULL: not broken */
    long known;             /* number of the record whose hash was asked for; 0: not there */
} StoreChain;

/* As store_open. */
MUST_USE Status store_log_open(const char *path, bool make, StoreLog **log, Error *err);
void store_log_close(StoreLog *log); /* NULL is allowed */
/* All of `count` records or none, durable once it returns; fills number, hash and repeated. Errors: TOO_LARGE,
 * IO; BAD_INPUT where an id is there with another kind or body. */
MUST_USE Status store_log_add(StoreLog *log, StoreRecord *record, int count, Error *err);
/* Those after number `after`, in order. Lives in `arena`. */
MUST_USE Status store_log_read(StoreLog *log, long after, Arena *arena, const StoreRecord **list,
                               int *count, Error *err);
/* The first `most` (at least 1) of those. */
MUST_USE Status store_log_page(StoreLog *log, long after, int most, Arena *arena,
                               const StoreRecord **list, int *count, Error *err);
/* 0 and "" where there is none. */
MUST_USE Status store_log_last(StoreLog *log, long *number, char hash[SHA256_TEXT], Error *err);
/* `hash`: one that was noted, or NULL. A broken chain is a result, not an error. */
MUST_USE Status store_log_verify(StoreLog *log, const char *hash, StoreChain *chain, Error *err);

#endif
