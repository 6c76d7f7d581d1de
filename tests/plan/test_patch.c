/* Schedules, hours and air written back as the user's file would hold them, and read again. */
#include "check.h"
#include "job_text.h"

#include "plan/patch.h"

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

static const char *read_and_written(struct reader *reader, const struct row *row, const char *steps)
{
    struct buf out;
    const char *text = reader_swap(reader, job_text_job,
                                   "[{\"sand\": 150}, {\"coat\": \"hardwax-oil\", \"coats\": 2}]", steps);
    const struct job *job = job_text_read_as(reader, text);
    check_true(row, job != NULL, reader_lines(reader, &reader->errors));
    buf_init(&out, reader->arena);
    patch_steps(&out, &job->schedules[0]);
    return out.text;
}

static void steps_come_back(void **state)
{
    const struct steps_row *r = *state;
    struct reader *reader = reader_make();
    check_text(&r->row, read_and_written(reader, &r->row, r->given), r->want);
    check_text(&r->row, read_and_written(reader, &r->row, r->want), r->want);
    reader_free(reader);
}

/* The shop in the job, changed; its air and hours of Tuesday and Saturday as they are written. */
static void check_shop(const char *shop, const char *want_air, const char *want_hours)
{
    struct reader *reader = reader_make();
    struct buf air, hours;
    const char *text = reader_swap(reader, job_text_job, "{\"people\": 1, \"rack\": \"4 m2\"}", shop);
    const struct job *job = job_text_read_as(reader, text);
    check_true(HERE, job != NULL, reader_lines(reader, &reader->errors));
    buf_init(&air, reader->arena);
    buf_init(&hours, reader->arena);
    patch_air(&air, &job->shop.air);
    patch_hours(&hours, &job->shop, 1u << TUESDAY | 1u << SATURDAY);
    check_text(HERE, air.text, want_air);
    check_text(HERE, hours.text, want_hours);
    reader_free(reader);
}

static void air_and_hours_come_back(void **state)
{
    (void)state;
    static const char air[] =
        "[{\"from\": \"07:00\", \"temperature\": \"20.5 C\", \"humidity\": \"50 %\"}, {\"from\": \"18:00\", "
        "\"temperature\": \"61 F\", \"humidity\": \"57.3 %\"}, {\"on\": \"2027-03-05\", \"from\": \"00:00\", "
        "\"temperature\": \"-3 C\", \"humidity\": \"70 %\"}]";
    static const char hours[] = "{\"tue\": [\"08:00-12:30\", \"13:00-24:00\"], \"sat\": []}";
    struct arena *arena = arena_make(0);
    check_shop(arena_textf(arena, "{\"air\": %s, \"hours\": %s}", air, hours), air, hours);
    arena_free(arena);
}

static void names_are_quoted(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct buf out;
    buf_init(&out, arena);
    patch_string(&out, "a \"b\" \\ \t\x01 caf\xC3\xA9");
    check_text(HERE, out.text, "\"a \\\"b\\\" \\\\ \\u0009\\u0001 caf\xC3\xA9\"");
    arena_free(arena);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_ROWS(steps_rows, steps_come_back), CHECK_TEST(air_and_hours_come_back),
                     CHECK_TEST(names_are_quoted));
}
