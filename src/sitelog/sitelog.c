/* One log of a jacking job: started, added to, struck. */
#define _DEFAULT_SOURCE
#include "clench/sitelog.h"

#include <string.h>
#include <time.h>

const char *sitelog_path(const char *file, int unit, Arena *arena)
{
    return unit ? arena_printf(arena, "%s.site-%d.db", file, unit + 1)
                : arena_printf(arena, "%s.site.db", file);
}

const char *sitelog_now(Arena *arena)
{
    char text[32];
    struct tm parts;
    const time_t seconds = time(NULL);
    gmtime_r(&seconds, &parts);
    strftime(text, sizeof text, "%Y-%m-%dT%H:%M:%SZ", &parts);
    return arena_text(arena, text);
}

/* ---- start ---- */

static Status records_make(const SiteStart *start, Arena *arena, Arena *scratch,
                           StoreRecord record[2], const JackPlan **plan, Error *err)
{
    const ReportSource *const source = start->source;
    SiteDay day = {.units = source->units};
    const int units = jacking_units(source->answer);
    if (start->unit >= units)
        return error_set(err, STATUS_BAD_INPUT, "--unit: the bridge has %d structural unit%s",
                         units, units == 1 ? "" : "s");
    const JackWish wish = {source->bridge, source->answer, start->unit};
    TRY(jacking_plan(&wish, arena, scratch, plan, err));
    TRY(logbook_points(start->points, *plan, &day, err));
    if (strlen(start->text) != start->size)
        return error_set(err, STATUS_BAD_INPUT, "the bridge file has a zero byte in it");
    const char *const at = sitelog_now(arena), *const slash = strrchr(start->file, '/');
    record[0] = (StoreRecord){.id = "bridge", .kind = "bridge", .at = at, .body = start->text};
    record[1] = (StoreRecord){
        .id = "plan",
        .kind = "plan",
        .at = at,
        .body = logbook_plan_body(&day, source->name, slash ? slash + 1 : start->file, arena)};
    return STATUS_OK;
}

Status sitelog_start(const SiteStart *start, Arena *arena, Arena *scratch, StoreRecord record[2],
                     const JackPlan **plan, bool *other, Error *err)
{
    StoreLog *log;
    *other = false;
    TRY(records_make(start, arena, scratch, record, plan, err));
    const char *const path = sitelog_path(start->file, start->unit, arena);
    TRY(store_log_open(path, true, &log, err));
    const Status status = store_log_add(log, record, 2, err);
    store_log_close(log);
    *other = status == STATUS_BAD_INPUT;
    if (!*other) return status;
    return error_set(
        err, status,
        "this job is open with another bridge file, plan or dials; another plan is another "
        "job: move its log \"%.160s\" away",
        path);
}

/* ---- a log that is there ---- */

Status sitelog_open(const char *file, int unit, SiteLog *site, Error *err)
{
    const char *const path = sitelog_path(file, unit, site->arena);
    TRY(store_log_open(path, false, &site->log, err));
    if (site->log) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT,
                     "there is no log \"%.160s\": start it with clench site open %.100s", path,
                     file);
}

Status sitelog_load(SiteLog *site, Error *err)
{
    TRY(store_log_read(site->log, 0, site->arena, &site->record, &site->count, err));
    return logbook_load(site->record, site->count, site->arena, &site->book, err);
}

void sitelog_close(SiteLog *site)
{
    store_log_close(site->log);
    site->log = NULL;
}

/* ---- readings ---- */

static const char verdict_of[] = "verdict of ", strike_of[] = "strike of ";

/* A reading of that id would keep the log from its own record later. */
Status sitelog_id(const char *id, Error *err)
{
    if (strncmp(id, verdict_of, sizeof verdict_of - 1) != 0 &&
        strncmp(id, strike_of, sizeof strike_of - 1) != 0)
        return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT, "'%.60s' is an id that the log makes itself", id);
}

int sitelog_find(const Logbook *book, long number)
{
    for (int i = book->count - 1; i >= 0; i--)
        if (book->reading[i].record->number == number) return i;
    return -1;
}

/* What was said on the spot; NULL: nothing was kept. */
static const char *kept_find(const SiteLog *site, const char *id)
{
    for (int i = site->count - 1; i >= 0; i--)
        if (strcmp(site->record[i].id, id) == 0) return site->record[i].body;
    return NULL;
}

Status sitelog_judge(SiteLog *site, long number, SiteTold *told, Error *err)
{
    TRY(sitelog_load(site, err));
    const int index = sitelog_find(&site->book, number);
    if (index < 0)
        return error_set(err, STATUS_BAD_INPUT, "record %ld is no reading of this log", number);
    logbook_judge(&site->book, index, site->scratch, &told->verdict);
    StoreRecord record = {.id = arena_printf(site->arena, "%s%ld", verdict_of, number),
                          .kind = "verdict",
                          .at = sitelog_now(site->arena)};
    told->body = kept_find(site, record.id);
    told->kept = told->body != NULL;
    if (told->kept) return STATUS_OK;
    record.body = told->body = logbook_verdict_body(number, &told->verdict, site->arena);
    told->kept = store_log_add(site->log, &record, 1, err) == STATUS_OK;
    return STATUS_OK;
}

/* ---- strikes ---- */

Status sitelog_strike(SiteLog *site, long number, const char *why, const char *who,
                      StoreRecord *record, bool *other, Error *err)
{
    const int index = sitelog_find(&site->book, number);
    *other = false;
    if (index < 0)
        return error_set(err, STATUS_BAD_INPUT, "record %ld is no reading of this log", number);
    *record = (StoreRecord){.id = arena_printf(site->arena, "%s%ld", strike_of, number),
                            .kind = "strike",
                            .at = sitelog_now(site->arena)};
    TRY(logbook_strike_body(number, why, who, site->arena, &record->body, err));
    const long struck = site->book.reading[index].struck;
    *other = struck && strcmp(site->record[struck - 1].body, record->body) != 0;
    if (*other)
        return error_set(err, STATUS_BAD_INPUT, "record %ld is struck already, by record %ld",
                         number, struck);
    const Status status = store_log_add(site->log, record, 1, err);
    *other = status == STATUS_BAD_INPUT; /* another program was faster */
    return status;
}
