/* sitelog: the log of a jacking job beside its bridge file, for who writes to it: the command line and the
 * server. It joins logbook (what records say) and store (where they stay), with the machine's clock.
 *
 * Several programs may write to one log at once; each adds, judges what it added, and reads anew. Whatever is
 * told as kept is on the disk. docs/site.md. */
#ifndef CLENCH_SITELOG_H
#define CLENCH_SITELOG_H

#include "clench/logbook.h"
#include "clench/store.h"

typedef struct SiteLog {
    Arena *arena, *scratch;
    StoreLog *log;
    const StoreRecord *record;
    int count;
    Logbook book;
} SiteLog;

/* "bridge.yaml.site.db"; of another unit than the first (0) "bridge.yaml.site-2.db". */
const char *sitelog_path(const char *file, int unit, Arena *arena);
const char *sitelog_now(Arena *arena); /* "2031-05-04T09:30:00Z" */

/* A job to start: the bridge file, what was found for it, and the dials (NULL: as usual). */
typedef struct SiteStart {
    const char *file, *text;
    size_t size;
    int unit;
    const char *points;
    const ReportSource *source;
} SiteStart;
/* Makes the plan, and the log with its first two records; the same again adds nothing. Errors: BAD_INPUT with
 * *other set where the log is there with another bridge file, plan or dials; and those of the plan. */
MUST_USE Status sitelog_start(const SiteStart *start, Arena *arena, Arena *scratch,
                              StoreRecord record[2], const JackPlan **plan, bool *other,
                              Error *err);

/* A log that is there; nothing is loaded. site->log is NULL where there is none, with BAD_INPUT. */
MUST_USE Status sitelog_open(const char *file, int unit, SiteLog *site, Error *err);
MUST_USE Status sitelog_load(SiteLog *site, Error *err); /* all records anew */
void sitelog_close(SiteLog *site);                       /* the log; not the arenas */

/* An id that one may give to a reading: not one of those the log makes itself. Errors: BAD_INPUT. */
MUST_USE Status sitelog_id(const char *id, Error *err);
/* Of the reading with record `number`; -1: none. */
int sitelog_find(const Logbook *book, long number);
/* The verdict on a reading that was added, `told` as a record's body: what was said on the spot where that is
 * kept, else what is said now; *kept: it is in the log now. Loads. Errors: of loading. What hinders keeping
 * it is in `err` with STATUS_OK and *kept false: the reading is safe all the same. */
typedef struct SiteTold {
    SiteVerdict verdict; /* now, of the reading given those before it */
    const char *body;
    bool kept;
} SiteTold;
MUST_USE Status sitelog_judge(SiteLog *site, long number, SiteTold *told, Error *err);
/* Of a loaded log. A reading is struck once; the same strike again adds nothing. Errors: BAD_INPUT, with
 * *other set where it is struck in other words. */
MUST_USE Status sitelog_strike(SiteLog *site, long number, const char *why, const char *who,
                               StoreRecord *record, bool *other, Error *err);

/* What was built, and its life with that: of a loaded log. `calendar`: date of day 0 of the bridge file, or NULL.
 * Lives in the log's arena. Errors: of the log's bridge in `list`; others in `err`. */
typedef struct SiteAsBuilt {
    ReportSource report;
    SiteSource source;
    SiteFit fit;
    SiteBuilt built;
    const Node *root;
} SiteAsBuilt;
MUST_USE Status sitelog_built(SiteLog *site, int unit, const char *calendar, SiteAsBuilt *built,
                              Diagnostics *list, Error *err);

#endif
