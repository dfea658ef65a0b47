/* One value of a bridge file set in place: the rest of the text stays byte for byte. */
#include "check.h"

#include "clench/text.h"

#include <string.h>

static int arena_setup(void **state)
{
    *state = arena_create((size_t)16 << 20);
    return 0;
}

static int arena_teardown(void **state)
{
    arena_free(*state);
    return 0;
}

static const char *const two_spans = "# a bridge\n"
                                     "title: Mill race  # as on the drawings\n"
                                     "spans:\n"
                                     "  - length: 94 ft   # west\n"
                                     "  - {length: 88 ft, pier: tied}\n"
                                     "\n"
                                     "deck:            # panels\n"
                                     "  thickness: 8.5 in   # \xc2\xbd in may go\n"
                                     "# the end\n"
                                     "empty:\n";

static void check_set(Arena *arena, const char *path, const char *value, const char *from,
                      const char *to)
{
    Text text = text_start(arena);
    Error err;
    assert_int_equal(yaml_set(two_spans, strlen(two_spans), path, value, &text, &err), STATUS_OK);
    /* the text differs in this one piece */
    const char *at = strstr(two_spans, from);
    assert_non_null(at);
    const char *wanted =
        arena_printf(arena, "%.*s%s%s", (int)(at - two_spans), two_spans, to, at + strlen(from));
    assert_string_equal(text.bytes, wanted);
    assert_int_equal(text.length, strlen(wanted));
}

static void test_set_changes_one_value(void **state)
{
    Arena *arena = *state;
    check_set(arena, "spans[1].length", "101.5 ft", "94 ft", "101.5 ft");
    check_set(arena, "spans[2].length", "90 ft", "88 ft", "90 ft");
    check_set(arena, "deck.thickness", "9 in", "8.5 in", "9 in");
    check_set(arena, "title", "Weir: \"east\", no. 3", "Mill race",
              "\"Weir: \\\"east\\\", no. 3\"");
    check_set(arena, "empty", "12", "empty:", "empty: 12");
    check_set(arena, "empty", "", "empty:", "empty: \"\"");
}

static void test_set_writes_what_is_not_there(void **state)
{
    Arena *arena = *state;
    check_set(arena, "deck.haunch", "2 in", "may go", "may go\n  haunch: 2 in");
    check_set(arena, "spans[1].pier", "tied", "# west", "# west\n    pier: tied");
    check_set(arena, "spans[2].x", "1", "pier: tied", "pier: tied, x: 1");
    check_set(arena, "spans[2].a.b", "1", "pier: tied", "pier: tied, a: {b: 1}");
    check_set(arena, "climate.humidity", "70 %", "empty:", "empty:\nclimate:\n  humidity: 70 %");
}

static void check_not_set(Arena *arena, const char *text, const char *path, const char *value,
                          const char *says)
{
    Text out = text_start(arena);
    text_add(&out, "untouched");
    Error err = {0};
    const Status status = yaml_set(text, strlen(text), path, value, &out, &err);
    assert_int_equal(status, strcmp(says, "at most") ? STATUS_BAD_INPUT : STATUS_TOO_LARGE);
    if (!strstr(err.text, says)) fail_msg("%s: %s", path, err.text);
    assert_string_equal(out.bytes, "untouched");
    assert_int_equal(out.length, 9);
}

static void test_set_refuses(void **state)
{
    Arena *arena = *state;
    check_not_set(arena, two_spans, "", "1", "no path");
    check_not_set(arena, two_spans, "spans[0].length", "1", "no path");
    check_not_set(arena, two_spans, "spans.[1]", "1", "no path");
    check_not_set(arena, two_spans, "deck..x", "1", "no path");
    check_not_set(arena, two_spans, "spans[3].length", "9 ft", "does not have");
    check_not_set(arena, two_spans, "deck", "9 in", "is a group");
    check_not_set(arena, two_spans, "title.x", "9 in", "no place");
    check_not_set(arena, two_spans, "deck.thickness", "9\nin", "one line");
    check_not_set(arena, two_spans, "deck.thickness", arena_printf(arena, "%300d", 1), "at most");
    check_not_set(arena, "a: 1\na: 2\n", "a", "3", "given twice");
    check_not_set(arena, "a:\n  t: |\n    text\nb: 1\n", "a.x", "3", "layout");
}

static void test_set_keeps_line_breaks_and_letters(void **state)
{
    Arena *arena = *state;
    Text text = text_start(arena);
    Error err;
    const char *in = "\xEF\xBB\xBF# \xE2\x80\xA8t: \xC3\xA9\r\nb: {\xC3\xA9: 1, c: 2}\r\n";
    assert_int_equal(yaml_set(in, strlen(in), "b.c", "3", &text, &err), STATUS_OK);
    assert_string_equal(text.bytes,
                        "\xEF\xBB\xBF# \xE2\x80\xA8t: \xC3\xA9\r\nb: {\xC3\xA9: 1, c: 3}\r\n");
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, arena_setup, arena_teardown)
    const struct CMUnitTest tests[] = {
        TEST(test_set_changes_one_value),
        TEST(test_set_writes_what_is_not_there),
        TEST(test_set_refuses),
        TEST(test_set_keeps_line_breaks_and_letters),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
