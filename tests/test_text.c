/* YAML to trees with places, and files that are whole or unchanged. */
#define _XOPEN_SOURCE 700
#include "check.h"

#include "clench/text.h"

#include <dirent.h>
#include <fcntl.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

typedef struct Fixture {
    Arena *arena;
    Diagnostics list;
    char folder[64]; /* empty, removed with its files afterwards */
} Fixture;

static int fixture_setup(void **state)
{
    Fixture *f = calloc(1, sizeof *f);
    if (!f) return -1;
    f->arena = arena_create((size_t)256 << 20);
    strcpy(f->folder, "/tmp/clench-test-XXXXXX");
    *state = f;
    return mkdtemp(f->folder) ? 0 : -1;
}

/* The names left in the folder are counted before they go. */
static int folder_empty(const char *folder)
{
    int count = 0;
    char path[512];
    DIR *dir = opendir(folder);
    if (!dir) return -1;
    for (const struct dirent *entry; (entry = readdir(dir));) {
        if (entry->d_name[0] == '.') continue;
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        if (unlink(path) != 0) rmdir(path);
        count++;
    }
    closedir(dir);
    return count;
}

static int fixture_teardown(void **state)
{
    Fixture *f = *state;
    folder_empty(f->folder);
    rmdir(f->folder);
    arena_free(f->arena);
    free(f);
    return 0;
}

static const Node *read_good(Fixture *f, const char *text)
{
    Node *root = NULL;
    check_status(yaml_read(text, strlen(text), f->arena, &root, &f->list), STATUS_OK, f->list.item);
    assert_int_equal(f->list.count, 0);
    return root;
}

/* The errors stay in f->list. */
static void read_bad(Fixture *f, const char *text, size_t size, Status expected)
{
    Node *root = NULL;
    f->list = (Diagnostics){.count = 0};
    check_status(yaml_read(text, size, f->arena, &root, &f->list), expected, f->list.item);
    assert_null(root);
    assert_true(f->list.count > 0);
}

static void check_place(Place place, int line, int column)
{
    assert_int_equal(place.line, line);
    assert_int_equal(place.column, column);
}

static void check_error(const Fixture *f, int index, int line, int column, const char *key,
                        const char *says)
{
    assert_true(index < f->list.count);
    const Error *err = &f->list.item[index];
    check_place(err->from, line, column);
    assert_string_equal(err->key, key);
    assert_non_null(strstr(err->text, says));
}

/* ---- trees ---- */

static void test_tree_has_kinds_texts_and_places(void **state)
{
    const Node *root = read_good(*state, "# a deck\n"
                                         "deck:\n"
                                         "  length: 9 ft 3 in   # between joints\n"
                                         "  widths: [8.5 in, 'no', \"x\\ty\"]\n"
                                         "spans:\n"
                                         "- 120 ft\n"
                                         "- {to: 3}\n");
    assert_int_equal(root->kind, NODE_MAP);
    assert_int_equal(root->count, 2);
    const Node *deck = node_find(root, "deck"), *length = node_find(deck, "length");
    check_place(deck->key_from, 2, 1);
    check_place(deck->key_to, 2, 5);
    check_place(deck->from, 3, 3);
    check_place(deck->to, 4, 33); /* where its last value ends */
    assert_string_equal(length->text, "9 ft 3 in");
    assert_true(length->plain);
    check_place(length->from, 3, 11);
    check_place(length->to, 3, 20);
    const Node *widths = node_find(deck, "widths");
    assert_string_equal(node_item(widths, 1)->text, "no");
    assert_false(node_item(widths, 1)->plain);
    assert_string_equal(node_item(widths, 2)->text, "x\ty");
    const Node *spans = node_find(root, "spans");
    assert_int_equal(spans->kind, NODE_LIST);
    assert_string_equal(node_find(node_item(spans, 1), "to")->text, "3");
    check_place(spans->to, 7, 10);
}

static void test_scalars_stay_text(void **state)
{
    const Node *root =
        read_good(*state, "a: no\nb: 1e3\nc: 012\nd: ~\ne:\nf: 70 %\ng: 2026-11-25\n");
    static const char *const key[] = {"a", "b", "c", "d", "e", "f", "g"};
    static const char *const text[] = {"no", "1e3", "012", "~", "", "70 %", "2026-11-25"};
    for (int i = 0; i < 7; i++) assert_string_equal(node_find(root, key[i])->text, text[i]);
}

static void test_columns_count_characters(void **state)
{
    const Node *root = read_good(*state, "\xC3\xBC: {\xE4\xB8\xAD: x, b: y}\n");
    const Node *inner = node_find(root, "\xC3\xBC");
    check_place(inner->from, 1, 4);
    check_place(node_find(inner, "b")->from, 1, 14);
}

static void test_lines_of_other_systems(void **state)
{
    const Node *root = read_good(*state, "\xEF\xBB\xBF"
                                         "a: 1\r\nb:\r\n  - x\r\n");
    assert_string_equal(node_find(root, "a")->text, "1");
    check_place(node_item(node_find(root, "b"), 0)->from, 3, 5);
}

static void test_plain_on_several_lines_is_not_plain(void **state)
{
    const Node *root = read_good(*state, "a: one\n  two\nb: |\n  x\n  y\nc: z\n");
    assert_string_equal(node_find(root, "a")->text, "one two");
    assert_false(node_find(root, "a")->plain);
    assert_string_equal(node_find(root, "b")->text, "x\ny\n");
    assert_true(node_find(root, "c")->plain);
}

static void test_json_is_read_too(void **state)
{
    const Node *root = read_good(
        *state, "{\"a\": [1, 2.5e3, null], \"b\": {\"c\": \"\\u00fc\\/\\n\"}, \"d\": {}}");
    assert_string_equal(node_item(node_find(root, "a"), 1)->text, "2.5e3");
    assert_string_equal(node_find(node_find(root, "b"), "c")->text, "\xC3\xBC/\n");
    assert_int_equal(node_find(root, "d")->count, 0);
}

/* ---- refusals ---- */

static void test_repeated_keys_are_all_told(void **state)
{
    Fixture *f = *state;
    const char *const text = "span: 1\ndeck: {a: 1, b: 2, a: 3}\nspan: 4\n"
                             "list:\n  - {x: 1}\n  - x: 1\n    'x': 2\nspan: 5\n";
    read_bad(f, text, strlen(text), STATUS_BAD_INPUT);
    assert_int_equal(f->list.count, 4);
    check_error(f, 0, 2, 20, "deck.a", "\"a\" is given twice, first in line 2, column 8");
    check_error(f, 1, 3, 1, "span", "\"span\" is given twice, first in line 1, column 1");
    check_error(f, 2, 7, 5, "list[2].x", "first in line 6, column 5");
    check_error(f, 3, 8, 1, "span", "first in line 1, column 1");
    check_place(f->list.item[1].to, 3, 5);
}

static void test_refused_features_are_all_told(void **state)
{
    Fixture *f = *state;
    const char *const text = "a: &x [1]\nb: *x\nc: !!int 3\nd: !own {e: 1}\n<<: {g: 1}\n"
                             "h: \"x\\0y\"\n";
    read_bad(f, text, strlen(text), STATUS_BAD_INPUT);
    assert_int_equal(f->list.count, 6);
    check_error(f, 0, 1, 4, "a", "anchors");
    check_error(f, 1, 2, 4, "b", "aliases");
    check_error(f, 2, 3, 4, "c", "tags");
    check_error(f, 3, 4, 4, "d", "tags");
    check_error(f, 4, 5, 1, "", "merge keys");
    check_error(f, 5, 6, 4, "h", "NUL");
}

static void test_syntax_is_refused_with_its_place(void **state)
{
    static const struct {
        const char *text;
        int line, column;
        const char *says;
    } row[] = {
        {"a: [1, 2\nb: 3\n", 2, 2, "did not find expected ',' or ']'"},
        {"a:\n\tb: 1\n", 2, 1, "cannot start any token"},
        {"a: 1\n b: 2\n", 2, 3, "mapping values are not allowed"},
        {"a: 1\nb: \xFF\n", 2, 4, "invalid leading UTF-8 octet"},
        {"a: 1\n\xC3\xBC: \xED\xA0\x80\n", 2, 4, "invalid Unicode character"},
        {"a: 1\nb: \x01\n", 2, 4, "control characters are not allowed"},
        {"a: 'x\nb: 2\n", 3, 1, "unexpected end of stream"},
        {"a: 1\n---\nb: 2\n", 2, 1, "one document only"},
        {"? [a, b]\n: 1\n", 1, 3, "a key must be a plain text"},
        {"{[a]: 1}\n", 1, 2, "a key must be a plain text"},
        {"%YAML 1.1\n---\na: 1\n", 1, 1, "directives"},
        {"a: 1\n...\n%TAG ! x\n---\na: 1\n", 3, 1, "directives"},
        {"", 1, 1, "empty"},
        {"# nothing\n\n", 1, 1, "empty"},
        {"a: `x`\n", 1, 4, "cannot start any token"},
        {"a: @x\n", 1, 4, "cannot start any token"},
    };
    Fixture *f = *state;
    for (size_t i = 0; i < sizeof row / sizeof *row; i++) {
        read_bad(f, row[i].text, strlen(row[i].text), STATUS_BAD_INPUT);
        assert_int_equal(f->list.count, 1);
        assert_non_null(strstr(f->list.item[0].text, row[i].says));
        check_place(f->list.item[0].from, row[i].line, row[i].column);
    }
}

static void test_errors_before_broken_syntax_are_kept(void **state)
{
    Fixture *f = *state;
    const char *const text = "a: {b: 1, b: 2}\nc: *x\nd: [1\n";
    read_bad(f, text, strlen(text), STATUS_BAD_INPUT);
    assert_int_equal(f->list.count, 3);
    check_error(f, 0, 1, 11, "a.b", "twice");
    check_error(f, 1, 2, 4, "c", "aliases");
    check_error(f, 2, 4, 1, "", "this is no YAML");
}

static void test_depth_is_bounded(void **state)
{
    Fixture *f = *state;
    char text[2 * NODE_DEPTH_MAX + 3];
    for (int depth = NODE_DEPTH_MAX - 1; depth <= NODE_DEPTH_MAX; depth++) {
        memset(text, '[', (size_t)depth);
        text[depth] = 'x';
        memset(text + depth + 1, ']', (size_t)depth);
        text[2 * depth + 1] = 0;
        if (depth < NODE_DEPTH_MAX)
            read_good(f, text);
        else
            read_bad(f, text, strlen(text), STATUS_TOO_LARGE);
    }
}

/* `piece` repeated up to `size` bytes. */
static char *repeated(Fixture *f, const char *piece, size_t size)
{
    Text text = text_start(f->arena);
    while (text.length + strlen(piece) <= size) text_add(&text, piece);
    return text.bytes;
}

/* Texts that take naive readers minutes. The bound is processor time, ten times what is needed. */
static void test_hostile_texts_end_soon(void **state)
{
    static const char *const piece[] = {
        "[",
        "{",
        "- ",
        "? ",
        "{a: ",
        "[a, ",
        "%TAG !a! b\n",
        "a: &a *a\n",
        "*a ",
        "&a ",
        "\n",
        " ",
        "\"",
        "'",
        "|\n",
        "- - - - - - -\n",
        "a\n",
        "a: 1\n",
        "- x\n",
        "a: b: ",
        "!",
        "# ",
        "\t",
        "---\n",
        "...\n",
        "\r",
        ",",
        ":",
        "[[[[]]]],",
    };
    Fixture *f = *state;
    for (size_t i = 0; i < sizeof piece / sizeof *piece; i++) {
        const size_t mark = arena_mark(f->arena);
        const char *const text = repeated(f, piece[i], YAML_SIZE_MAX);
        Node *root;
        f->list = (Diagnostics){.count = 0};
        const clock_t start = clock();
        const Status status = yaml_read(text, strlen(text), f->arena, &root, &f->list);
        assert_true(clock() - start < 10 * CLOCKS_PER_SEC);
        assert_true(status == STATUS_OK || f->list.count > 0);
        arena_reset(f->arena, mark);
    }
    read_bad(f, repeated(f, "[", 200000), 200000, STATUS_TOO_LARGE);
}

static void test_too_many_values_are_refused(void **state)
{
    Fixture *f = *state;
    const char *const text = repeated(f, "- x\n", (size_t)4 * (NODE_COUNT_MAX + 10));
    read_bad(f, text, strlen(text), STATUS_TOO_LARGE);
    read_bad(f, text, YAML_SIZE_MAX + 1, STATUS_TOO_LARGE); /* refused before a byte is read */
    Node *root;
    f->list = (Diagnostics){.count = 0};
    const size_t size = (size_t)4 * (NODE_COUNT_MAX - 1); /* the list counts too */
    check_status(yaml_read(text, size, f->arena, &root, &f->list), STATUS_OK, f->list.item);
    assert_int_equal(root->count, NODE_COUNT_MAX - 1);
}

/* More errors than are kept: the first ones by place are not lost to later ones. */
static void test_many_errors_are_counted(void **state)
{
    Fixture *f = *state;
    const char *const text = repeated(f, "a: 1\n", (size_t)5 * 200);
    read_bad(f, text, strlen(text), STATUS_BAD_INPUT);
    assert_int_equal(f->list.count, DIAGNOSTICS_MAX);
    assert_int_equal(f->list.dropped, 199 - DIAGNOSTICS_MAX);
    check_error(f, 0, 2, 1, "a", "twice");
}

/* ---- files ---- */

static void path_in(const Fixture *f, const char *name, char path[256])
{
    snprintf(path, 256, "%s/%s", f->folder, name);
}

static void check_file(Fixture *f, const char *path, const char *expected)
{
    const char *bytes;
    size_t size;
    Error err;
    check_status(file_read(path, 1 << 20, f->arena, &bytes, &size, &err), STATUS_OK, &err);
    assert_string_equal(bytes, expected);
    assert_int_equal(size, strlen(expected));
}

static void write_good(const char *path, const char *text)
{
    Error err;
    check_status(file_write(path, text, strlen(text), &err), STATUS_OK, &err);
}

static void test_file_round_trip(void **state)
{
    Fixture *f = *state;
    char path[256];
    const char *bytes;
    size_t size;
    Error err;
    path_in(f, "a.yaml", path);
    write_good(path, "old, and longer than the new one\n");
    write_good(path, "new\n");
    check_file(f, path, "new\n");
    check_status(file_write(path, "a\0b", 3, &err), STATUS_OK, &err);
    check_status(file_read(path, 3, f->arena, &bytes, &size, &err), STATUS_OK, &err);
    assert_int_equal(size, 3);
    assert_memory_equal(bytes, "a\0b", 4);
    write_good(path, "");
    check_file(f, path, "");
    assert_int_equal(folder_empty(f->folder), 1); /* no temporary file is left */
}

static void test_file_read_refuses(void **state)
{
    Fixture *f = *state;
    char path[256];
    const char *bytes = NULL;
    size_t size;
    Error err;
    check_status(file_read(f->folder, 100, f->arena, &bytes, &size, &err), STATUS_IO, &err);
    assert_non_null(strstr(err.text, "is a directory"));
    check_status(file_read("/proc/self/mem", 100, f->arena, &bytes, &size, &err), STATUS_IO, &err);
    assert_non_null(strstr(err.text, "cannot be read")); /* page 0 is nobody's */
    path_in(f, "missing", path);
    check_status(file_read(path, 100, f->arena, &bytes, &size, &err), STATUS_IO, &err);
    assert_non_null(strstr(err.text, "No such file"));
    path_in(f, "exact", path);
    write_good(path, "1234567");
    check_status(file_read(path, 6, f->arena, &bytes, &size, &err), STATUS_TOO_LARGE, &err);
    assert_non_null(strstr(err.text, "more than 6 bytes"));
    assert_null(bytes);
    check_status(file_read("/dev/zero", 70000, f->arena, &bytes, &size, &err), STATUS_TOO_LARGE,
                 &err); /* endless, and of unknown size */
}

/* 50 MB: refused by its size, nothing of it is held. */
static void test_file_read_refuses_before_reading(void **state)
{
    Fixture *f = *state;
    char path[256];
    const char *bytes;
    size_t size;
    Error err;
    path_in(f, "large", path);
    const int fd = open(path, O_WRONLY | O_CREAT, 0600);
    assert_true(fd >= 0 && ftruncate(fd, 50 << 20) == 0 && close(fd) == 0);
    const size_t before = arena_peak(f->arena);
    check_status(file_read(path, YAML_SIZE_MAX, f->arena, &bytes, &size, &err), STATUS_TOO_LARGE,
                 &err);
    assert_true(arena_peak(f->arena) - before < 4096);
}

/* The disk is "full" after 100 bytes: the old file stays, the temporary one goes. */
static void test_file_write_failing_leaves_the_old_file(void **state)
{
    Fixture *f = *state;
    char path[256], text[1000];
    struct rlimit before, small;
    Error err;
    path_in(f, "a.yaml", path);
    write_good(path, "the old one\n");
    memset(text, 'x', sizeof text);
    signal(SIGXFSZ, SIG_IGN);
    getrlimit(RLIMIT_FSIZE, &before);
    small = before;
    small.rlim_cur = 100;
    setrlimit(RLIMIT_FSIZE, &small);
    const Status status = file_write(path, text, sizeof text, &err);
    setrlimit(RLIMIT_FSIZE, &before);
    check_status(status, STATUS_IO, &err);
    assert_non_null(strstr(err.text, "cannot be written: File too large"));
    check_file(f, path, "the old one\n");
    assert_int_equal(folder_empty(f->folder), 1);
    path_in(f, "missing/a.yaml", path);
    check_status(file_write(path, "x", 1, &err), STATUS_IO, &err);
    check_status(file_write(f->folder, "x", 1, &err), STATUS_IO, &err);
    static char longest[5000];
    memset(longest, 'x', sizeof longest - 1);
    check_status(file_write(longest, "x", 1, &err), STATUS_IO, &err);
}

static void test_file_write_keeps_mode_and_link(void **state)
{
    Fixture *f = *state;
    char path[256], link[256];
    struct stat about;
    path_in(f, "a.yaml", path);
    path_in(f, "link.yaml", link);
    write_good(path, "old");
    assert_int_equal(chmod(path, 0640), 0);
    assert_int_equal(symlink("a.yaml", link), 0);
    write_good(link, "new");
    check_file(f, path, "new");
    assert_int_equal(lstat(link, &about), 0);
    assert_true(S_ISLNK(about.st_mode));
    assert_int_equal(stat(path, &about), 0);
    assert_int_equal(about.st_mode & 07777, 0640);
    write_good("/dev/null", "x"); /* written to, not replaced */
    assert_int_equal(stat("/dev/null", &about), 0);
    assert_true(S_ISCHR(about.st_mode));
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, fixture_setup, fixture_teardown)
    const struct CMUnitTest tests[] = {
        TEST(test_tree_has_kinds_texts_and_places),
        TEST(test_scalars_stay_text),
        TEST(test_columns_count_characters),
        TEST(test_lines_of_other_systems),
        TEST(test_plain_on_several_lines_is_not_plain),
        TEST(test_json_is_read_too),
        TEST(test_repeated_keys_are_all_told),
        TEST(test_refused_features_are_all_told),
        TEST(test_syntax_is_refused_with_its_place),
        TEST(test_errors_before_broken_syntax_are_kept),
        TEST(test_depth_is_bounded),
        TEST(test_hostile_texts_end_soon),
        TEST(test_too_many_values_are_refused),
        TEST(test_many_errors_are_counted),
        TEST(test_file_round_trip),
        TEST(test_file_read_refuses),
        TEST(test_file_read_refuses_before_reading),
        TEST(test_file_write_failing_leaves_the_old_file),
        TEST(test_file_write_keeps_mode_and_link),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
