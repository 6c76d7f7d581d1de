#include "app/commands.h"

#include <stdio.h>

enum { AMOUNT_SIZE = 256 };

/* `350 ml` comes as one word or as two; behind --have COMPONENT it is how much there is of that. */
static void join(const struct options *options, char *text, size_t size)
{
    size_t used = 0;
    text[0] = '\0';
    if (options->have)
        used = (size_t)snprintf(text, size, "%s", options->have);
    for (size_t i = 1; i < options->operand_count && used < size; i++)
        used += (size_t)snprintf(text + used, size - used, "%s%s", used ? " " : "", options->operands[i]);
}

static int mix_alone(struct run *run)
{
    const struct options *options = run->options;
    char amount[AMOUNT_SIZE];
    bool sound;
    join(options, amount, sizeof amount);
    struct coatwright_mix_want want = {
        .finish = options->operands[0],
        .amount = options->have ? NULL : amount,
        .have = options->have ? amount : NULL,
        .at = options->at,
        .by = options->by,
        .wood = options->wood,
        .later = options->later,
        .thin = options->thin,
        .scale = options->scale,
        .cut = options->cut,
        .from = options->from,
    };
    if (!coatwright_mix(run->session, &want, &sound))
        return run_failed(run);
    return run_report(run, COATWRIGHT_MIX, sound ? EXIT_DONE : EXIT_MISSED);
}

/* The option that a job has no use for; NULL: none was given. */
static const char *lone_option(const struct options *options)
{
    const struct {
        const char *name;
        bool given;
    } lone[] = {
        {"at", options->at},       {"by", options->by},     {"wood", options->wood},
        {"later", options->later}, {"thin", options->thin}, {"scale", options->scale},
        {"cut", options->cut},     {"from", options->from},
    };
    for (size_t i = 0; i < sizeof lone / sizeof lone[0]; i++)
        if (lone[i].given)
            return lone[i].name;
    return NULL;
}

int run_mix(struct run *run)
{
    struct coatwright_outcome outcome;
    if (run->options->operand_count > 1 || run->options->have)
        return mix_alone(run);
    const char *option = lone_option(run->options);
    if (option) {
        struct err misuse = {.found = "a job"};
        snprintf(misuse.expected, sizeof misuse.expected,
                 "a finish and an amount with --%s: a job says it itself", option);
        return run_misused(run, &misuse);
    }
    if (!run_plan(run, &outcome))
        return run_failed(run);
    return run_report(run, COATWRIGHT_MIX, outcome.mixes_sound ? EXIT_DONE : EXIT_MISSED);
}
