/* The log of a job: what is written is read again, and what was edited, torn or put together is told and left out. */
#include "check.h"
#include "reader.h"

#include "source/log_file.h"

#include <stdio.h>
#include <string.h>

static const struct zone utc = {"UTC", 0, NULL};

/* Moments in minutes since 1970: 2027-03-02 15:00 UTC is 20879 days and 15 hours (GNU date: 1803999600 s). */
enum { MARCH_2_1500 = 1803999600 / 60 };

static const char lines[] =
    "{\"entry\": 1, \"written\": \"2027-03-02T15:12:09Z\", \"step\": \"legs/varnish/1/apply\", "
    "\"began\": \"2027-03-02T14:30Z\", \"done\": \"2027-03-02T16:00:00+01:00\", \"used\": \"75 ml\", "
    "\"first\": 1, \"parts\": 4, \"as-planned\": true, \"person\": \"Ann\", \"note\": \"ran a little\"}\n"
    "{\"entry\": 2, \"again\": \"legs/varnish/1/apply\", \"because\": \"ran\", \"sand\": 320}\n"
    "{\"entry\": 3, \"skip\": \"legs/varnish/2/sand-320\"}\n"
    "{\"entry\": 4, \"air\": {\"from\": \"2027-03-02 14:00\", \"temperature\": \"12 C\", \"humidity\": \"80 "
    "%\"}}\n"
    "{\"entry\": 5, \"undo\": 3}\n";

static struct log read_text(struct reader *reader, const char *text)
{
    struct file_text *file = ARENA_NEW(reader->arena, struct file_text);
    *file = reader_file("desk.log", text);
    struct log log = log_read(&reader->reading, file, &utc);
    texts_locate(reader->reading.texts, &reader->warnings);
    return log;
}

static void every_kind_is_read(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct log log = read_text(reader, lines);
    check_text(HERE, reader_lines(reader, &reader->warnings), "");
    assert_int_equal(log.count, 5);
    const struct log_entry *done = &log.entries[0], *again = &log.entries[1], *air = &log.entries[3];
    check_int(HERE, done->kind, LOG_DONE);
    check_text(HERE, done->step, "legs/varnish/1/apply");
    check_int(HERE, done->began_min, MARCH_2_1500 - 30);
    check_int(HERE, done->done_min, MARCH_2_1500);
    check_double(HERE, done->used_l, 0.075, 1e-12);
    check_int(HERE, done->parts, 4);
    check_true(HERE, done->as_planned && !again->as_planned, "nobody measured when it was done");
    check_text(HERE, done->person, "Ann");
    check_int(HERE, again->kind, LOG_AGAIN);
    check_int(HERE, again->grit, 320);
    check_int(HERE, log.entries[2].kind, LOG_SKIP);
    check_int(HERE, air->kind, LOG_AIR);
    check_double(HERE, air->air.temperature_c, 12, 1e-12);
    check_double(HERE, air->air.humidity, 0.8, 1e-12);
    check_int(HERE, air->began_min, MARCH_2_1500 - 60);
    check_int(HERE, log.entries[4].undone, 3);
    check_int(HERE, log.last, 5);
    check_int(HERE, (intmax_t)log.whole, sizeof lines - 1);
    reader_free(reader);
}

static void what_is_written_is_read(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct log log = read_text(reader, lines), again;
    struct buf first, second;
    buf_init(&first, reader->arena);
    buf_init(&second, reader->arena);
    for (size_t i = 0; i < log.count; i++)
        log_write(&first, &log.entries[i], &utc);
    again = read_text(reader, first.text);
    for (size_t i = 0; i < again.count; i++)
        log_write(&second, &again.entries[i], &utc);
    check_text(HERE, second.text, first.text);
    check_int(HERE, (intmax_t)again.count, 5);
    check_true(HERE, again.entries[0].as_planned, "as planned");
    check_true(HERE,
               strstr(first.text, "{\"entry\": 2, \"again\": \"legs/varnish/1/apply\", \"because\": \"ran\", "
                                  "\"sand\": 320}\n") != NULL,
               first.text);
    reader_free(reader);
}

struct partial_row {
    struct row row;
    const char *parts; /* of the first entry */
    bool want;
};

static const struct partial_row partials[] = {
    {ROW("all of the lot"), "", false},
    {ROW("a single part"), ", \"first\": 2, \"parts\": 1", true},
    {ROW("four parts"), ", \"first\": 1, \"parts\": 4", true},
};

/* A log in which parts were done ahead of their lot is known by it, whatever else stands in it. */
static void parts_done_ahead_are_known(void **state)
{
    const struct partial_row *r = *state;
    struct reader *reader = reader_make();
    struct log log = read_text(
        reader,
        arena_textf(reader->arena,
                    "{\"entry\": 1, \"step\": \"legs/varnish/1/apply\", \"done\": \"2027-03-02T15:00Z\"%s}\n"
                    "{\"entry\": 2, \"skip\": \"legs/varnish/2/sand-320\"}\n",
                    r->parts));
    check_text(&r->row, reader_lines(reader, &reader->warnings), "");
    check_true(&r->row, log.partial == r->want, "parts ahead");
    reader_free(reader);
}

struct bad_row {
    struct row row;
    const char *text;
    size_t kept;
    const char *told; /* how the first warning begins, behind the file's name */
};

#define GOOD "{\"entry\": 1, \"skip\": \"a/b/1/apply\"}\n"
static const struct bad_row bad[] = {
    {ROW("unfinished at the end"), GOOD "{\"entry\": 2, \"sk", 1,
     "2:1: warning: the last line is not finished and is left out"},
    {ROW("whole without a line end"), GOOD "{\"entry\": 2, \"skip\": \"x\"}", 2, ""},
    {ROW("rubbish between"), "rubbish\n" GOOD, 1, "1:1: warning: this entry is left out"},
    {ROW("blank lines"), "\n  \r\n" GOOD "\n", 1, ""},
    {ROW("an unknown key"), "{\"entry\": 1, \"skipp\": \"a\"}\n", 0, "1:1: warning: this entry is left out"},
    {ROW("two kinds"), "{\"entry\": 1, \"skip\": \"a\", \"undo\": 1}\n", 0,
     "1:1: warning: this entry is left out: expected an entry "
     "with one of step, again, skip, air and undo, found "
     "several"},
    {ROW("no kind"), "{\"entry\": 1}\n", 0, "1:1: warning: this entry is left out"},
    {ROW("done at no time"), "{\"entry\": 1, \"step\": \"a\"}\n", 0, "1:1: warning: this entry is left out"},
    {ROW("done before it began"),
     "{\"entry\": 1, \"step\": \"a\", \"began\": \"2027-03-02T15:00Z\", \"done\": \"2027-03-02T14:00Z\"}\n",
     0, "1:1: warning: this entry is left out: /began: expected a beginning that is not after the end"},
    {ROW("put together"), "{\"entry\": 2, \"skip\": \"a\"}\n" GOOD, 2,
     "2:1: /entry: warning: the number of this entry is not above"},
    {ROW("an absurd number"), "{\"entry\": 1e300, \"skip\": \"a\"}\n", 0,
     "1:1: warning: this entry is left out"},
    {ROW("a number between two"), "{\"entry\": 1.5, \"skip\": \"a\"}\n", 0,
     "1:1: warning: this entry is left out: /entry: expected a whole number from 1"},
    {ROW("no object"), "[1, 2]\n", 0, "1:1: warning: this entry is left out"},
    {ROW("empty"), "", 0, ""},
};

static void bad_is_told(void **state)
{
    const struct bad_row *r = *state;
    struct reader *reader = reader_make();
    struct log log = read_text(reader, r->text);
    const char *told = reader_lines(reader, &reader->warnings);
    const char *behind = strncmp(told, "desk.log:", 9) == 0 ? told + 9 : told;
    check_int(&r->row, (intmax_t)log.count, (intmax_t)r->kept);
    check_int(&r->row, (intmax_t)reader->errors.count, 0);
    check_text(&r->row, arena_text_n(reader->arena, behind, strnlen(behind, strlen(r->told))), r->told);
    check_true(&r->row, *r->told || !*told, "nothing else is told");
    reader_free(reader);
}

struct holding_row {
    struct row row;
    const char *text, *want; /* one letter an entry */
};

static const struct holding_row held[] = {
    {ROW("all"), "{\"entry\": 1, \"skip\": \"a\"}\n{\"entry\": 2, \"skip\": \"b\"}\n", "yy"},
    {ROW("one taken back"), "{\"entry\": 1, \"skip\": \"a\"}\n{\"entry\": 2, \"undo\": 1}\n", "nn"},
    {ROW("an undo undone"),
     "{\"entry\": 1, \"skip\": \"a\"}\n{\"entry\": 2, \"undo\": 1}\n{\"entry\": 3, \"undo\": 2}\n", "ynn"},
    {ROW("nothing of that number"), "{\"entry\": 1, \"skip\": \"a\"}\n{\"entry\": 2, \"undo\": 7}\n", "yn"},
    {ROW("not of later ones"), "{\"entry\": 1, \"undo\": 2}\n{\"entry\": 2, \"skip\": \"a\"}\n", "ny"},
};

static void holds(void **state)
{
    const struct holding_row *r = *state;
    struct reader *reader = reader_make();
    struct log log = read_text(reader, r->text);
    const bool *holding = log_holding(reader->arena, &log);
    char got[8] = "";
    for (size_t i = 0; i < log.count; i++)
        got[i] = holding[i] ? 'y' : 'n';
    check_text(&r->row, got, r->want);
    reader_free(reader);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(every_kind_is_read), CHECK_TEST(what_is_written_is_read),
                     CHECK_ROWS(partials, parts_done_ahead_are_known), CHECK_ROWS(bad, bad_is_told),
                     CHECK_ROWS(held, holds));
}
