/* The door of the workbench. The page's host puts a packed tree (node_pack) into the room, asks,
 * and reads the text that comes back; it never sees a pointer into anything else. One page, one
 * thread: the state here is the door's own, the engine has none. */
#include <string.h>

#include "clench/desk.h"

#define EXPORTED(name) __attribute__((export_name(name)))

/* Each arena's bound; memory is taken as it is used. */
static const size_t room_bytes = (size_t)700 << 20;

static Arena *room_arena, *answer_arena;
static char *room;
static size_t room_size;
static Text answer;
static Desk *desk;

/* Room for so many bytes of a tree; the one before is gone. */
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

/* The text grows in an arena that every answer uses again. */
static void answer_start(void)
{
    if (!answer_arena) answer_arena = arena_create(room_bytes);
    arena_reset(answer_arena, 0);
    answer = text_start(answer_arena);
}

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

static int write_errors(Status status, const Diagnostics *list, const Error *err)
{
    answer_start();
    Json json = json_start(&answer);
    json_open_map(&json, NULL);
    json_text(&json, "status", status_name(status));
    json_open_list(&json, "errors");
    for (int i = 0; list && i < list->count; i++) write_error(&json, &list->item[i]);
    if (!list || list->count == 0) write_error(&json, err);
    json_close_list(&json);
    json_close_map(&json);
    return status_exit_code(status);
}

/* Nothing can be looked at before a bridge is open. */
static Status check_open(Error *err)
{
    if (desk && desk_is_open(desk)) return STATUS_OK;
    return error_set(err, STATUS_BAD_INPUT, "no bridge is open");
}

static Status open_room(size_t bytes, int units, Diagnostics *list, Error *err)
{
    if (!desk) desk = desk_create(room_bytes);
    if (bytes > room_size || units < 0 || units > (int)DESK_UNITS_SI)
        return error_set(err, STATUS_BAD_INPUT, "%zu bytes in a room of %zu, units %d of 0 to 2",
                         bytes, room_size, units);
    return desk_open(desk, room, bytes, (DeskUnits)units, list, err);
}

/* Opens the tree in the room. units: 0 the file's, 1 US, 2 SI. Status 0, 2 or 3 (exit codes); the text
 * is the facts, or the errors. */
EXPORTED("clench_open") int clench_open(size_t bytes, int units);
int clench_open(size_t bytes, int units)
{
    Error err = {0};
    Arena *arena = arena_create(sizeof(Diagnostics) + 4096);
    Diagnostics *list = ARENA_NEW(arena, Diagnostics, 1);
    const Status status = open_room(bytes, units, list, &err);
    answer_start();
    if (status == STATUS_OK)
        desk_facts(desk, &answer);
    else
        write_errors(status, list, &err);
    arena_free(arena);
    return status_exit_code(status);
}

static Status look(double thrust_N, int full, Error *err)
{
    TRY(check_open(err));
    return desk_look(desk, thrust_N, full != 0, err);
}

/* A thrust of the whole deck: predicted, or by a full run. */
EXPORTED("clench_look") int clench_look(double thrust_N, int full);
int clench_look(double thrust_N, int full)
{
    Error err = {0};
    const Status status = look(thrust_N, full, &err);
    if (status != STATUS_OK) return write_errors(status, NULL, &err);
    answer_start();
    desk_seen(desk, &answer);
    return 0;
}

static Status picture(int kind, DeskPlace place, double width_px, Error *err)
{
    TRY(check_open(err));
    return desk_picture(desk, kind, place, width_px, &answer, err);
}

EXPORTED("clench_picture")
int clench_picture(int kind, int line, int time, int joint, double width_px);
int clench_picture(int kind, int line, int time, int joint, double width_px)
{
    Error err = {0};
    answer_start();
    const Status status = picture(kind, (DeskPlace){line, time, joint}, width_px, &err);
    return status == STATUS_OK ? 0 : write_errors(status, NULL, &err);
}

static Status table(int kind, DeskPlace place, Error *err)
{
    TRY(check_open(err));
    return desk_table(desk, kind, place, &answer, err);
}

EXPORTED("clench_table") int clench_table(int kind, int line, int time, int joint);
int clench_table(int kind, int line, int time, int joint)
{
    Error err = {0};
    answer_start();
    const Status status = table(kind, (DeskPlace){line, time, joint}, &err);
    return status == STATUS_OK ? 0 : write_errors(status, NULL, &err);
}

/* The answer of the last full look: 0, or 1 where its thrust does not lie in the window. */
EXPORTED("clench_json") int clench_json(void);
int clench_json(void)
{
    Error err = {0};
    const Status status = check_open(&err);
    if (status != STATUS_OK) return write_errors(status, NULL, &err);
    answer_start();
    desk_json(desk, &answer);
    return 0;
}
