/* Strict JSON, RFC 8259. */
#include "clench/base.h"
#include "utf8.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { JSON_DEPTH = sizeof((Json){0}).first / sizeof(bool) };

Json json_start(Text *text) { return (Json){.text = text, .first = {true}, .compact = true}; }

/* Escapes by RFC 8259, section 7; bytes that are not UTF-8 become U+FFFD. */
static void string_add(Text *text, const char *value)
{
    static const char replacement[] = "\xEF\xBF\xBD";
    const char *const end = value + strlen(value);
    text_add(text, "\"");
    while (value < end) {
        const unsigned char c = (unsigned char)*value;
        const size_t length = utf8_length(value, (size_t)(end - value));
        if (c == '"' || c == '\\')
            text_printf(text, "\\%c", c);
        else if (c == '\n')
            text_add(text, "\\n");
        else if (c < 0x20 || c == 0x7F)
            text_printf(text, "\\u%04x", c);
        else
            text_addn(text, length ? value : replacement, length ? length : 3);
        value += length ? length : 1;
    }
    text_add(text, "\"");
}

static void line_start(Json *json)
{
    text_add(json->text, "\n");
    for (int i = 0; i < json->depth; i++) text_add(json->text, "  ");
}

/* Comma, line, key: all that stands before a value. */
static void value_start(Json *json, const char *key)
{
    if (!json->first[json->depth]) text_add(json->text, ",");
    if (json->depth > 0) line_start(json);
    json->first[json->depth] = false;
    if (!key) return;
    string_add(json->text, key);
    text_add(json->text, ": ");
}

static void bracket_open(Json *json, const char *key, const char *bracket)
{
    assert(json->depth + 1 < JSON_DEPTH);
    value_start(json, key);
    text_add(json->text, bracket);
    json->first[++json->depth] = true;
}

static void bracket_close(Json *json, const char *bracket)
{
    assert(json->depth > 0);
    const bool empty = json->first[json->depth--];
    if (!empty) line_start(json);
    text_add(json->text, bracket);
    if (json->depth == 0) text_add(json->text, "\n");
}

void json_open_map(Json *json, const char *key) { bracket_open(json, key, "{"); }
void json_close_map(Json *json) { bracket_close(json, "}"); }
void json_open_list(Json *json, const char *key) { bracket_open(json, key, "["); }
void json_close_list(Json *json) { bracket_close(json, "]"); }

/* 15 digits always survive the way there and back, 17 always suffice. Above 1.797e308 fewer than
 * 17 could round past the largest number. */
static void number_add(Text *text, double value)
{
    char digits[40];
    if (!isfinite(value)) {
        text_add(text, "null");
        return;
    }
    const double size = fabs(value);
    int precision = size < DBL_MIN ? 1 : size > 1.797e308 ? 17 : 15;
    do snprintf(digits, sizeof digits, "%.*g", precision, value);
    while (precision++ < 17 && strtod(digits, NULL) != value);
    text_add(text, digits);
}

void json_text(Json *json, const char *key, const char *value)
{
    value_start(json, key);
    if (value)
        string_add(json->text, value);
    else
        text_add(json->text, "null");
}

void json_number(Json *json, const char *key, double value)
{
    value_start(json, key);
    number_add(json->text, value);
}

void json_int(Json *json, const char *key, long value)
{
    value_start(json, key);
    text_printf(json->text, "%ld", value);
}

void json_raw(Json *json, const char *key, const char *value)
{
    size_t length = strlen(value);
    while (length > 0 && value[length - 1] == '\n') length--;
    value_start(json, key);
    text_addn(json->text, value, length);
}

void json_bool(Json *json, const char *key, bool value)
{
    value_start(json, key);
    text_add(json->text, value ? "true" : "false");
}

void json_none(Json *json, const char *key) { json_text(json, key, NULL); }

void json_numbers(Json *json, const char *key, const double *value, int count)
{
    if (!json->compact) {
        json_open_list(json, key);
        for (int i = 0; i < count; i++) json_number(json, NULL, value[i]);
        json_close_list(json);
        return;
    }
    value_start(json, key);
    text_add(json->text, "[");
    for (int i = 0; i < count; i++) {
        if (i > 0) text_add(json->text, ", ");
        number_add(json->text, value[i]);
    }
    text_add(json->text, "]");
}
