/* store: revisions of one bridge file in an SQLite file. Values reach SQL as bound parameters only.
 *
 * The file is made at the first revision. It keeps a rollback journal, not a write-ahead log: that
 * works on every file system and leaves one file. Several programs may use it at once; a writer
 * waits for another up to STORE_BUSY_S. A file that is damaged, of another program or of a newer
 * version is refused, never changed. */
#ifndef CLENCH_STORE_H
#define CLENCH_STORE_H

#include "clench/base.h"

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

#endif
