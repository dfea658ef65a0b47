/* One value of a YAML text, set in place: what stands around it, comments too, stays as it is. The
 * text is cut at the marks of the reader, and the result is read again: it must be the same tree but
 * for that value, else nothing is written. */
#include "clench/text.h"

#include <string.h>

enum { STEPS_MAX = NODE_DEPTH_MAX, VALUE_MAX = 256 };

typedef struct Step {
    const char *key; /* NULL: an item of a list */
    int item;        /* from 0 */
} Step;

typedef struct Edit {
    const char *bytes;
    size_t size;
    const char *path;
    Step step[STEPS_MAX];
    int steps;
    Arena *arena;
} Edit;

/* ---- the path ---- */

static Status bad_path(const Edit *edit, Error *err)
{
    return error_set(
        err, STATUS_BAD_INPUT,
        "\"%.80s\" is no path of a value: write \"deck.thickness\" or \"spans[2].length\"",
        edit->path);
}

static bool key_byte(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-';
}

/* "[12]" at `at`; returns what comes behind it, NULL where it is no item. */
static const char *item_read(const char *at, int *item)
{
    int value = 0;
    for (at++; *at >= '0' && *at <= '9' && value < NODE_COUNT_MAX; at++)
        value = 10 * value + (*at - '0');
    if (*at != ']' || value < 1) return NULL;
    *item = value - 1;
    return at + 1;
}

static Status path_read(Edit *edit, Error *err)
{
    const char *at = edit->path;
    while (*at) {
        if (edit->steps == STEPS_MAX) return bad_path(edit, err);
        Step *step = &edit->step[edit->steps];
        if (*at == '[') {
            at = item_read(at, &step->item);
            if (!at) return bad_path(edit, err);
        } else {
            if (edit->steps > 0 && *at++ != '.') return bad_path(edit, err);
            const char *from = at;
            while (key_byte(*at)) at++;
            if (at == from) return bad_path(edit, err);
            step->key = arena_printf(edit->arena, "%.*s", (int)(at - from), from);
        }
        edit->steps++;
    }
    return edit->steps > 0 ? STATUS_OK : bad_path(edit, err);
}

/* ---- places ---- */

/* A line break at `at`, as YAML 1.1 counts them (5.4): its bytes, 0 where there is none. */
static size_t break_bytes(const char *at, size_t left)
{
    if (left > 1 && at[0] == '\r' && at[1] == '\n') return 2;
    if (at[0] == '\n' || at[0] == '\r') return 1;
    if (left > 1 && memcmp(at, "\xC2\x85", 2) == 0) return 2;
    if (left > 2 && memcmp(at, "\xE2\x80", 2) == 0 && (at[2] == '\xA8' || at[2] == '\xA9'))
        return 3;
    return 0;
}

/* The byte of a place: the reader counts lines and characters. */
static size_t byte_at(const Edit *edit, Place place)
{
    size_t i = edit->size >= 3 && memcmp(edit->bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    for (int line = 1; line < place.line && i < edit->size;) {
        const size_t n = break_bytes(edit->bytes + i, edit->size - i);
        line += n > 0;
        i += n > 0 ? n : 1;
    }
    for (int column = 1; column < place.column && i < edit->size; column++) {
        if (break_bytes(edit->bytes + i, edit->size - i) > 0) break;
        do i++;
        while (i < edit->size && (edit->bytes[i] & 0xC0) == 0x80);
    }
    return i;
}

/* The end of the line in which `i` stands, before its break. */
static size_t line_end(const Edit *edit, size_t i)
{
    while (i < edit->size && break_bytes(edit->bytes + i, edit->size - i) == 0) i++;
    return i;
}

/* ---- the value as it is written ---- */

static bool plain_is_safe(const char *value)
{
    static const char first[] = "-?:,[]{}#&*!|>'\"%@` ";
    if (!*value || strchr(first, *value) || value[strlen(value) - 1] == ' ') return false;
    return !strpbrk(value, ",[]{}#\\") && !strstr(value, ": ") && value[strlen(value) - 1] != ':';
}

static Status value_check(const char *value, Error *err)
{
    if (strlen(value) > VALUE_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a value has at most %d bytes", VALUE_MAX);
    for (const char *at = value; *at; at++)
        if ((unsigned char)*at < ' ' || *at == 0x7F)
            return error_set(err, STATUS_BAD_INPUT, "a value stands on one line, without tabs");
    return STATUS_OK;
}

static const char *value_written(const Edit *edit, const char *value)
{
    if (plain_is_safe(value)) return value;
    Text text = text_start(edit->arena);
    text_add(&text, "\"");
    for (const char *at = value; *at; at++) {
        if (*at == '"' || *at == '\\') text_add(&text, "\\");
        text_addn(&text, at, 1);
    }
    text_add(&text, "\"");
    return text.bytes;
}

/* ---- the cut ---- */

static const Node *child_of(const Node *node, const Step *step)
{
    if (step->key) return node->kind == NODE_MAP ? node_find(node, step->key) : NULL;
    return node->kind == NODE_LIST ? node_item(node, step->item) : NULL;
}

static bool in_brackets(const Edit *edit, const Node *node)
{
    const size_t at = byte_at(edit, node->from);
    return at < edit->size && (edit->bytes[at] == '{' || edit->bytes[at] == '[');
}

/* The last place that belongs to a node: a list or map without brackets ends for the reader where the
 * next token begins, so its last value tells. */
static Place node_end(const Edit *edit, const Node *node)
{
    while (node->kind != NODE_TEXT && node->last && !in_brackets(edit, node)) node = node->last;
    return node->to;
}

static void splice(const Edit *edit, size_t from, size_t to, const char *piece, Text *out)
{
    text_addn(out, edit->bytes, from);
    text_add(out, piece);
    text_addn(out, edit->bytes + to, edit->size - to);
}

/* "length: 5 m" or "{length: 5 m}" for steps that are not there yet, on one line. */
static void flow_piece(const Edit *edit, int from, const char *value, Text *piece)
{
    for (int i = from; i < edit->steps; i++)
        text_printf(piece, "%s%s: ", i > from ? "{" : "", edit->step[i].key);
    text_add(piece, value);
    for (int i = from + 1; i < edit->steps; i++) text_add(piece, "}");
}

/* The same in lines of their own below each other, `column` is that of the first key. */
static void block_piece(const Edit *edit, int from, int column, const char *value, Text *piece)
{
    for (int i = from; i < edit->steps; i++)
        text_printf(piece, "\n%*s%s:", column - 1 + 2 * (i - from), "", edit->step[i].key);
    text_printf(piece, " %s", value);
}

/* A key that `map` does not have is written behind its last one. */
static Status insert(const Edit *edit, const Node *map, int from, const char *value, Text *out,
                     Error *err)
{
    for (int i = from; i < edit->steps; i++)
        if (!edit->step[i].key)
            return error_set(err, STATUS_BAD_INPUT,
                             "\"%.80s\" is an item that the file does not have", edit->path);
    if (map->kind != NODE_MAP || (map->count == 0 && !in_brackets(edit, map)))
        return error_set(err, STATUS_BAD_INPUT,
                         "\"%.80s\" has no place in the file as it stands: write it in the text",
                         edit->path);
    Text piece = text_start(edit->arena);
    size_t at = byte_at(edit, map->count > 0 ? node_end(edit, map->last) : map->from);
    if (in_brackets(edit, map)) {
        if (map->count > 0)
            text_add(&piece, ", ");
        else
            at++; /* behind the bracket */
        flow_piece(edit, from, value, &piece);
    } else {
        at = line_end(edit, at);
        block_piece(edit, from, map->first->key_from.column, value, &piece);
    }
    splice(edit, at, at, piece.bytes, out);
    return STATUS_OK;
}

static Status cut(const Edit *edit, const Node *root, const char *value, Text *out, Error *err)
{
    const Node *at = root;
    for (int i = 0; i < edit->steps; i++) {
        const Node *child = child_of(at, &edit->step[i]);
        if (!child) return insert(edit, at, i, value, out, err);
        at = child;
    }
    if (at->kind != NODE_TEXT)
        return error_set(err, STATUS_BAD_INPUT, "\"%.80s\" is a group, not one value", edit->path);
    const size_t from = byte_at(edit, at->from), to = byte_at(edit, at->to);
    if (from == to) { /* "key:" with nothing behind it */
        const char *piece = arena_printf(edit->arena, " %s", value);
        splice(edit, from, to, piece, out);
    } else {
        splice(edit, from, to, value, out);
    }
    return STATUS_OK;
}

/* ---- the proof ---- */

static bool same(const Node *a, const Node *b);

/* All children of `a` are those of `b` in their order, but for the one of `step` (NULL: all). */
static bool same_children(const Node *a, const Node *b, const Node *but_a, const Node *but_b)
{
    const Node *x = a->first, *y = b->first;
    for (;;) {
        if (x && x == but_a) x = x->next;
        if (y && y == but_b) y = y->next;
        if (!x || !y) return x == y;
        if ((x->key != NULL) != (y->key != NULL) || (x->key && strcmp(x->key, y->key) != 0) ||
            !same(x, y))
            return false;
        x = x->next;
        y = y->next;
    }
}

static bool same(const Node *a, const Node *b)
{
    if (a->kind != b->kind) return false;
    return a->kind == NODE_TEXT ? strcmp(a->text, b->text) == 0 : same_children(a, b, NULL, NULL);
}

/* `after` is `before` but for the value of the path. */
static bool only_this(const Edit *edit, const Node *before, const Node *after, const char *value)
{
    for (int i = 0; i < edit->steps; i++) {
        const Node *x = before ? child_of(before, &edit->step[i]) : NULL;
        const Node *y = child_of(after, &edit->step[i]);
        if (!y || (before && before->kind != after->kind) ||
            (before ? !same_children(before, after, x, y) : after->count != 1))
            return false;
        before = x;
        after = y;
    }
    return after->kind == NODE_TEXT && strcmp(after->text, value) == 0;
}

static Status read_all(const Edit *edit, const char *bytes, size_t size, Node **root, Error *err)
{
    Diagnostics *list = ARENA_NEW(edit->arena, Diagnostics, 1);
    const Status status = yaml_read(bytes, size, edit->arena, root, list);
    if (status != STATUS_OK) *err = list->item[0];
    return status;
}

Status yaml_set(const char *bytes, size_t size, const char *path, const char *value, Text *text,
                Error *err)
{
    Edit edit = {.bytes = bytes, .size = size, .path = path, .arena = text->arena};
    Node *before, *after;
    Text out = text_start(text->arena);
    TRY(path_read(&edit, err));
    TRY(value_check(value, err));
    TRY(read_all(&edit, bytes, size, &before, err));
    TRY(cut(&edit, before, value_written(&edit, value), &out, err));
    Error unread;
    if (read_all(&edit, out.bytes, out.length, &after, &unread) != STATUS_OK ||
        !only_this(&edit, before, after, value))
        return error_set(
            err, STATUS_BAD_INPUT,
            "\"%.80s\" cannot be set without changing the layout: write it in the text", path);
    *text = out;
    return STATUS_OK;
}
