/* What the files of `clench site` share. */
#ifndef CLENCH_CLI_SITE_H
#define CLENCH_CLI_SITE_H

#include "clench/sitelog.h"
#include "cli.h"

/* Runs an action with its memory and the log that is there. `load`: with its records. */
Status site_act(const Request *request, bool load,
                Status (*action)(const Request *, SiteLog *, Error *), Error *err);
MUST_USE Status site_say(SiteLog *site, Error *err, const char *format, ...) PRINTF_LIKE(3, 4);
Status site_verdict_say(SiteLog *site, const SiteVerdict *verdict,
                        Error *err); /* NOT_MET: not to go on */
MUST_USE Status site_words(const Request *request, SiteLog *site, LogbookWords *words, Error *err);

MUST_USE Status site_unit(const Request *request, int *unit, Error *err); /* from 0 */
/* The tree of a map; NULL where no file is named. Without a list: its first error is in `err`. */
MUST_USE Status site_map(const char *path, Arena *arena, const Node **map, Error *err);

Status site_watch(const Request *request, Error *err);
Status site_import(const Request *request, Error *err);
Status site_fit_command(const Request *request, Error *err);
Status site_record(const Request *request, Error *err);

#endif
