#include "clench/base.h"

#include <assert.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

Text text_start(Arena *arena) { return (Text){.arena = arena, .bytes = arena_text(arena, "")}; }

/* Room for `more` bytes and the NUL: the room doubles, the old piece stays with the arena. */
static void text_grow(Text *text, size_t more)
{
    assert(more < SIZE_MAX / 4);
    const size_t needed = text->length + more + 1;
    if (needed <= text->room) return;
    const size_t room = needed < 128 ? 256 : 2 * needed;
    char *bytes = arena_take(text->arena, room);
    if (text->length > 0) memcpy(bytes, text->bytes, text->length);
    text->bytes = bytes;
    text->room = room;
}

void text_add(Text *text, const char *piece) { text_addn(text, piece, strlen(piece)); }

void text_addn(Text *text, const char *piece, size_t length)
{
    text_grow(text, length);
    if (length > 0) memcpy(text->bytes + text->length, piece, length);
    text->length += length;
    text->bytes[text->length] = 0;
}

void text_printf(Text *text, const char *format, ...)
{
    va_list args, again;
    va_start(args, format);
    va_copy(again, args);
    const int length = vsnprintf(NULL, 0, format, args);
    va_end(args);
    assert(length >= 0);
    text_grow(text, (size_t)length);
    vsnprintf(text->bytes + text->length, (size_t)length + 1, format, again);
    text->length += (size_t)length;
    va_end(again);
}
