#include "app/commands.h"

#include <stdio.h>

/* JSON whatever was asked: it is a file to be written. */
static int from_label(struct run *run)
{
    const char *text = coatwright_write(run->session, COATWRIGHT_FINISH_LABEL, COATWRIGHT_JSON);
    if (!text)
        return run_failed(run);
    fputs(text, stdout);
    return EXIT_DONE;
}

int run_finishes(struct run *run)
{
    const struct options *options = run->options;
    const char *finish = options->operand_count ? options->operands[0] : NULL;
    if (options->from_label && !finish) {
        struct err misuse = {.expected =
                                 "coatwright finishes FINISH --from-label, the nearest finish of the table",
                             .found = "no more"};
        return run_misused(run, &misuse);
    }
    if (!coatwright_finishes(run->session, finish, options->own))
        return run_failed(run);
    return options->from_label ? from_label(run) : run_report(run, COATWRIGHT_FINISH_TABLE, EXIT_DONE);
}
