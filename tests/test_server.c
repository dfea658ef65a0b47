/* The fence of the server and its bounds: who is let in, how much, how long. */
#define _XOPEN_SOURCE 700
#include "server_case.h"

#include <arpa/inet.h>
#include <dirent.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/time.h>
#include <time.h>
#include <unistd.h>

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static void test_own_names_are_let_in(void **state)
{
    const ServerCase *const c = *state;
    char fields[256];
    assert_int_equal(case_ask(c, "GET /api/file", "", NULL).status, 200);
    snprintf(fields, sizeof fields, "Host: localhost:%d\r\nOrigin: http://localhost:%d\r\n",
             c->port, c->port);
    assert_int_equal(case_ask(c, "GET /api/file", fields, NULL).status, 200);
    assert_int_equal(case_ask(c, "GET /api/file", "Sec-Fetch-Site: same-origin\r\n", NULL).status,
                     200);
    assert_int_equal(case_ask(c, "GET /", "Sec-Fetch-Site: cross-site\r\n", NULL).status, 200);
}

static void test_other_hosts_are_refused(void **state)
{
    const ServerCase *const c = *state;
    const char *const host[] = {"deck.example",
                                arena_printf(c->arena, "deck.example:%d", c->port),
                                "127.0.0.1",
                                "localhost",
                                "127.0.0.1:1",
                                arena_printf(c->arena, "127.0.0.1:%d1", c->port),
                                arena_printf(c->arena, "[::1]:%d", c->port),
                                ""};
    for (size_t i = 0; i < sizeof host / sizeof *host; i++) {
        const char *const fields = arena_printf(c->arena, "Host: %s\r\n", host[i]);
        const HttpReply r = case_ask(c, "GET /api/file", fields, NULL);
        if (r.status != 421) print_error("host '%s'\n", host[i]);
        assert_int_equal(r.status, 421);
        check_has(r.body, "answers to 127.0.0.1");
    }
}

static void test_no_host_is_refused(void **state)
{
    const ServerCase *const c = *state;
    static const char plain[] = "GET /api/file HTTP/1.0\r\n\r\n";
    const int fd = http_connect(c->port);
    assert_true(http_write(fd, plain, sizeof plain - 1));
    const HttpReply r = http_read(fd, c->arena);
    assert_true(r.status == 421 || r.status == 400 || r.status == 0);
}

static void test_pages_from_elsewhere_are_refused(void **state)
{
    const ServerCase *const c = *state;
    char own[64];
    static const char *const origin[] = {"http://deck.example", "null", "https://127.0.0.1:%d",
                                         "http://127.0.0.1", "http://127.0.0.1:1"};
    for (size_t i = 0; i < sizeof origin / sizeof *origin; i++) {
        char fields[128];
        snprintf(fields, sizeof fields, "Origin: %.40s\r\n", origin[i]);
        assert_int_equal(case_ask(c, "PUT /api/file", fields, "a: 1\n").status, 403);
        assert_int_equal(case_ask(c, "GET /api/file", fields, NULL).status, 403);
    }
    /* the other of our own names is another origin too */
    snprintf(own, sizeof own, "Origin: http://localhost:%d\r\n", c->port);
    assert_int_equal(case_ask(c, "GET /api/file", own, NULL).status, 403);
    assert_int_equal(case_ask(c, "GET /api/file", "Sec-Fetch-Site: cross-site\r\n", NULL).status,
                     403);
    assert_int_equal(access(c->file, F_OK), -1); /* nothing was written */
}

static void test_unknown_paths_and_methods_are_refused(void **state)
{
    const ServerCase *const c = *state;
    static const char *const nothing[] = {"/api",         "/api/",         "/api/files",
                                          "/deck.yaml",   "/../deck.yaml", "/%2e%2e/deck.yaml",
                                          "//etc/passwd", "/api/file/",    "/api/../etc/passwd",
                                          "/page.js%00x"};
    for (size_t i = 0; i < sizeof nothing / sizeof *nothing; i++) {
        char request[128];
        snprintf(request, sizeof request, "GET %s", nothing[i]);
        const HttpReply r = case_ask(c, request, "", NULL);
        if (r.status != 404) print_error("%s: %d\n", nothing[i], r.status);
        assert_int_equal(r.status, 404);
    }
    const HttpReply wrong = case_ask(c, "DELETE /api/file", "", NULL);
    assert_int_equal(wrong.status, 405);
    assert_string_equal(http_field(&wrong, "Allow", c->arena), "GET, HEAD, PUT");
    assert_int_equal(case_ask(c, "GET /api/tree", "", NULL).status, 405);
    assert_int_equal(case_ask(c, "POST /", "", "x").status, 405);
    assert_int_equal(case_ask(c, "PUT /api/revisions/1", "", "x").status, 405);
}

static void test_every_reply_carries_the_policy(void **state)
{
    const ServerCase *const c = *state;
    static const char *const path[] = {"GET /", "GET /api/file", "GET /none", "DELETE /api/file",
                                       "GET /picture.css"};
    for (size_t i = 0; i < sizeof path / sizeof *path; i++) {
        const HttpReply r = case_ask(c, path[i], "", NULL);
        check_has(http_field(&r, "Content-Security-Policy", c->arena),
                  "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'");
        check_has(http_field(&r, "Content-Security-Policy", c->arena), "frame-ancestors 'none'");
        assert_string_equal(http_field(&r, "X-Content-Type-Options", c->arena), "nosniff");
        assert_string_equal(http_field(&r, "Referrer-Policy", c->arena), "no-referrer");
        assert_null(http_field(&r, "Access-Control-Allow-Origin", c->arena));
    }
}

/* ---- sizes ---- */

static char *filled(size_t size, Arena *arena)
{
    char *const bytes = arena_take(arena, size + 1);
    memset(bytes, '#', size);
    return bytes;
}

static void test_large_bodies_are_refused(void **state)
{
    const ServerCase *const c = *state;
    /* as large as may be: the reader of the file says what it thinks of it */
    const HttpReply most = case_ask(c, "POST /api/tree", "", filled(SERVER_BODY_MAX, c->arena));
    assert_int_equal(most.status, 400);
    const HttpReply more = case_ask(c, "POST /api/tree", "", filled(SERVER_BODY_MAX + 1, c->arena));
    assert_int_equal(more.status, 413);
    check_has(more.body, "at most 5242880 bytes");
    /* a length that is only told is refused before a byte of it */
    const int fd = http_connect(c->port);
    char head[160];
    snprintf(head, sizeof head,
             "POST /api/tree HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nContent-Length: 99999999999\r\n\r\n",
             c->port);
    assert_true(http_write(fd, head, strlen(head)));
    assert_int_equal(http_read(fd, c->arena).status, 413);
}

static void test_a_body_without_an_end_is_cut(void **state)
{
    const ServerCase *const c = *state;
    const size_t piece = 1 << 20;
    const char *const bytes = filled(piece, c->arena);
    const int fd = http_connect(c->port);
    char head[160], line[32];
    snprintf(head, sizeof head,
             "POST /api/tree HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nTransfer-Encoding: chunked\r\n\r\n",
             c->port);
    bool open = http_write(fd, head, strlen(head));
    int sent = 0;
    snprintf(line, sizeof line, "%zx\r\n", piece);
    for (; open && sent < 64; sent++)
        open = http_write(fd, line, strlen(line)) && http_write(fd, bytes, piece) &&
               http_write(fd, "\r\n", 2);
    assert_false(open);
    assert_in_range(sent, 5, 32); /* MiB, with what the sockets hold */
    close(fd);
}

static void test_large_heads_are_refused(void **state)
{
    const ServerCase *const c = *state;
    const char *const fields = arena_printf(c->arena, "X: %s\r\n", filled(150000, c->arena));
    const HttpReply r = case_ask(c, "GET /api/file", fields, NULL);
    assert_true(r.status == 431 || r.status == 413 || r.status == 414 || r.status == 0);
    /* and the server goes on */
    assert_int_equal(case_ask(c, "GET /api/file", "", NULL).status, 200);
}

static void test_bytes_that_are_no_request_do_no_harm(void **state)
{
    const ServerCase *const c = *state;
    static const char *const bytes[] = {"\r\n\r\n",
                                        "\x16\x03\x01\x02\x00\x01",
                                        "GET\r\n\r\n",
                                        "GET / HTTP/9.9\r\n\r\n",
                                        "GET / HTTP/1.1\nHost\n\n",
                                        "POST /api/tree HTTP/1.1\r\nContent-Length: -1\r\n\r\n"};
    for (size_t i = 0; i < sizeof bytes / sizeof *bytes; i++) {
        const int fd = http_connect(c->port);
        assert_true(http_write(fd, bytes[i], strlen(bytes[i])));
        shutdown(fd, SHUT_WR);
        const HttpReply r = http_read(fd, c->arena);
        assert_true(r.status == 0 || r.status >= 400);
    }
    assert_int_equal(case_ask(c, "GET /api/file", "", NULL).status, 200);
}

/* ---- time ---- */

/* One says nothing, one a byte a second; both are cut within the stated times, and others are
 * served meanwhile. */
static void test_slow_clients_are_cut(void **state)
{
    const ServerCase *const c = *state;
    const double start = now_s();
    const int still = http_connect(c->port), slow = http_connect(c->port);
    double still_s = 0, slow_s = 0;
    static const char head[] = "GET /api/file HTTP/1.1\r\nX-Long: ";
    const struct timeval second = {1, 0};
    char byte;
    setsockopt(still, SOL_SOCKET, SO_RCVTIMEO, &second, sizeof second);
    assert_true(http_write(still, "GET /", 5));
    assert_true(http_write(slow, head, sizeof head - 1));
    while ((still_s == 0 || slow_s == 0) && now_s() - start < 40) {
        if (slow_s == 0 && (!http_write(slow, "x", 1) || recv(slow, &byte, 1, MSG_DONTWAIT) == 0))
            slow_s = now_s() - start;
        if (still_s == 0 && recv(still, &byte, 1, 0) == 0)
            still_s = now_s() - start;
        else if (still_s > 0)
            nanosleep(&(struct timespec){1, 0}, NULL);
        assert_int_equal(case_ask(c, "GET /api/file", "", NULL).status, 200);
    }
    close(still);
    close(slow);
    assert_true(still_s > SERVER_IDLE_S - 2 && still_s < SERVER_IDLE_S + 4);
    assert_true(slow_s > SERVER_REQUEST_S - 2 && slow_s < SERVER_REQUEST_S + 4);
}

static int threads_now(void)
{
    int count = 0;
    DIR *const dir = opendir("/proc/self/task");
    assert_non_null(dir);
    for (const struct dirent *entry; (entry = readdir(dir));) count += entry->d_name[0] != '.';
    closedir(dir);
    return count;
}

/* Each connection is a thread: there are no more of them than stated, whoever knocks. Those that are in
 * are served, and room comes back. */
static void test_connections_are_bounded(void **state)
{
    const ServerCase *const c = *state;
    int fd[SERVER_CONNECTIONS_MAX + 8], served = 0;
    const int count = (int)(sizeof fd / sizeof *fd), idle = threads_now();
    char head[96];
    snprintf(head, sizeof head, "GET /api/file HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n", c->port);
    for (int i = 0; i < count; i++) {
        fd[i] = http_connect(c->port);
        assert_true(fd[i] >= 0);
        (void)http_write(fd[i], head, strlen(head));
    }
    nanosleep(&(struct timespec){0, 500000000}, NULL);
    assert_in_range(threads_now() - idle, SERVER_CONNECTIONS_MAX - 2, SERVER_CONNECTIONS_MAX);
    for (int i = 0; i < count; i++) {
        (void)http_write(fd[i], "Connection: close\r\n\r\n", 21);
        served += http_read(fd[i], c->arena).status == 200;
    }
    assert_in_range(served, SERVER_CONNECTIONS_MAX - 2, count);
    assert_int_equal(case_ask(c, "GET /api/file", "", NULL).status, 200);
}

/* ---- runs nobody waits for ---- */

static int package_ask(const ServerCase *c, const char *text)
{
    const int fd = http_connect(c->port);
    const char *const head =
        arena_printf(c->arena,
                     "POST /api/package HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nConnection: close\r\n"
                     "Content-Length: %zu\r\n\r\n",
                     c->port, strlen(text));
    assert_true(http_write(fd, head, strlen(head)) && http_write(fd, text, strlen(text)));
    return fd;
}

/* A page that asks anew and drops what it asked before: what waits for its turn is not run for it. A client
 * that closed its side alone still hears so. */
static void test_runs_nobody_waits_for_are_dropped(void **state)
{
    const ServerCase *const c = *state;
    const char *const text = example_text("examples/single-span.yaml", c->arena);
    int live[3 * SERVER_ENGINE_RUNS_MAX], gone[4];
    const int lives = (int)(sizeof live / sizeof *live);
    for (int i = 0; i < lives; i++) live[i] = package_ask(c, text);
    nanosleep(&(struct timespec){0, 100000000}, NULL);
    for (int i = 0; i < 4; i++) {
        gone[i] = package_ask(c, text);
        shutdown(gone[i], SHUT_WR);
    }
    for (int i = 0; i < 4; i++) assert_int_equal(http_read(gone[i], c->arena).status, 503);
    for (int i = 0; i < lives; i++) assert_int_equal(http_read(live[i], c->arena).status, 200);
}

/* ---- the address ---- */

static void test_only_this_machine_is_bound(void **state)
{
    const ServerCase *const c = *state;
    /* another address of this machine, also in 127/8: nobody listens there */
    struct sockaddr_in address = {.sin_family = AF_INET,
                                  .sin_port = htons((unsigned short)c->port)};
    inet_pton(AF_INET, "127.0.0.2", &address.sin_addr);
    const int fd = socket(AF_INET, SOCK_STREAM, 0);
    assert_int_equal(connect(fd, (const struct sockaddr *)&address, sizeof address), -1);
    close(fd);
}

static void test_a_port_that_is_taken_is_told(void **state)
{
    const ServerCase *const c = *state;
    Server *second = NULL;
    Error err = {0};
    check_status(server_start(&(ServerWish){.path = c->file, .port = c->port}, &second, &err),
                 STATUS_IO, &err);
    check_has(err.text, "cannot be used");
    /* without a wish there is another one */
    check_status(server_start(&(ServerWish){.path = c->file}, &second, &err), STATUS_OK, &err);
    assert_int_not_equal(server_port(second), c->port);
    server_stop(second);
    check_status(server_start(&(ServerWish){.path = "-"}, &second, &err), STATUS_BAD_INPUT, &err);
    check_status(server_start(&(ServerWish){.path = "folder/"}, &second, &err), STATUS_BAD_INPUT,
                 &err);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, server_case_setup, server_case_teardown)
    const struct CMUnitTest tests[] = {
        CASE(test_own_names_are_let_in),
        CASE(test_other_hosts_are_refused),
        CASE(test_no_host_is_refused),
        CASE(test_pages_from_elsewhere_are_refused),
        CASE(test_unknown_paths_and_methods_are_refused),
        CASE(test_every_reply_carries_the_policy),
        CASE(test_large_bodies_are_refused),
        CASE(test_a_body_without_an_end_is_cut),
        CASE(test_large_heads_are_refused),
        CASE(test_bytes_that_are_no_request_do_no_harm),
        CASE(test_slow_clients_are_cut),
        CASE(test_connections_are_bounded),
        CASE(test_runs_nobody_waits_for_are_dropped),
        CASE(test_only_this_machine_is_bound),
        CASE(test_a_port_that_is_taken_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
