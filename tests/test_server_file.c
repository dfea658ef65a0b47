/* The file that is served: what is read, written, waited for, and never lost. */
#define _XOPEN_SOURCE 700
#include "server_case.h"

#include <pthread.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "clench/text.h"

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static const char *marked(const ServerCase *c, const char *field, const char *mark)
{
    return arena_printf(c->arena, "%s: \"%s\"\r\n", field, mark);
}

static void test_a_file_that_is_not_there_is_new(void **state)
{
    const ServerCase *const c = *state;
    const HttpReply r = case_ask(c, "GET /api/file", "", NULL);
    assert_int_equal(r.status, 200);
    assert_string_equal(text_of(&r, "text", c->arena), "");
    assert_string_equal(text_of(&r, "mark", c->arena), "new");
    assert_string_equal(text_of(&r, "name", c->arena), "deck.yaml");
    const HttpReply put =
        case_ask(c, "PUT /api/file", marked(c, "If-Match", "new"), "title: first\n");
    assert_int_equal(put.status, 200);
    assert_string_equal(example_text(c->file, c->arena), "title: first\n");
    assert_string_equal(text_of(&put, "mark", c->arena), file_mark(c));
}

static void test_a_known_file_is_not_sent_again(void **state)
{
    const ServerCase *const c = *state;
    case_file_write(c, "title: a\n");
    const char *const mark = file_mark(c);
    const HttpReply known = case_ask(c, "GET /api/file", marked(c, "If-None-Match", mark), NULL);
    assert_int_equal(known.status, 304);
    assert_int_equal(known.size, 0);
    assert_string_equal(http_field(&known, "ETag", c->arena),
                        arena_printf(c->arena, "\"%s\"", mark));
    assert_int_equal(case_ask(c, "GET /api/file", marked(c, "If-None-Match", "0123"), NULL).status,
                     200);
}

static void test_an_outside_change_is_never_overwritten(void **state)
{
    const ServerCase *const c = *state;
    case_file_write(c, "title: a\n");
    const char *const mark = file_mark(c);
    case_file_write(c, "title: theirs\n");
    const HttpReply r = case_ask(c, "PUT /api/file", marked(c, "If-Match", mark), "title: mine\n");
    assert_int_equal(r.status, 412);
    assert_string_equal(text_of(&r, "text", c->arena), "title: theirs\n");
    check_has(r.body, "changed by another program");
    assert_string_equal(example_text(c->file, c->arena), "title: theirs\n");
    /* with the mark that came along, the writer has seen it */
    const char *const seen = marked(c, "If-Match", text_of(&r, "mark", c->arena));
    assert_int_equal(case_ask(c, "PUT /api/file", seen, "title: mine\n").status, 200);
    assert_string_equal(example_text(c->file, c->arena), "title: mine\n");
    /* removed outside: the mark is no longer that of the file */
    assert_int_equal(unlink(c->file), 0);
    assert_int_equal(case_ask(c, "PUT /api/file", seen, "title: b\n").status, 412);
    assert_int_equal(access(c->file, F_OK), -1);
}

static void test_a_write_without_a_mark_is_refused(void **state)
{
    const ServerCase *const c = *state;
    case_file_write(c, "title: a\n");
    static const char *const field[] = {"",
                                        "If-Match: *\r\n",
                                        "If-Match: abc\r\n",
                                        "If-Match: \"a\", \"b\"\r\n",
                                        "If-Match: \"\"\r\n",
                                        "If-Match: \"0123456789abcdef0123\"\r\n"};
    for (size_t i = 0; i < sizeof field / sizeof *field; i++)
        assert_int_equal(case_ask(c, "PUT /api/file", field[i], "title: b\n").status, 428);
    assert_string_equal(example_text(c->file, c->arena), "title: a\n");
}

static void test_a_text_that_is_none_is_not_written(void **state)
{
    const ServerCase *const c = *state;
    case_file_write(c, "title: a\n");
    const char *const field = marked(c, "If-Match", file_mark(c));
    assert_int_equal(case_ask(c, "PUT /api/file", field, "title: \xff\n").status, 400);
    char *const large = arena_take(c->arena, YAML_SIZE_MAX + 2);
    memset(large, '#', YAML_SIZE_MAX + 1);
    const HttpReply r = case_ask(c, "PUT /api/file", field, large);
    assert_int_equal(r.status, 400);
    check_has(r.body, "at most 4194304 bytes");
    assert_string_equal(example_text(c->file, c->arena), "title: a\n");
    /* and a file that is none is told, not shown with other characters */
    case_file_write(c, "title: \xff\n");
    check_has(case_ask(c, "GET /api/file", "", NULL).body, "not in UTF-8");
}

static void test_a_file_that_cannot_be_read_is_told(void **state)
{
    const ServerCase *const c = *state;
    assert_int_equal(mkdir(c->file, 0700), 0);
    const HttpReply r = case_ask(c, "GET /api/file", "", NULL);
    assert_int_equal(r.status, 500);
    check_has(r.body, "is a directory");
    rmdir(c->file);
    /* a pipe is not waited for */
    assert_int_equal(mkfifo(c->file, 0600), 0);
    const HttpReply pipe = case_ask(c, "GET /api/file", "", NULL);
    assert_int_equal(pipe.status, 500);
    check_has(pipe.body, "is not a file");
    const HttpReply put = case_ask(c, "PUT /api/file", marked(c, "If-Match", "new"), "a: 1\n");
    assert_int_equal(put.status, 500);
}

typedef struct Wait {
    const ServerCase *c;
    const char *mark;
    Arena *arena;
    HttpReply reply;
    double end_s;
} Wait;

static void *wait_run(void *closure)
{
    Wait *const w = closure;
    const char *const field = arena_printf(w->arena, "If-None-Match: \"%s\"\r\n", w->mark);
    w->reply = http_ask(w->c->port, "GET /api/file?wait=25", field, NULL, w->arena);
    w->end_s = now_s();
    return NULL;
}

/* Waiting clients hear of a change within half a second, of what stays the same nothing. */
static void test_an_outside_change_is_seen_at_once(void **state)
{
    const ServerCase *const c = *state;
    case_file_write(c, "title: a\n");
    Wait wait[3] = {{.c = c}};
    pthread_t thread[3];
    const char *const mark = file_mark(c);
    for (int i = 0; i < 3; i++) {
        wait[i] = (Wait){.c = c, .mark = mark, .arena = arena_create(1 << 20)};
        assert_int_equal(pthread_create(&thread[i], NULL, wait_run, &wait[i]), 0);
    }
    nanosleep(&(struct timespec){0, 300000000}, NULL);
    case_file_write(c, "title: a\n"); /* another file, the same text */
    nanosleep(&(struct timespec){0, 300000000}, NULL);
    const double change_s = now_s();
    case_file_write(c, "title: b\n");
    for (int i = 0; i < 3; i++) {
        pthread_join(thread[i], NULL);
        assert_int_equal(wait[i].reply.status, 200);
        assert_string_equal(text_of(&wait[i].reply, "text", c->arena), "title: b\n");
        assert_true(wait[i].end_s > change_s && wait[i].end_s - change_s < 0.5);
        arena_free(wait[i].arena);
    }
}

static void test_waiting_ends_by_itself_and_with_the_server(void **state)
{
    ServerCase *const c = *state;
    case_file_write(c, "title: a\n");
    const char *const field = marked(c, "If-None-Match", file_mark(c));
    const double start_s = now_s();
    /* longer than a silent client may be: this one is not silent, it was asked to wait */
    const int wait_s = SERVER_IDLE_S + 2;
    const char *const request = arena_printf(c->arena, "GET /api/file?wait=%d", wait_s);
    assert_int_equal(case_ask(c, request, field, NULL).status, 304);
    assert_true(now_s() - start_s > wait_s - 0.1 && now_s() - start_s < wait_s + 2);
    static const char *const bad[] = {"26", "-1", "x", "1e999", "nan", "0x10", ""};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        assert_int_equal(
            case_ask(c, arena_printf(c->arena, "GET /api/file?wait=%s", bad[i]), field, NULL)
                .status,
            400);
    Wait wait = {.c = c, .mark = file_mark(c), .arena = arena_create(1 << 20)};
    pthread_t thread;
    assert_int_equal(pthread_create(&thread, NULL, wait_run, &wait), 0);
    nanosleep(&(struct timespec){0, 300000000}, NULL);
    const double end_s = now_s();
    server_stop(c->server);
    c->server = NULL;
    assert_true(now_s() - end_s < 2);
    pthread_join(thread, NULL);
    arena_free(wait.arena);
}

typedef struct Put {
    int port;
    const char *field, *text;
    Arena *arena;
    int status;
} Put;

static void *put_run(void *closure)
{
    Put *const p = closure;
    p->status = http_ask(p->port, "PUT /api/file", p->field, p->text, p->arena).status;
    return NULL;
}

/* Two servers, two writers a round that have read the same text: one writes, the other hears of it. */
static void test_of_two_writers_one_wins(void **state)
{
    const ServerCase *const c = *state;
    Server *second = NULL;
    Error err = {0};
    check_status(server_start(&(ServerWish){.path = c->file}, &second, &err), STATUS_OK, &err);
    for (int round = 0; round < 20; round++) {
        Put put[2];
        pthread_t thread[2];
        const char *const mark = marked(c, "If-Match", file_mark(c));
        for (int i = 0; i < 2; i++) {
            put[i] = (Put){.port = i ? server_port(second) : c->port,
                           .field = mark,
                           .text = arena_printf(c->arena, "title: %d of round %d\n", i, round),
                           .arena = arena_create(1 << 20)};
            assert_int_equal(pthread_create(&thread[i], NULL, put_run, &put[i]), 0);
        }
        for (int i = 0; i < 2; i++) pthread_join(thread[i], NULL);
        assert_int_equal(put[0].status + put[1].status, 200 + 412);
        assert_string_equal(example_text(c->file, c->arena), put[put[1].status == 200].text);
        for (int i = 0; i < 2; i++) arena_free(put[i].arena);
    }
    server_stop(second);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, server_case_setup, server_case_teardown)
    const struct CMUnitTest tests[] = {
        CASE(test_a_file_that_is_not_there_is_new),
        CASE(test_a_known_file_is_not_sent_again),
        CASE(test_an_outside_change_is_never_overwritten),
        CASE(test_a_write_without_a_mark_is_refused),
        CASE(test_a_text_that_is_none_is_not_written),
        CASE(test_a_file_that_cannot_be_read_is_told),
        CASE(test_an_outside_change_is_seen_at_once),
        CASE(test_waiting_ends_by_itself_and_with_the_server),
        CASE(test_of_two_writers_one_wins),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
