/* Cells of CSV: RFC 4180, and what a spreadsheet must not take for a formula. */
#include "check.h"

#include <string.h>

static void check_cell(const char *words, const char *wanted)
{
    Arena *arena = arena_create(1 << 16);
    Text text = text_start(arena);
    csv_cell(&text, words);
    assert_string_equal(text.bytes, wanted);
    arena_free(arena);
}

static void test_cells_are_quoted_where_they_must_be(void **state)
{
    (void)state;
    check_cell("span 1", "span 1");
    check_cell("", "");
    check_cell("a, b", "\"a, b\"");
    check_cell("8\" deep", "\"8\"\" deep\"");
    check_cell("two\r\nlines", "\"two\r\nlines\"");
}

static void test_words_never_become_a_formula(void **state)
{
    (void)state;
    check_cell("=1+1", "'=1+1");
    check_cell("@SUM(A1)", "'@SUM(A1)");
    check_cell("+1+1", "'+1+1");
    check_cell("-2-3", "'-2-3");
    check_cell("-inf", "'-inf");
    check_cell("-0x1p3", "'-0x1p3");
    check_cell("-e", "'-e");
    check_cell("-", "-");
    check_cell("\t=1", "'\t=1");
    check_cell("\r=1", "\"'\r=1\"");
    check_cell("=HYPERLINK(\"a\",\"b\")", "\"'=HYPERLINK(\"\"a\"\",\"\"b\"\")\"");
}

static void test_numbers_stay_numbers(void **state)
{
    (void)state;
    static const char *const number[] = {"-12.5", "+1e3", "-.5", "2.385e-04", "0", "-1E+2"};
    for (size_t i = 0; i < sizeof number / sizeof *number; i++) check_cell(number[i], number[i]);
}

static void test_guard_comes_off_again(void **state)
{
    (void)state;
    assert_string_equal(csv_words("'=1+1"), "=1+1");
    assert_string_equal(csv_words("'-2-3"), "-2-3");
    assert_string_equal(csv_words("'tis"), "'tis");
    assert_string_equal(csv_words("'-2"), "'-2");
    assert_string_equal(csv_words("-2"), "-2");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_cells_are_quoted_where_they_must_be),
        cmocka_unit_test(test_words_never_become_a_formula),
        cmocka_unit_test(test_numbers_stay_numbers),
        cmocka_unit_test(test_guard_comes_off_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
