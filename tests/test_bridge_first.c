/* The first bridge from a short form: a file that reads, sizes that stand, a window where there is one. */
#include "check.h"

#include "clench/text.h"
#include "clench/thrust.h"

#include <stdlib.h>
#include <string.h>

typedef struct Fixture {
    Arena *arena, *scratch;
    Diagnostics wrong;
    Text text;
} Fixture;

static int fixture_setup(void **state)
{
    Fixture *f = calloc(1, sizeof *f);
    if (!f) return -1;
    f->arena = arena_create((size_t)512 << 20);
    f->scratch = arena_create((size_t)512 << 20);
    *state = f;
    return 0;
}

static int fixture_teardown(void **state)
{
    Fixture *f = *state;
    arena_free(f->arena);
    arena_free(f->scratch);
    free(f);
    return 0;
}

static Node *tree(Fixture *f, const char *text)
{
    Diagnostics *found = ARENA_NEW(f->arena, Diagnostics, 1);
    Node *root = NULL;
    if (yaml_read(text, strlen(text), f->arena, &root, found) != STATUS_OK)
        fail_msg("%s\n%s", found->item[0].text, text);
    return root;
}

/* What has no answer among these is as in an everyday form. */
static Status first(Fixture *f, const char *units, const char *spans, const char *width,
                    const char *girder)
{
    const char *form = arena_printf(
        f->arena,
        "{\"title\": \"Mill \\\"Race\\\" # 1\", \"units\": \"%s\", \"spans\": \"%s\", \"width\": "
        "\"%s\", \"girder\": \"%s\", \"humidity\": \"70 %%\", \"gradient_zone\": \"3\"}",
        units, spans, width, girder);
    f->text = text_start(f->arena);
    f->wrong.count = 0;
    return bridge_first(tree(f, form), &f->text, &f->wrong);
}

static const Bridge *made(Fixture *f)
{
    const Bridge *bridge = NULL;
    Diagnostics *found = ARENA_NEW(f->arena, Diagnostics, 1);
    if (bridge_read(tree(f, f->text.bytes), f->arena, &bridge, found) != STATUS_OK)
        fail_msg("%s: %s\n%s", found->item[0].key, found->item[0].text, f->text.bytes);
    assert_string_equal(bridge_value_at(bridge, "title")->text, "Mill \"Race\" # 1");
    return bridge;
}

static const ThrustAnswer *answered(Fixture *f)
{
    const BridgeLine *line;
    int count;
    Error err = {0};
    const ThrustAnswer *answer = NULL;
    const ThrustWish wish = {.settings = stage_settings_default()};
    if (bridge_lines(made(f), 1, f->arena, &line, &count, &err) != STATUS_OK ||
        thrust_find(line, count, &wish, f->arena, f->scratch, &answer, &err) != STATUS_OK)
        fail_msg("%s\n%s", err.text, f->text.bytes);
    return answer;
}

static void test_first_bridges_have_a_window(void **state)
{
    static const char *const form[][4] = {
        {"US", "94 ft", "40 ft 6 in", "pretensioned"},
        {"SI", "38 m, 40 m", "14 m", "pretensioned"},
        {"US", "130 ft", "60 ft", "pretensioned"},
        {"US", "45 ft", "25 ft", "plate girder"},
        {"SI", "30 m, 38 m, 30 m", "13.5 m", "plate girder"},
        {"US", "200 ft, 240 ft, 200 ft", "60 ft", "plate girder"},
        {"US", "176 ft", "41 ft", "tub"},
    };
    Fixture *f = *state;
    for (size_t i = 0; i < sizeof form / sizeof *form; i++) {
        const size_t mark = arena_mark(f->arena);
        assert_int_equal(first(f, form[i][0], form[i][1], form[i][2], form[i][3]), STATUS_OK);
        if (!answered(f)->window) fail_msg("no window\n%s", f->text.bytes);
        arena_reset(f->arena, mark);
    }
}

static void test_first_bridge_fills_the_width(void **state)
{
    Fixture *f = *state;
    static const char *const kind[] = {"pretensioned", "plate girder", "tub"};
    for (int k = 0; k < 3; k++)
        for (int i = 0; i < 13; i++) {
            const double width_m = 7.1 + 2.57 * i;
            const char *width = arena_printf(f->arena, "%.3f m", width_m);
            assert_int_equal(first(f, "SI", "31.3 m", width, kind[k]), STATUS_OK);
            const Bridge *bridge = made(f);
            const double spacing_m = bridge_value_at(bridge, "girders.spacing")->value;
            const double all_m = (bridge_value_at(bridge, "girders.count")->value - 1) * spacing_m +
                                 2 * bridge_value_at(bridge, "girders.overhang")->value;
            check_near(all_m, width_m, 0, 2e-4, "closed form: girders and overhangs are the width");
            assert_true(spacing_m > 1.8 && spacing_m < (k == 2 ? 9 : 3.6));
        }
}

static void check_wrong(Fixture *f, const char *key, const char *says)
{
    assert_int_equal(f->text.length, 0);
    for (int i = 0; i < f->wrong.count; i++)
        if (strcmp(f->wrong.item[i].key, key) == 0 && strstr(f->wrong.item[i].text, says)) return;
    fail_msg("no error for %s: %s (%d: %s)", key, says, f->wrong.count, f->wrong.item[0].text);
}

static void test_wrong_answers_are_told(void **state)
{
    Fixture *f = *state;
    assert_int_equal(first(f, "US", "94", "40 ft", "tub"), STATUS_BAD_INPUT);
    check_wrong(f, "spans", "unit");
    assert_int_equal(first(f, "US", "94 ft,", "40 ft", "tub"), STATUS_BAD_INPUT);
    check_wrong(f, "spans", "");
    assert_int_equal(first(f, "US", "3 ft", "40 ft", "tub"), STATUS_BAD_INPUT);
    check_wrong(f, "spans", "12 to 90 m");
    assert_int_equal(first(f, "US", "140 ft", "40 ft", "pretensioned"), STATUS_BAD_INPUT);
    check_wrong(f, "spans", "134 ft");
    assert_int_equal(first(f, "US", "94 ft", "4 ft", "tub"), STATUS_BAD_INPUT);
    check_wrong(f, "width", "out of range");
    assert_int_equal(first(f, "ft", "94 ft", "40 ft", "arch"), STATUS_BAD_INPUT);
    check_wrong(f, "units", "US or SI");
    check_wrong(f, "girder", "plate girder");
    f->wrong.count = 0;
    assert_int_equal(bridge_first(tree(f, "{title: x}"), &f->text, &f->wrong), STATUS_BAD_INPUT);
    check_wrong(f, "humidity", "needs one answer");
    check_wrong(f, "gradient_zone", "needs one answer");
    f->wrong.count = 0;
    assert_int_equal(bridge_first(tree(f, "[1]"), &f->text, &f->wrong), STATUS_BAD_INPUT);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, fixture_setup, fixture_teardown)
    const struct CMUnitTest tests[] = {
        TEST(test_first_bridges_have_a_window),
        TEST(test_first_bridge_fills_the_width),
        TEST(test_wrong_answers_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
