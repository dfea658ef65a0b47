/* The site log over HTTP: readings there and back, the same again, strikes, waiting, pages of records. */
#define _XOPEN_SOURCE 700
#include <pthread.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "clench/sitelog.h"
#include "server_case.h"

/* A sheet to move: pressures and gaps are those of nothing that was built. */
static const char zero[] = "{\"id\": \"r0\", \"time\": \"2031-05-04T09:00:00Z\", \"step\": \"0\", "
                           "\"who\": \"ab\", \"pressure 1\": \"0 psi\", \"move 1\": \"0 in\", "
                           "\"move 2\": \"0 in\"}";

static void job_open(const ServerCase *c)
{
    case_file_write(c, example_text("examples/single-span.yaml", c->arena));
    const HttpReply r =
        case_ask(c, "POST /api/site/open", "", "{\"points\": \"gap -13.7 ft, gap 13.7 ft\"}");
    if (r.status != 200) print_error("%s\n", r.body);
    assert_int_equal(r.status, 200);
    assert_string_equal(text_of(&r, "log", c->arena), "open");
    assert_string_equal(text_of(&r, "role", c->arena), "writer");
}

static void test_without_a_log_it_says_so(void **state)
{
    const ServerCase *const c = *state;
    const HttpReply r = case_ask(c, "GET /api/site", "", NULL);
    assert_int_equal(r.status, 200);
    assert_string_equal(text_of(&r, "log", c->arena), "none");
    assert_int_equal(case_ask(c, "POST /api/site/readings", "", zero).status, 404);
    assert_int_equal(case_ask(c, "GET /api/site/export", "", NULL).status, 404);
    assert_int_equal(case_ask(c, "POST /api/site/strikes", "",
                              "{\"record\": \"3\", \"why\": \"x\", \"who\": \"ab\"}")
                         .status,
                     404);
    /* no bridge file, no job */
    assert_int_equal(case_ask(c, "POST /api/site/open", "", "{}").status, 400);
    static const char *const unit[] = {"0", "1.5", "x", "100", "-1", ""};
    for (size_t i = 0; i < sizeof unit / sizeof *unit; i++)
        assert_int_equal(
            case_ask(c, arena_printf(c->arena, "GET /api/site?unit=%s", unit[i]), "", NULL).status,
            400);
}

static void test_a_reading_comes_back_as_it_was_written(void **state)
{
    const ServerCase *const c = *state;
    job_open(c);
    const HttpReply first = case_ask(c, "POST /api/site/readings", "", zero);
    assert_int_equal(first.status, 200);
    check_has(first.body, "\"number\": 3");
    check_has(first.body, "\"repeated\": false");
    check_has(first.body, "\"kept\": true");
    check_has(first.body, "\"call\": \"go on\"");
    const HttpReply all = case_ask(c, "GET /api/site?after=2", "", NULL);
    check_has(all.body, "\\\"0 psi\\\"");
    check_has(all.body, text_of(&first, "hash", c->arena));
    check_has(all.body, "\"day\": null"); /* it comes with the plan's record alone */
    const HttpReply whole = case_ask(c, "GET /api/site", "", NULL);
    check_has(text_of(&whole, "day", c->arena), "\"points\"");
    const HttpReply sheet = case_ask(c, "GET /api/site/export", "", NULL);
    assert_int_equal(sheet.status, 200);
    check_has(sheet.body, "r0");
    assert_string_equal(http_field(&sheet, "Content-Type", c->arena), "text/csv; charset=utf-8");
}

static void test_the_record_is_the_commands(void **state)
{
    const ServerCase *const c = *state;
    assert_int_equal(case_ask(c, "GET /api/site/record", "", NULL).status, 404);
    job_open(c);
    assert_int_equal(case_ask(c, "POST /api/site/readings", "", zero).status, 200);
    const HttpReply r = case_ask(c, "GET /api/site/record", "", NULL);
    assert_int_equal(r.status, 200);
    assert_memory_equal(r.body, "%PDF-", 5);
    check_has(http_field(&r, "Content-Disposition", c->arena), "site-record.pdf");
    assert_int_equal(case_ask(c, "GET /api/site/record?unit=2", "", NULL).status, 404);
}

static void test_the_same_again_gets_the_same_answer(void **state)
{
    const ServerCase *const c = *state;
    job_open(c);
    const HttpReply first = case_ask(c, "POST /api/site/readings", "", zero);
    assert_int_equal(case_ask(c, "POST /api/site/strikes", "",
                              "{\"record\": \"3\", \"why\": \"x\", \"who\": \"ab\"}")
                         .status,
                     200);
    const HttpReply again = case_ask(c, "POST /api/site/readings", "", zero);
    assert_int_equal(again.status, 200);
    check_has(again.body, "\"repeated\": true");
    /* to the letter, though it was struck meanwhile: what was said stands */
    assert_string_equal(strstr(again.body, "\"verdict\""), strstr(first.body, "\"verdict\""));
    char *const other = arena_text(c->arena, zero);
    *strstr(other, "0 psi") = '9';
    const HttpReply refused = case_ask(c, "POST /api/site/readings", "", other);
    assert_int_equal(refused.status, 409);
    check_has(refused.body, "says something else");
}

static const char *with(Arena *arena, const char *key, const char *value)
{
    return arena_printf(arena,
                        "{\"id\": \"x\", \"time\": \"2031-05-04T09:00:00Z\", \"step\": \"0\", "
                        "\"%s\": \"%s\"}",
                        key, value);
}

static void test_words_that_cannot_be_are_refused_by_their_key(void **state)
{
    const ServerCase *const c = *state;
    job_open(c);
    const char *const bad[][2] = {
        {"pressure 1", "12 foo"},    {"pressure 1", "12"}, {"move 2", "nan in"},
        {"phase", "pushed"},         {"deck", "1 psi"},    {"pressure 16", "1 psi"},
        {"who", "a\\u0007"},         {"move 3", "1 in"},   {"cell", "1e999 kip"},
        {"move 1", "1 in\\nmove 2"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        const HttpReply r =
            case_ask(c, "POST /api/site/readings", "", with(c->arena, bad[i][0], bad[i][1]));
        if (r.status != 400) print_error("%s %s: %d\n", bad[i][0], bad[i][1], r.status);
        assert_int_equal(r.status, 400);
        if (i != 5) check_has(r.body, arena_printf(c->arena, "\"key\": \"%s\"", bad[i][0]));
    }
    static const char *const body[] = {
        "",
        "[]",
        "{",
        "{\"id\": 3}",
        "{\"id\": \"a\", \"step\": \"0\"}",
        "{\"id\": \"verdict of 5\", \"time\": \"2031-05-04T09:00:00Z\", \"step\": \"0\"}",
        "{\"id\": \"strike of 3\", \"time\": \"2031-05-04T09:00:00Z\", \"step\": \"0\"}",
        "{\"id\": \"\", \"time\": \"2031-05-04T09:00:00Z\", \"step\": \"0\"}",
        "{\"id\": \"a\", \"time\": \"2031-05-04T09:00:00Z\", \"step\": \"77\"}",
        "{\"id\": \"a\", \"time\": \"yesterday\", \"step\": \"0\"}"};
    for (size_t i = 0; i < sizeof body / sizeof *body; i++)
        assert_int_equal(case_ask(c, "POST /api/site/readings", "", body[i]).status, 400);
    const char *const zeros = arena_printf(c->arena, "0.%0*d psi", 200000, 0);
    assert_int_equal(
        case_ask(c, "POST /api/site/readings", "", with(c->arena, "pressure 1", zeros)).status,
        400);
    const HttpReply log = case_ask(c, "GET /api/site?after=2", "", NULL);
    check_has(log.body, "\"next\": 2"); /* nothing of it was kept */
}

static void test_a_reading_of_another_job_is_refused(void **state)
{
    const ServerCase *const c = *state;
    job_open(c);
    const HttpReply log = case_ask(c, "GET /api/site", "", NULL);
    const char *const job = text_of(&log, "job", c->arena);
    char *const wrong = arena_text(c->arena, job);
    wrong[0] = wrong[0] == '0' ? '1' : '0';
    assert_int_equal(
        case_ask(c, "POST /api/site/readings", "", with(c->arena, "job", wrong)).status, 409);
    assert_int_equal(case_ask(c, "POST /api/site/readings", "", with(c->arena, "job", job)).status,
                     200);
}

static void test_a_reading_is_struck_once(void **state)
{
    const ServerCase *const c = *state;
    job_open(c);
    assert_int_equal(case_ask(c, "POST /api/site/readings", "", zero).status, 200);
    static const char strike[] = "{\"record\": \"3\", \"why\": \"wrong dial\", \"who\": \"ab\"}";
    const HttpReply first = case_ask(c, "POST /api/site/strikes", "", strike);
    const HttpReply again = case_ask(c, "POST /api/site/strikes", "", strike);
    assert_int_equal(first.status, 200);
    assert_int_equal(again.status, 200);
    assert_string_equal(text_of(&first, "hash", c->arena), text_of(&again, "hash", c->arena));
    check_has(again.body, "\"repeated\": true");
    static const struct {
        const char *body;
        int status;
    } other[] = {{"{\"record\": \"3\", \"why\": \"another\", \"who\": \"ab\"}", 409},
                 {"{\"record\": \"2\", \"why\": \"x\", \"who\": \"ab\"}", 400},
                 {"{\"record\": \"3\", \"why\": \"\", \"who\": \"ab\"}", 400},
                 {"{\"record\": \"three\", \"why\": \"x\", \"who\": \"ab\"}", 400},
                 {"{\"record\": \"3\", \"why\": \"x\"}", 400}};
    for (size_t i = 0; i < sizeof other / sizeof *other; i++)
        assert_int_equal(case_ask(c, "POST /api/site/strikes", "", other[i].body).status,
                         other[i].status);
}

static void test_another_plan_is_another_job(void **state)
{
    const ServerCase *const c = *state;
    job_open(c);
    assert_int_equal(case_ask(c, "POST /api/site/open", "", "{\"points\": \"gap 0 ft\"}").status,
                     409);
    assert_int_equal(
        case_ask(c, "POST /api/site/open", "", "{\"points\": \"gap -13.7 ft, gap 13.7 ft\"}")
            .status,
        200);
    assert_int_equal(case_ask(c, "POST /api/site/open?unit=2", "", "{}").status, 400);
}

/* ---- waiting: another program adds ---- */

typedef struct Adder {
    const char *file;
    int count;
    bool done;
} Adder;

static void *rows_add(void *closure)
{
    Adder *const adder = closure;
    Arena *const arena = arena_create((size_t)64 << 20);
    StoreRecord *const record = ARENA_NEW(arena, StoreRecord, adder->count);
    StoreLog *log;
    Error err = {0};
    nanosleep(&(struct timespec){0, 400000000}, NULL);
    for (int i = 0; i < adder->count; i++)
        record[i] = (StoreRecord){
            .id = arena_printf(arena, "row %d", i),
            .kind = "reading",
            .at = "2031-05-04T10:00:00Z",
            .body = arena_printf(arena,
                                 "{\"time\": \"2031-05-04T10:%02d:%02dZ\", \"step\": \"0\", "
                                 "\"phase\": \"pump\", \"pressure\": [\"0 psi\"], "
                                 "\"move\": [\"0 in\", \"0 in\"]}",
                                 i / 60, i % 60)};
    adder->done =
        store_log_open(sitelog_path(adder->file, 0, arena), false, &log, &err) == STATUS_OK &&
        log && store_log_add(log, record, adder->count, &err) == STATUS_OK;
    store_log_close(log);
    arena_free(arena);
    return NULL;
}

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static void test_who_waits_hears_of_what_another_program_adds(void **state)
{
    const ServerCase *const c = *state;
    pthread_t thread;
    Adder adder = {.file = c->file, .count = 1};
    job_open(c);
    assert_int_equal(pthread_create(&thread, NULL, rows_add, &adder), 0);
    const double start = now_s();
    const HttpReply r = case_ask(c, "GET /api/site?after=2&wait=20", "", NULL);
    const double took_s = now_s() - start;
    pthread_join(thread, NULL);
    assert_true(adder.done);
    check_has(r.body, "\"row 0\"");
    assert_true(took_s > 0.3 && took_s < 3);
    const HttpReply none = case_ask(c, "GET /api/site?after=3&wait=0.5", "", NULL);
    check_has(none.body, "\"records\": []");
}

static void test_many_records_come_in_pages(void **state)
{
    const ServerCase *const c = *state;
    Adder adder = {.file = c->file, .count = 2500};
    job_open(c);
    (void)rows_add(&adder);
    assert_true(adder.done);
    long after = 0;
    int pages = 0, found = 0;
    for (; after < 2502 && pages < 10; pages++) {
        const HttpReply r =
            case_ask(c, arena_printf(c->arena, "GET /api/site?after=%ld", after), "", NULL);
        assert_int_equal(r.status, 200);
        check_has(r.body, "\"next\": 2502");
        for (const char *at = r.body; (at = strstr(at, "\"number\": ")); at++, found++) {
            const long number = strtol(at + 10, NULL, 10);
            assert_int_equal(number, after + 1); /* each once, in their order */
            after = number;
        }
    }
    assert_int_equal(found, 2502);
    assert_int_equal(pages, 3);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, server_case_setup, server_case_teardown)
    const struct CMUnitTest tests[] = {
        CASE(test_without_a_log_it_says_so),
        CASE(test_a_reading_comes_back_as_it_was_written),
        CASE(test_the_record_is_the_commands),
        CASE(test_the_same_again_gets_the_same_answer),
        CASE(test_words_that_cannot_be_are_refused_by_their_key),
        CASE(test_a_reading_of_another_job_is_refused),
        CASE(test_a_reading_is_struck_once),
        CASE(test_another_plan_is_another_job),
        CASE(test_who_waits_hears_of_what_another_program_adds),
        CASE(test_many_records_come_in_pages),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
