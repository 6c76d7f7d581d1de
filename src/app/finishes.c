#include "app/run.h"

static int finishes(struct run *run)
{
    const char *finish = run->options.operand_count ? run->options.operands[0] : NULL;
    bool label = option_value(&run->options, "from-label") != NULL;
    if (label && !finish)
        return run_misused(run, "coatwright finishes FINISH --from-label, the nearest finish of the table",
                           "no more");
    if (!coatwright_finishes(run->session, finish, option_value(&run->options, "own")))
        return run_failed(run);
    /* JSON whatever was asked: it is a file to be written. */
    if (label)
        return run_print(run, coatwright_write(run->session, COATWRIGHT_FINISH_LABEL, COATWRIGHT_JSON));
    return run_report(run, COATWRIGHT_FINISH_TABLE, EXIT_DONE);
}

const struct command command_finishes = {
    .name = "finishes",
    .operands = "[FINISH]",
    .does = "the finish table, or one finish with its sources",
    .most = 1,
    .options = {{"own", "DIR", "the shop's own finish files, ahead of the table", NULL},
                {"from-label", NULL, "a file to fill in for your can, after FINISH", NULL}},
    .run = finishes,
};
