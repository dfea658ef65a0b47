/* Any form gives a bridge file that reads without an error, or says which answer is wrong. */
#include "clench/bridge.h"
#include "clench/text.h"
#include "fuzz.h"

static void check_file(const Text *text, Arena *arena)
{
    Diagnostics found = {.count = 0};
    Node *root = NULL;
    const Bridge *bridge = NULL;
    MUST_HOLD(yaml_read(text->bytes, text->length, arena, &root, &found) == STATUS_OK);
    MUST_HOLD(bridge_read(root, arena, &bridge, &found) == STATUS_OK);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    if (size > 65536) return 0;
    Arena *arena = arena_create((size_t)256 << 20);
    Diagnostics found = {.count = 0}, wrong = {.count = 0};
    Node *form = NULL;
    Text text = text_start(arena);
    if (yaml_read((const char *)bytes, size, arena, &form, &found) == STATUS_OK) {
        if (bridge_first(form, &text, &wrong) == STATUS_OK)
            check_file(&text, arena);
        else
            MUST_HOLD(text.length == 0 && wrong.count > 0 && wrong.item[0].text[0]);
    }
    arena_free(arena);
    return 0;
}
