/* Merge patches on texts. The examples are those of RFC 7396, appendix A (all fifteen), compared without spaces; that what is
 * not changed stays as it stands is tried beside them. */
#include "check.h"

#include "base/arena.h"
#include "base/buf.h"
#include "format/json_tree.h"

#include <string.h>

struct merge_row {
    struct row row;
    const char *text, *patch, *want;
};

static const struct merge_row rfc[] = {
    {ROW("1"), "{\"a\":\"b\"}", "{\"a\":\"c\"}", "{\"a\":\"c\"}"},
    {ROW("2"), "{\"a\":\"b\"}", "{\"b\":\"c\"}", "{\"a\":\"b\",\"b\":\"c\"}"},
    {ROW("3"), "{\"a\":\"b\"}", "{\"a\":null}", "{}"},
    {ROW("4"), "{\"a\":\"b\",\"b\":\"c\"}", "{\"a\":null}", "{\"b\":\"c\"}"},
    {ROW("5"), "{\"a\":[\"b\"]}", "{\"a\":\"c\"}", "{\"a\":\"c\"}"},
    {ROW("6"), "{\"a\":\"c\"}", "{\"a\":[\"b\"]}", "{\"a\":[\"b\"]}"},
    {ROW("7"), "{\"a\":{\"b\":\"c\"}}", "{\"a\":{\"b\":\"d\",\"c\":null}}", "{\"a\":{\"b\":\"d\"}}"},
    {ROW("8"), "{\"a\":[{\"b\":\"c\"}]}", "{\"a\":[1]}", "{\"a\":[1]}"},
    {ROW("9"), "[\"a\",\"b\"]", "[\"c\",\"d\"]", "[\"c\",\"d\"]"},
    {ROW("10"), "{\"a\":\"b\"}", "[\"c\"]", "[\"c\"]"},
    {ROW("11"), "{\"a\":\"foo\"}", "null", "null"},
    {ROW("12"), "{\"a\":\"foo\"}", "\"bar\"", "\"bar\""},
    {ROW("13"), "{\"e\":null}", "{\"a\":1}", "{\"e\":null,\"a\":1}"},
    {ROW("14"), "[1,2]", "{\"a\":\"b\",\"c\":null}", "{\"a\":\"b\"}"},
    {ROW("15"), "{}", "{\"a\":{\"bb\":{\"ccc\":null}}}", "{\"a\":{\"bb\":{}}}"},
};

static const struct merge_row kept[] = {
    {ROW("lines and order"), "{\n  \"a\": [1,\n 2],\n  \"b\" : 3\n}\n", "{\"b\": {\"c\": 4}}",
     "{\n  \"a\": [1,\n 2],\n  \"b\" : {\"c\": 4}\n}\n"},
    {ROW("a new member on a line of its own"), "{\n  \"a\": 1\n}\n", "{\"b\": 2, \"c\": 3}",
     "{\n  \"a\": 1,\n  \"b\": 2,\n  \"c\": 3\n}\n"},
    {ROW("a new member on the same line"), "{\"a\": {\"x\": 1}, \"z\": 2}", "{\"a\": {\"y\": 2}}",
     "{\"a\": {\"x\": 1, \"y\": 2}, \"z\": 2}"},
    {ROW("the last is taken out"), "{\"a\": 1, \"b\": 2}", "{\"b\": null}", "{\"a\": 1}"},
    {ROW("one in between"), "{\"a\": 1, \"b\": 2, \"c\": 3}", "{\"b\": null}", "{\"a\": 1, \"c\": 3}"},
    {ROW("all are taken out and one comes"), "{\"a\": 1, \"b\": 2}", "{\"a\": null, \"b\": null, \"c\": 3}",
     "{\"c\": 3}"},
    {ROW("strings that look like more"), "{\"a\": \"},\\\" {\", \"b\": -1.5e3}", "{\"b\": true}",
     "{\"a\": \"},\\\" {\", \"b\": true}"},
    {ROW("an escaped name"), "{\"\\u0061\": 1, \"b\": 2}", "{\"a\": 5}", "{\"\\u0061\": 5, \"b\": 2}"},
    {ROW("a byte-order mark"), "\xEF\xBB\xBF{\"a\": 1}\r\n", "{\"a\": 2}", "\xEF\xBB\xBF{\"a\": 2}\r\n"},
};

static const char *merged(struct arena *arena, const struct merge_row *r)
{
    struct file_text file = {.name = "a.json", .text = r->text, .length = strlen(r->text)};
    struct buf out;
    buf_init(&out, arena);
    check_true(&r->row, json_merge(arena, &file, r->patch, &out), "both are read");
    return out.text;
}

static void rfc_7396(void **state)
{
    const struct merge_row *r = *state;
    struct arena *arena = arena_make(0);
    char *text = arena_text(arena, merged(arena, r)), *to = text;
    for (const char *from = text; *from; from++)
        if (*from != ' ')
            *to++ = *from;
    *to = '\0';
    check_text(&r->row, text, r->want);
    arena_free(arena);
}

static void the_rest_stays(void **state)
{
    const struct merge_row *r = *state;
    struct arena *arena = arena_make(0);
    check_text(&r->row, merged(arena, r), r->want);
    arena_free(arena);
}

static void what_is_not_json(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct file_text file = {.name = "a.json", .text = "{\"a\": }", .length = 7};
    struct buf out;
    buf_init(&out, arena);
    check_true(HERE, !json_merge(arena, &file, "{}", &out), "refused");
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(rfc, rfc_7396), CHECK_ROWS(kept, the_rest_stays),
                     CHECK_TEST(what_is_not_json));
}
