/* From a node tree to struct Bridge along the schema table: one walk finds all that is missing,
 * unknown, of another kind or out of range, and stores each value in its field. */
#include "read.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "schema.h"

typedef struct Reader {
    Arena *arena;
    Bridge *bridge;
    Diagnostics *diagnostics;
} Reader;

/* Where a row is being read: its path with indices, and the keys around it for missing values. */
typedef struct Spot {
    const char *path;
    Place from, to;
} Spot;

static void report(Reader *reader, Error *err, Place from, Place to, const char *path)
{
    err->from = from;
    err->to = to;
    snprintf(err->key, sizeof err->key, "%s", path);
    diagnostics_add(reader->diagnostics, err);
}

static Value *value_add(Reader *reader, const SchemaRow *row, const char *path, void *field)
{
    Bridge *b = reader->bridge;
    if (b->value_count == b->value_room) {
        const int room = b->value_room ? 2 * b->value_room : 256;
        Value *more = ARENA_NEW(reader->arena, Value, room);
        if (b->value_count) memcpy(more, b->value, sizeof(Value) * (size_t)b->value_count);
        b->value = more;
        b->value_room = room;
    }
    Value *value = &b->value[b->value_count++];
    value->field = field;
    value->shown.row = row;
    snprintf(value->shown.path, sizeof value->shown.path, "%s", path);
    return value;
}

/* ---- scalars: text to field ---- */

static Status read_quantity(Reader *reader, const SchemaRow *row, const char *text, double *field,
                            Error *err)
{
    if (row->standard && strcmp(row->standard, "none") == 0 && strcmp(text, "none") == 0) {
        *field = NAN;
        return STATUS_OK;
    }
    double value = 0;
    TRY(quantity_read(text, row->dimension, &value, err));
    if (value < row->least || value > row->most) {
        const char *unit = quantity_unit((UnitSystem)reader->bridge->units, row->dimension);
        return error_set(err, STATUS_BAD_INPUT, "%s is out of range: %.5g to %.5g%s%s is allowed",
                         text, quantity_in(row->least, unit), quantity_in(row->most, unit),
                         *unit ? " " : "", unit);
    }
    *field = value;
    return STATUS_OK;
}

static Status read_count(const SchemaRow *row, const char *text, int *field, Error *err)
{
    const char *const digits = text + (text[0] == '-');
    const size_t length = strlen(digits);
    if (length == 0 || strspn(digits, "0123456789") != length)
        return error_set(err, STATUS_BAD_INPUT, "\"%.40s\" is not a whole number", text);
    const double value = strtod(text, NULL);
    if (value < row->least || value > row->most)
        return error_set(err, STATUS_BAD_INPUT, "%.40s is out of range: %.0f to %.0f is allowed",
                         text, row->least, row->most);
    *field = (int)value;
    return STATUS_OK;
}

static const char *word_nearest(Reader *reader, const char *choices, const char *text)
{
    const char *word[64];
    int count = 0, length = 0;
    for (const char *at; count < 64 && (at = choice_word(choices, count, &length));)
        word[count++] = arena_textn(reader->arena, at, (size_t)length);
    return name_nearest(text, word, count);
}

static Status read_choice(Reader *reader, const SchemaRow *row, const char *text, int *field,
                          Error *err)
{
    const int index = choice_find(row->choices, text);
    if (index >= 0) {
        *field = index;
        return STATUS_OK;
    }
    error_set(err, STATUS_BAD_INPUT, "\"%.40s\" is none of the words known here", text);
    int used = 0, length = 0;
    const char *at;
    for (int i = 0; (at = choice_word(row->choices, i, &length)); i++) {
        const int room = (int)sizeof err->expected - used;
        if (length + 4 >= room) break;
        used += snprintf(err->expected + used, (size_t)room, "%s%.*s", i ? ", " : "", length, at);
    }
    const char *nearest = word_nearest(reader, row->choices, text);
    if (nearest) snprintf(err->suggestion, sizeof err->suggestion, "%s", nearest);
    return STATUS_BAD_INPUT;
}

static Status read_words(Reader *reader, const SchemaRow *row, const char *text, const char **field,
                         Error *err)
{
    const bool none = row->standard && strcmp(row->standard, "none") == 0;
    if (strlen(text) >= sizeof((BridgeValue *)0)->text)
        return error_set(err, STATUS_TOO_LARGE, "the text is longer than %zu characters",
                         sizeof((BridgeValue *)0)->text - 1);
    *field = none && strcmp(text, "none") == 0 ? NULL : arena_text(reader->arena, text);
    return STATUS_OK;
}

static Status read_text(Reader *reader, const SchemaRow *row, const char *text, void *field,
                        Error *err)
{
    int flag = 0;
    switch (row->kind) {
    case SCHEMA_QUANTITY: return read_quantity(reader, row, text, field, err);
    case SCHEMA_COUNT_NUMBER: return read_count(row, text, field, err);
    case SCHEMA_CHOICE: return read_choice(reader, row, text, field, err);
    case SCHEMA_FLAG:
        TRY(read_choice(reader, row, text, &flag, err));
        *(bool *)field = flag == 1;
        return STATUS_OK;
    default: return read_words(reader, row, text, field, err);
    }
}

/* A value that is neither given nor in the table: marked until it is derived. */
static void field_unset(const SchemaRow *row, void *field)
{
    switch (row->kind) {
    case SCHEMA_QUANTITY: *(double *)field = NAN; break;
    case SCHEMA_COUNT_NUMBER:
    case SCHEMA_CHOICE: *(int *)field = -1; break;
    case SCHEMA_FLAG: *(bool *)field = false; break;
    default: *(const char **)field = NULL; break;
    }
}

static void read_default(Reader *reader, const SchemaRow *row, const Spot *spot, void *field)
{
    Error err = {0};
    field_unset(row, field);
    if (!row->standard) {
        const bool quantity = row->kind == SCHEMA_QUANTITY;
        error_set(&err, STATUS_BAD_INPUT, "it must be given");
        if (quantity) {
            snprintf(err.expected, sizeof err.expected, "%s", dimension_called(row->dimension));
            snprintf(err.suggestion, sizeof err.suggestion, "%s: %s", schema_leaf(row->path),
                     dimension_example(row->dimension));
        } else if (row->choices) {
            int length = 0;
            const char *word = choice_word(row->choices, 0, &length);
            snprintf(err.suggestion, sizeof err.suggestion, "%s: %.*s", schema_leaf(row->path),
                     length, word);
        }
        report(reader, &err, spot->from, spot->to, spot->path);
        return;
    }
    Value *value = value_add(reader, row, spot->path, field);
    value->shown.origin = row->standard[0] ? ORIGIN_DEFAULT : ORIGIN_DERIVED;
    if (!row->standard[0]) return;
    const Status status = read_text(reader, row, row->standard, field, &err);
    assert(status == STATUS_OK); /* the table's own defaults are valid */
    (void)status;
    snprintf(value->shown.text, sizeof value->shown.text, "%s", row->standard);
}

/* quantity_read counts columns in the text: on a plain scalar they are those of the file. */
static void place_inside(const Node *node, const Error *err, Place *from, Place *to)
{
    *from = node->from;
    *to = node->to;
    if (!node->plain || err->from.line != 1 || err->from.column < 1) return;
    from->column += err->from.column - 1;
    if (err->to.column > err->from.column)
        *to = (Place){node->from.line, node->from.column + err->to.column - 1};
}

static void read_scalar(Reader *reader, const SchemaRow *row, const Node *node, const Spot *spot,
                        void *field)
{
    Error err = {0};
    if (!node) {
        read_default(reader, row, spot, field);
        return;
    }
    field_unset(row, field);
    if (node->kind != NODE_TEXT) {
        error_set(&err, STATUS_BAD_INPUT, "it is a single value, not a %s",
                  node->kind == NODE_MAP ? "group of keys" : "list");
        report(reader, &err, node->from, node->to, spot->path);
        return;
    }
    if (read_text(reader, row, node->text, field, &err) != STATUS_OK) {
        Place from, to;
        place_inside(node, &err, &from, &to);
        report(reader, &err, from, to, spot->path);
        return;
    }
    Value *value = value_add(reader, row, spot->path, field);
    value->shown.origin = ORIGIN_GIVEN;
    value->shown.place = node->from;
    snprintf(value->shown.text, sizeof value->shown.text, "%s", node->text);
}

/* ---- groups and lists ---- */

static void read_row(Reader *reader, int index, const Node *node, const Spot *spot, char *base);

static void read_unknown(Reader *reader, const char *prefix, const Node *child, const Spot *spot)
{
    const char *name[64];
    int count = 0;
    for (int i = schema_child(prefix, 0); i >= 0; i = schema_child(prefix, i + 1)) {
        const char *leaf = schema_leaf(schema_row(i)->schema.path);
        if (strcmp(leaf, child->key) == 0) return;
        if (count < 64) name[count++] = leaf;
    }
    Error err = {0};
    error_set(&err, STATUS_BAD_INPUT, "there is no key \"%.60s\" here", child->key);
    const char *nearest = name_nearest(child->key, name, count);
    if (nearest) snprintf(err.suggestion, sizeof err.suggestion, "%s", nearest);
    report(reader, &err, child->key_from, child->key_to,
           arena_printf(reader->arena, "%s%s%s", spot->path, spot->path[0] ? "." : "", child->key));
}

static void read_children(Reader *reader, const char *prefix, const Node *map, const Spot *spot,
                          char *base)
{
    for (const Node *child = map ? map->first : NULL; child; child = child->next)
        read_unknown(reader, prefix, child, spot);
    for (int i = schema_child(prefix, 0); i >= 0; i = schema_child(prefix, i + 1)) {
        const char *leaf = schema_leaf(schema_row(i)->schema.path);
        const char *dot = spot->path[0] ? "." : "";
        Spot inner = *spot;
        inner.path = arena_printf(reader->arena, "%s%s%s", spot->path, dot, leaf);
        read_row(reader, i, map ? node_find(map, leaf) : NULL, &inner, base);
    }
}

static void read_group(Reader *reader, const Row *row, const Node *node, const Spot *spot,
                       char *base)
{
    Error err = {0};
    if (!node && !row->schema.standard) {
        error_set(&err, STATUS_BAD_INPUT, "this group of keys must be given");
        report(reader, &err, spot->from, spot->to, spot->path);
        return;
    }
    if (node && node->kind != NODE_MAP) {
        error_set(&err, STATUS_BAD_INPUT, "it is a group of keys");
        report(reader, &err, node->from, node->to, spot->path);
        return;
    }
    Spot inner = *spot;
    if (node) {
        inner.from = node->key_from;
        inner.to = node->key_to;
    }
    read_children(reader, row->schema.path, node, &inner, base);
}

static void read_item(Reader *reader, const Row *row, const Node *node, int number,
                      const Spot *spot, char *item)
{
    const char *prefix = arena_printf(reader->arena, "%s[]", row->schema.path);
    const char *path = arena_printf(reader->arena, "%s[%d]", spot->path, number);
    const Spot inner = {path, node->from, node->to};
    const int element = schema_find(prefix);
    Error err = {0};
    if (element >= 0)
        read_scalar(reader, &schema_row(element)->schema, node, &inner, item);
    else if (node->kind == NODE_MAP)
        read_children(reader, prefix, node, &inner, item);
    else {
        error_set(&err, STATUS_BAD_INPUT, "each item is a group of keys");
        report(reader, &err, node->from, node->to, path);
    }
}

static void read_list(Reader *reader, const Row *row, const Node *node, const Spot *spot,
                      ListData *list)
{
    Error err = {0};
    *list = (ListData){0, NULL};
    if (!node && row->schema.standard) return;
    if (!node || node->kind != NODE_LIST || node->count < 1) {
        error_set(&err, STATUS_BAD_INPUT, "a list with at least one item is wanted");
        report(reader, &err, node ? node->from : spot->from, node ? node->to : spot->to,
               spot->path);
        return;
    }
    if (node->count > row->schema.most) {
        error_set(&err, STATUS_TOO_LARGE, "%d items: at most %.0f are allowed", node->count,
                  row->schema.most);
        report(reader, &err, node->from, node->to, spot->path);
        return;
    }
    char *items = arena_take(reader->arena, row->item_size * (size_t)node->count);
    *list = (ListData){node->count, items};
    int number = 0;
    for (const Node *item = node->first; item; item = item->next, number++)
        read_item(reader, row, item, number + 1, spot, items + row->item_size * (size_t)number);
}

static void read_row(Reader *reader, int index, const Node *node, const Spot *spot, char *base)
{
    const Row *row = schema_row(index);
    char *field = base + row->offset;
    switch (row->schema.kind) {
    case SCHEMA_MAP: read_group(reader, row, node, spot, base); break;
    case SCHEMA_LIST: read_list(reader, row, node, spot, (ListData *)(void *)field); break;
    default: read_scalar(reader, &row->schema, node, spot, field); break;
    }
}

Status bridge_read(const Node *root, Arena *arena, const Bridge **bridge, Diagnostics *diagnostics)
{
    Bridge *made = ARENA_NEW(arena, Bridge, 1);
    Reader reader = {arena, made, diagnostics};
    const Spot top = {"", root->from, root->to};
    const int before = diagnostics->count + diagnostics->dropped;
    if (root->kind != NODE_MAP) {
        Error err = {0};
        error_set(&err, STATUS_BAD_INPUT, "a bridge file is a group of keys: spans, girders, ...");
        report(&reader, &err, root->from, root->to, "");
        return STATUS_BAD_INPUT;
    }
    read_children(&reader, "", root, &top, (char *)made);
    if (diagnostics->count + diagnostics->dropped == before) bridge_derive(made, diagnostics);
    diagnostics_sort(diagnostics);
    if (diagnostics->count + diagnostics->dropped > before) return STATUS_BAD_INPUT;
    *bridge = made;
    return STATUS_OK;
}
