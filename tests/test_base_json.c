/* JSON read: by the grammar of RFC 8259. */
#include "check.h"

#include <string.h>

static Status read_text(const char *text, Arena *arena, Node **root, Error *err)
{
    return json_read(text, strlen(text), arena, root, err);
}

static void test_json_values_stay_as_written(void **state)
{
    (void)state;
    Arena *arena = arena_create(1 << 20);
    Node *root = NULL;
    Error err = {0};
    const char *const text =
        " {\"a\": [-1.50e+3, \"385 psi\", true, null, \"null\"],\n \"b\": {}, \"\": \"\"} ";
    check_status(read_text(text, arena, &root, &err), STATUS_OK, &err);
    const Node *const list = node_find(root, "a");
    assert_int_equal(list->count, 5);
    assert_string_equal(node_item(list, 0)->text, "-1.50e+3");
    assert_true(node_item(list, 0)->plain && !node_item(list, 1)->plain);
    assert_string_equal(node_item(list, 1)->text, "385 psi");
    assert_true(node_item(list, 3)->plain && !node_item(list, 4)->plain);
    assert_int_equal(node_find(root, "b")->kind, NODE_MAP);
    assert_string_equal(node_find(root, "")->text, "");
    arena_free(arena);
}

/* RFC 8259, section 7: G clef U+1D11E is D834 DD1E. UTF-8 by The Unicode Standard, Table 3-6. */
static void test_json_escapes_become_characters(void **state)
{
    (void)state;
    Arena *arena = arena_create(1 << 20);
    Node *root = NULL;
    Error err = {0};
    check_status(
        read_text("\"\\uD834\\uDD1E\\u00e9\\u20AC\\\"\\\\\\/\\b\\f\\n\\r\\t\"", arena, &root, &err),
        STATUS_OK, &err);
    assert_string_equal(root->text, "\xF0\x9D\x84\x9E\xC3\xA9\xE2\x82\xAC\"\\/\b\f\n\r\t");
    arena_free(arena);
}

static void test_json_that_is_none_is_refused_at_its_place(void **state)
{
    (void)state;
    static const struct {
        const char *text, *says;
        int line, column;
    } bad[] = {{"", "a value is missing", 1, 1},
               {"[1,\n 02]", "a value is missing", 2, 2},
               {"[.5]", "a value is missing", 1, 2},
               {"[+1]", "a value is missing", 1, 2},
               {"[1e]", "a value is missing", 1, 2},
               {"[NaN]", "a value is missing", 1, 2},
               {"{'a': 1}", "a key in quotes is missing", 1, 2},
               {"{\"a\" 1}", "a colon behind a key is missing", 1, 6},
               {"{\"a\": 1, \"a\": 2}", "a key is given twice", 1, 17},
               {"[1] 2", "something stands behind its end", 1, 5},
               {"\"\\ud800 \"", "half a character", 1, 8},
               {"\"\\udc00\"", "half a character", 1, 8},
               {"\"\\u0000\"", "a NUL in a text", 1, 8},
               {"\"\\x\"", "an escape that is none", 1, 4},
               {"\"a\tb\"", "a control character in a text", 1, 3},
               {"\"\xC0\x80\"", "a text is not UTF-8", 1, 2},
               {"\"a", "a text is not closed", 1, 3}};
    Arena *arena = arena_create(1 << 20);
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        Node *root = NULL;
        Error err = {0};
        check_status(read_text(bad[i].text, arena, &root, &err), STATUS_BAD_INPUT, &err);
        assert_non_null(strstr(err.text, bad[i].says));
        assert_null(root);
        assert_int_equal(err.from.line, bad[i].line);
        assert_int_equal(err.from.column, bad[i].column);
    }
    arena_free(arena);
}

static void test_json_nested_without_end_is_refused(void **state)
{
    (void)state;
    char text[200000];
    memset(text, '[', sizeof text);
    Arena *arena = arena_create(16 << 20);
    Node *root = NULL;
    Error err = {0};
    check_status(json_read(text, sizeof text, arena, &root, &err), STATUS_BAD_INPUT, &err);
    assert_non_null(strstr(err.text, "nested too deeply"));
    arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_json_values_stay_as_written),
        cmocka_unit_test(test_json_escapes_become_characters),
        cmocka_unit_test(test_json_that_is_none_is_refused_at_its_place),
        cmocka_unit_test(test_json_nested_without_end_is_refused)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
