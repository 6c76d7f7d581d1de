#include "app/run.h"

static int show(struct run *run)
{
    if (!coatwright_read(run->session, run->options.operands[0]))
        return run_failed(run);
    return run_report(run, COATWRIGHT_LOG, EXIT_DONE);
}

const struct command command_log = {
    .name = "log",
    .operands = "JOB",
    .does = "what was recorded",
    .least = 1,
    .most = 1,
    .run = show,
};
