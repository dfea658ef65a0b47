#include "clench/base.h"

#include <assert.h>
#include <stdarg.h>
#include <string.h>

static const struct {
    const char *name, *text;
    int exit_code;
} statuses[] = {
#define X(name, code, text) {#name, text, code},
    STATUS_LIST(X)
#undef X
};

int status_exit_code(Status status)
{
    assert(status < STATUS_COUNT);
    return statuses[status].exit_code;
}

const char *status_name(Status status)
{
    assert(status < STATUS_COUNT);
    return statuses[status].name;
}

const char *status_text(Status status)
{
    assert(status < STATUS_COUNT);
    return statuses[status].text;
}

/* A text cut by its room must not end inside a UTF-8 character, and foreign control characters
 * must not reach a terminal. */
static void text_clean(char *text)
{
    size_t length = strlen(text), start = length;
    for (size_t i = 0; i < length; i++)
        if ((unsigned char)text[i] < 0x20 || text[i] == 0x7f) text[i] = '?';
    while (start > 0 && ((unsigned char)text[start - 1] & 0xC0) == 0x80) start--;
    if (start == 0) return;
    const unsigned char lead = (unsigned char)text[start - 1];
    const size_t needed = lead < 0xC0 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if (length - (start - 1) < needed) text[start - 1] = 0;
}

static void error_fill(Error *err, Status status, const char *format, va_list args)
{
    Error made = {.status = status};
    vsnprintf(made.text, sizeof made.text, format, args);
    text_clean(made.text);
    *err = made;
}

Status error_set(Error *err, Status status, const char *format, ...)
{
    assert(status != STATUS_OK && status < STATUS_COUNT);
    if (!err) return status;
    va_list args;
    va_start(args, format);
    error_fill(err, status, format, args);
    va_end(args);
    return status;
}

Status error_at(Error *err, Status status, Place from, Place to, const char *key,
                const char *format, ...)
{
    assert(status != STATUS_OK && status < STATUS_COUNT);
    if (!err) return status;
    va_list args;
    va_start(args, format);
    error_fill(err, status, format, args);
    va_end(args);
    err->from = from;
    err->to = to;
    snprintf(err->key, sizeof err->key, "%s", key ? key : "");
    text_clean(err->key);
    return status;
}

/* Adds to out at *at; what does not fit is cut. */
static void piece_add(char *out, size_t out_size, size_t *at, const char *before, const char *piece,
                      const char *after)
{
    if (!piece[0] || *at + 1 >= out_size) return;
    const int written = snprintf(out + *at, out_size - *at, "%s%s%s", before, piece, after);
    if (written > 0) *at += (size_t)written;
}

char *error_format(const Error *err, const char *file, char *out, size_t out_size)
{
    assert(out_size > 0);
    size_t at = 0;
    char place[32] = "";
    if (err->from.line > 0)
        snprintf(place, sizeof place, "%d:%d", err->from.line, err->from.column);
    out[0] = 0;
    piece_add(out, out_size, &at, "", file ? file : "", place[0] ? ":" : ": ");
    piece_add(out, out_size, &at, "", place, ": ");
    piece_add(out, out_size, &at, "", err->key, ": ");
    piece_add(out, out_size, &at, "", err->text[0] ? err->text : status_text(err->status), "");
    piece_add(out, out_size, &at, ", expected ", err->expected, "");
    piece_add(out, out_size, &at, ", write \"", err->suggestion, "\"");
    text_clean(out);
    return out;
}

void diagnostics_add(Diagnostics *list, const Error *err)
{
    if (list->count < DIAGNOSTICS_MAX)
        list->item[list->count++] = *err;
    else
        list->dropped++;
}

static bool place_before(Place a, Place b)
{
    return a.line < b.line || (a.line == b.line && a.column < b.column);
}

void diagnostics_sort(Diagnostics *list)
{
    for (int i = 1; i < list->count; i++) {
        const Error moved = list->item[i];
        int k = i;
        for (; k > 0 && place_before(moved.from, list->item[k - 1].from); k--)
            list->item[k] = list->item[k - 1];
        list->item[k] = moved;
    }
}
