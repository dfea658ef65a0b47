/* Any bytes give BAD_INPUT or a tree; a tree packs to the very bytes it came from. */
#include "tree.h"

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    Arena *arena = arena_create((size_t)256 << 20);
    Node *root = NULL;
    Error err;
    const Status status = node_unpack((const char *)bytes, size, arena, &root, &err);
    if (status != STATUS_OK) {
        MUST_HOLD(status == STATUS_BAD_INPUT && err.text[0] && !root);
    } else {
        check_same(root, root, 1);
        MUST_HOLD(node_pack_size(root) == size);
        char *block = arena_take(arena, size);
        node_pack(root, block);
        MUST_HOLD(memcmp(block, bytes, size) == 0);
    }
    arena_free(arena);
    return 0;
}
