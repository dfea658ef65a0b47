/* The engine's door for the page. The page's host puts a packed tree (node_pack) into the room, asks,
 * and reads the text that comes back; it never sees a pointer into anything else. One page, one
 * thread: the state here is the door's own, the engine has none. */
#include <string.h>

#include "clench/report.h"

#define EXPORTED(name) __attribute__((export_name(name)))

enum Wanted { WANTED_JSON, WANTED_PAGE, WANTED_SCREEN };

static const size_t result_bytes = (size_t)512 << 20;

static Arena *room_arena, *answer_arena;
static char *room;
static Text answer;

/* Room for so many bytes of a tree; the one before is gone. */
EXPORTED("clench_room") char *clench_room(size_t bytes);
char *clench_room(size_t bytes)
{
    arena_free(room_arena);
    room_arena = arena_create(bytes + 1024);
    room = arena_take(room_arena, bytes);
    return room;
}

EXPORTED("clench_text") const char *clench_text(void);
const char *clench_text(void) { return answer.bytes; }

EXPORTED("clench_length") size_t clench_length(void);
size_t clench_length(void) { return answer.length; }

static void write_error(Json *json, const Error *err)
{
    json_open_map(json, NULL);
    json_int(json, "line", err->from.line);
    json_int(json, "column", err->from.column);
    json_int(json, "to_line", err->to.line);
    json_int(json, "to_column", err->to.column);
    json_text(json, "key", err->key);
    json_text(json, "expected", err->expected);
    json_text(json, "suggestion", err->suggestion);
    json_text(json, "text", err->text);
    json_close_map(json);
}

static void write_errors(Status status, const Diagnostics *list, const Error *err)
{
    Json json = json_start(&answer);
    json_open_map(&json, NULL);
    json_text(&json, "status", status_name(status));
    json_open_list(&json, "errors");
    for (int i = 0; i < list->count; i++) write_error(&json, &list->item[i]);
    if (list->count == 0) write_error(&json, err);
    json_close_list(&json);
    json_close_map(&json);
}

static Status find(size_t bytes, double given_N, Arena *scratch, ReportSource *source,
                   Diagnostics *list, Error *err)
{
    Node *root;
    TRY(node_unpack(room, bytes, answer_arena, &root, err));
    return report_find(root, given_N, answer_arena, scratch, source, list, err);
}

/* The answer for the tree in the room: a status (exit code: 0 met, 1 not met, 2 input, 3 mathematics),
 * the text by `wanted`. With 2 and 3 the text is JSON with the errors. units: 0 the file's, 1 US,
 * 2 SI; given_N: a thrust to judge, or 0. */
EXPORTED("clench_thrust") int clench_thrust(size_t bytes, double given_N, int units, int wanted);
int clench_thrust(size_t bytes, double given_N, int units, int wanted)
{
    arena_free(answer_arena);
    answer_arena = arena_create(result_bytes);
    answer = text_start(answer_arena);
    Arena *scratch = arena_create(result_bytes);
    Diagnostics *list = ARENA_NEW(answer_arena, Diagnostics, 1);
    Error err = {0};
    ReportSource source;
    const Status status = find(bytes, given_N, scratch, &source, list, &err);
    arena_free(scratch);
    if (status != STATUS_OK) {
        write_errors(status, list, &err);
        return status_exit_code(status);
    }
    if (units > 0) source.units = units == 1 ? UNITS_US : UNITS_SI;
    if (wanted == WANTED_JSON)
        report_thrust_json(&source, &answer);
    else if (wanted == WANTED_PAGE)
        report_html(report_thrust(&source, true, answer_arena), &answer);
    else
        report_text(report_thrust(&source, false, answer_arena), &answer);
    return status_exit_code(source.answer->met ? STATUS_OK : STATUS_NOT_MET);
}
