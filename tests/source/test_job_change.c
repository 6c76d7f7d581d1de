/* What is written of two versions of a job is a merge patch (RFC 7396): put into the text of the first, it makes the second. */
#include "check.h"
#include "full_job.h"

#include "base/buf.h"
#include "format/json_tree.h"
#include "job/job.h"

#include <string.h>

/* Of the full job one place is changed. */
struct change_row {
    struct row row;
    const char *find, *first, *second; /* NULL: as found */
    const char *want;                  /* the patch; NULL: whatever it is, it makes the second */
};

static const struct change_row of_the_job[] = {
    {ROW("the customer"), "\"Reading room\"", NULL, "\"Ann\"", "{\"customer\": \"Ann\"}"},
    {ROW("a customer more"), "\"customer\": \"Reading room\",", "", NULL, "{\"customer\": \"Reading room\"}"},
    {ROW("to the letter"), "\"strict\": true,", "", NULL, "{\"strict\": true}"},
    {ROW("a moment to start"), "\"2027-03-01 08:00\"", NULL, "\"2027-03-02 09:30\"",
     "{\"start\": \"2027-03-02 09:30\"}"},
    {ROW("a day to deliver"), "\"2027-04-19 17:00\"", NULL, "\"2027-04-20\"",
     "{\"deliver\": \"2027-04-20\"}"},
    {ROW("the state"), "\"wrap\"", NULL, "\"cured\"", "{\"deliver-at\": \"cured\"}"},
    {ROW("days to spare"), "\"to-spare\": \"1 d\"", NULL, "\"to-spare\": \"2 d\"",
     "{\"to-spare\": \"2880 min\"}"},
    {ROW("hours to spare"), "\"to-spare\": \"1 d\"", NULL, "\"to-spare\": \"3 h\"",
     "{\"to-spare\": \"180 min\"}"},
    {ROW("the reserve"), "\"10 %\", \"finishes\"", NULL, "\"12.5 %\", \"finishes\"",
     "{\"reserve\": \"12.5 %\"}"},
    {ROW("one schedule"), "\"mend\": [{\"coat\": \"own-oil\"}]", NULL,
     "\"mend\": [{\"coat\": \"own-oil\", \"coats\": 3}]", NULL},
    {ROW("a tool"), "\"by\": \"pad\"", NULL, "\"by\": \"cloth\"", NULL},
    {ROW("thinned"), "\"thin\": \"5 %\"", NULL, "\"thin\": \"4 %\"", NULL},
    {ROW("the work between coats"), "{\"scuff\": 320}", NULL, "{\"sand\": 320}", NULL},
    {ROW("other work between coats"), "{\"scuff\": 320}", NULL, "{\"rub\": \"a grey pad\"}", NULL},
    {ROW("rubbed with something else between"), "{\"scuff\": 320}", "{\"rub\": \"a red pad\"}",
     "{\"rub\": \"a grey pad\"}", NULL},
    {ROW("a wait for a state"), "{\"wait\": \"cured\"}", NULL, "{\"wait\": \"light-use\"}", NULL},
    {ROW("a wait"), "{\"wait\": \"2 d\"}", NULL, "{\"wait\": \"50 h\"}", NULL},
    {ROW("grain that dries longer"), "\"dry\": \"2 h\"", NULL, "\"dry\": \"3 h\"", NULL},
    {ROW("a grit"), "{\"sand\": 150}", NULL, "{\"sand\": 180}", NULL},
    {ROW("words"), "\"steel wool 0000\"", NULL, "\"steel wool 000\"", NULL},
    {ROW("minutes for each part"), ", \"takes-each\": \"5 min\"", "", NULL, NULL},
    {ROW("a step less"), "{\"polish\": true},", NULL, "", NULL},
    {ROW("the position"), "\"laid\": \"flat\"", NULL, "\"laid\": \"hung\"", NULL},
    {ROW("lots"), "\"lots\": 1", NULL, "\"lots\": 2", NULL},
    {ROW("turned over wet"), "\"flip\": \"handle\"", NULL, "\"flip\": \"now\"", NULL},
};

static const struct change_row of_the_shop[] = {
    {ROW("the rack"), "\"4 m2\"", NULL, "\"5 m2\"", "{\"rack\": \"5 m2\"}"},
    {ROW("a booth more"), "\"spray-places\": 1", NULL, "\"spray-places\": 2", "{\"spray-places\": 2}"},
    {ROW("a room for dust"), "\"shared\"", NULL, "\"separate\"", "{\"dust-room\": \"separate\"}"},
    {ROW("dust that settles later"), "\"settle\": \"30 min\"", NULL, "\"settle\": \"1 h\"",
     "{\"settle\": \"60 min\"}"},
    {ROW("the scale"), "\"1 g\"", NULL, "\"0.1 g\"", "{\"scale\": \"0.1 g\"}"},
    {ROW("the country"), "\"UK\"", NULL, "\"US\"", "{\"country\": \"US\"}"},
    {ROW("one rate"), "\"7 m2/h\"", NULL, "\"9 m2/h\"", "{\"rates\": {\"brush\": \"9 m2/h\"}}"},
    {ROW("what stays in a tool"), "\"10 ml\"", NULL, "\"12 ml\"", "{\"losses\": {\"brush\": \"12 ml\"}}"},
    {ROW("what reaches the surface"), "\"65 %\"", NULL, "\"70 %\"", "{\"transfer\": {\"hvlp\": \"70 %\"}}"},
    {ROW("the clean-up of a tool"), "\"clean-up\": {\"brush\": \"10 min\"}", NULL,
     "\"clean-up\": {\"brush\": \"12 min\"}", "{\"clean-up\": {\"brush\": \"12 min\"}}"},
    {ROW("how long a brush may lie"), "\"3 h\"", NULL, "\"4 h\"", "{\"rest\": {\"brush\": \"240 min\"}}"},
    {ROW("an evening"), "\"tue\": [\"08:00-17:00\"]", NULL, "\"tue\": [\"08:00-17:00\", \"18:00-20:00\"]",
     "{\"hours\": {\"tue\": [\"08:00-17:00\", \"18:00-20:00\"]}}"},
    {ROW("a day that is closed no more"), "\"closed\": [\"2027-03-08\", ", NULL, "\"closed\": [", NULL},
    {ROW("warmer"), "\"20 C\"", NULL, "\"21 C\"", NULL},
    {ROW("warmer on one day"), "\"68 F\"", NULL, "\"70 F\"", NULL},
    {ROW("one works otherwise"), "\"does\": [\"brush\", \"pad\", \"sand\"]", NULL,
     "\"does\": [\"brush\", \"sand\"]", NULL},
    {ROW("one works longer"), "\"09:00-15:00\"", NULL, "\"09:00-16:00\"", NULL},
    {ROW("one is away"), "\"2027-03-09\"", NULL, "\"2027-03-10\"", NULL},
    {ROW("another name"), "{\"person\": \"Bob\"}", NULL, "{\"person\": \"Rob\"}", NULL},
    {ROW("a helper more"), "{\"person\": \"Bob\"}", NULL, "{\"person\": \"Bob\"}, {\"person\": \"Cy\"}",
     NULL},
};

static const char *swapped(struct reader *reader, const char *text, const struct change_row *r,
                           const char *put)
{
    return reader_swap(reader, text, r->find, put ? put : r->find);
}

static struct job *read(struct reader *reader, const char *text)
{
    struct job *job = full_job_read(reader, text, full_job_finish(reader));
    check_text(HERE, reader_lines(reader, &reader->errors), "");
    assert_non_null(job);
    return job;
}

/* A piece is written anew as a whole. */
static void check_pieces(const struct row *row, const struct job *got, const struct job *want)
{
    const struct piece *a = got->pieces, *b = want->pieces;
    check_int(row, (intmax_t)a->after_count, (intmax_t)b->after_count);
    for (size_t i = 0; i < a->after_count; i++) {
        check_int(row, a->after[i].is_task, b->after[i].is_task);
        check_int(row, a->after[i].index, b->after[i].index);
        check_int(row, a->after[i].state, b->after[i].state);
    }
    check_int(row, a->ready_min, b->ready_min);
    check_double(row, a->rack_m2, b->rack_m2, 0);
    check_int(row, a->lift, b->lift);
    check_int(row, a->coats_a_day, b->coats_a_day);
    check_int(row, a->dry_by_min, b->dry_by_min);
    check_int(row, a->uses, b->uses);
    check_true(row, a->patch && b->patch, "a patch");
    check_int(row, a->patch->schedule, b->patch->schedule);
    check_int(row, a->patch->region, b->patch->region);
    check_double(row, a->patch->area_m2, b->patch->area_m2, 0);
    check_text(row, a->patch->part, b->patch->part);
}

static void check_change(struct reader *reader, const char *whole, const struct change_row *r, bool of_shop)
{
    const char *text = swapped(reader, whole, r, r->first);
    struct job *first = read(reader, text), *second = read(reader, swapped(reader, whole, r, r->second));
    const char *(*change)(struct arena *, const struct job *, const struct job *) =
        of_shop ? first->writer->shop_change : first->writer->job_change;
    const char *patch = change(reader->arena, first, second);
    check_text(&r->row, patch ? patch : "nothing", r->want ? r->want : patch);
    struct file_text file = reader_file("job.json", text);
    struct buf merged;
    buf_init(&merged, reader->arena);
    if (of_shop)
        patch = arena_textf(reader->arena, "{\"shop\": %s}", patch);
    check_true(&r->row, json_merge(reader->arena, &file, patch, &merged), "a merge patch");
    struct job *third = read(reader, merged.text);
    const char *left = change(reader->arena, third, second);
    check_text(&r->row, left ? left : "the same", "the same");
    left = change(reader->arena, second, third);
    check_text(&r->row, left ? left : "the same", "the same");
    check_pieces(&r->row, third, second);
}

static void job_changes(void **state)
{
    struct reader *reader = reader_make();
    check_change(reader, full_job_text(reader), *state, false);
    reader_free(reader);
}

static void shop_changes(void **state)
{
    struct reader *reader = reader_make();
    check_change(reader, full_job_text(reader), *state, true);
    reader_free(reader);
}

/* A task is called "leg handle", and there is a leg: by its name alone the leg would be waited for, until it is dry to handle. */
static void a_task_that_ends_like_a_state(void **state)
{
    (void)state;
    static const struct change_row lots = {ROW("lots"), "\"lots\": 1", NULL, "\"lots\": 2", NULL};
    struct reader *reader = reader_make();
    const char *text =
        reader_swap(reader, full_job_text(reader), "\"task\": \"fit hinges\"", "\"task\": \"leg handle\"");
    text = reader_swap(reader, text, "[\"fit hinges\", ", "[\"leg handle handle\", ");
    check_true(HERE, read(reader, text)->pieces[0].after[0].is_task, "the task is read");
    check_change(reader, text, &lots, false);
    reader_free(reader);
}

/* All who work there are written anew where one of them changes: Ann with the calendar that is hers. */
static void people_keep_their_calendars(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const char *text = full_job_text(reader);
    struct job *first = read(reader, text), *second = read(reader, reader_swap(reader, text, "Bob", "Rob"));
    const char *patch = first->writer->shop_change(reader->arena, first, second);
    check_true(HERE, patch && strstr(patch, "\"busy\": [\"ann.ics\"]}, {\"person\": \"Rob\"}"),
               "the calendar of Ann");
    reader_free(reader);
}

static void nothing_changes(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    struct job *first = read(reader, full_job_text(reader)), *second = read(reader, full_job_text(reader));
    check_true(HERE, !first->writer->job_change(reader->arena, first, second), "the job is the same");
    check_true(HERE, !first->writer->shop_change(reader->arena, first, second), "the shop is the same");
    reader_free(reader);
}

int main(void)
{
    full_job_begin();
    return CHECK_ALL(CHECK_TEST(nothing_changes), CHECK_ROWS(of_the_job, job_changes),
                     CHECK_ROWS(of_the_shop, shop_changes), CHECK_TEST(a_task_that_ends_like_a_state),
                     CHECK_TEST(people_keep_their_calendars));
}
