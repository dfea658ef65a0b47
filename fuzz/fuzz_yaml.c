/* Any bytes give errors in order of place, or a tree that survives the door to the engine. */
#include "clench/text.h"
#include "tree.h"

static void check_errors(const Diagnostics *list)
{
    MUST_HOLD(list->count > 0);
    for (int i = 0; i < list->count; i++) {
        const Error *err = &list->item[i], *next = err + 1;
        MUST_HOLD(err->status != STATUS_OK && err->text[0]);
        MUST_HOLD(err->from.line >= 0 && err->from.column >= 0);
        if (i + 1 < list->count)
            MUST_HOLD(err->from.line < next->from.line ||
                      (err->from.line == next->from.line && err->from.column <= next->from.column));
    }
}

static void check_unique(const Node *node, Arena *arena)
{
    NodeRepeat *repeats;
    if (node->kind == NODE_MAP) MUST_HOLD(node_repeats(node, arena, &repeats) == 0);
    for (const Node *child = node->first; child; child = child->next) check_unique(child, arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    Arena *arena = arena_create((size_t)256 << 20);
    Diagnostics list = {.count = 0};
    Node *root = NULL, *again = NULL;
    const Status status = yaml_read((const char *)bytes, size, arena, &root, &list);
    if (status != STATUS_OK) {
        MUST_HOLD(!root);
        check_errors(&list);
    } else {
        MUST_HOLD(root && list.count == 0);
        check_unique(root, arena);
        const size_t packed = node_pack_size(root);
        char *block = arena_take(arena, packed);
        node_pack(root, block);
        MUST_HOLD(node_unpack(block, packed, arena, &again, NULL) == STATUS_OK);
        check_same(root, again, 1);
    }
    arena_free(arena);
    return 0;
}
