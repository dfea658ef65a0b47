/* Any bytes give BAD_INPUT with a place, or a tree; written again it reads to the same tree. */
#include "tree.h"

static void write_again(Json *json, const Node *node)
{
    if (node->kind == NODE_TEXT) {
        json_text(json, node->key, node->text);
        return;
    }
    if (node->kind == NODE_MAP)
        json_open_map(json, node->key);
    else
        json_open_list(json, node->key);
    for (const Node *child = node->first; child; child = child->next) write_again(json, child);
    if (node->kind == NODE_MAP)
        json_close_map(json);
    else
        json_close_list(json);
}

/* All is written as texts, in quotes. */
static void quote(Node *node)
{
    node->plain = false;
    for (Node *child = node->first; child; child = child->next) quote(child);
}

static int depth_of(const Node *node)
{
    int most = 0;
    for (const Node *child = node->first; child; child = child->next) {
        const int depth = depth_of(child);
        if (depth > most) most = depth;
    }
    return most + 1;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    Arena *arena = arena_create((size_t)512 << 20);
    Node *root = NULL, *again = NULL;
    Error err = {0};
    if (json_read((const char *)bytes, size, arena, &root, &err) != STATUS_OK) {
        MUST_HOLD(err.text[0] && err.from.line >= 1 && err.from.column >= 1 && !root);
    } else if (depth_of(root) < 30) { /* the writer's own depth */
        Text text = text_start(arena);
        Json json = json_start(&text);
        write_again(&json, root);
        MUST_HOLD(json_read(text.bytes, text.length, arena, &again, &err) == STATUS_OK);
        quote(root);
        check_same(root, again, 1);
    }
    arena_free(arena);
    return 0;
}
