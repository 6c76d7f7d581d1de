/* What tells files of one name from each other is drawn once and kept. */
#include "check.h"
#include "reader.h"

#include "format/key.h"

#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char *key(struct reader *reader, const char *path)
{
    struct err err;
    const char *key = key_of(reader->arena, path, &err);
    return key ? key : arena_textf(reader->arena, "expected %s", err.expected);
}

static void keys_last_and_differ(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "one", NULL), 0700), 0);
    assert_int_equal(mkdir(reader_path(reader, "two", NULL), 0700), 0);
    const char *desk = reader_path(reader, "one/desk.json", "{}"), *first = key(reader, desk);
    check_int(HERE, (intmax_t)strspn(first, "0123456789abcdef"), 12);
    check_text(HERE, key(reader, desk), first);
    check_true(HERE, strcmp(key(reader, reader_path(reader, "one/doors.json", "{}")), first) != 0,
               "another file");
    check_true(HERE, strcmp(key(reader, reader_path(reader, "two/desk.json", "{}")), first) != 0,
               "another folder");
    check_text(HERE, key(reader, "-"), "");
    check_text(HERE, key(reader, reader_path(reader, "none/desk.json", NULL)), "");
    reader_free(reader);
}

/* A key that was lost or edited would give every event a second life: it is told. */
static void a_broken_key_is_told(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    assert_int_equal(mkdir(reader_path(reader, "broken", NULL), 0700), 0);
    const char *desk = reader_path(reader, "broken/desk.json", "{}");
    static const char *const broken[] = {"", "hello\n", "0123456789abcdef0\n", "0123456789ABCDEF\n"};
    for (size_t i = 0; i < sizeof broken / sizeof broken[0]; i++) {
        reader_path(reader, "broken/.coatwright-key", broken[i]);
        check_true(HERE, strncmp(key(reader, desk), "expected the 16 digits", 22) == 0, broken[i]);
    }
    reader_path(reader, "broken/.coatwright-key", "0123456789abcdef\n");
    check_int(HERE, (intmax_t)strlen(key(reader, desk)), 12);
    assert_int_equal(unlink(reader_path(reader, "broken/.coatwright-key", NULL)), 0);
    assert_int_equal(symlink("/etc/hostname", reader_path(reader, "broken/.coatwright-key", NULL)), 0);
    check_true(HERE, strncmp(key(reader, desk), "expected a path inside", 22) == 0,
               "a link out of the folder");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(keys_last_and_differ), CHECK_TEST(a_broken_key_is_told));
}
