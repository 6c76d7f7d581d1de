#include "check.h"

#include "base/arena.h"
#include "format/json_write.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* RFC 8259 section 7: quotation mark, reverse solidus and the control characters below U+0020 must be escaped. */
struct text_row {
    struct row row;
    const char *text, *want;
};

static const struct text_row texts[] = {
    {ROW("plain"), "oak", "\"oak\"\n"},
    {ROW("nothing is null"), NULL, "null\n"},
    {ROW("empty"), "", "\"\"\n"},
    {ROW("quote and backslash"), "3/4\" \\ x", "\"3/4\\\" \\\\ x\"\n"},
    {ROW("line ends"), "a\nb\rc\td", "\"a\\nb\\u000dc\\td\"\n"},
    {ROW("control"), "\x01\x1b\x7f", "\"\\u0001\\u001b\\u007f\"\n"},
    {ROW("8-bit control"), "\xC2\x9B", "\"\\u009b\"\n"},
    {ROW("turned around"),
     "a\xE2\x80\xAE"
     "b",
     "\"a\\u202eb\"\n"},
    {ROW("beyond ASCII stays"), "Nußbaum 木", "\"Nußbaum 木\"\n"},
};

struct number_row {
    struct row row;
    double number;
    const char *want;
};

static const struct number_row numbers[] = {
    {ROW("zero"), 0, "0\n"},
    {ROW("whole"), 250, "250\n"},
    {ROW("sum of tenths"), 0.1 + 0.2, "0.3\n"},
    {ROW("a third has 15 digits"), 1.0 / 3, "0.333333333333333\n"},
    {ROW("small without exponent"), 0.00001234567890123, "0.00001234567890123\n"},
    {ROW("large without exponent"), 123456789012345.0, "123456789012345\n"},
    {ROW("negative"), -0.5, "-0.5\n"},
    {ROW("never"), INFINITY, "null\n"},
    {ROW("no number"), NAN, "null\n"},
};

struct fixture {
    struct arena *arena;
    struct buf out;
    struct json_write w;
};

static void begin(struct fixture *f)
{
    f->arena = arena_make(0);
    buf_init(&f->out, f->arena);
    json_write_init(&f->w, &f->out);
}

/* A scalar alone in a list, without the list's brackets. */
static void check_scalar(const struct row *row, struct fixture *f, const char *want)
{
    size_t length = strlen(want);
    check_int(row, (intmax_t)f->out.length, (intmax_t)length + 2);
    check_true(row, strncmp(f->out.text + 1, want, length - 1) == 0, f->out.text);
    arena_free(f->arena);
}

static void text_is(void **state)
{
    const struct text_row *r = *state;
    struct fixture f;
    begin(&f);
    json_open_row(&f.w, NULL, '[');
    json_put_text(&f.w, NULL, r->text);
    json_close(&f.w);
    check_scalar(&r->row, &f, r->want);
}

static void number_is(void **state)
{
    const struct number_row *r = *state;
    struct fixture f;
    begin(&f);
    json_open_row(&f.w, NULL, '[');
    json_put_number(&f.w, NULL, r->number);
    json_close(&f.w);
    check_scalar(&r->row, &f, r->want);
}

static void numbers_read_back_to_14_digits(void **state)
{
    (void)state;
    uint64_t seed = 20270301;
    for (int i = 0; i < 2000; i++) {
        double unit = check_random_unit(&seed);
        double number = unit * pow(10, check_random_int(&seed, -9, 12));
        struct fixture f;
        begin(&f);
        json_open_row(&f.w, NULL, '[');
        json_put_number(&f.w, NULL, number);
        json_close(&f.w);
        double back = strtod(f.out.text + 1, NULL);
        check_true(HERE, fabs(back - number) <= 1e-14 * fabs(number), f.out.text);
        arena_free(f.arena);
    }
}

static void layout(void **state)
{
    (void)state;
    static const struct zone utc = {"UTC", 0, NULL};
    struct fixture f;
    begin(&f);
    json_open(&f.w, NULL, '{');
    json_put_text(&f.w, "job", "desk");
    json_open(&f.w, "none", '[');
    json_close(&f.w);
    json_open(&f.w, "steps", '[');
    for (int i = 0; i < 2; i++) {
        json_open_row(&f.w, NULL, '{');
        json_put_moment(&f.w, "at", &utc, i ? INT64_MAX : 0);
        json_open(&f.w, "ids", '[');
        json_put_whole(&f.w, NULL, i);
        json_put_flag(&f.w, NULL, i == 0);
        json_close(&f.w);
        json_put_money(&f.w, "cost", i ? 1450 : -1, 2);
        json_close(&f.w);
    }
    json_close(&f.w);
    json_close(&f.w);
    check_text(HERE, f.out.text,
               "{\n"
               "  \"job\": \"desk\",\n"
               "  \"none\": [],\n"
               "  \"steps\": [\n"
               "    {\"at\": \"1970-01-01T00:00:00+00:00\", \"ids\": [0, true], \"cost\": null},\n"
               "    {\"at\": null, \"ids\": [1, false], \"cost\": \"14.50\"}\n"
               "  ]\n"
               "}\n");
    arena_free(f.arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(texts, text_is), CHECK_ROWS(numbers, number_is),
                     CHECK_TEST(numbers_read_back_to_14_digits), CHECK_TEST(layout));
}
