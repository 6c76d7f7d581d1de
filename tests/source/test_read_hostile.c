/* Whatever stands in a value or a key, reading ends: with a job, or with mistakes that each have a place. The seed and
 * the round are printed on failure. */
#include "check.h"
#include "job_text.h"

#include "format/file.h"

#include <string.h>

static const char *const values[] = {
    "null",
    "true",
    "false",
    "0",
    "-1",
    "1e300",
    "2.5",
    "\"\"",
    "\" \"",
    "\"x\"",
    "\"-\"",
    "[]",
    "{}",
    "[[]]",
    "[null]",
    "{\"a\": 1}",
    "\"1e9 h\"",
    "\"9999 y\"",
    "\"0 min\"",
    "\"2027-03-01\"",
    "\"9999-12-31 23:59\"",
    "\"top handle\"",
    "\"..\"",
    "\"/\"",
    "\"parts.csv\"",
    "\"job.json\"",
    "\"oil\"",
    "\"100 %\"",
    "\"1 m2\"",
    "\"1:0\"",
    "\"\\u001b[2J\"",
    "\"\xF0\x9F\xAA\xB5\"",
    "1000000000000000000000",
    "\"cured\"",
    "\"sand\"",
};

/* Where the n-th word (a string or a number) of a JSON text begins and ends. */
static bool find_word(const char *text, int n, size_t *from, size_t *to)
{
    for (size_t at = 0; text[at]; at = *to) {
        *from = at + strcspn(text + at, "\"0123456789-");
        if (!text[*from])
            return false;
        if (text[*from] == '"')
            *to = *from + 1 + strcspn(text + *from + 1, "\"") + 1;
        else
            *to = *from + strspn(text + *from, "0123456789.-e");
        if (n-- == 0)
            return true;
    }
    return false;
}

static const char *spoil(struct reader *reader, const char *text, uint64_t *seed, int words)
{
    size_t from, to;
    const char *value = values[check_random_int(seed, 0, (int)(sizeof values / sizeof values[0]) - 1)];
    assert_true(find_word(text, check_random_int(seed, 0, words - 1), &from, &to));
    return arena_textf(reader->arena, "%.*s%s%s", (int)from, text, value, text + to);
}

static void check_places(const struct err_list *list, int round)
{
    for (size_t i = 0; i < list->count; i++) {
        const struct err *err = &list->items[i];
        bool named = err->file[0] && err->found[0] && (err->code == ERR_WARNING || err->expected[0]);
        if (!named || ((err->line < 1 || err->column < 1) && strchr(err->file, '.')))
            fail_msg("round %d: %s %s: expected %s, found %s has no place", round, err->file, err->pointer,
                     err->expected, err->found);
    }
}

static int count_words(const char *text)
{
    size_t from, to;
    int words = 0;
    while (find_word(text, words, &from, &to))
        words++;
    return words;
}

static void check_spoilt(const char *job, const char *parts, uint64_t seed, int rounds)
{
    int words = count_words(job), read = 0;
    for (int round = 0; round < rounds; round++) {
        struct reader *reader = reader_make();
        const char *text = job;
        for (int n = check_random_int(&seed, 1, 3); n > 0; n--)
            text = spoil(reader, text, &seed, words - 8);
        struct job *good = job_text_read_parts(reader, text, parts);
        if (!good == !(reader->errors.count + reader->errors.dropped))
            fail_msg("round %d: a job, or mistakes, and never both:\n%s", round, text);
        check_places(&reader->errors, round);
        check_places(&reader->warnings, round);
        read += good != NULL;
        reader_free(reader);
    }
    check_true(HERE, read < rounds, "most are refused");
}

static void spoilt_jobs(void **state)
{
    (void)state;
    check_spoilt(job_text_job, job_text_parts, 20261125, 150);
}

/* Bytes of the part list changed, dropped and doubled. */
static void spoilt_parts(void **state)
{
    (void)state;
    static const char letters[] = "\",;\n\r x0-/'#\xC3\xA9";
    uint64_t seed = 25112026;
    for (int round = 0; round < 150; round++) {
        struct reader *reader = reader_make();
        char *text = arena_text(reader->arena, job_text_parts);
        for (int n = check_random_int(&seed, 1, 4); n > 0; n--) {
            int at = check_random_int(&seed, 0, (int)strlen(text) - 1);
            text[at] = letters[check_random_int(&seed, 0, (int)sizeof letters - 2)];
        }
        struct job *good = job_text_read_parts(reader, job_text_job, text);
        if (!good == !(reader->errors.count + reader->errors.dropped))
            fail_msg("round %d: a job, or mistakes, and never both:\n%s", round, text);
        check_places(&reader->errors, round);
        check_places(&reader->warnings, round);
        reader_free(reader);
    }
}

/* Memory that ends anywhere ends in the escape: no leak, no half job. */
static void memory_ends(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    assert_non_null(job_text_read_as(reader, job_text_job));
    const char *finishes = job_text_finishes(reader);
    size_t escapes = 0;
    bool done = false;
    for (size_t ceiling = 0; !done; ceiling += 12000) {
        static struct err_list errors, warnings;
        jmp_buf escape;
        struct arena *arena = arena_make(ceiling + 1);
        struct job_source source = {.path = "job.json", .finishes = finishes};
        assert_non_null(arena);
        errors.count = warnings.count = 0;
        if (setjmp(escape)) {
            escapes++;
        } else {
            arena_guard(arena, &escape);
            done = job_read(arena, &source, &errors, &warnings) != NULL;
            assert_true(done);
        }
        arena_free(arena);
    }
    check_true(HERE, escapes > 10, "it ended in many places");
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_TEST(spoilt_jobs), CHECK_TEST(spoilt_parts), CHECK_TEST(memory_ends));
}
