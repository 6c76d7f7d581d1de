/* Jobs that share a shop: each has a whole plan of its own, and nobody is in two places at once. */
#include "check.h"
#include "job_text.h"

#include "plan/plan.h"

enum { JOBS = 2 };

static bool meet(const struct timetable_batch *a, const struct timetable_batch *b)
{
    return a->person == b->person && a->start_min < b->end_min && b->start_min < a->end_min;
}

/* Batches of both jobs with one set-up begin and end together. */
static bool are_one(const struct timetable_batch *a, const struct timetable_batch *b)
{
    return a->start_min == b->start_min && a->end_min == b->end_min;
}

/* Sanded once at 150: the top has 0.72 m2 of face, 0.72 - 0.55 of back, 0.09 of edges and ends; six triangles have twice 0.0006 m2
 * and 4 mm along 120 mm each. 0.7 discs go on a square metre. */
static void check_abrasive(const struct sundries *sundries)
{
    assert_true(sundries && sundries->count > 0);
    check_text(HERE, sundries->items[0].rule->name, "abrasive disc 150 mm");
    check_int(HERE, sundries->items[0].grit, 150);
    check_double(HERE, sundries->items[0].amount, 0.7 * (0.72 + 0.17 + 0.09 + 6 * (0.0012 + 0.00048)), 1e-12);
}

static void each_has_its_plan(void **state)
{
    (void)state;
    static const char *const names[JOBS] = {"Desk", "Shelf"};
    struct reader *reader = reader_make();
    const struct job *jobs[JOBS + 1] = {NULL}; /* as a list that ends in none */
    struct err_list lists[JOBS] = {{0}, {0}}, *errors[JOBS] = {&lists[0], &lists[1]};
    jobs[0] = job_text_read(reader, NOTHING, NULL, NULL);
    jobs[1] = job_text_read(reader, JOB, "\"Desk\"", "\"Shelf\"");
    assert_true(jobs[0] && jobs[1]);
    struct plan **plans =
        plan_several(reader->arena, jobs, JOBS, (struct plan_options){.timetable.effort = 200000}, errors);
    assert_non_null(plans);
    for (size_t j = 0; j < JOBS; j++) {
        check_text(HERE, plans[j]->job->name, names[j]);
        check_int(HERE, (intmax_t)lists[j].count, 0);
        check_int(HERE, plans[j]->timetable->status, TIMETABLE_PLANNED);
        check_true(HERE, plans[j]->timetable->operations == plans[j]->operations, "of its own work");
        check_int(HERE, (intmax_t)plans[j]->purchases->count, 2); /* oil and wax */
        check_true(HERE, plans[j]->caution_count > 0, "cautions");
        check_abrasive(plans[j]->sundries);
    }
    const struct timetable *a = plans[0]->timetable, *b = plans[1]->timetable;
    for (size_t i = 0; i < a->batch_count; i++)
        for (size_t k = 0; k < b->batch_count; k++)
            check_true(HERE, !meet(&a->batches[i], &b->batches[k]) || are_one(&a->batches[i], &b->batches[k]),
                       "one thing at a time");
    reader_free(reader);
}

/* Sanding 100 m of board takes longer than any stretch of work: then neither job is planned, and it is said of the one. */
static void one_that_does_not_fit(void **state)
{
    (void)state;
    for (int large = 0; large < JOBS; large++) {
        struct reader *reader = reader_make();
        const struct job *jobs[JOBS];
        struct err_list lists[JOBS] = {{0}, {0}}, *errors[JOBS] = {&lists[0], &lists[1]};
        jobs[!large] = job_text_read(reader, NOTHING, NULL, NULL);
        jobs[large] = job_text_read(reader, PARTS, "1200,600,25", "100 m,600,25");
        assert_true(jobs[0] && jobs[1]);
        check_true(HERE, !plan_several(reader->arena, jobs, JOBS, (struct plan_options){0}, errors), "none");
        check_true(HERE, lists[large].count > 0 && lists[!large].count == 0, "of the large one");
        reader_free(reader);
    }
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_TEST(each_has_its_plan), CHECK_TEST(one_that_does_not_fit));
}
