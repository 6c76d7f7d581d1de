#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "format/csv.h"
#include "format/json.h"
#include "format/json_tree.h"

#include <string.h>

struct place_row {
    struct row row;
    const char *text;
    size_t offset;
    int line, column;
};

static const struct place_row places[] = {
    {ROW("the first character"), "abc", 0, 1, 1},
    {ROW("the third"), "abc", 2, 1, 3},
    {ROW("behind the last"), "abc", 3, 1, 4},
    {ROW("far behind"), "abc", 99, 1, 4},
    {ROW("nothing"), "", 0, 1, 1},
    {ROW("LF"), "a\nbc", 3, 2, 2},
    {ROW("on a line end"), "a\nbc", 1, 1, 2},
    {ROW("CR LF is one line end"), "a\r\nbc", 4, 2, 2},
    {ROW("CR alone"), "a\rbc", 3, 2, 2},
    {ROW("empty lines"), "\n\n\nx", 3, 4, 1},
    {ROW("columns count characters"), "\xC2\xBE\xE2\x80\xB3x", 5, 1, 3},
    {ROW("a broken byte counts one"), "\xFF\xFFx", 2, 1, 3},
    {ROW("a byte-order mark is none"), "\xEF\xBB\xBFx", 3, 1, 1},
    {ROW("only on the first line"), "\xEF\xBB\xBF\nx", 4, 2, 1},
};

static void place_is(void **state)
{
    const struct place_row *r = *state;
    struct place got = place_at(r->text, strlen(r->text), r->offset);
    check_int(&r->row, got.line, r->line);
    check_int(&r->row, got.column, r->column);
}

/* What stands at the place found, up to its end or 12 bytes. */
struct pointer_row {
    struct row row;
    const char *pointer;
    bool key;
    const char *want;
};

static const char json[] =
    "\xEF\xBB\xBF { \"a\" : [ 10, \"x,]}\\\"\", {\"b\": {\"c\": 3}}, [] ],\n"
    "  \"\": 4, \"d/e~f\": 5, \"\\u0067\\ud83d\\ude00\": 6, \"h\\\\\": 7, \"e\": {}, \"last\": true }";

/* RFC 6901 decides what a pointer names. */
static const struct pointer_row pointers[] = {
    {ROW("the whole"), "", false, "{ \"a\" : [ 10"},
    {ROW("a member"), "/a", false, "[ 10, \"x,]}\\"},
    {ROW("its key"), "/a", true, "\"a\" : [ 10, "},
    {ROW("an item"), "/a/0", false, "10, \"x,]}\\\"\""},
    {ROW("over text with brackets"), "/a/2", false, "{\"b\": {\"c\": "},
    {ROW("deep"), "/a/2/b/c", false, "3}}, [] ],\n "},
    {ROW("a deep key"), "/a/2/b/c", true, "\"c\": 3}}, []"},
    {ROW("an empty list"), "/a/3", false, "[] ],\n  \"\": "},
    {ROW("no such item: the list"), "/a/4", false, "[ 10, \"x,]}\\"},
    {ROW("no such item of an empty list"), "/a/3/0", false, "[] ],\n  \"\": "},
    {ROW("no number: the list"), "/a/x", false, "[ 10, \"x,]}\\"},
    {ROW("the empty key"), "/", false, "4, \"d/e~f\": "},
    {ROW("escaped in the pointer"), "/d~1e~0f", false, "5, \"\\u0067\\u"},
    {ROW("escaped in the text"), "/g\xF0\x9F\x98\x80", false, "6, \"h\\\\\": 7,"},
    {ROW("a backslash"), "/h\\", false, "7, \"e\": {}, "},
    {ROW("no such member: the object"), "/nowhere", false, "{ \"a\" : [ 10"},
    {ROW("no such member of an empty one"), "/e/x", false, "{}, \"last\": "},
    {ROW("below a value: the value"), "/last/x/y", false, "true }"},
    {ROW("no pointer"), "last", false, "{ \"a\" : [ 10"},
};

static void pointer_finds(void **state)
{
    const struct pointer_row *r = *state;
    struct reader *reader = reader_make();
    struct file_text file = reader_file("job.json", json);
    const struct json_value *root = json_scan(reader->arena, &file, &reader->errors);
    const struct json_value *found = root ? json_tree_find(root, r->pointer) : NULL;
    char got[13] = "";
    if (found)
        strncpy(got, json + (r->key ? found->name_at : found->at), sizeof got - 1);
    check_text(&r->row, got, r->want);
    reader_free(reader);
}

static const char table[] = "part,qty\ntop,1\nleg,4\n";

/* The reader of a list knows its rows; this one knows but one place. */
static size_t locate_cell(struct arena *arena, const void *kept, const struct file_text *file,
                          const char *pointer)
{
    (void)arena;
    (void)kept;
    return strcmp(pointer, "/1/qty") == 0 ? (size_t)(strchr(file->text, '4') - file->text) : 0;
}

/* A mistake of a room that knows no files gets its place from the texts read. */
static void later_mistakes_are_placed(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct file_text job = reader_file("job.json", "{\n \"a\": [1, 2]}"),
                     list = reader_file("parts.csv", table);
    struct json_at root;
    assert_true(json_parse(&reader->reading, &job, &root));
    texts_add(reader->reading.texts, &list, locate_cell, NULL);
    err_add(&reader->errors, ERR_INPUT, "job.json", "/a/1", "less", "more");
    err_add(&reader->errors, ERR_INPUT, "parts.csv", "/1/qty", NULL, "too many");
    err_add(&reader->errors, ERR_INPUT, "other.csv", "/1", NULL, "unknown");
    texts_locate(reader->reading.texts, &reader->errors);
    check_text(HERE, reader_lines(reader, &reader->errors),
               "job.json:2:11: /a/1: expected less, found more\n"
               "parts.csv:3:5: row 2, qty: too many\n"
               "other.csv: row 2: unknown");
    reader_free(reader);
}

/* File by file as they first appear, then by place; equals as they came. */
static void mistakes_are_put_in_order(void **state)
{
    (void)state;
    static const struct err told[] = {
        {.file = "b", .line = 3, .column = 1, .found = "1"},
        {.file = "a", .line = 2, .column = 5, .found = "2"},
        {.file = "b", .line = 1, .column = 9, .found = "3"},
        {.file = "a", .line = 2, .column = 5, .found = "4"},
        {.file = "b", .line = 3, .column = 0, .found = "5"},
        {.file = "a", .line = 2, .column = 4, .found = "6"},
    };
    struct reader *reader = reader_make();
    char order[7] = "";
    memcpy(reader->errors.items, told, sizeof told);
    reader->errors.count = 6;
    texts_order(&reader->errors);
    for (size_t i = 0; i < 6; i++)
        order[i] = reader->errors.items[i].found[0];
    check_text(HERE, order, "351624");
    reader_free(reader);
}

/* RFC 8259, section 7: what escapes stand for. */
static void escapes_are_decoded(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct file_text file = reader_file(
        "job.json", "{\"\\u00e9\\u20ac\\ud83d\\ude00\": \"a\\\"\\\\\\/\\b\\f\\n\\r\\t\\u0041z\"}");
    const struct json_value *root = json_scan(reader->arena, &file, &reader->errors);
    assert_non_null(root);
    check_text(HERE, root->child->name, "\xC3\xA9\xE2\x82\xAC\xF0\x9F\x98\x80");
    check_text(HERE, root->child->text, "a\"\\/\b\f\n\r\tAz");
    reader_free(reader);
}

static void pointer_tokens(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct buf buf;
    buf_init(&buf, reader->arena);
    json_pointer_add(&buf, "a/b~c");
    json_pointer_add_index(&buf, 12);
    check_text(HERE, buf.text, "/a~1b~0c/12");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(places, place_is), CHECK_ROWS(pointers, pointer_finds),
                     CHECK_TEST(later_mistakes_are_placed), CHECK_TEST(mistakes_are_put_in_order),
                     CHECK_TEST(pointer_tokens), CHECK_TEST(escapes_are_decoded));
}
