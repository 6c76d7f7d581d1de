#include "app/run.h"

static int learn(struct run *run)
{
    if (!coatwright_learn(run->session, run->options.operands[0]) ||
        (option_value(&run->options, "write") && !coatwright_save_learned(run->session)))
        return run_failed(run);
    return run_report(run, COATWRIGHT_LEARNED, EXIT_DONE);
}

const struct command command_learned = {
    .name = "learned",
    .operands = "FOLDER",
    .does = "the shop's own coverage and minutes, from its logs",
    .least = 1,
    .most = 1,
    .options = {{"write", NULL, "put coverage into the shop's own finish files", NULL}},
    .run = learn,
};
