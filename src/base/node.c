#include "clench/base.h"
#include "utf8.h"

#include <assert.h>
#include <limits.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

const Node *node_find(const Node *map, const char *key)
{
    if (!map || map->kind != NODE_MAP) return NULL;
    for (const Node *child = map->first; child; child = child->next)
        if (strcmp(child->key, key) == 0) return child;
    return NULL;
}

const Node *node_item(const Node *list, int index)
{
    if (!list || list->kind != NODE_LIST || index < 0) return NULL;
    const Node *child = list->first;
    while (child && index-- > 0) child = child->next;
    return child;
}

Node *node_new(Arena *arena, NodeKind kind)
{
    Node *node = ARENA_NEW(arena, Node, 1);
    node->kind = kind;
    if (kind == NODE_TEXT) node->text = "";
    return node;
}

void node_append(Node *parent, Node *child)
{
    assert(parent->kind != NODE_TEXT && !child->next);
    assert((parent->kind == NODE_MAP) == (child->key != NULL));
    if (parent->last)
        parent->last->next = child;
    else
        parent->first = child;
    parent->last = child;
    parent->count++;
}

/* ---- keys given twice ---- */

typedef struct Keyed {
    const Node *node;
    int order;
} Keyed;

static int keyed_compare(const void *left, const void *right)
{
    const Keyed *a = left, *b = right;
    const int by_key = strcmp(a->node->key, b->node->key);
    return by_key ? by_key : (a->order > b->order) - (a->order < b->order);
}

/* Sorting keeps a map of very many keys from costing the square of their number. */
int node_repeats(const Node *map, Arena *arena, NodeRepeat **repeats)
{
    assert(map->kind == NODE_MAP);
    int found = 0, order = 0;
    Keyed *keyed = ARENA_NEW(arena, Keyed, map->count);
    for (const Node *child = map->first; child; child = child->next, order++)
        keyed[order] = (Keyed){child, order};
    if (order > 1) qsort(keyed, (size_t)order, sizeof *keyed, keyed_compare);
    *repeats = NULL;
    for (int i = 1, first = 0; i < order; i++) {
        if (strcmp(keyed[i].node->key, keyed[first].node->key) != 0) {
            first = i;
            continue;
        }
        if (!*repeats) *repeats = ARENA_NEW(arena, NodeRepeat, order);
        (*repeats)[found++] = (NodeRepeat){keyed[first].node, keyed[i].node};
    }
    return found;
}

/* ---- the tree as bytes ----
 * Numbers are 32 bits, little end first. "CLN1", then the root; a node is
 *   kind (1 byte), plain (1 byte, 0 or 1), from, to (4 numbers),
 *   in a map: key_from, key_to (4 numbers), length and bytes of the key,
 *   text: length and bytes; list or map: count and the children. */

static const char magic[4] = {'C', 'L', 'N', '1'};
enum { PLACES_SIZE = 16, NODE_HEAD_SIZE = 2 + PLACES_SIZE, NODE_DEPTH_LIMIT = NODE_DEPTH_MAX };

static size_t node_size(const Node *node)
{
    size_t size = NODE_HEAD_SIZE + 4;
    if (node->key) size += PLACES_SIZE + 4 + strlen(node->key);
    if (node->kind == NODE_TEXT) return size + strlen(node->text);
    for (const Node *child = node->first; child; child = child->next) size += node_size(child);
    return size;
}

size_t node_pack_size(const Node *root) { return sizeof magic + node_size(root); }

static char *put_number(char *at, size_t number)
{
    assert(number <= INT_MAX);
    for (int i = 0; i < 4; i++) at[i] = (char)(number >> (8 * i) & 0xFF);
    return at + 4;
}

static char *put_places(char *at, Place from, Place to)
{
    at = put_number(put_number(at, (size_t)from.line), (size_t)from.column);
    return put_number(put_number(at, (size_t)to.line), (size_t)to.column);
}

static char *put_text(char *at, const char *text)
{
    const size_t length = strlen(text);
    at = put_number(at, length);
    for (size_t i = 0; i < length; i++) at[i] = text[i];
    return at + length;
}

static char *put_node(char *at, const Node *node)
{
    *at++ = (char)node->kind;
    *at++ = (char)node->plain;
    at = put_places(at, node->from, node->to);
    if (node->key) at = put_text(put_places(at, node->key_from, node->key_to), node->key);
    if (node->kind == NODE_TEXT) return put_text(at, node->text);
    at = put_number(at, (size_t)node->count);
    for (const Node *child = node->first; child; child = child->next) at = put_node(at, child);
    return at;
}

void node_pack(const Node *root, char *bytes)
{
    assert(!root->key);
    memcpy(bytes, magic, sizeof magic);
    put_node(bytes + sizeof magic, root);
}

typedef struct Unpack {
    const char *at, *end;
    Arena *arena;
    int count; /* nodes so far */
    const char *fault;
} Unpack;

/* The first fault stays; false lets the callers end at once. */
static bool fail(Unpack *in, const char *fault)
{
    if (!in->fault) in->fault = fault;
    return false;
}

static bool get_number(Unpack *in, int *number)
{
    if (in->end - in->at < 4) return fail(in, "it ends too early");
    uint32_t value = 0;
    for (int i = 0; i < 4; i++) value |= (uint32_t)(unsigned char)in->at[i] << (8 * i);
    in->at += 4;
    if (value > INT_MAX) return fail(in, "a number is out of range");
    *number = (int)value;
    return true;
}

static bool get_places(Unpack *in, Place *from, Place *to)
{
    return get_number(in, &from->line) && get_number(in, &from->column) &&
           get_number(in, &to->line) && get_number(in, &to->column);
}

static bool get_text(Unpack *in, const char **text)
{
    int length;
    if (!get_number(in, &length)) return false;
    if (length > in->end - in->at) return fail(in, "a text ends too early");
    for (size_t i = 0, step; i < (size_t)length; i += step) {
        step = utf8_length(in->at + i, (size_t)length - i);
        if (step == 0 || in->at[i] == 0) return fail(in, "a text is not UTF-8");
    }
    *text = arena_textn(in->arena, in->at, (size_t)length);
    in->at += length;
    return true;
}

static Node *get_node(Unpack *in, NodeKind parent, int depth);

static bool get_children(Unpack *in, Node *node, int depth)
{
    int count;
    if (!get_number(in, &count)) return false;
    for (int i = 0; i < count; i++) {
        Node *child = get_node(in, node->kind, depth + 1);
        if (!child) return false;
        node_append(node, child);
    }
    if (node->kind != NODE_MAP) return true;
    const size_t mark = arena_mark(in->arena);
    NodeRepeat *repeats;
    const int found = node_repeats(node, in->arena, &repeats);
    arena_reset(in->arena, mark);
    return found == 0 || fail(in, "a key is given twice");
}

static Node *get_node(Unpack *in, NodeKind parent, int depth)
{
    if (depth > NODE_DEPTH_LIMIT) fail(in, "it is nested too deeply");
    if (in->count++ >= NODE_COUNT_MAX) fail(in, "it has too many values");
    if (in->end - in->at < 2) fail(in, "it ends too early");
    if (in->fault) return NULL;
    const unsigned char kind = (unsigned char)*in->at++, plain = (unsigned char)*in->at++;
    if (kind > NODE_MAP || plain > (kind == NODE_TEXT)) fail(in, "a kind of value is unknown");
    if (in->fault) return NULL;
    Node *node = node_new(in->arena, (NodeKind)kind);
    node->plain = plain;
    bool good = get_places(in, &node->from, &node->to);
    if (good && parent == NODE_MAP)
        good = get_places(in, &node->key_from, &node->key_to) && get_text(in, &node->key);
    if (good) good = kind == NODE_TEXT ? get_text(in, &node->text) : get_children(in, node, depth);
    return good ? node : NULL;
}

Status node_unpack(const char *bytes, size_t size, Arena *arena, Node **root, Error *err)
{
    Unpack in = {.at = bytes, .end = bytes + size, .arena = arena};
    Node *node = NULL;
    if (size < sizeof magic || memcmp(bytes, magic, sizeof magic) != 0)
        fail(&in, "it does not start as one");
    else if (size > NODE_PACK_MAX)
        fail(&in, "it is too large");
    else {
        in.at += sizeof magic;
        node = get_node(&in, NODE_LIST, 1);
        if (node && in.at != in.end) fail(&in, "bytes are left over");
    }
    if (in.fault)
        return error_set(err, STATUS_BAD_INPUT, "these bytes are not a packed tree: %s", in.fault);
    *root = node;
    return STATUS_OK;
}

/* ---- the nearest name ---- */

enum { WORD_MAX = 63 };

static int smaller(int a, int b) { return a < b ? a : b; }

/* Insertions, deletions, replacements and swaps of neighbours: optimal string alignment distance,
 * from memory (Damerau 1964 counts the same four). Three rows of the table are enough. */
static int edit_distance(const char *a, const char *b)
{
    const int rows = (int)strlen(a), columns = (int)strlen(b);
    int table[3][WORD_MAX + 1];
    for (int k = 0; k <= columns; k++) table[0][k] = k;
    for (int i = 1; i <= rows; i++) {
        int *row = table[i % 3];
        const int *above = table[(i + 2) % 3], *above2 = table[(i + 1) % 3];
        row[0] = i;
        for (int k = 1; k <= columns; k++) {
            row[k] = above[k - 1] + (a[i - 1] != b[k - 1]);
            row[k] = smaller(row[k], smaller(above[k], row[k - 1]) + 1);
            if (i > 1 && k > 1 && a[i - 1] == b[k - 2] && a[i - 2] == b[k - 1])
                row[k] = smaller(row[k], above2[k - 2] + 1);
        }
    }
    return table[rows % 3][columns];
}

const char *name_nearest(const char *word, const char *const *names, int count)
{
    const size_t length = strlen(word);
    const char *nearest = NULL;
    if (length == 0 || length > WORD_MAX) return NULL;
    int best = (int)length / 3 + 1;
    for (int i = 0; i < count; i++) {
        if (strlen(names[i]) > WORD_MAX) continue;
        const int distance = edit_distance(word, names[i]);
        if (distance >= best) continue;
        best = distance;
        nearest = names[i];
    }
    return nearest;
}
