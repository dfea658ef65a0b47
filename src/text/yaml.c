/* libyaml's events to a tree. Its own tree (yaml_parser_load) is not used: that takes quadratic
 * time on deep nesting. libyaml's marks count lines and characters from 0. */
#include "clench/text.h"

#include <assert.h>
#include <limits.h>
#include <string.h>
#include <yaml.h>

typedef struct Level {
    Node *node;      /* a list or map that is open */
    bool flow;       /* in brackets: it ends where its bracket does */
    const char *key; /* in a map: the key that waits for its value, else NULL */
    Place key_from, key_to;
} Level;

typedef struct Reader {
    Arena *arena;
    Diagnostics *diagnostics;
    Status status; /* the worst so far */
    Level level[NODE_DEPTH_MAX];
    int depth; /* open lists and maps */
    int count; /* values so far */
    bool ended;
    Node *root;
} Reader;

static Place place_at(yaml_mark_t mark)
{
    const size_t most = INT_MAX - 1;
    return (Place){(int)(mark.line < most ? mark.line : most) + 1,
                   (int)(mark.column < most ? mark.column : most) + 1};
}

/* ---- errors ---- */

/* "deck.panel[2].length" for `key` in the innermost map; key is NULL for what is open itself. */
static void path_write(const Reader *reader, const char *key, char *out, size_t out_size)
{
    size_t at = 0;
    out[0] = 0;
    for (int i = 0; i < reader->depth && at < out_size; i++) {
        const Level *level = &reader->level[i];
        const char *name = level->key;
        int written = 0;
        if (i == reader->depth - 1 && key) name = key;
        if (level->node->kind == NODE_LIST)
            written = snprintf(out + at, out_size - at, "[%d]", level->node->count + 1);
        else if (name)
            written = snprintf(out + at, out_size - at, "%s%s", at > 0 ? "." : "", name);
        at += (size_t)written;
    }
}

static void note(Reader *reader, const Error *err)
{
    diagnostics_add(reader->diagnostics, err);
    if (err->status > reader->status) reader->status = err->status;
}

static Status note_event(Reader *reader, const yaml_event_t *event, Status status,
                         const char *sentence)
{
    Error err;
    char path[sizeof err.key];
    path_write(reader, NULL, path, sizeof path);
    error_at(&err, status, place_at(event->start_mark), place_at(event->end_mark), path, "%s",
             sentence);
    note(reader, &err);
    return status;
}

static void note_repeats(Reader *reader, const Node *map)
{
    const size_t mark = arena_mark(reader->arena);
    NodeRepeat *repeats;
    const int found = node_repeats(map, reader->arena, &repeats);
    for (int i = 0; i < found; i++) {
        const Node *first = repeats[i].first, *again = repeats[i].again;
        Error err;
        char path[sizeof err.key];
        path_write(reader, again->key, path, sizeof path);
        error_at(&err, STATUS_BAD_INPUT, again->key_from, again->key_to, path,
                 "the key \"%.60s\" is given twice, first in line %d, column %d", again->key,
                 first->key_from.line, first->key_from.column);
        note(reader, &err);
    }
    arena_reset(reader->arena, mark);
}

/* ---- values ---- */

/* Hangs a value under what is open; the first one is the root. */
static void value_place(Reader *reader, Node *node)
{
    if (reader->depth == 0) {
        reader->root = node;
        return;
    }
    Level *top = &reader->level[reader->depth - 1];
    if (top->node->kind == NODE_MAP) {
        node->key = top->key;
        node->key_from = top->key_from;
        node->key_to = top->key_to;
        top->key = NULL;
    }
    node_append(top->node, node);
}

/* Depth and number of values are bounded, for the engine that gets the tree. */
static Status value_count(Reader *reader, const yaml_event_t *event)
{
    if (reader->depth >= NODE_DEPTH_MAX)
        return note_event(reader, event, STATUS_TOO_LARGE, "lists and maps are nested too deeply");
    if (++reader->count > NODE_COUNT_MAX)
        return note_event(reader, event, STATUS_TOO_LARGE, "there are too many values");
    return STATUS_OK;
}

static bool key_due(const Reader *reader)
{
    if (reader->depth == 0) return false;
    const Level *top = &reader->level[reader->depth - 1];
    return top->node->kind == NODE_MAP && !top->key;
}

static void refuse_marks(Reader *reader, const yaml_event_t *event, const yaml_char_t *anchor,
                         const yaml_char_t *tag)
{
    if (anchor) note_event(reader, event, STATUS_BAD_INPUT, "anchors (&name) are not read here");
    if (tag) note_event(reader, event, STATUS_BAD_INPUT, "tags (!name) are not read here");
}

static Status scalar_take(Reader *reader, const yaml_event_t *event)
{
    const char *const text = (const char *)event->data.scalar.value;
    const size_t length = event->data.scalar.length;
    const bool plain = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
    refuse_marks(reader, event, event->data.scalar.anchor, event->data.scalar.tag);
    if (memchr(text, 0, length))
        note_event(reader, event, STATUS_BAD_INPUT, "a text cannot hold the character NUL");
    if (key_due(reader)) {
        Level *top = &reader->level[reader->depth - 1];
        if (plain && strcmp(text, "<<") == 0)
            note_event(reader, event, STATUS_BAD_INPUT, "merge keys (<<) are not read here");
        top->key = arena_textn(reader->arena, text, length);
        top->key_from = place_at(event->start_mark);
        top->key_to = place_at(event->end_mark);
        return STATUS_OK;
    }
    TRY(value_count(reader, event));
    Node *node = node_new(reader->arena, NODE_TEXT);
    node->text = arena_textn(reader->arena, text, length);
    node->from = place_at(event->start_mark);
    node->to = place_at(event->end_mark);
    node->plain = plain && event->start_mark.line == event->end_mark.line;
    value_place(reader, node);
    return STATUS_OK;
}

/* An alias is refused and stands as an empty text, so that reading can go on. */
static Status alias_take(Reader *reader, const yaml_event_t *event)
{
    yaml_event_t empty = {
        .type = YAML_SCALAR_EVENT, .start_mark = event->start_mark, .end_mark = event->end_mark};
    empty.data.scalar.value = (yaml_char_t *)"";
    empty.data.scalar.style = YAML_DOUBLE_QUOTED_SCALAR_STYLE;
    note_event(reader, event, STATUS_BAD_INPUT, "aliases (*name) are not read here");
    return scalar_take(reader, &empty);
}

static Status open_take(Reader *reader, const yaml_event_t *event, NodeKind kind, bool flow)
{
    TRY(value_count(reader, event));
    if (kind == NODE_MAP)
        refuse_marks(reader, event, event->data.mapping_start.anchor,
                     event->data.mapping_start.tag);
    else
        refuse_marks(reader, event, event->data.sequence_start.anchor,
                     event->data.sequence_start.tag);
    if (key_due(reader))
        return note_event(reader, event, STATUS_BAD_INPUT, "a key must be a plain text");
    Node *node = node_new(reader->arena, kind);
    node->from = place_at(event->start_mark);
    reader->level[reader->depth++] = (Level){.node = node, .flow = flow};
    return STATUS_OK;
}

/* libyaml ends a block where the next one starts; here it ends with its last value. */
static Status close_take(Reader *reader, const yaml_event_t *event)
{
    assert(reader->depth > 0); /* libyaml opens what it closes */
    const Level top = reader->level[reader->depth - 1];
    assert(top.node);
    const Node *last = top.node->last;
    top.node->to = !top.flow && last ? last->to : place_at(event->end_mark);
    if (top.node->kind == NODE_MAP) note_repeats(reader, top.node);
    reader->depth--;
    value_place(reader, top.node);
    return STATUS_OK;
}

static Status document_take(Reader *reader, const yaml_event_t *event)
{
    if (reader->root)
        return note_event(reader, event, STATUS_BAD_INPUT, "a file holds one document only");
    return STATUS_OK;
}

static Status event_take(Reader *reader, const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT: return document_take(reader, event);
    case YAML_ALIAS_EVENT: return alias_take(reader, event);
    case YAML_SCALAR_EVENT: return scalar_take(reader, event);
    case YAML_SEQUENCE_START_EVENT:
        return open_take(reader, event, NODE_LIST,
                         event->data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE);
    case YAML_MAPPING_START_EVENT:
        return open_take(reader, event, NODE_MAP,
                         event->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT: return close_take(reader, event);
    case YAML_STREAM_END_EVENT: reader->ended = true; return STATUS_OK;
    default: return STATUS_OK; /* starts of the stream, ends of a document */
    }
}

/* ---- the whole text ---- */

static bool line_ends(char c) { return c == '\n' || c == '\r'; }

/* Place of a byte, for the errors that libyaml gives by byte. */
static Place place_of(const char *bytes, size_t offset)
{
    Place place = {1, 1};
    for (size_t i = 0; i < offset; i++) {
        const bool pair = bytes[i] == '\r' && i + 1 < offset && bytes[i + 1] == '\n';
        if (line_ends(bytes[i]) && !pair)
            place = (Place){place.line + 1, 1};
        else if (((unsigned char)bytes[i] & 0xC0) != 0x80)
            place.column++;
    }
    return place;
}

static Status note_syntax(Reader *reader, const yaml_parser_t *parser, const char *bytes,
                          size_t size)
{
    Error err;
    Place from = place_at(parser->problem_mark);
    const char *const problem = parser->problem ? parser->problem : "";
    char context[64] = "";
    if (parser->error == YAML_READER_ERROR)
        from = place_of(bytes, parser->problem_offset < size ? parser->problem_offset : size);
    if (parser->context && parser->context_mark.line != parser->problem_mark.line)
        snprintf(context, sizeof context, ", %.40s of line %zu", parser->context,
                 parser->context_mark.line + 1);
    error_at(&err, STATUS_BAD_INPUT, from, (Place){from.line, from.column + 1}, "",
             "this is no YAML: %s%s", problem, context);
    note(reader, &err);
    return STATUS_BAD_INPUT;
}

/* Many %TAG lines would take libyaml quadratic time, so no line may start with a %. In a map or
 * list in blocks nothing else can start so. */
static Status refuse_directives(Reader *reader, const char *bytes, size_t size)
{
    for (const char *at = bytes, *const end = bytes + size; at < end; at++) {
        at = memchr(at, '%', (size_t)(end - at));
        if (!at) return STATUS_OK;
        if (at > bytes && !line_ends(at[-1])) continue;
        const Place from = place_of(bytes, (size_t)(at - bytes));
        Error err;
        error_at(&err, STATUS_BAD_INPUT, from, (Place){from.line, 2}, "",
                 "a line cannot start with \"%%\": directives are not read here");
        note(reader, &err);
        return STATUS_BAD_INPUT;
    }
    return STATUS_OK;
}

static Status read_events(Reader *reader, const char *bytes, size_t size)
{
    yaml_parser_t parser;
    Status status = STATUS_OK;
    if (!yaml_parser_initialize(&parser)) {
        Error err;
        status = error_set(&err, STATUS_IO, "no memory left for reading");
        note(reader, &err);
        return status;
    }
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)bytes, size);
    while (status == STATUS_OK && !reader->ended) {
        yaml_event_t event;
        if (!yaml_parser_parse(&parser, &event)) {
            status = note_syntax(reader, &parser, bytes, size);
            break;
        }
        status = event_take(reader, &event);
        yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
    return status;
}

Status yaml_read(const char *bytes, size_t size, Arena *arena, Node **root,
                 Diagnostics *diagnostics)
{
    Reader reader = {.arena = arena, .diagnostics = diagnostics, .status = STATUS_OK};
    Error err;
    if (size > YAML_SIZE_MAX) {
        error_set(&err, STATUS_TOO_LARGE, "the text has more than %d bytes", YAML_SIZE_MAX);
        note(&reader, &err);
        return STATUS_TOO_LARGE;
    }
    if (size >= 3 &&
        memcmp(bytes, "\xEF\xBB\xBF", 3) == 0) { /* the byte order mark of some editors */
        bytes += 3;
        size -= 3;
    }
    if (refuse_directives(&reader, bytes, size) == STATUS_OK &&
        read_events(&reader, bytes, size) == STATUS_OK && !reader.root) {
        error_at(&err, STATUS_BAD_INPUT, (Place){1, 1}, (Place){1, 1}, "", "the text is empty");
        note(&reader, &err);
    }
    diagnostics_sort(diagnostics);
    if (reader.status == STATUS_OK) *root = reader.root;
    return reader.status;
}
