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
    {ROW("an exponent in capitals"), "[1E2, 1e-2, 1E+2]", ""},
    {ROW("half a pair and a letter"), "[\"\\ud83dx12345\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ud83d"},
    {ROW("half a pair and another escape"), "[\"\\ud83d\\n12345\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ud83d"},
    {ROW("half a pair and a character"), "[\"\\ud83d\\u0041\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ud83d"},
    {ROW("two first halves"), "[\"\\ud83d\\ud83d\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ud83d"},
    {ROW("half a pair and what is none"), "[\"\\ud83d\\ue000\"]",
     "job.json:1:3: /0: expected a pair of surrogates such as \\ud83d\\ude00, found \\ud83d"},
    {ROW("the end in an escape"), "[\"\\u12",
     "job.json:1:3: /0: expected four hexadecimal digits after \\u, found \\u"},
    {ROW("the end behind a backslash"), "[\"\\",
     "job.json:1:3: /0: expected an escape such as \\\" \\\\ \\n or \\u00e9, found \\"},
    {ROW("letters behind hexadecimal ones"), "[\"\\u00G1\"]",
     "job.json:1:3: /0: expected four hexadecimal digits after \\u, found \\u00G1"},
    {ROW("a word that goes on"), "[nulls]", "job.json:1:2: /0: expected a value, found nulls"},
    {ROW("a word that ends too soon"), "[fals]", "job.json:1:2: /0: expected a value, found fals"},
    {ROW("a word at the very end"), "true", ""},
    {ROW("an index behind the value"), "1 2", "job.json:1:3: expected nothing after the value, found 2"},
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

struct escape_row {
    struct row row;
    const char *text, *want;
};

/* RFC 8259, section 7; U+1F600 is D83D DE00, and F0 9F 98 80 in UTF-8. */
static const struct escape_row escapes[] = {
    {ROW("those of one letter"), "\"\\b\\f\\n\\r\\t\\\"\\\\\\/\"", "\b\f\n\r\t\"\\/"},
    {ROW("small hexadecimal digits"), "\"caf\\u00e9\"", "caf\xC3\xA9"},
    {ROW("capital ones"), "\"caf\\u00E9 \\u20AC\"", "caf\xC3\xA9 \xE2\x82\xAC"},
    {ROW("a pair"), "\"a\\ud83d\\uDE00b\"",
     "a\xF0\x9F\x98\x80"
     "b"},
    {ROW("below the pairs and above"), "\"\\ud7ff\\ue000\"", "\xED\x9F\xBF\xEE\x80\x80"},
    {ROW("ASCII"), "\"\\u0041\"", "A"},
};

static void is_decoded(void **state)
{
    const struct escape_row *r = *state;
    struct reader *reader = reader_make();
    struct file_text file = reader_file("job.json", r->text);
    const struct json_value *value = json_scan(reader->arena, &file, &reader->errors);
    assert_non_null(value);
    check_text(&r->row, value->text, r->want);
    reader_free(reader);
}

/* As many values as may be, and one more; a number as long as may be, and one longer. */
static void sizes_are_bounded(void **state)
{
    (void)state;
    enum { LONGEST = 400 };
    for (int more = 0; more < 2; more++) {
        struct reader *reader = reader_make();
        size_t count = JSON_MOST - 1 + (size_t)more; /* and the list itself */
        char *text = arena_alloc(reader->arena, 2 * count + 2, 1);
        text[0] = '[';
        for (size_t i = 0; i < count; i++)
            memcpy(text + 1 + 2 * i, i + 1 < count ? "0," : "0]", 2);
        struct file_text file = reader_file("job.json", text);
        check_int(HERE, json_scan(reader->arena, &file, &reader->errors) != NULL, !more);
        check_text(HERE, more ? reader->errors.items[0].expected : "", more ? "at most 2000000 values" : "");
        char *digits = arena_alloc(reader->arena, LONGEST + 2, 1);
        memset(digits, '0', LONGEST + (size_t)more);
        memcpy(digits, "0.", 2);
        file = reader_file("job.json", digits);
        reader->errors.count = 0;
        check_int(HERE, json_scan(reader->arena, &file, &reader->errors) != NULL, !more);
        check_text(HERE, more ? reader->errors.items[0].expected : "", more ? "a shorter number" : "");
        reader_free(reader);
    }
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
    return CHECK_ALL(CHECK_ROWS(scans, scan_says), CHECK_ROWS(escapes, is_decoded),
                     CHECK_TEST(sizes_are_bounded), CHECK_TEST(nul_is_no_blank), CHECK_TEST(depth_is_bounded),
                     CHECK_TEST(many_keys));
}
