#include "app/several.h"

#include <stdio.h>

static int buy_for_several(struct run *run, enum coatwright_report report)
{
    struct several several;
    if (option_value(&run->options, "explain") || option_value(&run->options, "csv")) {
        char found[24];
        snprintf(found, sizeof found, "%zu", run->options.operand_count);
        return run_misused(run, "one job with --explain or --csv", found);
    }
    struct run *failed = several_read(&several, run);
    failed = failed ? failed : several_plan(&several, run);
    int status = failed ? run_failed(failed) : several_print(&several, report);
    several_close(&several);
    return status;
}

static int buy(struct run *run)
{
    struct coatwright_outcome outcome;
    const char *csv = option_value(&run->options, "csv"), *finish = option_value(&run->options, "explain");
    bool cost = option_value(&run->options, "cost") != NULL;
    enum coatwright_report report = cost ? COATWRIGHT_COST : COATWRIGHT_BUY;
    if (finish && run->options.json)
        return run_misused(run, "either --explain or --json", "both");
    if (finish && cost)
        return run_misused(run, "either --explain or --cost", "both");
    if (run->options.operand_count > 1)
        return buy_for_several(run, report);
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (csv && !coatwright_save(run->session, report, COATWRIGHT_CSV, csv))
        return run_failed(run);
    if (finish)
        return run_print(run, coatwright_explain_finish(run->session, finish));
    return run_report(run, report, EXIT_DONE);
}

const struct command command_buy = {
    .name = "buy",
    .operands = "JOB ...",
    .does = "what to buy, and what will be left over",
    .least = 1,
    .most = OPERANDS_MOST,
    .more = "Several jobs share one shop; --explain and --csv are for one job.",
    .options = {OPTION_EXPLAIN,
                {"cost", NULL, "what it costs, as lines for a quote", NULL},
                {"csv", "FILE", "write the shopping list, or the quote, to FILE", NULL},
                OPTION_EFFORT},
    .run = buy,
};
