/* Two values of a kind: read where there are two that are right, and otherwise refused. */
#include "check.h"
#include "reader.h"

#include "base/buf.h"
#include "source/field.h"

struct pair_row {
    struct row row;
    const char *text;
    bool good;
};

static const struct pair_row pairs[] = {
    {ROW("two"), "[\"10 C\", \"20 C\"]", true},        {ROW("one without a list"), "\"10 C\"", false},
    {ROW("one of a list"), "[\"10 C\"]", false},       {ROW("three"), "[\"1 C\", \"2 C\", \"3 C\"]", false},
    {ROW("the first wrong"), "[10, \"20 C\"]", false}, {ROW("the second wrong"), "[\"10 C\", 20]", false},
};

static void pair_is_read(void **state)
{
    const struct pair_row *r = *state;
    struct reader *reader = reader_make();
    struct file_text file = reader_file("pair.json", r->text);
    struct json_at at;
    double pair[2] = {-1, -1};
    assert_true(json_parse(&reader->reading, &file, &at));
    check_int(&r->row, read_pair(at, "two temperatures", &field_temperature, LIMIT_NONE, pair), r->good);
    check_int(&r->row, reader->errors.count == 0, r->good);
    check_true(&r->row, !r->good || (pair[0] == 10 && pair[1] == 20), "in their order");
    reader_free(reader);
}

struct each_row {
    struct row row;
    const char *text;
    bool good;
    double sand_c, polish_c; /* -1: as it was */
};

static const char *const works[] = {"sand", "scuff", "polish"};

static const char *name_of(int work)
{
    return works[work];
}

/* One value stands for the first two of three works. */
static const struct each_row each[] = {
    {ROW("one for all"), "\"12 C\"", true, 12, -1},
    {ROW("one by one"), "{\"polish\": \"9 C\"}", true, -1, 9},
    {ROW("one for all, wrong"), "12", false, -1, -1},
    {ROW("a list"), "[\"12 C\"]", false, -1, -1},
};

static void each_is_read(void **state)
{
    const struct each_row *r = *state;
    const struct field field = {.expected = "the air",
                                .quantity = &field_temperature,
                                .limit = LIMIT_NONE,
                                .name = name_of,
                                .word_count = 3,
                                .at_once = 2};
    struct reader *reader = reader_make();
    struct file_text file = reader_file("each.json", r->text);
    struct json_at at;
    double values[] = {-1, -1, -1};
    assert_true(json_parse(&reader->reading, &file, &at));
    check_int(&r->row, read_each(at, &field, values), r->good);
    check_int(&r->row, reader->errors.count == 0, r->good);
    check_double(&r->row, values[0], r->sand_c, 0);
    check_double(&r->row, values[2], r->polish_c, 0);
    reader_free(reader);
}

/* What is written of a record: a number as it is read, and of two records only where they differ. */
static void a_number_is_written(void **state)
{
    (void)state;
    struct grits {
        double jump, parts;
    };
    static const struct field items[] = {
        {"jump", FIELD_NUMBER, AT(grits, jump), .limit = LIMIT_RATIO},
        {"parts", FIELD_NUMBER, AT(grits, parts), .limit = LIMIT_RATIO},
    };
    static const struct fields fields = FIELDS("grits", items);
    const struct grits all = {1.5, 4}, base = {1.5, 3};
    struct reader *reader = reader_make();
    struct buf out;
    struct json_write to;
    buf_init(&out, reader->arena);
    json_write_init(&to, &out);
    json_open_row(&to, NULL, '[');
    json_open(&to, NULL, '{');
    fields_write(&to, &fields, &all, NULL);
    json_close(&to);
    json_open(&to, NULL, '{');
    fields_write(&to, &fields, &all, &base);
    json_close(&to);
    json_close(&to);
    check_text(HERE, out.text, "[{\"jump\": 1.5, \"parts\": 4}, {\"parts\": 4}]\n");
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(pairs, pair_is_read), CHECK_ROWS(each, each_is_read),
                     CHECK_TEST(a_number_is_written));
}
