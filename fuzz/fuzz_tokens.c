/* Any bytes as a file of tokens give an error that does not print it, or tokens; as a header at most one of them. */
#include <string.h>

#include "../src/server/server_data.h"
#include "fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 65536) return 0;
    Tokens tokens;
    Error err = {0};
    Arena *const arena = arena_create(1 << 20);
    const char *const text = arena_textn(arena, (const char *)bytes, size);
    if (tokens_read((const char *)bytes, size, &tokens, &err) == STATUS_OK) {
        MUST_HOLD(tokens.count >= 1 && tokens.count <= TOKENS_MAX);
        for (int i = 0; i < tokens.count; i++)
            MUST_HOLD(tokens.token[i].role == ROLE_READER || tokens.token[i].role == ROLE_WRITER);
        const Token *const found = tokens_find(&tokens, text);
        MUST_HOLD(!found || (found >= tokens.token && found < tokens.token + tokens.count));
    } else {
        MUST_HOLD(err.text[0]);
        MUST_HOLD(strlen(text) < TOKEN_LEAST || !strstr(err.text, text));
    }
    arena_free(arena);
    return 0;
}
