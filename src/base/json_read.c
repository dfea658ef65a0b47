/* JSON (RFC 8259) to a node tree: as node_unpack it trusts nothing. */
#include "clench/base.h"
#include "utf8.h"

#include <string.h>

typedef struct Reader {
    const char *start, *at, *end;
    Arena *arena;
    int count; /* nodes so far */
    const char *fault;
} Reader;

/* The first fault stays; false lets the callers end at once. */
static bool fail(Reader *in, const char *fault)
{
    if (!in->fault) in->fault = fault;
    return false;
}

static void blanks(Reader *in)
{
    while (in->at < in->end && strchr(" \t\r\n", *in->at) && *in->at) in->at++;
}

static bool take(Reader *in, char wanted)
{
    blanks(in);
    if (in->at == in->end || *in->at != wanted) return false;
    in->at++;
    return true;
}

/* ---- texts ---- */

static bool hex4(Reader *in, unsigned *code)
{
    *code = 0;
    if (in->end - in->at < 4) return fail(in, "\\u needs four digits");
    for (int i = 0; i < 4; i++) {
        static const char digits[] = "0123456789abcdef0123456789ABCDEF";
        const char *const found = strchr(digits, *in->at);
        if (!found || !*found) return fail(in, "\\u needs four digits");
        *code = 16 * *code + (unsigned)(found - digits) % 16;
        in->at++;
    }
    return true;
}

static void code_add(Text *text, unsigned code)
{
    const unsigned char head = code < 0x80 ? 0 : code < 0x800 ? 0xC0 : code < 0x10000 ? 0xE0 : 0xF0;
    const int more = code < 0x80 ? 0 : code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
    char bytes[4];
    bytes[0] = (char)(head | code >> (6 * more));
    for (int i = 1; i <= more; i++) bytes[i] = (char)(0x80 | (code >> (6 * (more - i)) & 0x3F));
    text_addn(text, bytes, (size_t)more + 1);
}

/* A character beyond 16 bits comes as two, RFC 8259 section 7. */
static bool code_read(Reader *in, Text *text)
{
    unsigned code, low;
    if (!hex4(in, &code)) return false;
    if (code >= 0xDC00 && code <= 0xDFFF) return fail(in, "half a character");
    if (code >= 0xD800 && code <= 0xDBFF) {
        if (in->end - in->at < 2 || in->at[0] != '\\' || in->at[1] != 'u')
            return fail(in, "half a character");
        in->at += 2;
        if (!hex4(in, &low)) return false;
        if (low < 0xDC00 || low > 0xDFFF) return fail(in, "half a character");
        code = 0x10000 + ((code - 0xD800) << 10) + (low - 0xDC00);
    }
    if (code == 0) return fail(in, "a NUL in a text");
    code_add(text, code);
    return true;
}

static bool escape_read(Reader *in, Text *text)
{
    static const char from[] = "\"\\/bfnrt", to[] = "\"\\/\b\f\n\r\t";
    if (++in->at == in->end) return fail(in, "a text is not closed");
    const char c = *in->at++;
    if (c == 'u') return code_read(in, text);
    const char *const found = c ? strchr(from, c) : NULL;
    if (!found) return fail(in, "an escape that is none");
    text_addn(text, to + (found - from), 1);
    return true;
}

/* Behind its opening quote. */
static bool text_read(Reader *in, const char **out)
{
    Text text = text_start(in->arena);
    for (;;) {
        if (in->at == in->end) return fail(in, "a text is not closed");
        const char c = *in->at;
        if (c == '"') break;
        if (c == '\\') {
            if (!escape_read(in, &text)) return false;
            continue;
        }
        const size_t length = utf8_length(in->at, (size_t)(in->end - in->at));
        if ((unsigned char)c < 0x20) return fail(in, "a control character in a text");
        if (!length) return fail(in, "a text is not UTF-8");
        text_addn(&text, in->at, length);
        in->at += length;
    }
    in->at++;
    *out = text.bytes;
    return true;
}

/* ---- numbers, true, false, null: kept as they are written ---- */

static size_t digits_at(const Reader *in, size_t at)
{
    size_t count = 0;
    while (in->at + at + count < in->end && in->at[at + count] >= '0' && in->at[at + count] <= '9')
        count++;
    return count;
}

static char at_is(const Reader *in, size_t at)
{
    if (at >= (size_t)(in->end - in->at)) return '\0';
    return in->at[at];
}

/* Length of a number by the grammar of RFC 8259 section 6; 0: none. */
static size_t number_length(const Reader *in)
{
    size_t at = at_is(in, 0) == '-';
    const size_t whole = digits_at(in, at);
    if (whole == 0 || (whole > 1 && at_is(in, at) == '0')) return 0;
    at += whole;
    if (at_is(in, at) == '.') {
        const size_t part = digits_at(in, at + 1);
        if (!part) return 0;
        at += 1 + part;
    }
    if (at_is(in, at) == 'e' || at_is(in, at) == 'E') {
        const size_t sign = at_is(in, at + 1) == '+' || at_is(in, at + 1) == '-';
        const size_t part = digits_at(in, at + 1 + sign);
        if (!part) return 0;
        at += 1 + sign + part;
    }
    return at;
}

static size_t word_length(const Reader *in)
{
    static const char *const word[] = {"true", "false", "null"};
    for (int i = 0; i < 3; i++) {
        const size_t length = strlen(word[i]);
        if ((size_t)(in->end - in->at) >= length && memcmp(in->at, word[i], length) == 0)
            return length;
    }
    return number_length(in);
}

/* ---- values ---- */

static Node *value_read(Reader *in, int depth);

static bool child_read(Reader *in, Node *node, int depth)
{
    const char *key = NULL;
    if (node->kind == NODE_MAP) {
        if (!take(in, '"')) return fail(in, "a key in quotes is missing");
        if (!text_read(in, &key)) return false;
        if (!take(in, ':')) return fail(in, "a colon behind a key is missing");
    }
    Node *const child = value_read(in, depth + 1);
    if (!child) return false;
    child->key = key;
    node_append(node, child);
    return true;
}

static bool repeats(Reader *in, const Node *map)
{
    NodeRepeat *list;
    const size_t mark = arena_mark(in->arena);
    const int found = node_repeats(map, in->arena, &list);
    arena_reset(in->arena, mark);
    return found > 0;
}

static bool children_read(Reader *in, Node *node, int depth)
{
    const char close = node->kind == NODE_MAP ? '}' : ']';
    if (take(in, close)) return true;
    do
        if (!child_read(in, node, depth)) return false;
    while (take(in, ','));
    if (!take(in, close)) return fail(in, "a comma or the closing bracket is missing");
    if (node->kind == NODE_MAP && repeats(in, node)) return fail(in, "a key is given twice");
    return true;
}

static Node *value_read(Reader *in, int depth)
{
    if (depth > NODE_DEPTH_MAX) fail(in, "it is nested too deeply");
    if (in->count++ >= NODE_COUNT_MAX) fail(in, "it has too many values");
    if (in->fault) return NULL;
    const bool map = take(in, '{');
    if (map || take(in, '[')) {
        Node *const node = node_new(in->arena, map ? NODE_MAP : NODE_LIST);
        return children_read(in, node, depth) ? node : NULL;
    }
    Node *const node = node_new(in->arena, NODE_TEXT);
    if (take(in, '"')) return text_read(in, &node->text) ? node : NULL;
    const size_t length = word_length(in);
    if (length == 0) fail(in, "a value is missing");
    if (in->fault) return NULL;
    node->text = arena_textn(in->arena, in->at, length);
    node->plain = true;
    in->at += length;
    return node;
}

/* Lines and columns (in characters) of where reading stopped, from 1. */
static Place place_of(const Reader *in)
{
    Place place = {1, 1};
    for (const char *c = in->start; c < in->at; c++) {
        if (*c == '\n')
            place = (Place){place.line + 1, 1};
        else if (((unsigned char)*c & 0xC0) != 0x80)
            place.column++;
    }
    return place;
}

Status json_read(const char *bytes, size_t size, Arena *arena, Node **root, Error *err)
{
    Reader in = {.start = bytes, .at = bytes, .end = bytes + size, .arena = arena};
    Node *node = NULL;
    if (size > NODE_PACK_MAX)
        fail(&in, "it is too large");
    else
        node = value_read(&in, 1);
    if (node) blanks(&in);
    if (node && in.at != in.end) fail(&in, "something stands behind its end");
    if (in.fault) {
        const Place at = place_of(&in);
        return error_at(err, STATUS_BAD_INPUT, at, at, "", "the JSON cannot be read: %s", in.fault);
    }
    *root = node;
    return STATUS_OK;
}
