/* What the files of logbook share. */
#ifndef CLENCH_LOGBOOK_WORDS_H
#define CLENCH_LOGBOOK_WORDS_H

#include "clench/logbook.h"

bool word_read(const char *text); /* something was read: not NULL, "" or "-" */
/* Words to numbers, NAN where not read. */
MUST_USE Status words_value(const LogbookWords *words, const SiteDay *day, SiteReading *value,
                            Error *err);
LogbookWords words_take(const Node *body, Arena *arena); /* of a reading's body */

#endif
