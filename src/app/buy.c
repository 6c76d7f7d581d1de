#include "app/commands.h"

#include <stdio.h>

static int misused(struct run *run, const char *expected)
{
    struct err misuse;
    err_fill(&misuse, ERR_USAGE, expected, "both");
    return run_misused(run, &misuse);
}

static int explain(struct run *run)
{
    const char *text = coatwright_explain_finish(run->session, run->options->explain);
    if (!text)
        return run_failed(run);
    fputs(text, stdout);
    return EXIT_DONE;
}

int run_buy(struct run *run)
{
    struct coatwright_outcome outcome;
    const struct options *options = run->options;
    enum coatwright_report report = options->cost ? COATWRIGHT_COST : COATWRIGHT_BUY;
    if (options->explain && options->json)
        return misused(run, "either --explain or --json");
    if (options->explain && options->cost)
        return misused(run, "either --explain or --cost");
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (options->csv && !coatwright_save(run->session, report, COATWRIGHT_CSV, options->csv))
        return run_failed(run);
    return options->explain ? explain(run) : run_report(run, report, EXIT_DONE);
}
