/* logbook: a jacking job as its log says it (store.h): bridge, plan, readings, strikes, verdicts.
 *
 * Records are kept as people wrote them, units and all; numbers come out of the words at each load. Kinds:
 * "bridge" (the file's text), "plan" (JSON: points and plan), "reading", "strike", "verdict" (what was said
 * on the spot). Nothing here writes: it makes bodies of records, and reads them. No global state; what is
 * loaded lives in its arena. docs/site.md. */
#ifndef CLENCH_LOGBOOK_H
#define CLENCH_LOGBOOK_H

#include "clench/report.h"
#include "clench/site.h"

/* A record of the log; kept by store.h. */
typedef struct LogbookRecord {
    const char *id; /* made by who writes: the same id again adds nothing */
    const char *kind, *at, *body;
    long number;            /* from 1; of the log */
    char hash[SHA256_TEXT]; /* of the log */
    bool repeated;          /* by adding: it was there already */
} LogbookRecord;

/* A reading in words. NULL, "" and "-": not read. */
typedef struct LogbookWords {
    const char *time;         /* "2031-05-04T09:30:00Z", or with +02:00 behind it */
    const char *step, *phase; /* "3"; "pump", "held", "back", "nuts", "reset" */
    const char *pressure[JACK_SETS], *move[SITE_POINTS];
    const char *deck, *girder, *cell; /* temperatures; load cells scaled to all jacks */
    const char *who, *remark;
} LogbookWords;

typedef struct LogbookReading {
    const LogbookRecord *record;
    LogbookWords words;
    long struck; /* number of the record that strikes it; 0: none */
    const char *struck_why, *struck_who;
    const char *call,
        *reason; /* as said on the spot; NULL: not said, or said of a later row of an import */
} LogbookReading;

typedef struct Logbook {
    SiteDay day;
    const char *name, *file, *bridge; /* of the bridge; its file and the file's text */
    long next;                        /* number of the last record */
    int count;
    LogbookReading *reading;
    SiteReading *value; /* the same in numbers, for site_judge */
} Logbook;

/* Days since 1970-01-01T00:00Z; seconds may have a fraction; `zone`: used where the words have none, NULL: they must.
 * Errors: BAD_INPUT. */
MUST_USE Status logbook_time(const char *text, const char *zone, double *time_day, Error *err);
/* "gap -18 ft, gap 18 ft, slip left, rise 2, bearing 3" to dials; NULL: the gap at the outer jacks and
 * between. `rise 2`: the second of the plan's watched girders. */
MUST_USE Status logbook_points(const char *text, const JackPlan *plan, SiteDay *day, Error *err);
const char *logbook_plan_body(const SiteDay *day, const char *name, const char *file, Arena *arena);
/* Errors: BAD_INPUT with the key of the value. */
MUST_USE Status logbook_reading_body(const LogbookWords *words, const SiteDay *day, Arena *arena,
                                     const char **body, Error *err);
/* Errors: BAD_INPUT. */
MUST_USE Status logbook_strike_body(long number, const char *why, const char *who, Arena *arena,
                                    const char **body, Error *err);
const char *logbook_verdict_body(long number, const SiteVerdict *verdict, Arena *arena);

/* Errors: BAD_INPUT where a record does not read. */
MUST_USE Status logbook_load(const LogbookRecord *record, int count, Arena *arena, Logbook *book,
                             Error *err);
/* Of reading `index`, given those before it. */
void logbook_judge(const Logbook *book, int index, Arena *arena, SiteVerdict *verdict);

/* Days, readings and rows of a report; the rest of `source` is the caller's. */
void logbook_source(const Logbook *book, Arena *arena, SiteSource *source);

/* Raw words, then what was made of them, units in the heads; logbook_import reads the raw columns back.
 * `scratch` is used for a reading at a time; the text is not in it. */
void logbook_csv(const Logbook *book, Arena *scratch, Text *text);
void logbook_json(const Logbook *book, Arena *scratch, Text *text);

/* ---- the page on site ---- */

/* A form's texts by name ("time", "pressure 1", "move 3"); names that no reading has are BAD_INPUT. What the
 * texts say is for logbook_reading_body to check. */
MUST_USE Status logbook_words(const Node *map, Arena *arena, LogbookWords *words, Error *err);
/* The day in words: dials, units, what gauge and gap should read at each step, cautions. */
void logbook_day_json(const Logbook *book, Arena *arena, Text *text);
/* Verdict on the last reading that is not struck, what each dial should show at each step, readings worked
 * up, pictures (SVG) with their tables. */
void logbook_page_json(const Logbook *book, double width_px, Arena *arena, Text *text);

/* ---- rows of a logger ---- */

enum { LOGBOOK_ROWS_MAX = 100000, LOGBOOK_CELLS_MAX = 64, LOGBOOK_CSV_MAX = 32 << 20 };
typedef struct LogbookRows {
    LogbookRecord *record; /* readings, without number and hash */
    int *line;             /* of the file, for each */
    int count;
    int repeated; /* rows left out: the same row stands above */
    Text told;    /* gaps and repeated rows, a line each; may be empty */
} LogbookRows;
typedef struct LogbookSource {
    const char *bytes;
    size_t size;
    const Node
        *map; /* what we call a value, and the head of its column; NULL: heads as logbook_csv's */
    const LogbookWords *fixed; /* for every row (step, phase, who), where no column gives them */
    const char *at;            /* for the records */
    const SiteDay *day;
} LogbookSource;
/* Of a reading that came without one: the same reading has the same. */
const char *logbook_row_id(const char *body, Arena *arena);
/* Strict: one error and no row is taken; errors with line and column (a cell's first character). */
MUST_USE Status logbook_import(const LogbookSource *source, Arena *arena, LogbookRows *rows,
                               Diagnostics *list);

#endif
