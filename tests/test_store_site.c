/* The log of a jacking job: chained, append only by any SQL, exactly once, nothing acknowledged lost. */
#define _XOPEN_SOURCE 700
#include "check.h"

#include <signal.h>
#include <sqlite3.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
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

static StoreLog *opened(Fixture *f)
{
    StoreLog *log = NULL;
    check_status(store_log_open(f->path, true, &log, &f->err), STATUS_OK, &f->err);
    return log;
}

static StoreRecord record(const char *id, const char *body)
{
    return (StoreRecord){.id = id, .kind = "reading", .at = "2031-05-04T09:30:00Z", .body = body};
}

static StoreRecord added(Fixture *f, StoreLog *log, const char *id, const char *body)
{
    StoreRecord r = record(id, body);
    check_status(store_log_add(log, &r, 1, &f->err), STATUS_OK, &f->err);
    return r;
}

/* Runs SQL on the file as somebody else would. */
static int outside(const Fixture *f, const char *sql)
{
    sqlite3 *db;
    assert_int_equal(sqlite3_open(f->path, &db), SQLITE_OK);
    const int code = sqlite3_exec(db, sql, NULL, NULL, NULL);
    sqlite3_close(db);
    return code & 0xFF;
}

static StoreChain verified(Fixture *f, const char *hash)
{
    StoreChain chain;
    StoreLog *const log = opened(f);
    check_status(store_log_verify(log, hash, &chain, &f->err), STATUS_OK, &f->err);
    store_log_close(log);
    return chain;
}

static void three(Fixture *f, char hash[3][SHA256_TEXT])
{
    StoreLog *const log = opened(f);
    static const char *const id[] = {"a", "b", "c"};
    for (int i = 0; i < 3; i++) {
        const StoreRecord r = added(f, log, id[i], id[i]);
        memcpy(hash[i], r.hash, SHA256_TEXT);
    }
    store_log_close(log);
}

static void test_records_come_back_in_order(void **state)
{
    Fixture *const f = *state;
    char hash[3][SHA256_TEXT];
    const StoreRecord *list;
    int count = 0;
    three(f, hash);
    StoreLog *const log = opened(f);
    added(f, log, "A", "\xc3\xa9'); DROP TABLE record");
    check_status(store_log_read(log, 1, f->arena, &list, &count, &f->err), STATUS_OK, &f->err);
    assert_int_equal(count, 3);
    assert_int_equal(list[0].number, 2);
    assert_string_equal(list[0].id, "b");
    assert_string_equal(list[0].hash, hash[1]);
    assert_string_equal(list[2].body, "\xc3\xa9'); DROP TABLE record");
    assert_string_equal(list[2].at, "2031-05-04T09:30:00Z");
    store_log_close(log);
    const StoreChain chain = verified(f, hash[1]);
    assert_int_equal(chain.count, 4);
    assert_int_equal(chain.broken, 0);
    assert_int_equal(chain.known, 2);
    assert_int_equal(verified(f, "00").known, 0);
}

/* The hash of the first record, by the system's sha256sum over its parts: thirty-two zero bytes, then each
 * part with its length: 1:1 1:a 7:reading 20:2031-05-04T09:30:00Z 1:a. */
static void test_hash_is_sha256_of_the_parts(void **state)
{
    Fixture *const f = *state;
    char hash[3][SHA256_TEXT];
    three(f, hash);
    assert_string_equal(hash[0],
                        "fe56e08150e4b579eacf3db5ef30b5256df869f30224a3b1289d7f9c950710ff");
}

static void test_the_same_again_adds_nothing(void **state)
{
    Fixture *const f = *state;
    StoreLog *const log = opened(f);
    const StoreRecord first = added(f, log, "a", "x"), again = added(f, log, "a", "x");
    assert_false(first.repeated);
    assert_true(again.repeated);
    assert_int_equal(again.number, first.number);
    assert_string_equal(again.hash, first.hash);
    StoreRecord other = record("a", "y");
    check_status(store_log_add(log, &other, 1, &f->err), STATUS_BAD_INPUT, &f->err);
    /* all or none: the first of two is not kept where the second is refused */
    StoreRecord two[] = {record("b", "b"), record("a", "y")};
    check_status(store_log_add(log, two, 2, &f->err), STATUS_BAD_INPUT, &f->err);
    /* twice in one go */
    StoreRecord twice[] = {record("c", "c"), record("c", "c")};
    check_status(store_log_add(log, twice, 2, &f->err), STATUS_OK, &f->err);
    assert_true(twice[1].repeated);
    store_log_close(log);
    assert_int_equal(verified(f, NULL).count, 2);
}

static void test_no_sql_changes_a_record(void **state)
{
    Fixture *const f = *state;
    char hash[3][SHA256_TEXT];
    static const char *const sql[] = {
        "UPDATE record SET body = 'y' WHERE number = 2",
        "DELETE FROM record WHERE number = 3",
        "DELETE FROM record",
        "INSERT OR REPLACE INTO record SELECT number, id, kind, at, 'y', before, hash FROM record "
        "WHERE number = 3",
        "REPLACE INTO record SELECT 4, id, kind, at, 'y', hash, zeroblob(32) FROM record WHERE "
        "number = 3",
        "REPLACE INTO record SELECT 4, 'n', kind, at, 'y', hash, hash FROM record WHERE number = 3",
        "INSERT INTO record SELECT number, id, kind, at, body, before, hash FROM record WHERE "
        "number = 3 "
        "ON CONFLICT (number) DO UPDATE SET body = 'y'",
        "INSERT INTO record SELECT 9, 'n', kind, at, 'y', hash, zeroblob(32) FROM record WHERE "
        "number = 3",
        "INSERT INTO record SELECT 4, 'n', kind, at, 'y', before, zeroblob(32) FROM record WHERE "
        "number = 3",
        "INSERT INTO record SELECT 4, 'n', kind, at, 'y', hash, x'00' FROM record WHERE number = "
        "3"};
    three(f, hash);
    for (size_t i = 0; i < sizeof sql / sizeof *sql; i++)
        if (outside(f, sql[i]) != SQLITE_CONSTRAINT) fail_msg("not refused: %s", sql[i]);
    const StoreChain chain = verified(f, hash[2]);
    assert_int_equal(chain.count, 3);
    assert_int_equal(chain.broken, 0);
    assert_int_equal(chain.known, 3);
}

#define OPEN_UP                                                                                 \
    "DROP TRIGGER record_stays; DROP TRIGGER record_is_kept; DROP TRIGGER record_is_new; DROP " \
    "TRIGGER record_follows;"

static void check_tampered(Fixture *f, const char *sql, long broken)
{
    char hash[3][SHA256_TEXT], all[1024];
    three(f, hash);
    snprintf(all, sizeof all, OPEN_UP "%s", sql);
    assert_int_equal(outside(f, all), SQLITE_OK);
    const StoreChain chain = verified(f, NULL);
    assert_int_equal(chain.broken, broken);
    if (broken) assert_non_null(chain.why);
    unlink(f->path);
}

/* Who takes the triggers off leaves traces in the chain. */
static void test_tampering_is_found(void **state)
{
    Fixture *const f = *state;
    check_tampered(f, "SELECT 1", 0);
    check_tampered(f, "UPDATE record SET body = 'y' WHERE number = 2", 2);
    check_tampered(f, "UPDATE record SET at = '2031-05-04T09:31:00Z' WHERE number = 1", 1);
    check_tampered(f, "UPDATE record SET id = 'z' WHERE number = 3", 3);
    check_tampered(f, "UPDATE record SET kind = 'strike' WHERE number = 3", 3);
    check_tampered(f, "DELETE FROM record WHERE number = 1", 2);
    check_tampered(f, "DELETE FROM record WHERE number = 2", 3);
    check_tampered(f, "UPDATE record SET number = number + 10", 11);
    check_tampered(f, "UPDATE record SET hash = randomblob(32) WHERE number = 3", 3);
    check_tampered(f, "UPDATE record SET before = zeroblob(32) WHERE number = 2", 2);
}

/* The end cut off is a chain too: a hash that was noted shows it. */
static void test_a_noted_hash_shows_a_cut_end(void **state)
{
    Fixture *const f = *state;
    char hash[3][SHA256_TEXT];
    three(f, hash);
    assert_int_equal(outside(f, OPEN_UP "DELETE FROM record WHERE number = 3"), SQLITE_OK);
    const StoreChain chain = verified(f, hash[2]);
    assert_int_equal(chain.broken, 0);
    assert_int_equal(chain.known, 0);
}

static void check_refused(Fixture *f, const char *words)
{
    StoreLog *log = NULL;
    check_status(store_log_open(f->path, true, &log, &f->err), STATUS_IO, &f->err);
    assert_null(log);
    if (!strstr(f->err.text, words)) fail_msg("'%s' is not in '%s'", words, f->err.text);
}

static void test_versions_and_other_files(void **state)
{
    Fixture *const f = *state;
    char hash[3][SHA256_TEXT];
    Store *store;
    check_status(store_open(f->path, true, &store, &f->err), STATUS_OK, &f->err);
    store_close(store);
    check_refused(f, "another program");
    unlink(f->path);
    /* a file of version 0 that is ours is lifted to this version */
    assert_int_equal(outside(f, "PRAGMA application_id = 1668048236"), SQLITE_OK); /* "clel" */
    three(f, hash);
    assert_int_equal(verified(f, hash[2]).known, 3);
    assert_int_equal(outside(f, "PRAGMA user_version = 99"), SQLITE_OK);
    check_refused(f, "newer clench");
    unlink(f->path);
    StoreLog *log = (StoreLog *)f;
    check_status(store_log_open(f->path, false, &log, &f->err), STATUS_OK, &f->err);
    assert_null(log);
}

static void test_sizes_are_bounded(void **state)
{
    Fixture *const f = *state;
    StoreLog *const log = opened(f);
    char *const large = arena_take(f->arena, STORE_BODY_MAX + 2);
    memset(large, 'x', STORE_BODY_MAX + 1);
    StoreRecord body = record("a", large), id = record(large, "a"), none = record("", "a");
    check_status(store_log_add(log, &body, 1, &f->err), STATUS_TOO_LARGE, &f->err);
    check_status(store_log_add(log, &id, 1, &f->err), STATUS_TOO_LARGE, &f->err);
    check_status(store_log_add(log, &none, 1, &f->err), STATUS_TOO_LARGE, &f->err);
    large[STORE_BODY_MAX] = 0;
    assert_int_equal(added(f, log, "a", large).number, 1);
    store_log_close(log);
}

/* What nobody could read again is refused, not acknowledged. */
static void test_a_full_log_takes_no_more(void **state)
{
    Fixture *const f = *state;
    char hash[3][SHA256_TEXT], sql[512];
    three(f, hash);
    snprintf(sql, sizeof sql, OPEN_UP "UPDATE record SET number = %d WHERE number = 3",
             (int)STORE_RECORDS_MAX - 1);
    assert_int_equal(outside(f, sql), SQLITE_OK);
    StoreLog *const log = opened(f);
    StoreRecord two[2] = {record("d", "d"), record("e", "e")}, one = record("e", "e");
    check_status(store_log_add(log, two, 2, &f->err), STATUS_TOO_LARGE, &f->err);
    assert_int_equal(added(f, log, "d", "d").number, STORE_RECORDS_MAX);
    check_status(store_log_add(log, &one, 1, &f->err), STATUS_TOO_LARGE, &f->err);
    assert_true(added(f, log, "d", "d").repeated); /* sent again: as it was acknowledged */
    store_log_close(log);
}

/* In a child: adds until it is refused; tells how many were acknowledged. */
static int fill(Fixture *f)
{
    const struct rlimit most = {300000, 300000};
    signal(SIGXFSZ, SIG_IGN);
    if (setrlimit(RLIMIT_FSIZE, &most) != 0) return 250;
    StoreLog *const log = opened(f);
    char body[5001] = "", id[32];
    memset(body, 'x', 5000);
    for (int k = 0; k < 200; k++) {
        snprintf(id, sizeof id, "%d", k);
        StoreRecord r = record(id, body);
        if (store_log_add(log, &r, 1, &f->err) == STATUS_OK) continue;
        return f->err.status == STATUS_IO && strstr(f->err.text, "cannot be written") &&
                       strstr(f->err.text, "File too large")
                   ? k
                   : 251;
    }
    return 252;
}

static void test_a_full_disk_is_told_and_loses_nothing(void **state)
{
    Fixture *const f = *state;
    int status = 0;
    const pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) _exit(fill(f));
    waitpid(child, &status, 0);
    const int told = WEXITSTATUS(status);
    assert_in_range(told, 10, 100);
    const StoreChain chain = verified(f, NULL);
    assert_int_equal(chain.count, told);
    assert_int_equal(chain.broken, 0);
    StoreLog *const log = opened(f);
    added(f, log, "after", "x");
    store_log_close(log);
}

/* Two programs at once: each record once, one chain. */
static void test_two_writers_make_one_chain(void **state)
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
            StoreLog *log = NULL;
            char id[32];
            snprintf(id, sizeof id, "%d-%d", i, k);
            StoreRecord r = record(id, "x");
            good = store_log_open(f->path, true, &log, &f->err) == STATUS_OK &&
                   store_log_add(log, &r, 1, &f->err) == STATUS_OK;
            store_log_close(log);
        }
        _exit(good ? 0 : 1);
    }
    for (int i = 0; i < WRITERS; i++) {
        int status = 1;
        waitpid(child[i], &status, 0);
        assert_int_equal(status, 0);
    }
    const StoreChain chain = verified(f, NULL);
    assert_int_equal(chain.count, WRITERS * EACH);
    assert_int_equal(chain.broken, 0);
}

int main(void)
{
#define CASE(name) cmocka_unit_test_setup_teardown(name, setup, teardown)
    const struct CMUnitTest tests[] = {
        CASE(test_records_come_back_in_order),  CASE(test_hash_is_sha256_of_the_parts),
        CASE(test_the_same_again_adds_nothing), CASE(test_no_sql_changes_a_record),
        CASE(test_tampering_is_found),          CASE(test_a_noted_hash_shows_a_cut_end),
        CASE(test_versions_and_other_files),    CASE(test_sizes_are_bounded),
        CASE(test_a_full_log_takes_no_more),    CASE(test_a_full_disk_is_told_and_loses_nothing),
        CASE(test_two_writers_make_one_chain),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
