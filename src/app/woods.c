#include "app/run.h"

static int woods(struct run *run)
{
    return run_report(run, COATWRIGHT_WOODS, EXIT_DONE);
}

const struct command command_woods = {
    .name = "woods",
    .operands = "",
    .does = "the woods that a part list may name",
    .run = woods,
};
