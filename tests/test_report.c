#include <string.h>

#include "check.h"
#include "show_fixture.h"

static int set_up(void **state)
{
    Arena *arena = arena_create((size_t)1 << 30);
    *state = arena;
    return 0;
}

static int tear_down(void **state)
{
    arena_free(*state);
    return 0;
}

static const char *page(Arena *arena, UnitSystem units)
{
    const ReportSource source = show_source(arena, units);
    Text text = text_start(arena);
    report_html(report_thrust(&source, true, arena), &text);
    return text.bytes;
}

static int count_of(const char *text, const char *piece)
{
    int count = 0;
    while ((text = strstr(text, piece))) text += strlen(piece), count++;
    return count;
}

static void test_escape_leaves_nothing_to_misread(void **state)
{
    Text text = text_start(*state);
    report_escape(&text, "<a href='x'>&\"\x01\x1b[0m µ");
    assert_string_equal(text.bytes, "&lt;a href=&#39;x&#39;&gt;&amp;&quot;[0m µ");
}

/* Every tag that opens closes, in order: void elements of HTML apart. */
static void check_nesting(const char *html)
{
    const char *stack[64] = {NULL};
    int depth = 0;
    for (const char *c = strchr(html, '<'); c; c = strchr(c + 1, '<')) {
        const char *end = strchr(c, '>');
        assert_non_null(end);
        if (c[1] == '!' || c[1] == '?' || end[-1] == '/' || !strncmp(c, "<meta", 5)) continue;
        if (c[1] == '/') {
            const size_t length = strcspn(c + 2, ">");
            const char *open = depth > 0 ? stack[depth - 1] : "<nothing";
            if (strncmp(open + 1, c + 2, length) != 0) fail_msg("%.20s closes %.20s", c, open);
            depth--;
        } else {
            assert_true(depth < 64);
            stack[depth++] = c;
        }
    }
    assert_int_equal(depth, 0);
}

static void test_page_stands_alone(void **state)
{
    const char *html = page(*state, UNITS_US);
    check_nesting(html);
    assert_null(strstr(html, "<script"));
    assert_null(strstr(html, "http:"));
    assert_null(strstr(html, "https:"));
    assert_null(strstr(html, "url("));
    assert_null(strstr(html, "@import"));
    assert_null(strstr(html, "<bridge>")); /* the name of the fixture is escaped */
    assert_null(strstr(html, "nan"));
}

static void test_page_can_be_read_by_all(void **state)
{
    const char *html = page(*state, UNITS_SI);
    assert_non_null(strstr(html, "<html lang=\"en\">"));
    assert_int_equal(count_of(html, "<main>"), 1);
    assert_int_equal(count_of(html, "<h1>"), 1);
    assert_int_equal(count_of(html, "<table>"), count_of(html, "<caption>"));
    assert_int_equal(count_of(html, "<svg"), 2 * count_of(html, "<figure "));
    assert_int_equal(count_of(html, "<figcaption>"), count_of(html, "<figure "));
    assert_int_equal(count_of(html, "<desc "), count_of(html, "<svg"));
    assert_int_equal(count_of(html, "<td>") > 0 && !strstr(html, "<th>"),
                     1); /* every head has a scope */
}

/* ids once each: labels of figures point at them. */
static void test_page_has_no_id_twice(void **state)
{
    const char *html = page(*state, UNITS_US);
    for (const char *c = strstr(html, " id=\""); c; c = strstr(c + 1, " id=\"")) {
        char id[64];
        const size_t length = strcspn(c + 5, "\"") + 6;
        assert_true(length < sizeof id);
        memcpy(id, c, length);
        id[length] = 0;
        if (count_of(html, id) != 1) fail_msg("%s stands %d times", id, count_of(html, id));
    }
}

static void check_columns(const char *text, int most)
{
    for (const char *line = text; *line; line += strcspn(line, "\n") + 1) {
        int letters = 0;
        for (const char *c = line; *c && *c != '\n'; c++) letters += (*c & 0xC0) != 0x80;
        if (letters > most) fail_msg("%d letters: %.110s", letters, line);
    }
    assert_null(strstr(text, " \n"));
}

static void test_screen_keeps_its_columns(void **state)
{
    for (int units = 0; units < 2; units++) {
        ReportSource source = show_source(*state, (UnitSystem)units);
        source.all_defaults = units == 1;
        const int joint[] = {9, 3};
        Text text = text_start(*state);
        report_text(report_thrust(&source, false, *state), &text);
        report_text(report_life(&source, 0, joint, 2, *state), &text);
        check_columns(text.bytes, REPORT_COLUMNS);
        source.columns = 80;
        text = text_start(*state);
        report_text(report_thrust(&source, false, *state), &text);
        check_columns(text.bytes, 80);
    }
}

/* "span 1 (alike: span 2, span 3)" and a table of it: a few columns of text, no more. */
static void test_alike_units_are_counted(void **state)
{
    ReportSource source = show_source(*state, UNITS_US);
    ThrustAnswer *answer = ARENA_NEW(*state, ThrustAnswer, 1);
    BridgeLine *line = ARENA_NEW(*state, BridgeLine, 2);
    *answer = *source.answer;
    source.answer = answer;
    for (int i = 0; i < answer->line_count && i < 2; i++) {
        line[i] = *answer->line[i].line;
        line[i].unit = "span 1 (alike: span 2, span 3, span 4)";
        answer->line[i].line = &line[i];
    }
    Text text = text_start(*state);
    report_text(report_thrust(&source, false, *state), &text);
    assert_non_null(strstr(text.bytes, "span 1 (4 alike)"));
    assert_null(strstr(text.bytes, "alike:"));
}

/* Near the answer in every form: a window that is found must not read as an approval. */
static void test_caution_stands_near_every_answer(void **state)
{
    const ReportSource source = show_source(*state, UNITS_US);
    const int joint[] = {9};
    Text text[5];
    for (int i = 0; i < 5; i++) text[i] = text_start(*state);
    report_text(report_thrust(&source, false, *state), &text[0]);
    report_html(report_thrust(&source, false, *state), &text[1]);
    report_thrust_json(&source, &text[2]);
    report_text(report_life(&source, 0, joint, 1, *state), &text[3]);
    report_life_json(&source, 0, joint, 1, &text[4]);
    for (int i = 0; i < 5; i++) {
        char *c = text[i].bytes; /* the screen wraps */
        for (char *n = c; (n = strchr(n, '\n'));) *n = ' ';
        const char *at = strstr(c, "not an approval. No published provision");
        assert_non_null(at);
        const char *tables = strstr(c, i == 1 ? "<table" : i == 2 ? "\"lines\"" : "Girder lines");
        if (tables) assert_true(at < tables);
    }
}

/* "Every limit names its clause" is kept on the screen and on the page. */
static void test_clauses_are_named(void **state)
{
    const ReportSource source = show_source(*state, UNITS_US);
    const BridgeLine *line = source.answer->line[0].line;
    Text text = text_start(*state), html = text_start(*state);
    report_text(report_thrust(&source, false, *state), &text);
    report_html(report_thrust(&source, false, *state), &html);
    for (int i = 0; i < line->rule_count; i++) {
        assert_non_null(strstr(text.bytes, line->rule[i].clause));
        Text escaped = text_start(*state);
        report_escape(&escaped, line->rule[i].clause);
        assert_non_null(strstr(html.bytes, escaped.bytes));
    }
}

static void test_screen_names_both_ends_of_the_window(void **state)
{
    const ReportSource source = show_source(*state, UNITS_SI);
    Text text = text_start(*state);
    report_text(report_thrust(&source, false, *state), &text);
    assert_non_null(strstr(text.bytes, "The deck needs 16000 kN in all"));
    assert_non_null(strstr(text.bytes, "the first limit stands at "));
    assert_non_null(strstr(text.bytes, "needed      16000 kN: Service I"));
    assert_non_null(strstr(text.bytes, "at most     "));
    assert_non_null(strstr(text.bytes, "deck: thickness 8.5 in, haunch 2 in"));
    assert_null(strstr(text.bytes, "count 4")); /* given, so no default */
    assert_non_null(strstr(text.bytes, "licensed engineer"));
}

/* A rule that no thrust meets, an empty window, no rule that counts: said in words, no NaN. */
static void test_report_says_what_is_not_possible(void **state)
{
    ReportSource source = show_source(*state, UNITS_US);
    ThrustAnswer *answer = ARENA_NEW(*state, ThrustAnswer, 1);
    *answer = *source.answer;
    source.answer = answer;
    answer->line[0].reachable = answer->line[0].rule[1].reachable = answer->reachable = false;
    answer->window = answer->met = false;
    Text text = text_start(*state);
    report_html(report_thrust(&source, true, *state), &text);
    assert_non_null(
        strstr(text.bytes, "No thrust keeps every joint closed: by the rule Service I"));
    check_nesting(text.bytes);
    answer->reachable = answer->line[0].reachable = true;
    answer->most_N = 0.5 * answer->need_N;
    text = text_start(*state);
    report_text(report_thrust(&source, false, *state), &text);
    assert_non_null(strstr(text.bytes, "The window is empty"));
    answer->line[0].need_rule = answer->line[0].most_limit = -1;
    answer->line[0].need_N = answer->need_N = 0;
    answer->line[0].most_N = answer->most_N = INFINITY;
    text = text_start(*state);
    report_html(report_thrust(&source, true, *state), &text);
    assert_null(strstr(text.bytes, "nan"));
    assert_non_null(strstr(text.bytes, "none"));
}

static void test_json_keys_carry_their_units(void **state)
{
    const ReportSource source = show_source(*state, UNITS_US);
    Text text = text_start(*state);
    report_thrust_json(&source, &text);
    assert_non_null(strstr(text.bytes, "\"need_whole_N\": 16000000"));
    assert_non_null(strstr(text.bytes, "\"most_N\": null")); /* never reached */
    assert_null(strstr(text.bytes, "inf"));
    assert_null(strstr(text.bytes, "nan"));
    const int joint[] = {9};
    text = text_start(*state);
    report_life_json(&source, 0, joint, 1, &text);
    assert_non_null(strstr(text.bytes, "\"joint\": \"J10\""));
    assert_non_null(strstr(text.bytes, "\"event\": \"jacked\""));
}

static void test_svg_alone_brings_its_styles(void **state)
{
    const ThrustAnswer *answer = show_answer(*state);
    Text text = text_start(*state);
    const FigureView view = figure_paper(&answer->line[0], UNITS_US, REPORT_WIDE_PX);
    report_svg(figure_gap(&view, *state), "a", true, &text);
    check_nesting(text.bytes);
    assert_non_null(strstr(text.bytes, "xmlns=\"http://www.w3.org/2000/svg\""));
    assert_non_null(strstr(text.bytes, "prefers-color-scheme:dark"));
    assert_non_null(strstr(text.bytes, "<text"));
}

int main(void)
{
    check_trap_floats();
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(test_escape_leaves_nothing_to_misread, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_page_stands_alone, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_page_can_be_read_by_all, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_page_has_no_id_twice, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_screen_keeps_its_columns, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_alike_units_are_counted, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_caution_stands_near_every_answer, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_clauses_are_named, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_screen_names_both_ends_of_the_window, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(test_report_says_what_is_not_possible, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_json_keys_carry_their_units, set_up, tear_down),
        cmocka_unit_test_setup_teardown(test_svg_alone_brings_its_styles, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
