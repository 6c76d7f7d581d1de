#include "check.h"

#include "base/err.h"

#include <string.h>

struct line_row {
    struct row row;
    enum err_code code;
    const char *file;
    int line, column;
    const char *pointer, *expected, *found, *want;
};

static const struct line_row lines[] = {
    {ROW("whole"), ERR_INPUT, "examples/desk.json", 14, 22, "/parts/3/thickness",
     "a length such as \"19 mm\" or \"3/4 in\"", "\"3/4 foo\"",
     "examples/desk.json:14:22: /parts/3/thickness: expected a length such as \"19 mm\" or \"3/4 in\", found "
     "\"3/4 foo\""},
    {ROW("no place"), ERR_INPUT, "desk.json", 0, 0, "", "a job", "nothing",
     "desk.json: expected a job, found nothing"},
    {ROW("no file"), ERR_INPUT, NULL, 3, 1, "", "a row", NULL, "3:1: expected a row"},
    {ROW("found alone"), ERR_FILE, "x.json", 0, 0, NULL, NULL, "no such file", "x.json: no such file"},
    {ROW("nothing but a sentence"), ERR_USAGE, NULL, 0, 0, NULL, NULL, "unknown command", "unknown command"},
    {ROW("warning"), ERR_WARNING, "desk.json", 2, 4, "/parts/0", "not said", "it will cup",
     "desk.json:2:4: /parts/0: warning: it will cup"},
};

static void line_is(void **state)
{
    const struct line_row *r = *state;
    struct err_list list = {.count = 0};
    struct err *err = err_add(&list, r->code, r->file, r->pointer, r->expected, r->found);
    err->line = r->line;
    err->column = r->column;
    char line[ERR_LINE_SIZE];
    size_t length = err_format(err, line, sizeof line);
    check_text(&r->row, line, r->want);
    check_int(&r->row, (intmax_t)length, (intmax_t)strlen(r->want));
    check_int(&r->row, err->code, r->code);
}

static void twenty_are_kept(void **state)
{
    (void)state;
    struct err_list list = {.count = 0};
    for (int i = 0; i < ERR_MOST; i++)
        check_true(HERE, err_addf(&list, ERR_INPUT, "f", "", "x", "number %d", i) != NULL, "kept");
    check_true(HERE, err_add(&list, ERR_INPUT, "f", "", "x", "one more") == NULL, "counted only");
    check_int(HERE, (intmax_t)list.count, ERR_MOST);
    check_int(HERE, (intmax_t)list.dropped, 1);
    check_text(HERE, list.items[ERR_MOST - 1].found, "number 19");
}

/* 319 bytes fit; one more is cut. Euro signs of three bytes may not be cut in two. */
static void long_text_is_cut_between_characters(void **state)
{
    (void)state;
    char text[3 * ERR_FOUND_SIZE + 1];
    struct err_list list = {.count = 0};
    memset(text, 'a', ERR_FOUND_SIZE);
    text[ERR_FOUND_SIZE - 1] = '\0';
    struct err *err = err_add(&list, ERR_INPUT, NULL, NULL, NULL, text);
    check_text(HERE, err->found, text);
    for (int before = 0; before < 3; before++) {
        memset(text, 'a', (size_t)before);
        for (int i = 0; i < ERR_FOUND_SIZE / 3 + 2; i++)
            memcpy(text + before + i * (ptrdiff_t)3, "\xE2\x82\xAC", 4);
        err = err_add(&list, ERR_INPUT, NULL, NULL, NULL, text);
        size_t length = strlen(err->found);
        check_int(HERE, ((intmax_t)length - 3 - before) % 3, 0);
        check_true(HERE, length < ERR_FOUND_SIZE && length > ERR_FOUND_SIZE - 8, "nearly full");
        check_text(HERE, err->found + length - 3, "...");
        check_int(HERE, memcmp(err->found, text, length - 3), 0);
    }
}

static void everything_at_its_longest_fits_a_line(void **state)
{
    (void)state;
    static char text[2 * ERR_FOUND_SIZE];
    memset(text, 'a', sizeof text - 1);
    struct err_list list = {.count = 0};
    struct err *err = err_add(&list, ERR_INPUT, text, text, text, text);
    err->line = err->column = 2147483647;
    char line[ERR_LINE_SIZE], small[20];
    size_t length = err_format(err, line, sizeof line);
    check_text(HERE, line + length - 4, "a...");
    check_int(HERE, (intmax_t)err_format(err, small, sizeof small), 19);
    check_int(HERE, (intmax_t)strlen(small), 19);
}

/* A name from elsewhere does not act on the terminal. */
static void controls_are_shown(void **state)
{
    (void)state;
    struct err err = {
        .file = "a\x1b[31m.json", .line = 1, .column = 2, .expected = "x", .found = "\xC2\x9B\xE2\x80\xAE\n"};
    char line[ERR_LINE_SIZE], small[12];
    size_t length = err_format(&err, line, sizeof line);
    check_text(HERE, line, "a\\u001b[31m.json:1:2: expected x, found \\u009b\\u202e\\u000a");
    check_int(HERE, (intmax_t)strlen(line), (intmax_t)length);
    err_format(&err, small, sizeof small);
    check_text(HERE, small, "a\\u001b[31m");
}

static void faults(void **state)
{
    (void)state;
    struct err fault;
    char text[2 * ERR_EXPECTED_SIZE];
    check_true(HERE, !err_say(&fault, "a number up to %d", 7), "false");
    check_text(HERE, fault.expected, "a number up to 7");
    check_true(HERE, !err_say(NULL, "anything"), "nobody listens");
    memset(text, 'a', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    err_expect(&fault, "%s", text);
    check_int(HERE, (intmax_t)strlen(fault.expected), ERR_EXPECTED_SIZE - 1);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(lines, line_is), CHECK_TEST(twenty_are_kept),
                     CHECK_TEST(long_text_is_cut_between_characters),
                     CHECK_TEST(everything_at_its_longest_fits_a_line), CHECK_TEST(controls_are_shown),
                     CHECK_TEST(faults));
}
