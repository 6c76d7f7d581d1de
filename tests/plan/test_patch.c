/* Schedules, hours and air written back as the user's file would hold them, and read again. */
#include "check.h"
#include "job_text.h"

#include "base/arena.h"

#include <string.h>

struct steps_row {
    struct row row;
    const char *given, *want; /* the steps of a schedule */
};

/* What was not written stands as the reader filled it in: usual coats, the first tool, the finish's step between. */
static const struct steps_row steps_rows[] = {
    {ROW("grits and words"),
     "[{\"sand\": 150}, {\"scuff\": 400}, {\"raise\": true}, {\"raise\": \"with a sponge\", \"dry\": \"3 "
     "h\"}, "
     "{\"mask\": true, \"takes\": \"1 h\"}, {\"coat\": \"danish-oil\", \"coats\": 1, \"by\": \"cloth\"}]",
     "[{\"sand\": 150}, {\"scuff\": 400}, {\"raise\": true, \"dry\": \"120 min\"}, {\"raise\": \"with a "
     "sponge\", \"dry\": \"180 min\"}, {\"mask\": true, \"takes\": \"60 min\"}, {\"coat\": \"danish-oil\", "
     "\"coats\": 1, \"by\": \"cloth\"}]"},
    {ROW("a coat as it comes"), "[{\"coat\": \"wiping-varnish\"}]",
     "[{\"coat\": \"wiping-varnish\", \"coats\": 3, \"by\": \"cloth\", \"between\": {\"sand\": 320}}]"},
    {ROW("thinned by a share"),
     "[{\"coat\": \"brushing-varnish\", \"coats\": 2, \"by\": \"hvlp\", \"thin\": \"10 %\"}]",
     "[{\"coat\": \"brushing-varnish\", \"coats\": 2, \"by\": \"hvlp\", \"thin\": \"1:0.1\"}]"},
    {ROW("thinned by a ratio"),
     "[{\"coat\": \"brushing-varnish\", \"thin\": \"2:1\", \"between\": {\"rub\": \"a \\\"fine\\\" \\\\ "
     "pad\"}}]",
     "[{\"coat\": \"brushing-varnish\", \"coats\": 3, \"by\": \"brush\", \"thin\": \"1:0.5\", \"between\": "
     "{\"rub\": \"a \\\"fine\\\" \\\\ pad\"}}]"},
    {ROW("waits and work"),
     "[{\"coat\": \"danish-oil\", \"coats\": 1}, {\"wait\": \"cured\"}, {\"polish\": true}, {\"wait\": \"2 "
     "d\"}, "
     "{\"rub\": \"steel wool 0000\"}, {\"task\": \"look over\", \"takes\": \"10 min\"}, {\"polish\": \"with "
     "a "
     "brush\"}]",
     "[{\"coat\": \"danish-oil\", \"coats\": 1, \"by\": \"cloth\"}, {\"wait\": \"cured\"}, {\"polish\": "
     "true}, "
     "{\"wait\": \"2880 min\"}, {\"rub\": \"steel wool 0000\"}, {\"task\": \"look over\", \"takes\": \"10 "
     "min\"}, "
     "{\"polish\": \"with a brush\"}]"},
};

/* The list of steps alone, out of the patch that changes a schedule into it. */
static const char *steps_of(struct reader *reader, const char *patch)
{
    static const char before[] = "{\"schedules\": {\"oil\": ";
    size_t head = sizeof before - 1, length = strlen(patch);
    return strncmp(patch, before, head) == 0 && length > head + 2
               ? arena_text_n(reader->arena, patch + head, length - head - 2)
               : patch;
}

static const char *read_and_written(struct reader *reader, const struct row *row, const char *steps)
{
    const char *text = reader_swap(reader, job_text_job,
                                   "[{\"sand\": 150}, {\"coat\": \"hardwax-oil\", \"coats\": 2}]", steps);
    const struct job *job = job_text_read_as(reader, text);
    check_true(row, job != NULL, reader_lines(reader, &reader->errors));
    struct schedule schedules[2] = {{.name = "oil"}, job->schedules[1]};
    struct job other = *job;
    other.schedules = schedules;
    return steps_of(reader, job->writer->job_change(reader->arena, &other, job));
}

static void steps_come_back(void **state)
{
    const struct steps_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, read_and_written(reader, &r->row, r->given), r->want);
    check_text(&r->row, read_and_written(reader, &r->row, r->want), r->want);
    reader_free(reader);
}

/* The shop in the job, and the patch that makes it of the shop that is assumed. */
static void check_shop(const char *shop)
{
    struct reader *reader = reader_make();
    const char *text = reader_swap(reader, job_text_job, "{\"people\": 1, \"rack\": \"4 m2\"}", shop);
    const struct job *job = job_text_read_as(reader, text);
    check_true(HERE, job != NULL, reader_lines(reader, &reader->errors));
    struct job assumed = *job;
    shop_default(&assumed.shop);
    check_text(HERE, job->writer->shop_change(reader->arena, &assumed, job), shop);
    reader_free(reader);
}

static void air_and_hours_come_back(void **state)
{
    (void)state;
    check_shop("{\"hours\": {\"mon\": [\"08:00-12:30\", \"13:00-24:00\"], \"tue\": [], \"wed\": [], "
               "\"thu\": [], \"fri\": [], \"sat\": [\"09:00-11:00\"]}, \"air\": [{\"from\": \"07:00\", "
               "\"temperature\": \"20.5 C\", \"humidity\": \"50 %\"}, {\"from\": \"18:00\", \"temperature\": "
               "\"61 F\", \"humidity\": \"57.3 %\"}, {\"on\": \"2027-03-05\", \"from\": \"00:00\", "
               "\"temperature\": \"-3 C\", \"humidity\": \"70 %\"}]}");
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(steps_rows, steps_come_back), CHECK_TEST(air_and_hours_come_back));
}
