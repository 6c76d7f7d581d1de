#include "app/commands.h"

int run_finishes(struct run *run)
{
    const struct options *options = run->options;
    if (!coatwright_finishes(run->session, options->operand_count ? options->operands[0] : NULL))
        return run_failed(run);
    return run_report(run, COATWRIGHT_FINISH_TABLE, EXIT_DONE);
}
