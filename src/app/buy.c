#include "app/commands.h"

int run_buy(struct run *run)
{
    struct coatwright_outcome outcome;
    if (!run_plan(run, &outcome))
        return run_failed(run);
    return run_report(run, COATWRIGHT_BUY, EXIT_DONE);
}
