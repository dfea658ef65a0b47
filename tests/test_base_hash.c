/* SHA-256 against published messages. */
#include "check.h"

#include <string.h>

static void check_digest(const char *message, size_t piece, int times, const char *expected)
{
    unsigned char digest[SHA256_SIZE];
    char text[SHA256_TEXT];
    const size_t size = strlen(message);
    Sha256 sha = sha256_start();
    for (int k = 0; k < times; k++)
        for (size_t at = 0; at < size; at += piece)
            sha256_add(&sha, message + at, size - at < piece ? size - at : piece);
    sha256_end(&sha, digest);
    sha256_text(digest, text);
    assert_string_equal(text, expected);
}

/* FIPS 180-4 examples ("abc", two blocks, a million a): csrc.nist.gov SHA256.pdf; the empty message: NIST
 * CAVP SHA256ShortMsg; from memory, reproduced by the system's sha256sum. */
static void test_sha256_published_messages(void **state)
{
    (void)state;
    for (size_t piece = 1; piece < 70; piece += 3) {
        check_digest("", piece, 1,
                     "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        check_digest("abc", piece, 1,
                     "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        check_digest("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq", piece, 1,
                     "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    }
    check_digest("aaaaaaaaaa", 10, 100000,
                 "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_sha256_published_messages)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
