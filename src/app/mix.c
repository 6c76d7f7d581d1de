#include "app/commands.h"

#include <stdio.h>

/* `350 ml` comes as one word or as two. */
static void join(const struct options *options, char *text, size_t size)
{
    size_t used = 0;
    text[0] = '\0';
    for (size_t i = 1; i < options->operand_count && used < size; i++)
        used += (size_t)snprintf(text + used, size - used, "%s%s", i > 1 ? " " : "", options->operands[i]);
}

static int mix_alone(struct run *run)
{
    char amount[128];
    bool sound;
    join(run->options, amount, sizeof amount);
    if (!coatwright_mix(run->session, run->options->operands[0], amount, run->options->at, &sound))
        return run_failed(run);
    return run_report(run, COATWRIGHT_MIX, sound ? EXIT_DONE : EXIT_MISSED);
}

int run_mix(struct run *run)
{
    struct coatwright_outcome outcome;
    if (run->options->operand_count > 1)
        return mix_alone(run);
    if (run->options->at) {
        struct misuse misuse = {{"a finish and an amount with --at: a job has its own air"}, "a job"};
        return run_misused(run, &misuse);
    }
    if (!run_plan(run, &outcome))
        return run_failed(run);
    return run_report(run, COATWRIGHT_MIX, outcome.mixes_sound ? EXIT_DONE : EXIT_MISSED);
}
