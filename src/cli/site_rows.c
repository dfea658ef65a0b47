/* Rows of a logger into the log. */
#include <string.h>

#include "site.h"

Status site_map(const char *path, Arena *arena, const Node **map, Error *err)
{
    const char *bytes;
    size_t size;
    Node *root;
    Diagnostics *const list = ARENA_NEW(arena, Diagnostics, 1);
    *map = NULL;
    if (!path) return STATUS_OK;
    TRY(file_read(path, 1 << 20, arena, &bytes, &size, err));
    if (yaml_read(bytes, size, arena, &root, list) != STATUS_OK) {
        *err = list->item[0];
        return err->status;
    }
    *map = root;
    return STATUS_OK;
}

/* Every row is judged; kept is what was said where it changes, and at the end. */
static Status rows_judge(SiteLog *site, const LogbookRows *rows, SiteVerdict *last, Error *err)
{
    int worst = -1;
    StoreRecord *const record = ARENA_NEW(site->arena, StoreRecord, rows->count + 1);
    int count = 0, before = -1;
    SiteVerdict v = {0};
    for (int i = 0; i < site->book.count; i++) {
        const LogbookReading *const r = &site->book.reading[i];
        if (r->record->number < rows->record[0].number || strcmp(r->record->kind, "reading") != 0)
            continue;
        arena_reset(site->scratch, 0);
        logbook_judge(&site->book, i, site->scratch, &v);
        const bool kept = (int)v.call != before || i == site->book.count - 1;
        before = (int)v.call;
        if (worst < 0 || v.call > last->call)
            *last = v, worst = i, last->reason = arena_text(site->arena, v.reason);
        if (!kept || r->call) continue;
        record[count++] =
            (StoreRecord){.id = arena_printf(site->arena, "verdict of %ld", r->record->number),
                          .kind = "verdict",
                          .at = sitelog_now(site->arena),
                          .body = logbook_verdict_body(r->record->number, &v, site->arena)};
    }
    TRY(store_log_add(site->log, record, count, err));
    if (worst < 0) return STATUS_OK;
    return site_say(site, err, "the gravest, on record %ld:\n",
                    site->book.reading[worst].record->number);
}

static Status rows_say(SiteLog *site, const LogbookRows *rows, Error *err)
{
    int there = 0;
    for (int i = 0; i < rows->count; i++) there += rows->record[i].repeated;
    if (rows->told.length) TRY(output_print(&rows->told, err));
    return site_say(
        site, err,
        "%d rows: %d kept, %d were in the log already, %d left out as the same row again\n%s%s\n",
        rows->count + rows->repeated, rows->count - there, there, rows->repeated,
        rows->count ? "the last is " : "", rows->count ? rows->record[rows->count - 1].hash : "");
}

static Status import(const Request *request, SiteLog *site, Error *err)
{
    const char *const path = request->value[OPTION_ROWS], *bytes;
    const Node *map;
    size_t size;
    LogbookWords fixed;
    LogbookRows rows;
    SiteVerdict v = {0};
    Diagnostics *const list = ARENA_NEW(site->arena, Diagnostics, 1);
    if (!path) return error_set(err, STATUS_BAD_INPUT, "clench site import needs --rows CSV");
    TRY(site_words(request, site, &fixed, err));
    TRY(file_read(path, LOGBOOK_CSV_MAX, site->arena, &bytes, &size, err));
    TRY(site_map(request->value[OPTION_MAP], site->arena, &map, err));
    const LogbookSource source = {bytes,          size, map, &fixed, sitelog_now(site->arena),
                                  &site->book.day};
    if (logbook_import(&source, site->arena, &rows, list) != STATUS_OK)
        return diagnostics_print(list, path, err);
    if (rows.count == 0) return error_set(err, STATUS_BAD_INPUT, "\"%.160s\" has no row", path);
    TRY(store_log_add(site->log, rows.record, rows.count, err));
    TRY(rows_say(site, &rows, err));
    TRY(sitelog_load(site, err));
    TRY(rows_judge(site, &rows, &v, err));
    return site_verdict_say(site, &v, err);
}

Status site_import(const Request *request, Error *err)
{
    return site_act(request, true, import, err);
}
