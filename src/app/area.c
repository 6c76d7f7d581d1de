#include "app/commands.h"

#include <stdio.h>

static int explain(struct run *run)
{
    if (run->options->json) {
        struct err misuse = {.expected = "either --explain or --json", .found = "both"};
        return run_misused(run, &misuse);
    }
    const char *text = coatwright_explain(run->session, run->options->explain);
    if (!text)
        return run_failed(run);
    fputs(text, stdout);
    return EXIT_DONE;
}

int run_area(struct run *run)
{
    const char *svg = run->options->svg;
    if (!coatwright_read(run->session, run->options->operands[0]) || !coatwright_take_off(run->session))
        return run_failed(run);
    if (svg && !coatwright_save(run->session, COATWRIGHT_AREA, COATWRIGHT_SVG, svg))
        return run_failed(run);
    return run->options->explain ? explain(run) : run_report(run, COATWRIGHT_AREA, EXIT_DONE);
}
