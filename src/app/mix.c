#include "app/run.h"

#include <stdio.h>
#include <string.h>
#include <unistd.h>

enum { AMOUNT_SIZE = 256 };

/* `400 ml` comes as one word or as two; behind --have COMPONENT it is how much there is of that. */
static void join(const struct options *options, const char *have, char *text, size_t size)
{
    size_t used = (size_t)snprintf(text, size, "%s", have ? have : "");
    for (size_t i = 1; i < options->operand_count && used < size; i++)
        used += (size_t)snprintf(text + used, size - used, "%s%s", used ? " " : "", options->operands[i]);
}

static int mix_alone(struct run *run)
{
    const struct options *options = &run->options;
    const char *have = option_value(options, "have");
    char amount[AMOUNT_SIZE];
    bool sound;
    join(options, have, amount, sizeof amount);
    struct coatwright_mix_want want = {
        .size = sizeof want,
        .finish = options->operands[0],
        .amount = have ? NULL : amount,
        .have = have ? amount : NULL,
        .at = option_value(options, "at"),
        .by = option_value(options, "by"),
        .wood = option_value(options, "wood"),
        .later = option_value(options, "later") != NULL,
        .thin = option_value(options, "thin"),
        .scale = option_value(options, "scale"),
        .cut = option_value(options, "cut"),
        .from = option_value(options, "from"),
    };
    if (!coatwright_mix(run->session, &want, &sound))
        return run_failed(run);
    return run_report(run, COATWRIGHT_MIX, sound ? EXIT_DONE : EXIT_MISSED);
}

static int mix(struct run *run)
{
    static const char *const alone[] = {"at", "by", "wood", "later", "thin", "scale", "cut", "from"};
    struct coatwright_outcome outcome;
    if (run->options.operand_count > 1 || option_value(&run->options, "have"))
        return mix_alone(run);
    for (size_t i = 0; i < sizeof alone / sizeof alone[0]; i++)
        if (option_value(&run->options, alone[i])) {
            char expected[100];
            snprintf(expected, sizeof expected, "a finish and an amount with --%s: a job says it itself",
                     alone[i]);
            return run_misused(run, expected, "a job");
        }
    const char *job = run->options.operands[0];
    if (strcmp(job, "-") != 0 && access(job, F_OK) != 0 && !strpbrk(job, "./"))
        return run_misused(
            run, "a job file, or an amount behind a finish, such as: coatwright mix danish-oil 400 ml",
            run->options.operands[0]);
    if (!run_plan(run, &outcome))
        return run_failed(run);
    return run_report(run, COATWRIGHT_MIX, outcome.mixes_sound ? EXIT_DONE : EXIT_MISSED);
}

const struct command command_mix = {
    .name = "mix",
    .operands = "JOB | FINISH AMOUNT",
    .does = "a mixing card for every mix",
    .least = 1,
    .most = 6,
    .more = "AMOUNT is a volume such as 400 ml, a mass, or the area to be covered, such as 1.4 m²; with\n"
            "--have it is how much there is of that component. --at to --from are for a mix without a job.",
    .options = {OPTION_EFFORT,
                {"at", "TEMPERATURE", "of the air when it is mixed: 15 C", NULL},
                {"have", "COMPONENT", "the most that AMOUNT of it makes", NULL},
                {"by", "TOOL", "the tool that applies it; left out the finish's first", NULL},
                {"wood", "WOOD", "under a first coat; closed grain", NULL},
                {"later", NULL, "a later coat, not one on bare wood", NULL},
                {"thin", "RATIO", "finish to thinner: 2:1, or 10 %", NULL},
                {"scale", "STEP", "of the scale; 1 g", NULL},
                {"cut", "POUNDS", "of shellac, made of flakes", NULL},
                {"from", "POUNDS", "... or of a stronger cut", NULL}},
    .run = mix,
};
