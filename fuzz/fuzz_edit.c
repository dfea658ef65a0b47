/* "path, line break, value, line break, text": a value is set and found again, or the text stays. */
#include "clench/text.h"
#include "fuzz.h"

#include <string.h>

/* The line up to its break as a string; `*at` moves behind the break. */
static const char *line_of(const char **at, const char *end, Arena *arena)
{
    const char *from = *at, *stop = memchr(from, '\n', (size_t)(end - from));
    if (!stop) stop = end;
    *at = stop < end ? stop + 1 : end;
    return arena_printf(arena, "%.*s", (int)(stop - from), from);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 65536) return 0;
    Arena *arena = arena_create((size_t)256 << 20);
    const char *at = (const char *)bytes, *end = at + size;
    const char *path = line_of(&at, end, arena), *value = line_of(&at, end, arena);
    Text text = text_start(arena), again = text_start(arena);
    Error err = {0};
    if (yaml_set(at, (size_t)(end - at), path, value, &text, &err) == STATUS_OK) {
        MUST_HOLD(text.bytes[text.length] == 0);
        /* set once more, nothing changes */
        MUST_HOLD(yaml_set(text.bytes, text.length, path, value, &again, &err) == STATUS_OK);
        MUST_HOLD(strcmp(text.bytes, again.bytes) == 0);
    } else {
        MUST_HOLD(text.length == 0 && err.text[0]);
    }
    arena_free(arena);
    return 0;
}
