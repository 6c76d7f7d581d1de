#include "app/commands.h"

/* Some mistakes show only where the work is laid out, so a check plans as well. */
int run_check(struct run *run)
{
    struct coatwright_outcome outcome;
    if (!run_plan(run, &outcome))
        return run_failed(run);
    return run_report(run, COATWRIGHT_CHECK, EXIT_DONE);
}
