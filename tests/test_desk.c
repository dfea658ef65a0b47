/* A bridge on the desk: what is refused, predictions held against full runs, pictures, picks, tables. */
#include <stdlib.h>
#include <string.h>

#include "bridge_file.h"
#include "clench/desk.h"

static const char affine[] =
    "law: stress is affine in the thrust while contact and slip keep their "
    "pattern";
enum { ROOM = 1 << 29 };

typedef struct Look {
    Arena *arena;
    Desk *desk;
    Diagnostics *list;
    Error err;
} Look;

static Look start(void)
{
    Look look = {.arena = arena_create(ROOM), .desk = desk_create(ROOM)};
    look.list = ARENA_NEW(look.arena, Diagnostics, 1);
    return look;
}

static void finish(Look *look)
{
    desk_free(look->desk);
    arena_free(look->arena);
}

static const char *pack(Look *look, const char *text, size_t *size)
{
    Node *root = NULL;
    check_status(yaml_read(text, strlen(text), look->arena, &root, look->list), STATUS_OK,
                 look->list->item);
    *size = node_pack_size(root);
    char *bytes = arena_take(look->arena, *size);
    node_pack(root, bytes);
    return bytes;
}

static Status open_text(Look *look, const char *text)
{
    size_t size;
    const char *bytes = pack(look, text, &size);
    return desk_open(look->desk, bytes, size, DESK_UNITS_FILE, look->list, &look->err);
}

static const char *read_file(Look *look, const char *path)
{
    const char *bytes = NULL;
    size_t size = 0;
    check_status(file_read(path, YAML_SIZE_MAX, look->arena, &bytes, &size, &look->err), STATUS_OK,
                 &look->err);
    return bytes;
}

static void open_example(Look *look, const char *path)
{
    check_status(open_text(look, read_file(look, path)), STATUS_OK, &look->err);
}

/* ---- JSON is asked by key: enough for our own, flat numbers ---- */

static double number_of(const char *json, const char *key)
{
    char wanted[64];
    snprintf(wanted, sizeof wanted, "\"%s\": ", key);
    const char *at = strstr(json, wanted);
    assert_non_null(at);
    return strtod(at + strlen(wanted), NULL);
}

static const char *facts(Look *look)
{
    Text text = text_start(look->arena);
    desk_facts(look->desk, &text);
    return text.bytes;
}

static const char *seen(Look *look)
{
    Text text = text_start(look->arena);
    desk_seen(look->desk, &text);
    return text.bytes;
}

static void look_at(Look *look, double thrust_N, bool full)
{
    check_status(desk_look(look->desk, thrust_N, full, &look->err), STATUS_OK, &look->err);
}

/* ---- what is refused ---- */

static void test_bytes_that_are_no_tree_are_refused(void **state)
{
    (void)state;
    Look look = start();
    size_t size;
    const char *bytes = pack(&look, read_file(&look, "examples/causeway.yaml"), &size);
    check_status(desk_open(look.desk, bytes, size - 3, DESK_UNITS_FILE, look.list, &look.err),
                 STATUS_BAD_INPUT, NULL);
    assert_false(desk_is_open(look.desk));
    assert_true(look.err.text[0] != 0);
    finish(&look);
}

static void test_errors_of_the_schema_come_with_their_place(void **state)
{
    (void)state;
    Look look = start();
    char text[2048], bent[2048];
    bridge_small("", text, sizeof text);
    bridge_replace(text, "94 ft", "94", bent, sizeof bent);
    check_status(open_text(&look, bent), STATUS_BAD_INPUT, NULL);
    assert_int_equal(look.list->count, 1);
    assert_string_equal(look.list->item[0].key, "spans[1].length");
    assert_int_equal(look.list->item[0].from.line, 2);
    assert_false(desk_is_open(look.desk));
    finish(&look);
}

static void test_structure_that_cannot_be_jacked_is_refused(void **state)
{
    (void)state;
    Look look = start();
    check_status(open_text(&look, read_file(&look, "examples/refused/untied-run.yaml")),
                 STATUS_BAD_INPUT, NULL);
    assert_string_equal(look.err.key, "runs[1].to_span");
    finish(&look);
}

static void test_histories_without_room_are_refused(void **state)
{
    (void)state;
    Look look = start();
    desk_free(look.desk);
    look.desk = desk_create((size_t)18 << 20);
    char text[2048];
    check_status(open_text(&look, bridge_small("", text, sizeof text)), STATUS_TOO_LARGE, NULL);
    assert_non_null(strstr(look.err.text, "MB"));
    finish(&look);
}

static void test_what_is_no_thrust_place_or_width_is_refused(void **state)
{
    (void)state;
    Look look = start();
    char text[2048];
    check_status(open_text(&look, bridge_small("", text, sizeof text)), STATUS_OK, &look.err);
    Text svg = text_start(look.arena);
    const double bad_N[] = {0, -1, NAN, INFINITY, 1e13};
    for (size_t i = 0; i < sizeof bad_N / sizeof *bad_N; i++)
        for (int full = 0; full < 2; full++)
            check_status(desk_look(look.desk, bad_N[i], full, &look.err), STATUS_BAD_INPUT, NULL);
    const DeskPlace bad[] = {{-1, 0, 0},   {2, 0, 0},  {0, -1, 0},
                             {0, 9999, 0}, {0, 0, -2}, {0, 0, 99}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        check_status(desk_picture(look.desk, 0, bad[i], 800, &svg, &look.err), STATUS_BAD_INPUT,
                     NULL);
        check_status(desk_table(look.desk, 0, bad[i], &svg, &look.err), STATUS_BAD_INPUT, NULL);
    }
    const DeskPlace good = {0, 0, -1};
    check_status(desk_picture(look.desk, -1, good, 800, &svg, &look.err), STATUS_BAD_INPUT, NULL);
    check_status(desk_picture(look.desk, 99, good, 800, &svg, &look.err), STATUS_BAD_INPUT, NULL);
    check_status(desk_picture(look.desk, 0, good, NAN, &svg, &look.err), STATUS_BAD_INPUT, NULL);
    check_status(desk_picture(look.desk, 0, good, 1e6, &svg, &look.err), STATUS_BAD_INPUT, NULL);
    finish(&look);
}

/* ---- prediction ---- */

/* With friction, slip and lift-off change their pattern: the error is told, and small near the two runs. */
static void test_prediction_error_is_told_where_the_pattern_changes(void **state)
{
    (void)state;
    Look look = start();
    open_example(&look, "examples/causeway.yaml");
    const double need_N = number_of(facts(&look), "need_N");
    look_at(&look, need_N, true);
    check_near(desk_prediction_error_1(look.desk), 0, 0, 1e-12, affine);
    double worst_1 = 0;
    for (int i = 0; i < 10; i++) {
        look_at(&look, (0.6 + 0.1 * i) * need_N, true);
        const double off_1 = desk_prediction_error_1(look.desk);
        print_message("%.1f of the need: prediction off by %.2e of the average stress\n",
                      0.6 + 0.1 * i, off_1);
        worst_1 = fmax(worst_1, off_1);
    }
    assert_true(worst_1 > 1e-9); /* else this bridge has one pattern and shows nothing */
    assert_true(worst_1 < 0.05);
    finish(&look);
}

/* ---- full looks are the answer of a given thrust ---- */

static void test_full_look_is_the_given_thrust(void **state)
{
    (void)state;
    Look look = start();
    const char *text = read_file(&look, "examples/single-tub.yaml");
    check_status(open_text(&look, text), STATUS_OK, &look.err);
    const double thrust_N = 1.13 * number_of(facts(&look), "need_N");
    look_at(&look, thrust_N, true);
    Text seen_json = text_start(look.arena), given_json = text_start(look.arena);
    desk_json(look.desk, &seen_json);
    Arena *scratch = arena_create(ROOM);
    Node *root = NULL;
    ReportSource source;
    check_status(yaml_read(text, strlen(text), look.arena, &root, look.list), STATUS_OK, NULL);
    check_status(report_find(root, thrust_N, look.arena, scratch, &source, look.list, &look.err),
                 STATUS_OK, &look.err);
    report_thrust_json(&source, &given_json);
    assert_string_equal(seen_json.bytes, given_json.bytes);
    look_at(&look, 0.5 * thrust_N, false); /* a prediction leaves the last full answer */
    Text after = text_start(look.arena);
    desk_json(look.desk, &after);
    assert_string_equal(after.bytes, given_json.bytes);
    arena_free(scratch);
    finish(&look);
}

static void test_looks_take_no_more_memory_each_time(void **state)
{
    (void)state;
    Look look = start();
    desk_free(look.desk);
    look.desk = desk_create((size_t)48 << 20); /* some looks would fit, not hundreds */
    char text[2048];
    check_status(open_text(&look, bridge_small("", text, sizeof text)), STATUS_OK, &look.err);
    const double need_N = number_of(facts(&look), "thrust_N");
    for (int i = 0; i < 60; i++) {
        const size_t mark = arena_mark(look.arena);
        look_at(&look, (0.9 + 0.002 * i) * need_N, i % 4 == 0);
        for (int kind = 0; kind < figure_page_count(); kind++) {
            Text svg = text_start(look.arena);
            check_status(
                desk_picture(look.desk, kind, (DeskPlace){0, 50, -1}, 1200, &svg, &look.err),
                STATUS_OK, &look.err);
        }
        arena_reset(look.arena, mark);
    }
    finish(&look);
}

/* ---- the sentence ---- */

static void test_sentence_says_closed_at_the_need_and_open_below(void **state)
{
    (void)state;
    Look look = start();
    open_example(&look, "examples/two-span-metric.yaml");
    const double need_N = number_of(facts(&look), "need_N");
    assert_non_null(strstr(seen(&look), "every joint stays closed"));
    for (int full = 0; full < 2; full++) {
        look_at(&look, 0.8 * need_N, full == 1);
        assert_null(strstr(seen(&look), "stays closed"));
        assert_true(number_of(seen(&look), "open_count") >= 1);
        assert_true(number_of(seen(&look), "margin_Pa") < 0);
        assert_non_null(strstr(seen(&look), "\"met\": false"));
    }
    finish(&look);
}

/* ---- pictures ---- */

static void check_picks(const char *svg, int joints, int times, int *count)
{
    for (const char *at = svg; (at = strstr(at, "data-pick=\"")); (*count)++) {
        at += strlen("data-pick=\"");
        while (*at != '"') {
            char key[16];
            int value, length;
            assert_int_equal(sscanf(at, "%15[a-z]:%d%n", key, &value, &length), 2);
            const int bound = !strcmp(key, "joint") ? joints : !strcmp(key, "time") ? times : 2;
            assert_true(!strcmp(key, "joint") || !strcmp(key, "time") || !strcmp(key, "line"));
            assert_in_range(value, 0, bound - 1);
            at += length;
            if (*at == ' ') at++;
        }
    }
}

static int count_of(const char *text, const char *piece)
{
    int count = 0;
    for (const char *at = text; (at = strstr(at, piece)); at++) count++;
    return count;
}

static void test_pictures_of_every_moment_can_be_picked(void **state)
{
    (void)state;
    Look look = start();
    open_example(&look, "examples/causeway.yaml");
    const char *json = facts(&look);
    const int times = count_of(strstr(json, "\"times\""), "\"day\"") / 2; /* two lines */
    const int joints = count_of(json, "\"x_m\"") / 2;
    assert_int_equal(joints, 10);
    look_at(&look, 1.1 * number_of(json, "need_N"), false);
    for (int kind = 0; kind < figure_page_count(); kind++) {
        int picks = 0;
        for (int t = 0; t < times; t++) {
            const size_t mark = arena_mark(look.arena);
            Text svg = text_start(look.arena);
            check_status(desk_picture(look.desk, kind, (DeskPlace){t % 2, t, t % 10},
                                      t % 3 ? 1200 : 340, &svg, &look.err),
                         STATUS_OK, &look.err);
            assert_int_equal(strncmp(svg.bytes, "<svg role=\"img\"", 15), 0);
            assert_null(strstr(svg.bytes, "nan"));
            assert_null(strstr(svg.bytes, "inf"));
            assert_null(strstr(svg.bytes, "style="));
            check_picks(svg.bytes, joints, times, &picks);
            arena_reset(look.arena, mark);
        }
        if (strcmp(figure_page(kind)->id, "split") != 0) assert_true(picks > times / 2);
    }
    finish(&look);
}

/* ---- tables ---- */

/* Reads RFC 4180 back: cells of a row; gives where the next row starts. */
static const char *csv_row(const char *at, char cell[16][160], int *count)
{
    *count = 0;
    for (;;) {
        char *out = cell[(*count)++];
        const bool quoted = *at == '"';
        if (quoted) at++;
        while (quoted ? *at != '"' || at[1] == '"' : *at != ',' && *at != '\r') {
            assert_true(*at != 0);
            if (quoted && *at == '"') at++;
            *out++ = *at++;
        }
        *out = 0;
        if (quoted) at++;
        if (*at == '\r') {
            assert_int_equal(at[1], '\n');
            return at + 2;
        }
        assert_int_equal(*at++, ',');
    }
}

static void test_tables_read_back_with_as_many_cells_in_every_row(void **state)
{
    (void)state;
    Look look = start();
    open_example(&look, "examples/causeway.yaml");
    for (int kind = 0; kind < figure_page_count(); kind++) {
        Text csv = text_start(look.arena);
        char cell[16][160];
        int heads, count, rows = 0;
        check_status(desk_table(look.desk, kind, (DeskPlace){0, 100, -1}, &csv, &look.err),
                     STATUS_OK, &look.err);
        const char *at = csv_row(csv.bytes, cell, &heads);
        for (; *at; rows++) {
            at = csv_row(at, cell, &count);
            assert_int_equal(count, heads);
        }
        assert_true(rows > 2);
    }
    finish(&look);
}

/* The last row of the joint's table is the end of life: its margin is what the look says. */
static void test_table_of_the_worst_joint_ends_with_its_margin(void **state)
{
    (void)state;
    Look look = start();
    open_example(&look, "examples/causeway.yaml");
    int kind = 0;
    while (strcmp(figure_page(kind)->id, "joint") != 0) kind++;
    look_at(&look, 1.05 * number_of(facts(&look), "need_N"), true);
    const char *worst = strstr(seen(&look), "\"worst\"");
    const DeskPlace place = {(int)number_of(worst, "line"), 100, (int)number_of(worst, "joint")};
    Text csv = text_start(look.arena);
    check_status(desk_table(look.desk, kind, place, &csv, &look.err), STATUS_OK, &look.err);
    char cell[16][160];
    int count;
    const char *at = csv.bytes;
    while (*at) at = csv_row(at, cell, &count);
    check_near(strtod(cell[5], NULL), quantity_in(number_of(worst, "margin_Pa"), "psi"), 0, 1e-3,
               "law: table and look are of one history");
    finish(&look);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_bytes_that_are_no_tree_are_refused),
        cmocka_unit_test(test_errors_of_the_schema_come_with_their_place),
        cmocka_unit_test(test_structure_that_cannot_be_jacked_is_refused),
        cmocka_unit_test(test_histories_without_room_are_refused),
        cmocka_unit_test(test_what_is_no_thrust_place_or_width_is_refused),
        cmocka_unit_test(test_prediction_error_is_told_where_the_pattern_changes),
        cmocka_unit_test(test_full_look_is_the_given_thrust),
        cmocka_unit_test(test_looks_take_no_more_memory_each_time),
        cmocka_unit_test(test_sentence_says_closed_at_the_need_and_open_below),
        cmocka_unit_test(test_pictures_of_every_moment_can_be_picked),
        cmocka_unit_test(test_tables_read_back_with_as_many_cells_in_every_row),
        cmocka_unit_test(test_table_of_the_worst_joint_ends_with_its_margin),
    };
    check_trap_floats();
    return cmocka_run_group_tests(tests, NULL, NULL);
}
