/* From quantities to the bytes of an XLSX file. */
#define _DEFAULT_SOURCE
#include "clench/workbook.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "book.h"

/* ---- formats ---- */

static lxw_format *format_new(const Book *b, const char *number)
{
    lxw_format *format = workbook_add_format(b->file);
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    if (number) format_set_num_format(format, number);
    return format;
}

static void add_formats(Book *b)
{
    b->text = format_new(b, NULL);
    b->wrapped = format_new(b, NULL);
    format_set_text_wrap(b->wrapped);
    b->strong = format_new(b, NULL);
    format_set_bold(b->strong);
    b->title = format_new(b, NULL);
    format_set_bold(b->title);
    format_set_font_size(b->title, 16);
    b->head = format_new(b, NULL);
    format_set_bold(b->head);
    format_set_text_wrap(b->head);
    format_set_bottom(b->head, LXW_BORDER_THIN);
    b->number = format_new(b, "#,##0.00");
    b->total = format_new(b, "#,##0.00");
    format_set_bold(b->total);
    b->count = format_new(b, "#,##0");
    b->share = format_new(b, "0.0 %");
    b->input = format_new(b, "#,##0.00##");
    b->input_share = format_new(b, "0.0 %");
    lxw_format *const given[] = {b->input, b->input_share};
    for (int i = 0; i < 2; i++) {
        format_set_bg_color(given[i], 0xE8EEF7);
        format_set_border(given[i], LXW_BORDER_THIN);
    }
}

/* ---- the file ---- */

static lxw_datetime noon(const char *date)
{
    lxw_datetime day = {.hour = 12};
    day.year = atoi(date);
    day.month = atoi(date + 5);
    day.day = atoi(date + 8);
    return day;
}

static void add_properties(Book *b)
{
    lxw_doc_properties properties = {
        .title = arena_printf(b->arena, "Quantities: %s", b->source->report->name),
        .comments = arena_printf(b->arena, "clench %s, revision %s", b->source->report->version,
                                 b->settings->revision)};
    const lxw_datetime day = noon(b->settings->date);
    /* days since 1970 of a date, closed form of the Gregorian calendar */
    const long year = day.month > 2 ? day.year : day.year - 1;
    const long month = day.month > 2 ? day.month - 3 : day.month + 9;
    const long days =
        365 * year + year / 4 - year / 100 + year / 400 + (153 * month + 2) / 5 + day.day - 719469;
    properties.created = (time_t)(days * 86400 + 43200);
    workbook_set_properties(b->file, &properties);
}

static Status refused(Error *err, const char *what)
{
    return error_set(err, STATUS_IO, "the workbook's temporary file %s: %s", what, strerror(errno));
}

static Status take_bytes(const char *path, Text *xlsx, Error *err)
{
    char block[1 << 14];
    size_t got;
    FILE *file = fopen(path, "rb");
    if (!file) return refused(err, "cannot be read");
    while ((got = fread(block, 1, sizeof block, file)) > 0) text_addn(xlsx, block, got);
    const bool bad = ferror(file) != 0;
    fclose(file);
    return bad ? refused(err, "cannot be read") : STATUS_OK;
}

static Status write_book(Book *b, const char *path, Error *err)
{
    b->file = workbook_new(path);
    if (!b->file) return refused(err, "cannot be made");
    add_formats(b);
    add_properties(b);
    book_cover(b);
    book_inputs(b);
    book_quantities(b);
    const lxw_error bad = workbook_close(b->file);
    if (bad != LXW_NO_ERROR)
        return error_set(err, STATUS_IO, "the workbook's temporary file cannot be written: %s",
                         lxw_strerror(bad));
    return STATUS_OK;
}

Status workbook_takeoff(const TakeoffSource *source, const WorkbookSettings *settings, Text *xlsx,
                        Error *err)
{
    Book b = {.source = source,
              .settings = settings,
              .units = source->report->units,
              .arena = xlsx->arena};
    const char *folder = getenv("TMPDIR");
    char *const path =
        arena_printf(b.arena, "%s/clench-XXXXXX", folder && *folder ? folder : P_tmpdir);
    const int file = mkstemp(path);
    if (file < 0) return refused(err, "cannot be made");
    close(file);
    Status status = write_book(&b, path, err);
    if (status == STATUS_OK) status = take_bytes(path, xlsx, err);
    unlink(path);
    return status;
}
