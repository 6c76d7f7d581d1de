#include "app/run.h"

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
    .operands = "JOB",
    .does = "what to buy, and what will be left over",
    .least = 1,
    .most = 1,
    .options = {OPTION_EXPLAIN,
                {"cost", NULL, "what it costs, as lines for a quote", NULL},
                {"csv", "FILE", "write the shopping list, or the quote, to FILE", NULL},
                OPTION_EFFORT},
    .run = buy,
};
