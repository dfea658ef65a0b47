/* Revisions: kept, in order, unchanged; two writers; files that are not ours. */
#define _XOPEN_SOURCE 700
#include "check.h"

#include <signal.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "clench/store.h"

typedef struct Fixture {
    Arena *arena;
    char folder[64], path[96];
    Error err;
} Fixture;

static int setup(void **state)
{
    Fixture *const f = calloc(1, sizeof *f);
    if (!f) return -1;
    *state = f;
    f->arena = arena_create((size_t)64 << 20);
    strcpy(f->folder, "/tmp/clench-test-XXXXXX");
    if (!mkdtemp(f->folder)) return -1;
    snprintf(f->path, sizeof f->path, "%s/r.db", f->folder);
    return 0;
}

static int teardown(void **state)
{
    Fixture *const f = *state;
    char path[128];
    unlink(f->path);
    snprintf(path, sizeof path, "%s-journal", f->path);
    unlink(path);
    const int left = rmdir(f->folder); /* nothing else may lie there */
    arena_free(f->arena);
    free(f);
    return left;
}

static Store *opened(Fixture *f)
{
    Store *store = NULL;
    check_status(store_open(f->path, true, &store, &f->err), STATUS_OK, &f->err);
    return store;
}

static StoreRevision revision(const char *text, const char *note)
{
    return (StoreRevision){
        .when = "2031-05-04T09:30:00Z", .note = note, .mark = "0a", .text = text};
}

static long added(Fixture *f, Store *store, const char *text)
{
    long id = 0;
    const StoreRevision r = revision(text, "");
    check_status(store_add(store, &r, &id, &f->err), STATUS_OK, &f->err);
    return id;
}

/* Runs SQL on the file as somebody else would. */
static int outside(const Fixture *f, const char *sql)
{
    sqlite3 *db;
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    const int code = sqlite3_exec(db, sql, NULL, NULL, NULL);
    sqlite3_close(db);
    return code;
}

static void test_what_is_kept_comes_back(void **state)
{
    Fixture *const f = *state;
    Store *store = opened(f);
    const StoreRevision *list,
        found = revision("title: 'x'\n# \xc3\xa9\n", "thicker'); DROP TABLE");
    StoreRevision back;
    long id = 0;
    int count = 0;
    check_status(store_add(store, &found, &id, &f->err), STATUS_OK, &f->err);
    store_close(store);
    check_status(store_open(f->path, false, &store, &f->err), STATUS_OK, &f->err);
    check_status(store_find(store, id, f->arena, &back, &f->err), STATUS_OK, &f->err);
    assert_string_equal(back.text, found.text);
    assert_string_equal(back.note, found.note);
    assert_string_equal(back.when, found.when);
    assert_string_equal(back.mark, found.mark);
    check_status(store_find(store, id + 1, f->arena, &back, &f->err), STATUS_BAD_INPUT, &f->err);
    const long second = added(f, store, "b"), third = added(f, store, "");
    check_status(store_list(store, 2, f->arena, &list, &count, &f->err), STATUS_OK, &f->err);
    assert_int_equal(count, 2);
    assert_int_equal(list[0].id, third);
    assert_int_equal(list[1].id, second);
    assert_null(list[0].text);
    store_close(store);
}

static void test_no_file_is_made_by_asking(void **state)
{
    Fixture *const f = *state;
    Store *store = (Store *)f;
    check_status(store_open(f->path, false, &store, &f->err), STATUS_OK, &f->err);
    assert_null(store);
    assert_int_equal(access(f->path, F_OK), -1);
}

static void test_sizes_are_bounded(void **state)
{
    Fixture *const f = *state;
    Store *const store = opened(f);
    char *const large = arena_take(f->arena, STORE_TEXT_MAX + 2);
    long id = 0;
    memset(large, 'x', STORE_TEXT_MAX + 1);
    const StoreRevision text = revision(large, ""), note = revision("", large);
    check_status(store_add(store, &text, &id, &f->err), STATUS_TOO_LARGE, &f->err);
    check_status(store_add(store, &note, &id, &f->err), STATUS_TOO_LARGE, &f->err);
    large[STORE_TEXT_MAX] = 0;
    StoreRevision back;
    assert_int_equal(added(f, store, large), 1);
    check_status(store_find(store, 1, f->arena, &back, &f->err), STATUS_OK, &f->err);
    assert_int_equal(strlen(back.text), STORE_TEXT_MAX);
    store_close(store);
}

static void test_a_revision_is_never_changed(void **state)
{
    Fixture *const f = *state;
    Store *const store = opened(f);
    added(f, store, "a");
    assert_int_equal(outside(f, "UPDATE revision SET content = 'b'"), SQLITE_CONSTRAINT);
    assert_int_not_equal(outside(f, "INSERT INTO revision VALUES ('x', 1, 2, 3, 4)"), SQLITE_OK);
    store_close(store);
}

/* Two programs at once: both open a file that is not there yet, and every revision is kept. */
static void test_two_writers_lose_nothing(void **state)
{
    Fixture *const f = *state;
    enum { WRITERS = 2, EACH = 25 };
    pid_t child[WRITERS];
    for (int i = 0; i < WRITERS; i++) {
        child[i] = fork();
        assert_true(child[i] >= 0);
        if (child[i] > 0) continue;
        bool good = true;
        for (int k = 0; good && k < EACH; k++) {
            Store *store = NULL;
            long id;
            const StoreRevision r = revision("a", "");
            good = store_open(f->path, true, &store, &f->err) == STATUS_OK &&
                   store_add(store, &r, &id, &f->err) == STATUS_OK;
            store_close(store);
        }
        if (!good) fprintf(stderr, "%s\n", f->err.text);
        _exit(good ? 0 : 1);
    }
    for (int i = 0; i < WRITERS; i++) {
        int status = 1;
        waitpid(child[i], &status, 0);
        assert_int_equal(status, 0);
    }
    Store *const store = opened(f);
    const StoreRevision *list;
    int count = 0;
    check_status(store_list(store, 1000, f->arena, &list, &count, &f->err), STATUS_OK, &f->err);
    assert_int_equal(count, WRITERS * EACH);
    store_close(store);
}

/* What was told as kept is there after the program was killed. */
static void test_a_killed_writer_loses_nothing_told(void **state)
{
    Fixture *const f = *state;
    int ends[2];
    assert_int_equal(pipe(ends), 0);
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        Store *const store = opened(f);
        for (;;) {
            const long id = added(f, store, "a");
            if (write(ends[1], &id, sizeof id) != sizeof id) _exit(1);
        }
    }
    close(ends[1]);
    long told = 0, id;
    while (told < 40 && read(ends[0], &id, sizeof id) == sizeof id) told = id;
    kill(child, SIGKILL);
    while (read(ends[0], &id, sizeof id) == sizeof id) told = id;
    close(ends[0]);
    waitpid(child, NULL, 0);
    Store *const store = opened(f);
    StoreRevision back;
    assert_true(told >= 40);
    check_status(store_find(store, told, f->arena, &back, &f->err), STATUS_OK, &f->err);
    store_close(store);
}

static void check_refused(Fixture *f, const char *words)
{
    Store *store = NULL;
    check_status(store_open(f->path, true, &store, &f->err), STATUS_IO, &f->err);
    assert_null(store);
    if (!strstr(f->err.text, words)) fail_msg("'%s' is not in '%s'", words, f->err.text);
}

static void test_files_that_are_not_ours_are_refused(void **state)
{
    Fixture *const f = *state;
    assert_int_equal(outside(f, "CREATE TABLE letters (a)"), SQLITE_OK);
    check_refused(f, "another program");
    unlink(f->path);
    store_close(opened(f));
    assert_int_equal(outside(f, "PRAGMA user_version = 99"), SQLITE_OK);
    check_refused(f, "newer clench");
    unlink(f->path);
    assert_int_equal(mkdir(f->path, 0700), 0);
    check_refused(f, "not a file");
    rmdir(f->path);
}

static void test_damage_is_told(void **state)
{
    Fixture *const f = *state;
    Store *const store = opened(f);
    char *const large = arena_take(f->arena, 100001);
    memset(large, 'x', 100000);
    added(f, store, large);
    store_close(store);
    FILE *const file = fopen(f->path, "r+b");
    assert_non_null(file);
    for (long at = 4096; at < 5L * 4096; at += 64) {
        fseek(file, at, SEEK_SET);
        fwrite("\xA5\x5A\xA5\x5A", 1, 4, file);
    }
    fclose(file);
    check_refused(f, "damaged");
}

static void test_a_locked_file_is_told_in_time(void **state)
{
    Fixture *const f = *state;
    Store *const store = opened(f);
    sqlite3 *db;
    long id = 0;
    const StoreRevision r = revision("a", "");
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "BEGIN EXCLUSIVE", NULL, NULL, NULL), SQLITE_OK);
    check_status(store_add(store, &r, &id, &f->err), STATUS_IO, &f->err);
    assert_non_null(strstr(f->err.text, "locked"));
    sqlite3_close(db);
    check_status(store_add(store, &r, &id, &f->err), STATUS_OK, &f->err);
    store_close(store);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
    const struct CMUnitTest tests[] = {
        CASE(test_what_is_kept_comes_back),
        CASE(test_no_file_is_made_by_asking),
        CASE(test_sizes_are_bounded),
        CASE(test_a_revision_is_never_changed),
        CASE(test_two_writers_lose_nothing),
        CASE(test_a_killed_writer_loses_nothing_told),
        CASE(test_files_that_are_not_ours_are_refused),
        CASE(test_damage_is_told),
        CASE(test_a_locked_file_is_told_in_time),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
