/* Readers of what a client sends. All of it is foreign: bounded, checked, refused with the reason. */
#include <errno.h>
#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "clench/text.h"
#include "server_data.h"

Status body_text(const char *body, size_t size, Error *err)
{
    if (size > YAML_SIZE_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a bridge file has at most %d bytes",
                         (int)YAML_SIZE_MAX);
    if (size > 0 && memchr(body, 0, size))
        return error_set(err, STATUS_BAD_INPUT, "the text has a NUL character in it");
    json_t *const text = json_stringn(size ? body : "", size); /* refuses what is not UTF-8 */
    if (!text) return error_set(err, STATUS_BAD_INPUT, "the text is not in UTF-8");
    json_decref(text);
    return STATUS_OK;
}

/* ---- JSON ---- */

static int key_index(const char *key, const char *const *name, int count)
{
    for (int i = 0; i < count; i++)
        if (!strcmp(key, name[i] + (name[i][0] == '?'))) return i;
    return -1;
}

static Status object_texts(json_t *root, const Call *call, const char *const *name, int count,
                           const char **value, Error *err)
{
    const char *key;
    json_t *item;
    if (!json_is_object(root))
        return error_set(err, STATUS_BAD_INPUT, "the JSON must be an object {...}");
    json_object_foreach(root, key, item)
    {
        const int i = key_index(key, name, count);
        if (i < 0)
            return error_set(err, STATUS_BAD_INPUT, "the JSON has an unknown key \"%.60s\"", key);
        if (!json_is_string(item))
            return error_set(err, STATUS_BAD_INPUT, "\"%.60s\" must be a text in quotes", key);
        value[i] = arena_textn(call->arena, json_string_value(item), json_string_length(item));
    }
    for (int i = 0; i < count; i++)
        if (!value[i] && name[i][0] != '?')
            return error_set(err, STATUS_BAD_INPUT, "the JSON lacks the key \"%s\"", name[i]);
    return STATUS_OK;
}

static Status body_load(const Call *call, json_t **root, Error *err)
{
    json_error_t where;
    *root = json_loadb(call->size ? call->body : "", call->size, JSON_REJECT_DUPLICATES, &where);
    if (*root) return STATUS_OK;
    const Place at = {where.line > 0 ? where.line : 1, where.column > 0 ? where.column : 1};
    return error_at(err, STATUS_BAD_INPUT, at, at, "", "the JSON cannot be read: %.200s",
                    where.text);
}

Status body_texts(const Call *call, const char *const *name, int count, const char **value,
                  Error *err)
{
    json_t *root;
    for (int i = 0; i < count; i++) value[i] = NULL;
    TRY(body_load(call, &root, err));
    const Status status = object_texts(root, call, name, count, value, err);
    json_decref(root);
    return status;
}

static Status object_map(json_t *root, Arena *arena, Node **map, Error *err)
{
    const char *key;
    json_t *item;
    if (!json_is_object(root))
        return error_set(err, STATUS_BAD_INPUT, "the JSON must be an object {...}");
    if (json_object_size(root) > FORM_KEYS_MAX)
        return error_set(err, STATUS_TOO_LARGE, "a form has at most %d keys", (int)FORM_KEYS_MAX);
    Node *const made = node_new(arena, NODE_MAP);
    json_object_foreach(root, key, item)
    {
        if (!json_is_string(item))
            return error_set(err, STATUS_BAD_INPUT, "\"%.60s\" must be a text in quotes", key);
        Node *const child = node_new(arena, NODE_TEXT);
        child->key = arena_text(arena, key);
        child->text = arena_text(arena, json_string_value(item));
        node_append(made, child);
    }
    *map = made;
    return STATUS_OK;
}

Status body_map(const Call *call, Node **map, Error *err)
{
    json_t *root;
    TRY(body_load(call, &root, err));
    const Status status = object_map(root, call->arena, map, err);
    json_decref(root);
    return status;
}

/* ---- query, path, headers ---- */

Status query_number(const char *name, const char *text, double least, double most, double *value,
                    Error *err)
{
    char *end = NULL;
    const bool start = (text[0] >= '0' && text[0] <= '9') || text[0] == '.';
    const double number = start ? strtod(text, &end) : (double)NAN;
    const bool hex = strpbrk(text, "xX") != NULL;
    if (!start || hex || *end || !isfinite(number) || number < least || number > most)
        return error_set(err, STATUS_BAD_INPUT, "%s=%.40s: not a number from %g to %g", name, text,
                         least, most);
    *value = number;
    return STATUS_OK;
}

Status path_id(const char *text, long *id, Error *err)
{
    const size_t length = strlen(text);
    const bool good = length > 0 && length <= 18 && strspn(text, "0123456789") == length;
    const long number = good ? strtol(text, NULL, 10) : 0;
    if (number < 1)
        return error_set(err, STATUS_BAD_INPUT, "\"%.40s\" is no number of what is kept: 1, 2, ...",
                         text);
    *id = number;
    return STATUS_OK;
}

/* The next item of a list with commas, without blanks around; false at its end. */
static bool list_next(const char **at, const char **item, size_t *length)
{
    *at += strspn(*at, ", \t");
    if (!**at) return false;
    *item = *at;
    *length = strcspn(*at, ",");
    *at += *length;
    while (*length > 0 && strchr(" \t", (*item)[*length - 1])) (*length)--;
    return true;
}

/* RFC 9110, 12.5.3: a weight of 0 forbids. */
bool encoding_welcome(const char *header, const char *coding)
{
    const char *item;
    size_t length;
    while (header && list_next(&header, &item, &length)) {
        const size_t name = strcspn(item, ";, \t");
        if (name != strlen(coding) || strncasecmp(item, coding, name) != 0) continue;
        const char *const weight = memchr(item, '=', length);
        return !weight || strtod(weight + 1, NULL) > 0;
    }
    return false;
}

/* RFC 9110, 8.8.3: marks stand in quotes, weak ones behind W/. */
bool mark_listed(const char *header, const char *mark)
{
    const char *item;
    size_t length;
    while (header && list_next(&header, &item, &length)) {
        if (length == 1 && *item == '*') return true;
        if (length > 2 && !strncmp(item, "W/", 2)) item += 2, length -= 2;
        if (length == strlen(mark) + 2 && *item == '"' && !strncmp(item + 1, mark, length - 2))
            return true;
    }
    return false;
}

bool mark_read(const char *header, char mark[MARK_SIZE])
{
    const char *item, *again;
    size_t length, rest;
    if (!header || !list_next(&header, &item, &length)) return false;
    if (list_next(&header, &again, &rest)) return false;
    if (length < 3 || length - 2 >= MARK_SIZE || *item != '"' || item[length - 1] != '"')
        return false;
    memcpy(mark, item + 1, length - 2);
    mark[length - 2] = 0;
    return true;
}
