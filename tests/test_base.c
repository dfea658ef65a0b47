/* Statuses, memory, node trees and JSON. Quantities: test_base_quantity.c. */
#define _XOPEN_SOURCE 700
#include "check.h"

#include <float.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#define BASE_TESTS(X)                            \
    X(test_status_list_is_whole)                 \
    X(test_error_format_joins_parts)             \
    X(test_error_text_is_cut_between_characters) \
    X(test_error_null_is_allowed)                \
    X(test_diagnostics_sorted_and_bounded)       \
    X(test_arena_zeroed_and_aligned)             \
    X(test_arena_reset_gives_back)               \
    X(test_arena_limit_ends_the_process)         \
    X(test_text_grows)                           \
    X(test_json_layout)                          \
    X(test_json_escapes)                         \
    X(test_json_numbers_read_back)               \
    X(test_node_find_and_item)                   \
    X(test_node_repeats_found)                   \
    X(test_node_pack_round_trip)                 \
    X(test_node_unpack_refuses_any_cut)          \
    X(test_node_unpack_survives_any_byte)        \
    X(test_node_unpack_depth_bounded)            \
    X(test_node_unpack_size_bounded)             \
    X(test_name_nearest_within_a_third)

static int arena_setup(void **state)
{
    *state = arena_create((size_t)256 << 20);
    return 0;
}

static int arena_teardown(void **state)
{
    arena_free(*state);
    return 0;
}

/* ---- statuses and errors ---- */

static void test_status_list_is_whole(void **state)
{
    (void)state;
    static const int code[] = {0, 1, 2, 2, 3, 3, 4, 5}; /* the codes stated in base.h */
    assert_int_equal(STATUS_COUNT, sizeof code / sizeof *code);
    for (int i = 0; i < STATUS_COUNT; i++) {
        assert_int_equal(status_exit_code((Status)i), code[i]);
        assert_true(status_name((Status)i)[0] && status_text((Status)i)[0]);
    }
    assert_string_equal(status_name(STATUS_NO_CONVERGENCE), "NO_CONVERGENCE");
}

static void test_error_format_joins_parts(void **state)
{
    (void)state;
    Error err;
    char out[512], small[12];
    const Status status = error_at(&err, STATUS_BAD_INPUT, (Place){12, 9}, (Place){12, 11},
                                   "deck.thickness", "\"%d\" has no unit", 54);
    assert_int_equal(status, STATUS_BAD_INPUT);
    assert_string_equal(error_format(&err, "bridge.yaml", out, sizeof out),
                        "bridge.yaml:12:9: deck.thickness: \"54\" has no unit");
    strcpy(err.expected, "a length");
    strcpy(err.suggestion, "54 in");
    assert_string_equal(error_format(&err, NULL, out, sizeof out),
                        "12:9: deck.thickness: \"54\" has no unit, expected a length, "
                        "write \"54 in\"");
    assert_string_equal(error_format(&err, NULL, small, sizeof small), "12:9: deck.");
    error_set(&err, STATUS_IO, "%s", "");
    assert_string_equal(error_format(&err, "a.yaml", out, sizeof out),
                        "a.yaml: the machine refused a file");
}

static void test_error_text_is_cut_between_characters(void **state)
{
    (void)state;
    Error err;
    char text[602] = "x";
    for (size_t i = 1; i < 601; i += 2) text[i] = '\xC3', text[i + 1] = '\xBC'; /* U+00FC */
    error_set(&err, STATUS_BAD_INPUT, "%s", text);
    assert_int_equal(strlen(err.text), 383); /* 1 + 2*191: not a half more */
    error_set(&err, STATUS_BAD_INPUT, "a\x1b[31m\nb");
    assert_string_equal(err.text, "a?[31m?b"); /* nothing steers a terminal */
}

static void test_error_null_is_allowed(void **state)
{
    (void)state;
    const Place nowhere = {0, 0};
    assert_int_equal(error_set(NULL, STATUS_UNSTABLE, "x"), STATUS_UNSTABLE);
    assert_int_equal(error_at(NULL, STATUS_TOO_LARGE, nowhere, nowhere, NULL, "x"),
                     STATUS_TOO_LARGE);
}

static void test_diagnostics_sorted_and_bounded(void **state)
{
    (void)state;
    static Diagnostics list;
    list = (Diagnostics){.count = 0};
    for (int i = 0; i < DIAGNOSTICS_MAX + 3; i++) {
        Error err;
        const Place place = {100 - i / 2, 5};
        error_at(&err, STATUS_BAD_INPUT, place, place, "", "%d", i);
        diagnostics_add(&list, &err);
    }
    diagnostics_sort(&list);
    assert_int_equal(list.count, DIAGNOSTICS_MAX);
    assert_int_equal(list.dropped, 3);
    for (int i = 1; i < list.count; i++) {
        const Error *a = &list.item[i - 1], *b = &list.item[i];
        assert_true(a->from.line <= b->from.line);
        if (a->from.line == b->from.line) assert_true(atoi(a->text) < atoi(b->text));
    }
}

/* ---- memory ---- */

static void test_arena_zeroed_and_aligned(void **state)
{
    Arena *arena = *state;
    for (size_t bytes = 0; bytes < 300000; bytes = bytes * 2 + 1) {
        unsigned char *taken = arena_take(arena, bytes);
        assert_int_equal((uintptr_t)taken % 16, 0);
        for (size_t i = 0; i < bytes; i++) assert_int_equal(taken[i], 0);
        memset(taken, 0xA5, bytes);
    }
    const double *numbers = ARENA_NEW(arena, double, 3);
    assert_true(numbers[2] == 0);
    assert_string_equal(arena_printf(arena, "%s-%d", "node", 7), "node-7");
    assert_string_equal(arena_textn(arena, "kip*ft", 3), "kip");
    assert_string_equal(arena_text(arena, ""), "");
}

static void test_arena_reset_gives_back(void **state)
{
    Arena *arena = *state;
    char *kept = arena_text(arena, "kept");
    const size_t mark = arena_mark(arena);
    size_t peak = 0;
    for (int step = 0; step < 50; step++) {
        for (int i = 0; i < 20; i++) {
            char *piece = arena_take(arena, 10007);
            assert_int_equal(piece[9876], 0);
            memset(piece, 0x5A, 10007);
        }
        if (step == 0) peak = arena_peak(arena);
        arena_reset(arena, mark);
        assert_int_equal(arena_used(arena), mark);
    }
    assert_string_equal(kept, "kept");
    assert_int_equal(arena_peak(arena), peak); /* steps reuse what they gave back */
    assert_true(peak >= (size_t)20 * 10007);
    arena_reset(arena, 0);
    assert_int_equal(arena_used(arena), 0);
    arena_free(NULL);
}

static void test_arena_limit_ends_the_process(void **state)
{
    (void)state;
    const pid_t child = fork();
    if (child == 0) {
        signal(SIGABRT, SIG_DFL);
        if (!freopen("/dev/null", "w", stderr)) _exit(2);
        Arena *arena = arena_create(1000);
        arena_take(arena, 900);
        arena_take(arena, 900);
        _exit(0);
    }
    int status = 0;
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFSIGNALED(status) && WTERMSIG(status) == SIGABRT);
}

/* ---- text and JSON ---- */

static void test_text_grows(void **state)
{
    Text text = text_start(*state);
    assert_string_equal(text.bytes, "");
    for (int i = 0; i < 5000; i++) text_printf(&text, "%04d,", i);
    text_add(&text, "end");
    text_addn(&text, "xyz", 1);
    assert_int_equal(text.length, 25004);
    assert_memory_equal(text.bytes + (size_t)5 * 1234, "1234,", 5);
    assert_string_equal(text.bytes + 25000, "endx");
}

static void test_json_layout(void **state)
{
    Text text = text_start(*state);
    Json json = json_start(&text);
    const double value[] = {1, -2.5, NAN};
    json_open_map(&json, NULL);
    json_text(&json, "name", "deck");
    json_numbers(&json, "row", value, 3);
    json.compact = false;
    json_numbers(&json, "column", value, 2);
    json_open_list(&json, "empty");
    json_close_list(&json);
    json_open_list(&json, "mixed");
    json_int(&json, NULL, -3);
    json_bool(&json, NULL, true);
    json_none(&json, NULL);
    json_open_map(&json, NULL);
    json_close_map(&json);
    json_close_list(&json);
    json_number(&json, "infinite", INFINITY);
    json_close_map(&json);
    assert_string_equal(text.bytes, "{\n  \"name\": \"deck\",\n  \"row\": [1, -2.5, null],\n"
                                    "  \"column\": [\n    1,\n    -2.5\n  ],\n  \"empty\": [],\n"
                                    "  \"mixed\": [\n    -3,\n    true,\n    null,\n    {}\n  ],\n"
                                    "  \"infinite\": null\n}\n");
}

static void test_json_escapes(void **state)
{
    Text text = text_start(*state);
    Json json = json_start(&text);
    json_text(&json, NULL, "\"a\\b\"\n\x01\x7f \xC3\xBC \xFF\xED\xA0\x80 \xF0\x9F\x98\x80");
    /* RFC 8259, section 7; U+FFFD for each byte that is not UTF-8 (lone surrogate: 3 bytes) */
    assert_string_equal(text.bytes, "\"\\\"a\\\\b\\\"\\n\\u0001\\u007f \xC3\xBC \xEF\xBF\xBD"
                                    "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD \xF0\x9F\x98\x80\"");
}

static void test_json_numbers_read_back(void **state)
{
    static const struct {
        double value;
        const char *text;
    } shortest[] = {{0.1, "0.1"},
                    {1.0 / 3, "0.3333333333333333"},
                    {2.385e-7, "2.385e-07"},
                    {5e-324, "5e-324"},
                    {DBL_MAX, "1.7976931348623157e+308"},
                    {-40000, "-40000"},
                    {0.1 + 0.2, "0.30000000000000004"}};
    for (size_t i = 0; i < sizeof shortest / sizeof *shortest; i++) {
        Text text = text_start(*state);
        Json json = json_start(&text);
        json_number(&json, NULL, shortest[i].value);
        assert_string_equal(text.bytes, shortest[i].text);
    }
}

/* ---- trees ---- */

static Node *text_node(Arena *arena, const char *key, const char *text)
{
    Node *node = node_new(arena, NODE_TEXT);
    node->key = key;
    node->text = text;
    node->plain = true;
    node->from = (Place){3, 7};
    node->to = (Place){3, 12};
    return node;
}

/* deck: {length: 9 ft, panels: ["", U+00FC]} */
static Node *small_tree(Arena *arena)
{
    Node *root = node_new(arena, NODE_MAP), *deck = node_new(arena, NODE_MAP);
    Node *panels = node_new(arena, NODE_LIST);
    deck->key = "deck";
    deck->key_from = (Place){2, 1};
    panels->key = "panels";
    node_append(root, deck);
    node_append(deck, text_node(arena, "length", "9 ft"));
    node_append(deck, panels);
    node_append(panels, text_node(arena, NULL, ""));
    node_append(panels, text_node(arena, NULL, "\xC3\xBC"));
    return root;
}

static void test_node_find_and_item(void **state)
{
    const Node *root = small_tree(*state), *deck = node_find(root, "deck");
    assert_string_equal(node_find(deck, "length")->text, "9 ft");
    assert_null(node_find(deck, "width"));
    const Node *panels = node_find(deck, "panels");
    assert_int_equal(panels->count, 2);
    assert_string_equal(node_item(panels, 1)->text, "\xC3\xBC");
    assert_null(node_item(panels, 2));
    assert_null(node_item(panels, -1));
    assert_null(node_find(panels, "deck"));
    assert_null(node_find(NULL, "deck"));
    assert_null(node_item(deck, 0));
}

static void test_node_repeats_found(void **state)
{
    Arena *arena = *state;
    Node *map = node_new(arena, NODE_MAP);
    NodeRepeat *repeats;
    static const char *const keys[] = {"b", "a", "c", "a", "b", "a"};
    assert_int_equal(node_repeats(map, arena, &repeats), 0);
    for (int i = 0; i < 6; i++) node_append(map, text_node(arena, keys[i], "x"));
    assert_int_equal(node_repeats(map, arena, &repeats), 3);
    for (int i = 0; i < 3; i++) {
        assert_string_equal(repeats[i].first->key, repeats[i].again->key);
        assert_ptr_equal(repeats[i].first, node_find(map, repeats[i].first->key));
        assert_ptr_not_equal(repeats[i].first, repeats[i].again);
    }
}

static void test_node_pack_round_trip(void **state)
{
    Arena *arena = *state;
    const Node *tree = small_tree(arena);
    const size_t size = node_pack_size(tree);
    char *bytes = arena_take(arena, size), *again = arena_take(arena, size);
    Node *root;
    Error err;
    node_pack(tree, bytes);
    check_status(node_unpack(bytes, size, arena, &root, &err), STATUS_OK, &err);
    assert_int_equal(node_pack_size(root), size);
    node_pack(root, again);
    assert_memory_equal(bytes, again, size);
    const Node *length = node_find(node_find(root, "deck"), "length");
    assert_string_equal(length->text, "9 ft");
    assert_true(length->plain && length->from.line == 3 && length->to.column == 12);
}

static void test_node_unpack_refuses_any_cut(void **state)
{
    Arena *arena = *state;
    const Node *tree = small_tree(arena);
    const size_t size = node_pack_size(tree);
    char *bytes = arena_take(arena, size + 1);
    Node *root = NULL;
    Error err;
    node_pack(tree, bytes);
    for (size_t cut = 0; cut < size; cut++)
        check_status(node_unpack(bytes, cut, arena, &root, &err), STATUS_BAD_INPUT, &err);
    check_status(node_unpack(bytes, size + 1, arena, &root, &err), STATUS_BAD_INPUT, &err);
    assert_null(root);
}

/* One byte changed to each other value: a tree that packs to those bytes, or a refusal. */
static void test_node_unpack_survives_any_byte(void **state)
{
    Arena *arena = *state;
    const Node *tree = small_tree(arena);
    const size_t size = node_pack_size(tree);
    char *bytes = arena_take(arena, size), *again = arena_take(arena, size);
    int read = 0;
    node_pack(tree, bytes);
    for (size_t at = 0; at < size; at++)
        for (int flip = 1; flip < 256; flip++) {
            const size_t mark = arena_mark(arena);
            Node *root;
            bytes[at] = (char)(bytes[at] ^ flip);
            if (node_unpack(bytes, size, arena, &root, NULL) == STATUS_OK) {
                read++;
                assert_int_equal(node_pack_size(root), size);
                node_pack(root, again);
                assert_memory_equal(bytes, again, size);
            }
            bytes[at] = (char)(bytes[at] ^ flip);
            arena_reset(arena, mark);
        }
    assert_true(read > 1000); /* places and letters may change */
}

static void test_node_unpack_depth_bounded(void **state)
{
    Arena *arena = *state;
    Node *top = text_node(arena, NULL, "x"), *root;
    Error err;
    for (int depth = 2; depth <= NODE_DEPTH_MAX + 1; depth++) {
        Node *list = node_new(arena, NODE_LIST);
        node_append(list, top);
        top = list;
        const size_t size = node_pack_size(top);
        char *bytes = arena_take(arena, size);
        node_pack(top, bytes);
        check_status(node_unpack(bytes, size, arena, &root, &err),
                     depth <= NODE_DEPTH_MAX ? STATUS_OK : STATUS_BAD_INPUT, &err);
    }
}

static void test_node_unpack_size_bounded(void **state)
{
    Arena *arena = *state;
    Node *list = node_new(arena, NODE_LIST), *root;
    Error err;
    for (int i = 0; i < NODE_COUNT_MAX; i++) node_append(list, text_node(arena, NULL, ""));
    const size_t size = node_pack_size(list);
    char *bytes = malloc(NODE_PACK_MAX + 1);
    assert_non_null(bytes);
    node_pack(list, bytes);
    check_status(node_unpack(bytes, size, arena, &root, &err), STATUS_BAD_INPUT, &err);
    assert_non_null(strstr(err.text, "too many values"));
    check_status(node_unpack(bytes, NODE_PACK_MAX + 1, arena, &root, &err), STATUS_BAD_INPUT, &err);
    assert_non_null(strstr(err.text, "too large"));
    free(bytes);
}

static void test_name_nearest_within_a_third(void **state)
{
    (void)state;
    static const char *const names[] = {"length", "thickness", "strength", "span"};
    assert_string_equal(name_nearest("lenght", names, 4), "length");
    assert_string_equal(name_nearest("sapn", names, 4), "span"); /* a swap counts one */
    assert_string_equal(name_nearest("thicknes", names, 4), "thickness");
    assert_string_equal(name_nearest("span", names, 4), "span");
    assert_string_equal(name_nearest("spam", names, 4), "span");
    assert_null(name_nearest("spxm", names, 4)); /* 2 of 4 letters */
    assert_null(name_nearest("colour", names, 4));
    assert_null(name_nearest("", names, 4));
    assert_null(name_nearest("span", names, 0));
    char longest[200] = "";
    memset(longest, 'a', sizeof longest - 1);
    assert_null(name_nearest(longest, names, 4));
}

int main(void)
{
#define X(name) cmocka_unit_test_setup_teardown(name, arena_setup, arena_teardown),
    const struct CMUnitTest tests[] = {BASE_TESTS(X)};
#undef X
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
