/* What no workshop has is reported at its place before any work is done with it: each ceiling of source/limit.c, and what lies
 * just below it. The ceilings are common practice, from memory. */
#include "check.h"
#include "job_text.h"
#include "reader.h"

#include "base/buf.h"

#include <string.h>

struct limit_row {
    struct row row;
    enum job_text where;
    const char *find, *put;
    const char *want; /* the message without file and place; NULL: it is read */
};

#define TASK "\"takes\": \"45 min\""
#define SHOP "\"people\": 1, \"rack\": \"4 m2\""
#define STEPS "[{\"sand\": 150}, {\"coat\": \"hardwax-oil\", \"coats\": 2}]"
#define COATS(n) "{\"coat\": \"hardwax-oil\", \"coats\": " n "}"
#define BOARD "1200,600,25"

static const struct limit_row rows[] = {
    {ROW("a task of a thousand years"), JOB, TASK, "\"takes\": \"1000 y\"",
     "/tasks/0/takes: expected a time span of at most 30 days: the work itself, not a wait, found \"1000 "
     "y\""},
    {ROW("a task of a month"), JOB, TASK, "\"takes\": \"30 d\"", NULL},
    {ROW("a set-up of years"), JOB, SHOP, "\"set-up\": \"1000 y\"",
     "/shop/set-up: expected a time span of at most 24 hours, found \"1000 y\""},
    {ROW("the set-up of a tool"), JOB, SHOP, "\"set-up\": {\"brush\": \"25 h\"}",
     "/shop/set-up/brush: expected a time span of at most 24 hours, found \"25 h\""},
    {ROW("a clean-up of years"), JOB, SHOP, "\"clean-up\": {\"brush\": \"1 y\"}",
     "/shop/clean-up/brush: expected a time span of at most 24 hours, found \"1 y\""},
    {ROW("dust that never settles"), JOB, SHOP, "\"settle\": \"1 y\"",
     "/shop/settle: expected a time span of at most 30 days, found \"1 y\""},
    {ROW("a rate of next to nothing"), JOB, SHOP, "\"rates\": {\"brush\": \"0.001 m2/h\"}",
     "/shop/rates/brush: expected a rate from 0.01 m2/h to 1000 m2/h, found \"0.001 m2/h\""},
    {ROW("a tool that holds a barrel"), JOB, SHOP, "\"losses\": {\"brush\": \"200 l\"}",
     "/shop/losses/brush: expected at most 20 l that stay in a tool, found \"200 l\""},
    {ROW("a rack like an airfield"), JOB, "4 m2", "40000 m2",
     "/shop/rack: expected a rack of at most 10000 m2, found \"40000 m2\""},
    {ROW("a reserve of a hundredfold"), JOB, "12.5 %", "10000 %",
     "/reserve: expected a reserve of at most 1000 %, found \"10000 %\""},
    {ROW("a wait of a thousand years"), JOB, STEPS, "[" COATS("1") ", {\"wait\": \"1000 y\"}]",
     "/schedules/oil/1/wait: expected a time span of at most 2 years, found \"1000 y\""},
    {ROW("a wait of two years, of 365 days each"), JOB, STEPS, "[" COATS("1") ", {\"wait\": \"730 d\"}]",
     NULL},
    {ROW("a day longer"), JOB, STEPS, "[" COATS("1") ", {\"wait\": \"731 d\"}]",
     "/schedules/oil/1/wait: expected a time span of at most 2 years, found \"731 d\""},
    {ROW("more coats than wood can bear"), JOB, STEPS,
     "[" COATS("20") ", " COATS("20") ", " COATS("20") ", " COATS("1") "]",
     "/schedules/oil: expected at most 60 coats in a schedule, found 61"},
    {ROW("a board of a hundred million kilometres"), PARTS, BOARD, "100000000000,600,25",
     "row 1, length: expected a length of at most 100 m, found \"100000000000\""},
    {ROW("a board across the yard"), PARTS, BOARD, "100 m,600,25", NULL},
    {ROW("covered by as much"), PARTS, "back 1100 x 500", "back 1100000000 x 500",
     "row 1, covered: expected a length of at most 100 m, found \"back 1100000000 x 500\""},
    {ROW("sides as long"), PARTS, "30 40 50", "30 m 400 m 400 m",
     "row 3, sides: expected a length of at most 100 m, found \"30 m 400 m 400 m\""},
    {ROW("the last of the sides as long"), PARTS, "30 40 50", "60 m 60 m 101 m",
     "row 3, sides: expected a length of at most 100 m, found \"60 m 60 m 101 m\""},
    {ROW("a million in a row"), PARTS, "legs,4,", "legs,1000000,",
     "row 2, qty: expected a whole number from 1 to 10000, found \"1000000\""},
};

/* Behind "file:line:column: ". */
static const char *without_place(const char *line)
{
    const char *at = strstr(line, ": ");
    return at ? at + 2 : line;
}

static void is_limited(void **state)
{
    const struct limit_row *r = *state;
    struct reader *reader = reader_make();
    const struct job *job = job_text_read(reader, r->where, r->find, r->put);
    check_true(&r->row, (job == NULL) == (r->want != NULL), reader_lines(reader, &reader->errors));
    check_text(&r->row, without_place(reader_lines(reader, &reader->errors)), r->want ? r->want : "");
    reader_free(reader);
}

/* Metres are meant by the job, millimetres by its list: said once, not for every cell. */
static void another_unit(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    (void)job_text_read_parts(reader, reader_swap(reader, job_text_job, "\"mm\"", "\"m\""),
                              "part,piece,wood,length,width,thickness,all\ntop,top,oak,2400,850,25,oil\n"
                              "legs,legs,oak,700,45,45,oil\n");
    check_text(
        HERE, reader_lines(reader, &reader->errors),
        "parts.csv:2:13: row 1, length: expected a length of at most 100 m; numbers without a unit are m "
        "in this job (if not, change its \"units\"), found \"2400\"");
    reader_free(reader);
}

/* Rows that are possible each, and together more than anybody finishes. */
static void too_much_together(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct buf parts;
    buf_init(&parts, reader->arena);
    buf_add(&parts, "part,piece,qty,wood,length,width,thickness,all\ntop,top,1,oak,1200,600,25,oil\n"
                    "legs,legs,4,oak,700,45,45,oil\n");
    for (int i = 0; i < 2200; i++)
        buf_addf(&parts, "peg%d,top,10000,oak,100,10,10,oil\n", i);
    (void)job_text_read_parts(reader, job_text_job, parts.text);
    check_text(HERE, without_place(reader_lines(reader, &reader->errors)),
               "row 22, qty: expected at most 200000 parts in all, found more up to here");
    /* 1.53 m2, and 10000 times 120 m2 of faces, 2 of edges, 0.048 of ends. */
    reader->errors.count = 0;
    (void)job_text_read_parts(
        reader, job_text_job,
        "part,piece,qty,wood,length,width,thickness,all\ntop,top,1,oak,1200,600,25,oil\n"
        "legs,legs,10000,oak,50000,1200,20,oil\n");
    check_text(
        HERE, without_place(reader_lines(reader, &reader->errors)),
        "row 2, qty: expected at most 1000000 m2 in all, found 1220481.5 m², 600000.0 m² of them here");
    /* What is left bare is there too. */
    reader->errors.count = 0;
    (void)job_text_read_parts(
        reader, job_text_job,
        "part,piece,qty,wood,length,width,thickness,all,back\ntop,top,1,oak,1200,600,25,oil,oil\n"
        "legs,legs,10000,oak,50000,1200,20,oil,-\n");
    check_text(
        HERE, without_place(reader_lines(reader, &reader->errors)),
        "row 2, qty: expected at most 1000000 m2 in all, found 1220481.5 m², 600000.0 m² of them here");
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(rows, is_limited), CHECK_TEST(another_unit), CHECK_TEST(too_much_together));
}
