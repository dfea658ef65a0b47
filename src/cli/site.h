/* What the files of `clench site` share. */
#ifndef CLENCH_CLI_SITE_H
#define CLENCH_CLI_SITE_H

#include "clench/logbook.h"
#include "clench/store.h"
#include "cli.h"

typedef struct Site {
    Arena *arena, *scratch;
    StoreLog *log;
    const StoreRecord *record;
    int count;
    Logbook book;
} Site;

/* Runs an action with its memory and its log. `make`: where there is none, make it and load nothing. */
Status site_act(const Request *request, bool make,
                Status (*action)(const Request *, Site *, Error *), Error *err);
MUST_USE Status site_load(Site *site, Error *err); /* all records anew */
MUST_USE Status site_say(Site *site, Error *err, const char *format, ...) PRINTF_LIKE(3, 4);
Status site_verdict_say(Site *site, const SiteVerdict *verdict,
                        Error *err); /* NOT_MET: not to go on */
MUST_USE Status site_words(const Request *request, Site *site, LogbookWords *words, Error *err);
const char *site_now(Arena *arena); /* "2031-05-04T09:30:00Z" */

Status site_import(const Request *request, Error *err);

#endif
