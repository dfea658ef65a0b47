/* Trees, answers, texts made and changed, revisions. */
#define _XOPEN_SOURCE 700
#include "server_case.h"

#include <pthread.h>
#include <string.h>
#include <unistd.h>

#include "clench/paper.h"
#include "clench/text.h"

static const char bridge[] = "tests/data/us.yaml";

/* ---- trees and answers ---- */

static void test_a_tree_is_packed_as_the_engine_reads_it(void **state)
{
    const ServerCase *const c = *state;
    const char *const text = example_text(bridge, c->arena);
    const HttpReply r = case_ask(c, "POST /api/tree", "", text);
    assert_int_equal(r.status, 200);
    assert_string_equal(http_field(&r, "Content-Type", c->arena), "application/octet-stream");
    Diagnostics *const list = ARENA_NEW(c->arena, Diagnostics, 1);
    Node *root;
    assert_int_equal(yaml_read(text, strlen(text), c->arena, &root, list), STATUS_OK);
    assert_int_equal(r.size, node_pack_size(root));
    char *const packed = arena_take(c->arena, r.size);
    node_pack(root, packed);
    assert_memory_equal(r.body, packed, r.size);
}

static void test_errors_stand_at_their_place(void **state)
{
    const ServerCase *const c = *state;
    static const char *const route[] = {"POST /api/tree", "POST /api/answer", "POST /api/package"};
    for (size_t i = 0; i < sizeof route / sizeof *route; i++) {
        const HttpReply syntax = case_ask(c, route[i], "", "title: x\ndeck: [1, 2\nspans: 3\n");
        assert_int_equal(syntax.status, 400);
        assert_int_equal(error_number(&syntax, "line"), 3);
        const HttpReply schema = case_ask(c, route[i], "", "title: x\ndeck:\n  thicknes: 8 in\n");
        assert_int_equal(schema.status, 400);
        check_has(schema.body, "\"suggestion\": \"thickness\"");
        check_has(schema.body, "\"line\": 3");
        assert_int_equal(case_ask(c, route[i], "", "").status, 400);
    }
}

static void test_an_answer_is_that_of_the_command(void **state)
{
    const ServerCase *const c = *state;
    const char *const text = example_text(bridge, c->arena);
    Diagnostics *const list = ARENA_NEW(c->arena, Diagnostics, 1);
    Arena *const scratch = arena_create((size_t)1 << 30);
    ReportSource source;
    Node *root;
    Error err = {0};
    assert_int_equal(yaml_read(text, strlen(text), c->arena, &root, list), STATUS_OK);
    check_status(report_find(root, 0, c->arena, scratch, &source, list, &err), STATUS_OK, &err);
    arena_free(scratch);
    source.file = "deck.yaml";
    Text json = text_start(c->arena);
    report_thrust_json(&source, &json);
    const HttpReply r = case_ask(c, "POST /api/answer", "", text);
    assert_int_equal(r.status, 200);
    assert_string_equal(r.body, json.bytes);
    const HttpReply given = case_ask(c, "POST /api/answer?thrust_N=4.5e6", "", text);
    assert_int_equal(given.status, 200);
    check_has(given.body, "\"given_whole_N\": 4500000");
    static const char *const bad[] = {"0", "-4", "1e13", "4.5e6kip", "inf", ""};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(
            case_ask(c, arena_printf(c->arena, "POST /api/answer?thrust_N=%s", bad[i]), "", text)
                .status,
            400);
}

/* What the structure does not allow is the file's to mend, what the mathematics does not bear is told
 * as such: the same cases as tests/cli/exits.sh. */
static void test_a_bridge_that_has_no_answer_says_why(void **state)
{
    const ServerCase *const c = *state;
    const HttpReply untied = case_ask(c, "POST /api/answer", "",
                                      example_text("examples/refused/untied-run.yaml", c->arena));
    assert_int_equal(untied.status, 400);
    assert_true(error_number(&untied, "line") > 0);
    check_has(untied.body, "not tied through pier 1");
    const char *const loose = arena_printf(c->arena,
                                           "%s\nsupports:\n  - {kind: fixed bearing, stiffness: "
                                           "1e-9 kip/in}\n  - kind: free bearing\n",
                                           example_text("examples/single-tub.yaml", c->arena));
    const HttpReply floats = case_ask(c, "POST /api/answer", "", loose);
    assert_int_equal(floats.status, 422);
    assert_int_equal(case_ask(c, "POST /api/package", "", loose).status, 422);
    check_has(floats.body, "\"text\": \"");
}

static void test_a_package_is_a_file_to_keep(void **state)
{
    const ServerCase *const c = *state;
    const HttpReply r = case_ask(c, "POST /api/package", "", example_text(bridge, c->arena));
    assert_int_equal(r.status, 200);
    assert_string_equal(http_field(&r, "Content-Type", c->arena), "application/pdf");
    assert_string_equal(http_field(&r, "Content-Disposition", c->arena),
                        "attachment; filename=\"deck.pdf\"");
    assert_memory_equal(r.body, "%PDF-", 5);
}

typedef struct Ask {
    const ServerCase *c;
    const char *text;
    Arena *arena;
    HttpReply reply;
} Ask;

static void *answer_ask(void *closure)
{
    Ask *const a = closure;
    a->reply = http_ask(a->c->port, "POST /api/answer", "", a->text, a->arena);
    return NULL;
}

static void test_answers_at_once_are_the_same(void **state)
{
    const ServerCase *const c = *state;
    enum { MANY = 6 };
    Ask ask[MANY];
    pthread_t thread[MANY];
    for (int i = 0; i < MANY; i++) {
        ask[i] = (Ask){.c = c,
                       .text = example_text(bridge, c->arena),
                       .arena = arena_create((size_t)16 << 20)};
        assert_int_equal(pthread_create(&thread[i], NULL, answer_ask, &ask[i]), 0);
    }
    for (int i = 0; i < MANY; i++) pthread_join(thread[i], NULL);
    for (int i = 0; i < MANY; i++) {
        assert_int_equal(ask[i].reply.status, 200);
        assert_string_equal(ask[i].reply.body, ask[0].reply.body);
    }
    for (int i = 0; i < MANY; i++) arena_free(ask[i].arena);
}

/* ---- texts made and changed ---- */

static void test_one_value_is_set_in_place(void **state)
{
    const ServerCase *const c = *state;
    static const char form[] =
        "{\"text\": \"# mine\\ndeck:\\n  thickness: 8 in # note\\n\", \"path\": \"%s\", "
        "\"value\": \"%s\"}";
    const HttpReply r =
        case_ask(c, "POST /api/set", "", arena_printf(c->arena, form, "deck.thickness", "9 in"));
    assert_int_equal(r.status, 200);
    assert_string_equal(text_of(&r, "text", c->arena), "# mine\ndeck:\n  thickness: 9 in # note\n");
    assert_int_equal(
        case_ask(c, "POST /api/set", "", arena_printf(c->arena, form, "deck.", "9 in")).status,
        400);
}

static void test_a_form_makes_a_bridge_that_is_answered(void **state)
{
    const ServerCase *const c = *state;
    const HttpReply r = case_ask(
        c, "POST /api/first", "",
        "{\"title\": \"x: \\\"y\\\" #z\", \"units\": \"US\", \"spans\": \"94 ft, 120 ft\", "
        "\"width\": \"40 ft\", \"girder\": \"plate girder\", \"humidity\": \"70 %\", "
        "\"gradient_zone\": \"3\"}");
    assert_int_equal(r.status, 200);
    const HttpReply answer = case_ask(c, "POST /api/answer", "", text_of(&r, "text", c->arena));
    assert_int_equal(answer.status, 200);
    assert_string_equal(text_of(&answer, "name", c->arena), "x: \"y\" #z");
    const HttpReply bad = case_ask(c, "POST /api/first", "", "{\"spans\": \"94\"}");
    assert_int_equal(bad.status, 400);
    check_has(bad.body, "\"key\": \"spans\"");
}

static void test_bad_json_is_refused(void **state)
{
    const ServerCase *const c = *state;
    static const char *const route[] = {"POST /api/revisions", "POST /api/set", "POST /api/first"};
    static const char *const bad[] = {"",
                                      "{",
                                      "[]",
                                      "1",
                                      "{\"text\": 1}",
                                      "{\"text\": null}",
                                      "{\"text\": {\"a\": \"b\"}}",
                                      "{\"text\": \"a\"} x",
                                      "{\"text\": \"a\", \"text\": \"b\"}",
                                      "{\"text\": \"\\u0000\"}",
                                      "{\"text\": \"\xff\"}",
                                      "{\"a\\u0000b\": \"\"}",
                                      "{'text': 'a'}",
                                      "NaN"};
    for (size_t i = 0; i < sizeof route / sizeof *route; i++)
        for (size_t k = 0; k < sizeof bad / sizeof *bad; k++) {
            const HttpReply r = case_ask(c, route[i], "", bad[k]);
            if (r.status != 400) print_error("%s of %s: %d\n", bad[k], route[i], r.status);
            assert_int_equal(r.status, 400);
            assert_int_equal(error_number(&r, "to_line") < 0, 0);
        }
    const HttpReply place = case_ask(c, "POST /api/revisions", "", "{\n  \"text\" 1}");
    assert_int_equal(error_number(&place, "line"), 2);
    check_has(case_ask(c, "POST /api/revisions", "", "{\"text\": \"\", \"x\": \"\"}").body,
              "unknown key");
    check_has(case_ask(c, "POST /api/set", "", "{\"text\": \"\", \"path\": \"a\"}").body,
              "lacks the key");
}

/* ---- revisions ---- */

static void test_revisions_are_kept(void **state)
{
    const ServerCase *const c = *state;
    const char *const db = arena_printf(c->arena, "%s.revisions.db", c->file);
    HttpReply r = case_ask(c, "GET /api/revisions", "", NULL);
    assert_int_equal(r.status, 200);
    check_has(r.body, "\"revisions\": []");
    assert_int_equal(case_ask(c, "GET /api/revisions/1", "", NULL).status, 404);
    assert_int_equal(access(db, F_OK), -1); /* asking makes no file */
    const char *const text = "title: \"r\xc3\xa9\"\n";
    r = case_ask(c, "POST /api/revisions", "", json_of(c->arena, text, "note", "thicker'; --"));
    assert_int_equal(r.status, 200);
    r = case_ask(c, "POST /api/revisions", "", json_of(c->arena, "title: b\n", NULL, NULL));
    assert_int_equal(r.status, 200);
    r = case_ask(c, "GET /api/revisions/1", "", NULL);
    assert_string_equal(text_of(&r, "text", c->arena), text);
    assert_string_equal(text_of(&r, "note", c->arena), "thicker'; --");
    case_file_write(c, text);
    assert_string_equal(text_of(&r, "mark", c->arena), file_mark(c));
    r = case_ask(c, "GET /api/revisions", "", NULL);
    const char *const newer = strstr(r.body, "\"id\": 2"), *const older =
                                                               strstr(r.body, "\"id\": 1");
    assert_true(newer && older && newer < older);
    assert_null(strstr(r.body, "\"text\""));
    static const char *const none[] = {"3", "0", "-1", "1x", "99999999999999999999", "", "1/2"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        r = case_ask(c, arena_printf(c->arena, "GET /api/revisions/%s", none[i]), "", NULL);
        assert_true(r.status == 404 || r.status == 400);
    }
}

static void test_damaged_revisions_are_told(void **state)
{
    const ServerCase *const c = *state;
    const char *const db = arena_printf(c->arena, "%s.revisions.db", c->file);
    static const char junk[] = "this is not a database, but somebody's letter of some length.....";
    Error err = {0};
    check_status(file_write(db, junk, sizeof junk - 1, &err), STATUS_OK, &err);
    const HttpReply r =
        case_ask(c, "POST /api/revisions", "", json_of(c->arena, "a: 1\n", NULL, NULL));
    assert_int_equal(r.status, 500);
    check_has(r.body, "move that file away");
    assert_string_equal(example_text(db, c->arena), junk);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, server_case_setup, server_case_teardown)
    const struct CMUnitTest tests[] = {
        CASE(test_a_tree_is_packed_as_the_engine_reads_it),
        CASE(test_errors_stand_at_their_place),
        CASE(test_an_answer_is_that_of_the_command),
        CASE(test_a_bridge_that_has_no_answer_says_why),
        CASE(test_a_package_is_a_file_to_keep),
        CASE(test_answers_at_once_are_the_same),
        CASE(test_one_value_is_set_in_place),
        CASE(test_a_form_makes_a_bridge_that_is_answered),
        CASE(test_bad_json_is_refused),
        CASE(test_revisions_are_kept),
        CASE(test_damaged_revisions_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
