/* SHA-256 against the examples that NIST gives for FIPS 180-4 (csrc.nist.gov, "SHA256.pdf", and the million letters of FIPS 180-2, B.3), from
 * memory, and lengths around a block against coreutils' sha256sum. */
#include "check.h"
#include "base/sha256.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const struct {
    const char *text, *hex;
} known[] = {
    {"", "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"},
    {"abc", "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"},
    {"abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
     "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"},
};

static void published(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        char hex[65];
        struct sha256 hash = sha256_of(known[i].text, strlen(known[i].text));
        sha256_hex(&hash, 64, hex);
        check_text(HERE, hex, known[i].hex);
    }
}

static void a_million(void **state)
{
    (void)state;
    enum { MILLION = 1000000 };
    char *text = malloc(MILLION), hex[65];
    assert_non_null(text);
    memset(text, 'a', MILLION);
    struct sha256 hash = sha256_of(text, MILLION);
    sha256_hex(&hash, 64, hex);
    check_text(HERE, hex, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    free(text);
}

/* Every length around the ends of the first blocks, as another program computes it. */
static void lengths(void **state)
{
    (void)state;
    for (int length = 50; length <= 130; length++) {
        char command[120], theirs[65] = "", ours[65], text[131];
        memset(text, 'x', sizeof text);
        snprintf(command, sizeof command, "head -c %d /dev/zero | tr '\\0' x | sha256sum", length);
        FILE *pipe = popen(command, "r");
        assert_non_null(pipe);
        assert_int_equal(fread(theirs, 1, 64, pipe), 64);
        assert_int_equal(pclose(pipe), 0);
        struct sha256 hash = sha256_of(text, (size_t)length);
        sha256_hex(&hash, 64, ours);
        check_text(HERE, ours, theirs);
    }
}

/* base64 of the hash of nothing, as `openssl dgst -binary -sha256 | base64` prints it. */
static void base64(void **state)
{
    (void)state;
    char text[SHA256_BASE64_SIZE], short_hex[9];
    struct sha256 hash = sha256_of("", 0);
    sha256_base64(&hash, text);
    check_text(HERE, text, "47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU=");
    sha256_hex(&hash, 8, short_hex);
    check_text(HERE, short_hex, "e3b0c442");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(published), cmocka_unit_test(a_million),
                                       cmocka_unit_test(lengths), cmocka_unit_test(base64)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
