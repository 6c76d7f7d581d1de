#include "app/several.h"

/* Whether every job has a timetable that keeps its delivery. */
static bool in_time(const struct several *several)
{
    for (size_t i = 0; i < several->count; i++)
        if (!several->outcomes[i].in_time)
            return false;
    return true;
}

static int today(struct run *run)
{
    struct several several;
    struct run *failed = several_plan_day(&several, run);
    int status = failed ? run_failed(failed)
                        : run_report(run, COATWRIGHT_DAY, in_time(&several) ? EXIT_DONE : EXIT_MISSED);
    several_close(&several);
    return status;
}

const struct command command_today = {
    .name = "today",
    .operands = "JOB ...",
    .does = "the day card: what is done today, by whom",
    .least = 1,
    .most = OPERANDS_MOST,
    .more = "Several jobs share one shop.",
    .options = {{"day", "DAY", "another day: 2027-03-02", day_reads},
                {"person", "NAME", "what this person does", NULL},
                OPTION_SOONEST,
                OPTION_LATEST,
                OPTION_EFFORT},
    .run = today,
};
