/* Properties of node trees that more than one fuzz target states. */
#ifndef CLENCH_FUZZ_TREE_H
#define CLENCH_FUZZ_TREE_H

#include "clench/base.h"
#include "fuzz.h"

#include <string.h>

static inline bool same_place(Place a, Place b) { return a.line == b.line && a.column == b.column; }

static inline bool same_text(const char *a, const char *b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* Two trees are equal in all that a tree holds, and within the bounds. */
static inline void check_same(const Node *a, const Node *b, int depth)
{
    MUST_HOLD(depth <= NODE_DEPTH_MAX);
    MUST_HOLD(a->kind == b->kind && a->plain == b->plain && a->count == b->count);
    MUST_HOLD(same_place(a->from, b->from) && same_place(a->to, b->to));
    MUST_HOLD(same_place(a->key_from, b->key_from) && same_place(a->key_to, b->key_to));
    MUST_HOLD(same_text(a->key, b->key) && same_text(a->text, b->text));
    MUST_HOLD((a->kind == NODE_TEXT) == (a->text != NULL));
    const Node *y = b->first;
    int count = 0;
    for (const Node *x = a->first; x; x = x->next, y = y->next, count++) {
        MUST_HOLD(y && (x->key != NULL) == (a->kind == NODE_MAP));
        check_same(x, y, depth + 1);
    }
    MUST_HOLD(!y && count == a->count);
}

#endif
