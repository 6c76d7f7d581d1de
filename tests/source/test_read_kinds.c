/* Each value of a job, its shop, its parts and a finish that use every key is replaced by a value of another kind: it is refused, and
 * the mistake is placed at that value, or at one within it or around it. */
#include "check.h"
#include "full_job.h"

#include "base/buf.h"
#include "format/json_tree.h"

#include <stdio.h>
#include <string.h>

/* null is nowhere a value, and nobody has this key or a list of lists. */
static const char *const never[] = {"null", "{\"no-such-key\": 1}", "[[]]"};
/* These may be values; where they are none they have their place too. */
static const char *const seldom[] = {"true",
                                     "-1",
                                     "1e300",
                                     "\"\"",
                                     "[]",
                                     "{}",
                                     "\"\\u0007\"",
                                     "\"no-such-word\"",
                                     "\"-3 mm\"",
                                     "\"99999999 y\"",
                                     "\"99999999 m2\"",
                                     "\"99999999\"",
                                     "\"1:0\""};

enum { WHOLE = 2 }; /* of them tried for lists and objects */

/* Where the value ends that begins there. */
static size_t end_of(const char *text, size_t at)
{
    int depth = 0;
    bool quoted = false;
    for (;; at++) {
        if (quoted) {
            quoted = text[at] != '"';
        } else if (depth == 0 && strchr(",]} \n", text[at])) {
            return at;
        } else if (text[at] == '"') {
            quoted = true;
        } else if (strchr("[{", text[at])) {
            depth++;
        } else if (strchr("]}", text[at])) {
            depth--;
        }
        if (depth == 0 && !quoted && strchr("\"]}", text[at]))
            return at + 1;
    }
}

/* Whether one of two pointers leads to the other. */
static bool on_one_way(const char *a, const char *b)
{
    size_t length = strlen(a) < strlen(b) ? strlen(a) : strlen(b);
    return strncmp(a, b, length) == 0 && (a[length] == '\0' || a[length] == '/') &&
           (b[length] == '\0' || b[length] == '/');
}

struct trying {
    const char *text;
    bool of_job;
    int tried, refused;
};

static bool read_with(struct reader *reader, const struct trying *trying, const struct json_value *value,
                      const char *put)
{
    const char *text = arena_textf(reader->arena, "%.*s%s%s", (int)value->at, trying->text, put,
                                   trying->text + end_of(trying->text, value->at));
    return full_job_read(reader, trying->of_job ? text : full_job_text(reader),
                         trying->of_job ? full_job_finish(reader) : text) != NULL;
}

/* Whether what names it, or needs it, may be what is wrong then. */
static bool is_missed(const struct json_value *value, const char *put)
{
    static const char *const names[] = {"part", "piece", "task", "shape", "finish", "component"};
    bool named = strcmp(put, "[]") == 0 || strcmp(put, "{}") == 0 || strcmp(put, "\"\"") == 0;
    for (size_t i = 0; value->name && i < sizeof names / sizeof names[0]; i++)
        named |= put[0] == '"' && strcmp(value->name, names[i]) == 0;
    return named;
}

static void try_value(struct trying *trying, const struct json_value *value, const char *put, bool must)
{
    struct reader *reader = reader_make();
    struct buf pointer;
    buf_init(&pointer, reader->arena);
    json_tree_pointer(&pointer, value);
    bool good = read_with(reader, trying, value, put);
    bool placed = good || is_missed(value, put);
    const char *file = trying->of_job ? "job.json" : "own/own-oil.json";
    for (size_t i = 0; i < reader->errors.count; i++)
        placed |= strcmp(reader->errors.items[i].file, file) == 0 &&
                  on_one_way(reader->errors.items[i].pointer, pointer.text);
    if (good == (reader->errors.count > 0) || !placed || (must && good))
        fail_msg("%s%s = %s: %s\n%s", file, pointer.text, put,
                 good ? "is read" : "has no mistake at its place", reader_lines(reader, &reader->errors));
    trying->tried++;
    trying->refused += !good;
    reader_free(reader);
}

/* Behind as many mistakes as are told, one more is counted, and the job is no less refused. */
static void try_beyond(const struct trying *trying, const struct json_value *value)
{
    struct reader *reader = reader_make();
    while (reader->errors.dropped == 0)
        err_add(&reader->errors, ERR_INPUT, "other.json", "", "something", "something else");
    size_t told = reader->errors.count;
    check_true(HERE, !read_with(reader, trying, value, "null"), "refused");
    check_true(HERE, reader->errors.count == told && reader->errors.dropped > 1, "counted");
    reader_free(reader);
}

static void try_all(struct trying *trying, const struct json_value *value)
{
    for (size_t i = 0; value->parent && i < sizeof never / sizeof never[0]; i++)
        try_value(trying, value, never[i], true);
    for (size_t i = 0; value->parent && i < sizeof seldom / sizeof seldom[0]; i++)
        if (!json_child(value) || i < WHOLE)
            try_value(trying, value, seldom[i], false);
    if (value->parent)
        try_beyond(trying, value);
    for (const struct json_value *child = json_child(value); child; child = child->next)
        try_all(trying, child);
}

static void try_text(struct reader *reader, const char *text, bool of_job, int values)
{
    struct file_text file = reader_file("text", text);
    struct trying trying = {.text = text, .of_job = of_job};
    const struct json_value *root = json_scan(reader->arena, &file, &reader->errors);
    assert_non_null(root);
    try_all(&trying, root);
    check_true(HERE, trying.tried > 10 * values && trying.refused * 5 > trying.tried * 4,
               "most of many values are refused");
    reader_free(reader);
}

static void it_is_read(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)full_job_read(reader, full_job_text(reader), full_job_finish(reader));
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    reader_free(reader);
}

static void values_of_a_job(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    try_text(reader, full_job_text(reader), true, 200);
}

static void values_of_a_finish(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    try_text(reader, full_job_finish(reader), false, 80);
}

int main(void)
{
    full_job_begin();
    return CHECK_ALL(CHECK_TEST(it_is_read), CHECK_TEST(values_of_a_job), CHECK_TEST(values_of_a_finish));
}
