/* The door of the page on site: a smaller engine than the workbench's, the log of the day alone. The page
 * puts JSON into the room, asks, and reads the text that comes back. Nothing is kept between calls: what
 * the page has on its disk is what is judged. */
#include "clench/logbook.h"

#define EXPORTED(name) __attribute__((export_name(name)))

/* Each arena's bound; memory is taken as it is used. */
static const size_t room_bytes = (size_t)256 << 20;

static Arena *room_arena, *work_arena;
static char *room;
static size_t room_size;
static Text answer;

/* Room for so many bytes; the one before is gone. */
EXPORTED("clench_room") char *clench_room(size_t bytes);
char *clench_room(size_t bytes)
{
    arena_free(room_arena);
    room_size = bytes <= NODE_PACK_MAX ? bytes : 0;
    room_arena = arena_create(room_size + 1024);
    room = arena_take(room_arena, room_size);
    return room;
}

EXPORTED("clench_text") const char *clench_text(void);
const char *clench_text(void) { return answer.bytes; }

EXPORTED("clench_length") size_t clench_length(void);
size_t clench_length(void) { return answer.length; }

static Arena *work_start(void)
{
    if (!work_arena) work_arena = arena_create(room_bytes);
    arena_reset(work_arena, 0);
    answer = text_start(work_arena);
    return work_arena;
}

/* ---- records ---- */

static const char *text_of(const Node *map, const char *key)
{
    const Node *const node = node_find(map, key);
    return node && node->kind == NODE_TEXT ? node->text : "";
}

static long number_of(const char *text)
{
    long number = 0;
    for (; *text >= '0' && *text <= '9' && number < 100000000; text++)
        number = 10 * number + (*text - '0');
    return number;
}

/* {"records": [{"number", "id", "kind", "at", "body"}], ...} to the job. */
static Status book_read(size_t bytes, Node **root, Logbook *book, Error *err)
{
    if (bytes > room_size)
        return error_set(err, STATUS_BAD_INPUT, "%zu bytes in a room of %zu", bytes, room_size);
    TRY(json_read(room, bytes, work_arena, root, err));
    const Node *const list = node_find(*root, "records");
    const int count = list && list->kind == NODE_LIST ? list->count : 0;
    if (count == 0) return error_set(err, STATUS_BAD_INPUT, "there are no records");
    LogbookRecord *const record = ARENA_NEW(work_arena, LogbookRecord, count);
    const Node *node = list->first;
    for (int i = 0; i < count; i++, node = node->next)
        record[i] = (LogbookRecord){.id = text_of(node, "id"),
                                    .kind = text_of(node, "kind"),
                                    .at = text_of(node, "at"),
                                    .body = text_of(node, "body"),
                                    .number = number_of(text_of(node, "number"))};
    return logbook_load(record, count, work_arena, book, err);
}

static int fail(Status status, const Error *err)
{
    Json json = json_start(&answer);
    json_open_map(&json, NULL);
    json_text(&json, "key", err->key);
    json_text(&json, "text", err->text);
    json_close_map(&json);
    return status_exit_code(status);
}

/* ---- what is asked ---- */

/* The day in words. */
EXPORTED("clench_day") int clench_day(size_t bytes);
int clench_day(size_t bytes)
{
    Error err = {0};
    Node *root = NULL;
    Logbook book;
    work_start();
    const Status status = book_read(bytes, &root, &book, &err);
    if (status != STATUS_OK) return fail(status, &err);
    logbook_day_json(&book, work_arena, &answer);
    return 0;
}

/* Verdict and pictures of all that is written. */
EXPORTED("clench_page") int clench_page(size_t bytes, double width_px);
int clench_page(size_t bytes, double width_px)
{
    Error err = {0};
    Node *root = NULL;
    Logbook book;
    work_start();
    Status status = book_read(bytes, &root, &book, &err);
    if (status == STATUS_OK && !(width_px >= 200 && width_px <= 4000))
        status = error_set(&err, STATUS_BAD_INPUT, "a picture is 200 to 4000 px wide");
    if (status != STATUS_OK) return fail(status, &err);
    logbook_page_json(&book, width_px, work_arena, &answer);
    return 0;
}

static Status body_make(size_t bytes, const char **body, Error *err)
{
    Node *root = NULL;
    Logbook book;
    LogbookWords words;
    TRY(book_read(bytes, &root, &book, err));
    TRY(logbook_words(node_find(root, "words"), work_arena, &words, err));
    return logbook_reading_body(&words, &book.day, work_arena, body, err);
}

/* "words" as typed to the body of a reading; else what is wrong, with the name of the value. */
EXPORTED("clench_body") int clench_body(size_t bytes);
int clench_body(size_t bytes)
{
    Error err = {0};
    const char *body;
    work_start();
    const Status status = body_make(bytes, &body, &err);
    if (status != STATUS_OK) return fail(status, &err);
    text_add(&answer, body);
    return 0;
}
