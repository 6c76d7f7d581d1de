/* What a job was to be before anything of it was done: the plan to which a quote compares what it costs now. */
#include "check.h"
#include "job_text.h"

#include "plan/plan.h"

enum { JOBS = 2 };

static struct job *logged_job(struct reader *reader, struct log_entry *entry)
{
    struct job *job = job_text_read(reader, NOTHING, NULL, NULL);
    assert_non_null(job);
    job->log = (struct log){.file = "job.log", .entries = entry, .count = 1, .last = 1};
    job->now_min = job->start_min + 60;
    return job;
}

/* Of one job, or of two that share a shop. */
static void first_plan_knows_no_log(void **state)
{
    (void)state;
    for (size_t count = 1; count <= JOBS; count++) {
        struct reader *reader = reader_make();
        struct log_entry entry = {.number = 1, .kind = LOG_DONE, .step = "none"};
        const struct job *jobs[JOBS] = {logged_job(reader, &entry),
                                        job_text_read(reader, NOTHING, NULL, NULL)};
        struct plan_options options = {.timetable.effort = 1000};
        struct plan **plans = plan_without_logs(reader->arena, jobs, count, options);
        assert_non_null(plans);
        for (size_t j = 0; j < count; j++) {
            check_int(HERE, plans[j]->timetable->status, TIMETABLE_PLANNED);
            check_int(HERE, (intmax_t)plans[j]->job->log.count, 0);
            check_int(HERE, (intmax_t)plans[j]->operations->fact_count, 0);
        }
        reader_free(reader);
    }
}

static void no_first_plan_without_a_log(void **state)
{
    (void)state;
    struct reader *reader = reader_make();
    const struct job *job = job_text_read(reader, NOTHING, NULL, NULL);
    check_true(HERE, !plan_without_logs(reader->arena, &job, 1, (struct plan_options){0}), "none");
    reader_free(reader);
}

int main(void)
{
    job_text_begin();
    return CHECK_ALL(CHECK_TEST(first_plan_knows_no_log), CHECK_TEST(no_first_plan_without_a_log));
}
