#include "check.h"
#include "reader.h"

#include "format/json_tree.h"

#include <stdio.h>
#include <string.h>

struct scan_row {
    struct row row;
    const char *text, *want; /* "": accepted */
};

/* RFC 8259 decides what is accepted. */
static const struct scan_row scans[] = {
    {ROW("an object"), "{\"a\": [1, -2.5e3, true, false, null, \"x\"]}", ""},
    {ROW("a bare value"), " 12 \r\n", ""},
    {ROW("escapes"), "[\"\\\" \\\\ \\/ \\b \\f \\n \\r \\t \\u00e9 \\ud83d\\ude00\"]", ""},
    {ROW("a byte-order mark"), "\xEF\xBB\xBF{}", ""},
    {ROW("empty file"), "", "job.json:1:1: expected JSON text, found an empty file"},
    {ROW("blank file"), "\n\n  ", "job.json:3:3: expected JSON text, found an empty file"},
    {ROW("no closing brace"), "{\"a\": 1",
     "job.json:1:8: /a: expected \",\" or \"}\", found the end of the file"},
    {ROW("no comma"), "{\"a\": 1\n \"b\": 2}", "job.json:2:2: /a: expected \",\" or \"}\", found \"b\""},
    {ROW("no colon"), "{\"a\" 1}", "job.json:1:6: /a: expected \":\" after the key, found 1"},
    {ROW("no value"), "{\"a\": }", "job.json:1:7: /a: expected a value, found \"}\""},
    {ROW("comma before the brace"), "{\"a\": 1,\n}",
     "job.json:1:8: /a: expected no comma before \"}\", found \",\""},
    {ROW("comma before the bracket"), "[1, ]",
     "job.json:1:3: /0: expected no comma before \"]\", found \",\""},
    {ROW("wrong bracket"), "{\"a\": [1}", "job.json:1:9: /a/0: expected \",\" or \"]\", found \"}\""},
    {ROW("bare key"), "{shop: 1}", "job.json:1:2: expected a key in double quotes, found shop"},
    {ROW("single quotes"), "{\"a\": 'x'}",
     "job.json:1:7: /a: expected double quotes around text, found \"'\""},
    {ROW("a comment"), "{\"a\": 1} // note", "job.json:1:10: expected nothing after the value, found \"/\""},
    {ROW("text after the value"), "{\"a\": 1}\n{}",
     "job.json:2:1: expected nothing after the value, found \"{\""},
    {ROW("leading zeros"), "[007]", "job.json:1:2: /0: expected a number without leading zeros, found 007"},
    {ROW("no digit after the point"), "[1.]",
     "job.json:1:2: /0: expected a digit after the decimal point, found 1."},
    {ROW("no digit before the point"), "[.5]", "job.json:1:2: /0: expected a value, found .5"},
    {ROW("a plus"), "[+5]", "job.json:1:2: /0: expected a value, found +5"},
    {ROW("no digit in the exponent"), "[1e+]",
     "job.json:1:2: /0: expected a digit in the exponent, found 1e+"},
    {ROW("beyond a double"), "{\"qty\": 1e400}",
     "job.json:1:9: /qty: expected a number that is not beyond all measure, found 1e400"},
    {ROW("NaN"), "{\"qty\": NaN}", "job.json:1:9: /qty: expected a value, found NaN"},
    {ROW("-Infinity"), "[-Infinity]", "job.json:1:2: /0: expected a number, found -Infinity"},
    {ROW("True"), "[True]", "job.json:1:2: /0: expected a value, found True"},
    {ROW("hexadecimal"), "[0x1F]",
     "job.json:1:2: /0: expected a number, or text in double quotes, found 0x1F"},
    {ROW("a unit without quotes"), "{\"a\": 19mm}",
     "job.json:1:7: /a: expected a number, or text in double quotes, found 19mm"},
    {ROW("a decimal comma"), "{\"a\": 1,5}",
     "job.json:1:7: /a: expected a decimal point: write 1.5, not 1,5, found 1"},
    {ROW("a list of numbers"), "{\"a\": [1,5]}", ""},
    {ROW("duplicate key"), "{\"shop\": {\"people\": 1,\n  \"people\": 2}}",
     "job.json:2:3: /shop/people: expected each key once, found a second one of this name"},
    {ROW("duplicate by an escape"), "{\"a\": 1, \"\\u0061\": 2}",
     "job.json:1:10: /a: expected each key once, found a second one of this name"},
    {ROW("three of one name"), "{\"a\": 1, \"a\": 2, \"a\": 3}",
     "job.json:1:10: /a: expected each key once, found a second one of this name\n"
     "job.json:1:18: /a: expected each key once, found a second one of this name"},
    {ROW("the same key in two objects"), "[{\"a\": 1}, {\"a\": 2}]", ""},
    {ROW("a slash in a key"), "{\"a/b~c\": 1, \"a/b~c\": 2}",
     "job.json:1:14: /a~1b~0c: expected each key once, found a second one of this name"},
    {ROW("bad UTF-8"), "{\"note\": \"caf\xE9\"}", "job.json:1:14: expected UTF-8 text, found byte 0xe9"},
    {ROW("overlong UTF-8"), "[\"\xC0\xAF\"]", "job.json:1:3: expected UTF-8 text, found byte 0xc0"},
    {ROW("\\u0000"), "{\"a\": \"x\\u0000y\"}",
     "job.json:1:9: /a: expected text without the character \\u0000, found \\u0000"},
    {ROW("a control character in a key"), "{\"a\": 1, \"b\\u001b[2J\": 2}",
     "job.json:1:10: expected a key without control characters, found \"b\\u001b[2J\""},
    {ROW("half a pair"), "[\"\\ud83d\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ud83d"},
    {ROW("a low surrogate alone"), "[\"\\ude00\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ude00"},
    {ROW("an unknown escape"), "[\"\\q\"]",
     "job.json:1:3: /0: expected an escape such as \\\" \\\\ \\n or \\u00e9, found \\q"},
    {ROW("three hexadecimal digits"), "[\"\\u12x4\"]",
     "job.json:1:3: /0: expected four hexadecimal digits after \\u, found \\u12x4"},
    {ROW("text over the line end"), "{\"a\": \"x\n\"}",
     "job.json:1:9: /a: expected a closing quote, found the end of the line"},
    {ROW("a raw tab"), "[\"a\tb\"]",
     "job.json:1:4: /0: expected text without a raw control character, found a control character (0x09)"},
    {ROW("a vertical tab as blank"), "[1,\v2]",
     "job.json:1:4: /1: expected a value, found a control character (0x0b)"},
    {ROW("unclosed text"), "{\"a\": \"x",
     "job.json:1:7: /a: expected a closing quote for this text, found \"\"\""},
    {ROW("columns count characters"), "{\"\xC3\xA9\xE2\x82\xAC\": x}",
     "job.json:1:8: /\xC3\xA9\xE2\x82\xAC: expected a value, found x"},
};

static void scan_says(void **state)
{
    const struct scan_row *r = *state;
    struct reader *reader = reader_make();
    struct file_text file = reader_file("job.json", r->text);
    bool good = json_scan(reader->arena, &file, &reader->errors) != NULL;
    check_text(&r->row, reader_lines(reader, &reader->errors), r->want);
    check_true(&r->row, good == (r->want[0] == '\0'), "accepted where nothing was told, and only there");
    reader_free(reader);
}

static void nul_is_no_blank(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct file_text file = {.name = "job.json", .text = "[1,\0 2]", .length = 7};
    json_scan(reader->arena, &file, &reader->errors);
    check_text(HERE, reader_lines(reader, &reader->errors),
               "job.json:1:4: /1: expected a value, found a control character (0x00)");
    reader_free(reader);
}

/* 64 brackets are read, 65 are not, and a million end no worse. */
static void depth_is_bounded(void **state)
{
    (void)state;
    for (size_t depth = 64; depth <= 1000000; depth = depth == 64 ? 65 : 1000000 + (depth == 1000000)) {
        struct reader *reader = reader_make();
        char *text = arena_alloc(reader->arena, 2 * depth + 1, 1);
        memset(text, '[', depth);
        memset(text + depth, ']', depth);
        struct file_text file = reader_file("job.json", text);
        check_true(HERE, (json_scan(reader->arena, &file, &reader->errors) != NULL) == (depth == 64),
                   "64 at most");
        if (depth > 64)
            check_text(HERE, reader->errors.items[0].expected, "at most 64 levels of nesting");
        reader_free(reader);
    }
}

/* A hundred thousand keys in one object, the last one twice: compared sorted, not each with each. */
static void many_keys(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    char *text = arena_alloc(reader->arena, 100000 * 16, 1), *at = text;
    for (int i = 0; i < 100000; i++)
        at += snprintf(at, 16, "%s\"k%d\":0", i ? "," : "{", i < 99999 ? i : 99998);
    memcpy(at, "}", 2);
    struct file_text file = reader_file("job.json", text);
    check_true(HERE, !json_scan(reader->arena, &file, &reader->errors), "the duplicate is seen");
    check_text(HERE, reader->errors.items[0].pointer, "/k99998");
    check_int(HERE, (intmax_t)reader->errors.count, 1);
    check_int(HERE, reader->errors.items[0].column, (intmax_t)(at - text) - 9);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(scans, scan_says), CHECK_TEST(nul_is_no_blank), CHECK_TEST(depth_is_bounded),
                     CHECK_TEST(many_keys));
}
