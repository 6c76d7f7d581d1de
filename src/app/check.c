#include "app/run.h"

/* Some mistakes show only where the work is laid out, so a check plans as well, with hardly any search. */
static int check(struct run *run)
{
    struct coatwright_outcome outcome;
    return run_plan(run, &outcome) ? run_report(run, COATWRIGHT_CHECK, EXIT_DONE) : run_failed(run);
}

const struct command command_check = {
    .name = "check",
    .operands = "JOB",
    .does = "every mistake in a job, its parts and its finishes",
    .any_plan = true,
    .least = 1,
    .most = 1,
    .run = check,
};
