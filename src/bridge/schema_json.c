/* JSON Schema (2020-12) of the bridge file, from the table: for editors and for the page. Scalars of
 * the file are text; a loader may already have turned plain ones into numbers or truth values. */
#include <string.h>

#include "schema.h"

static void add_children(Json *json, Text *scratch, const char *prefix);

static void add_choices(Json *json, const SchemaRow *row)
{
    int length = 0;
    const char *word;
    char room[96];
    json_open_list(json, "enum");
    for (int i = 0; (word = choice_word(row->choices, i, &length)); i++) {
        snprintf(room, sizeof room, "%.*s", length, word);
        json_text(json, NULL, room);
    }
    if (row->kind == SCHEMA_FLAG) {
        json_bool(json, NULL, false);
        json_bool(json, NULL, true);
    }
    json_close_list(json);
}

static void add_types(Json *json, const char *number_type)
{
    json_open_list(json, "type");
    json_text(json, NULL, "string");
    if (number_type) json_text(json, NULL, number_type);
    json_close_list(json);
}

static void add_scalar(Json *json, const SchemaRow *row)
{
    const bool pure = row->kind == SCHEMA_QUANTITY && row->dimension == DIM_NONE;
    const bool count = row->kind == SCHEMA_COUNT_NUMBER;
    const bool none = row->standard && strcmp(row->standard, "none") == 0;
    if (row->choices) {
        add_choices(json, row);
        return;
    }
    add_types(json, count ? "integer" : pure ? "number" : NULL);
    if (count)
        json_text(json, "pattern", "^[0-9]+$");
    else if (row->kind == SCHEMA_QUANTITY)
        json_text(json, "pattern", none ? "^(none|[-+]?[0-9.].*)$" : "^[-+]?[0-9.]");
    if (count || pure) {
        json_number(json, "minimum", row->least);
        json_number(json, "maximum", row->most);
    }
    if (row->kind == SCHEMA_QUANTITY && !pure) {
        json_text(json, "$comment", dimension_called(row->dimension));
        json_open_list(json, "examples");
        json_text(json, NULL, dimension_example(row->dimension));
        json_close_list(json);
    }
}

static void add_map(Json *json, Text *scratch, const char *prefix)
{
    json_text(json, "type", "object");
    json_bool(json, "additionalProperties", false);
    json_open_list(json, "required");
    for (int i = schema_child(prefix, 0); i >= 0; i = schema_child(prefix, i + 1)) {
        const SchemaRow *row = bridge_schema_row(i);
        if (!row->standard) json_text(json, NULL, schema_leaf(row->path));
    }
    json_close_list(json);
    json_open_map(json, "properties");
    add_children(json, scratch, prefix);
    json_close_map(json);
}

static void add_list(Json *json, Text *scratch, const SchemaRow *row)
{
    const char *prefix = arena_printf(scratch->arena, "%s[]", row->path);
    const int element = schema_find(prefix);
    json_text(json, "type", "array");
    json_int(json, "minItems", 1);
    json_int(json, "maxItems", (long)row->most);
    json_open_map(json, "items");
    if (element >= 0)
        add_scalar(json, bridge_schema_row(element));
    else
        add_map(json, scratch, prefix);
    json_close_map(json);
}

static void add_children(Json *json, Text *scratch, const char *prefix)
{
    for (int i = schema_child(prefix, 0); i >= 0; i = schema_child(prefix, i + 1)) {
        const SchemaRow *row = bridge_schema_row(i);
        const bool scalar = row->kind != SCHEMA_MAP && row->kind != SCHEMA_LIST;
        json_open_map(json, schema_leaf(row->path));
        json_text(json, "description", row->help);
        if (scalar && row->standard && row->standard[0]) json_text(json, "default", row->standard);
        if (row->kind == SCHEMA_MAP)
            add_map(json, scratch, row->path);
        else if (row->kind == SCHEMA_LIST)
            add_list(json, scratch, row);
        else
            add_scalar(json, row);
        json_close_map(json);
    }
}

void bridge_schema_json(Text *text)
{
    Json json = json_start(text);
    json_open_map(&json, NULL);
    json_text(&json, "$schema", "https://json-schema.org/draft/2020-12/schema");
    json_text(&json, "title", "bridge file of clench");
    add_map(&json, text, "");
    json_close_map(&json);
    text_add(text, "\n");
}
