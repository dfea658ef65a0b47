/* Who may come in where the server is reached from elsewhere: tokens, files of secrets, names, rates. */
#define _XOPEN_SOURCE 700
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "../src/server/server_data.h"
#include "clench/text.h"
#include "server_case.h"

#define READER "0123456789abcdef0123456789abcdef"
#define WRITER "ABCDEFGHIJKLMNOPQRSTUVWXYZ-._~+/="

static Status read_text(const char *text, Tokens *tokens, Error *err)
{
    return tokens_read(text, strlen(text), tokens, err);
}

static void test_tokens_have_their_role(void **state)
{
    (void)state;
    Tokens tokens;
    Error err = {0};
    check_status(read_text("# who may\n\nreader " READER "\r\n  writer\t" WRITER "  # pump\n",
                           &tokens, &err),
                 STATUS_OK, &err);
    assert_int_equal(tokens.count, 2);
    assert_int_equal(tokens_find(&tokens, "Bearer " READER)->role, ROLE_READER);
    assert_int_equal(tokens_find(&tokens, "bearer " WRITER)->role,
                     ROLE_WRITER); /* RFC 9110, 11.1 */
    static const char *const none[] = {NULL,
                                       "",
                                       "Bearer",
                                       "Bearer ",
                                       READER,
                                       "Basic " READER,
                                       "Bearer  " READER,
                                       "Bearer " READER " ",
                                       "Bearer 0123456789abcdef0123456789abcde",
                                       "Bearer 0123456789abcdef0123456789abcdeF"};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++)
        assert_null(tokens_find(&tokens, none[i]));
}

static void test_files_of_tokens_that_are_wrong_are_refused(void **state)
{
    (void)state;
    static const char *const bad[] = {"",
                                      "# nothing\n",
                                      "reader short\n",
                                      "reader 0123456789abcdef0123456789abcde\n",
                                      "owner " READER "\n",
                                      "reader" READER "\n",
                                      READER "\n",
                                      "reader " READER " " READER "\n",
                                      "reader " READER "\xC3\xA9\n",
                                      "reader " READER "\nwriter " READER "\n"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        Tokens tokens;
        Error err = {0};
        assert_int_equal(read_text(bad[i], &tokens, &err), STATUS_BAD_INPUT);
        assert_true(err.text[0]);
        assert_null(strstr(err.text, "0123456789")); /* a secret is not printed */
    }
}

static void test_secrets_are_their_owners_alone(void **state)
{
    (void)state;
    char path[] = "/tmp/clench-test-XXXXXX", *bytes;
    size_t size;
    Error err = {0};
    Arena *const arena = arena_create(1 << 20);
    const int fd = mkstemp(path);
    assert_int_equal(write(fd, "secret", 6), 6);
    static const mode_t shut[] = {0600, 0400}, open_to[] = {0640, 0604, 0666, 0620};
    for (size_t i = 0; i < 2; i++) {
        assert_int_equal(fchmod(fd, shut[i]), 0);
        check_status(private_read(path, "key", &bytes, &size, arena, &err), STATUS_OK, &err);
        assert_int_equal(size, 6);
    }
    for (size_t i = 0; i < 4; i++) {
        assert_int_equal(fchmod(fd, open_to[i]), 0);
        check_status(private_read(path, "key", &bytes, &size, arena, &err), STATUS_BAD_INPUT, &err);
        check_has(err.text, "chmod 600");
    }
    close(fd);
    unlink(path);
    check_status(private_read(path, "key", &bytes, &size, arena, &err), STATUS_IO, &err);
    check_status(private_read("/tmp", "key", &bytes, &size, arena, &err), STATUS_IO, &err);
    check_status(private_read("/dev/zero", "key", &bytes, &size, arena, &err), STATUS_IO, &err);
    arena_free(arena);
}

static int fence_says(const char *host, const char *origin, int port)
{
    Error err = {0};
    const Fence fence = {.secure = true, .port = port, .name = {"site.example", "[fd00::7]"}};
    const Call call = {.path = "/api/file", .host = host, .origin = origin};
    return fence_check(&call, &fence, &err);
}

static void test_host_and_origin_are_this_server(void **state)
{
    (void)state;
    assert_int_equal(fence_says("site.example:9443", NULL, 9443), 0);
    assert_int_equal(fence_says("SITE.example:9443", "https://SITE.example:9443", 9443), 0);
    assert_int_equal(fence_says("[fd00::7]:9443", NULL, 9443), 0);
    assert_int_equal(fence_says("site.example", NULL, 9443), 421); /* that is port 443 */
    assert_int_equal(fence_says("site.example", "https://site.example", 443), 0);
    assert_int_equal(fence_says("127.0.0.1:9443", NULL, 9443), 421);
    assert_int_equal(fence_says("localhost:9443", NULL, 9443), 421);
    assert_int_equal(fence_says("", NULL, 9443), 421);
    assert_int_equal(fence_says("site.example:9443", "http://site.example:9443", 9443), 403);
    assert_int_equal(fence_says("site.example:9443", "https://other.example:9443", 9443), 403);
    static const char *const bad[] = {"", "a b", "a:443", "a/", "[fd00::7]", "a\r\n", "a@b"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) assert_false(name_good(bad[i]));
    assert_true(name_good("site-7.example"));
}

static void test_rates_are_bounded_and_come_back(void **state)
{
    (void)state;
    Rate rate = {0};
    int in = 0;
    for (int i = 0; i < 2 * RATE_BURST; i++) in += rate_take(&rate, 1, 7.3) == 0;
    assert_int_equal(in, RATE_BURST);
    assert_int_equal(rate_take(&rate, 1, 7.3), 1);
    for (int i = 0; i < 2 * RATE_BURST; i++) in += rate_take(&rate, 1, 9.3) == 0;
    assert_int_equal(in, RATE_BURST + 2 * RATE_PER_S);
    for (int i = 0; i < 2 * RATE_BURST; i++) in += rate_take(&rate, 1, 99999) == 0;
    assert_int_equal(in, 2 * RATE_BURST + 2 * RATE_PER_S); /* never more than a full bucket */
}

/* One address does not use up another's, and there are never more of them than stated. */
static void test_addresses_are_bounded(void **state)
{
    (void)state;
    Rates *const rates = calloc(1, sizeof *rates);
    unsigned char who[ADDRESS_SIZE] = {0};
    assert_non_null(rates);
    for (int i = 0; i < 2 * RATE_BURST; i++) (void)rates_take(rates, who, 1, 1.5);
    assert_true(rates_take(rates, who, 1, 1.5) > 0);
    for (int i = 1; i < 5000; i++) {
        who[3] = (unsigned char)(i >> 8);
        who[4] = (unsigned char)i;
        assert_int_equal(rates_take(rates, who, 1, 1.5 + i * 1e-6), 0);
        assert_true(rates->count <= RATES_MAX);
    }
    free(rates);
}

/* ---- starting ---- */

static void test_what_a_start_lacks_is_told(void **state)
{
    (void)state;
    Error err = {0};
    Server *server = NULL;
    const struct {
        ServerWish wish;
        const char *says;
    } bad[] = {
        {{.listen = "127.0.0.1"}, "needs --certificate, --key and --tokens"},
        {{.listen = "127.0.0.1", .certificate = "c", .key = "k"}, "needs --certificate"},
        {{.tokens = "t"}, "go with --listen"},
        {{.name = "site.example"}, "go with --listen"},
        {{.listen = "here", .certificate = "c", .key = "k", .tokens = "t"}, "is no address"},
        {{.listen = "127.0.0.1", .name = "a b", .certificate = "c", .key = "k", .tokens = "t"},
         "is no name"},
        {{.listen = "0.0.0.0", .certificate = "c", .key = "k", .tokens = "t"}, "--name says"},
        {{.listen = "::", .certificate = "c", .key = "k", .tokens = "t"}, "--name says"},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        ServerWish wish = bad[i].wish;
        wish.path = "/tmp/clench-none.yaml";
        check_status(server_start(&wish, &server, &err), STATUS_BAD_INPUT, &err);
        check_has(err.text, bad[i].says);
    }
    const ServerWish none = {.path = "/tmp/clench-none.yaml",
                             .listen = "127.0.0.1",
                             .certificate = "/tmp/clench-none.pem",
                             .key = "/tmp/clench-none.pem",
                             .tokens = "/tmp/clench-none"};
    check_status(server_start(&none, &server, &err), STATUS_IO, &err);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_tokens_have_their_role),
        cmocka_unit_test(test_files_of_tokens_that_are_wrong_are_refused),
        cmocka_unit_test(test_secrets_are_their_owners_alone),
        cmocka_unit_test(test_host_and_origin_are_this_server),
        cmocka_unit_test(test_rates_are_bounded_and_come_back),
        cmocka_unit_test(test_addresses_are_bounded),
        cmocka_unit_test(test_what_a_start_lacks_is_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
