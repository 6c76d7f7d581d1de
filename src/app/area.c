#include "app/commands.h"

int run_area(struct run *run)
{
    if (!coatwright_read(run->session, run->options->operands[0]) || !coatwright_take_off(run->session))
        return run_failed(run);
    return run_report(run, COATWRIGHT_AREA, EXIT_DONE);
}
