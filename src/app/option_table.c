#include "app/option_table.h"

static const struct command_entry commands[COMMAND_COUNT] = {
    [COMMAND_NONE] = {NULL, "COMMAND ...",
                      "plans the finishing of furniture, from the part list to the last coat", 1, 1, NULL},
    [COMMAND_CHECK] = {"check", "JOB", "every mistake in a job, its parts and its finishes", 1, 1, NULL},
    [COMMAND_AREA] = {"area", "JOB", "the surfaces, by piece and by finishing schedule", 1, 1, NULL},
    [COMMAND_BUY] = {"buy", "JOB", "what to buy, and what will be left over", 1, 1, NULL},
    [COMMAND_MIX] =
        {"mix", "JOB | FINISH AMOUNT", "a mixing card for every mix", 1, 6,
         "AMOUNT is a volume such as 350 ml, a mass, or the area to be covered, such as 1.4 m2; with\n"
         "--have it is how much there is of that component. --at to --from are for a mix without a "
         "job."},
    [COMMAND_TIMETABLE] =
        {"timetable", "JOB ...", "coat by coat, each with its day and hour", 1, OPERANDS_MOST,
         "Several jobs share one shop, and one calendar; --svg and --chance are for one job."},
    [COMMAND_PLAN] = {"plan", "JOB", "all of it on one page", 1, 1,
                      "In DIR come plan.json, timetable.ics and shopping.csv."},
    [COMMAND_FINISHES] = {"finishes", "[FINISH]", "the finish table, or one finish with its sources", 0, 1,
                          NULL},
};

static const struct option_entry options[] = {
    {"ics", "FILE", FOR(COMMAND_TIMETABLE), offsetof(struct options, ics), "write the calendar to FILE"},
    {"explain", "NAME", FOR(COMMAND_AREA) | FOR(COMMAND_BUY), offsetof(struct options, explain),
     "the arithmetic of this part (area) or finish (buy)"},
    {"cost", NULL, FOR(COMMAND_BUY), offsetof(struct options, cost), "what it costs, as lines for a quote"},
    {"csv", "FILE", FOR(COMMAND_BUY), offsetof(struct options, csv),
     "write the shopping list, or the quote, to FILE"},
    {"svg", "FILE", FOR(COMMAND_TIMETABLE) | FOR(COMMAND_AREA), offsetof(struct options, svg),
     "draw it into FILE"},
    {"latest", NULL, FOR(COMMAND_TIMETABLE) | FOR(COMMAND_PLAN), offsetof(struct options, late),
     "as late as the delivery allows"},
    {"effort", "NUMBER", FOR(COMMAND_TIMETABLE) | FOR(COMMAND_PLAN) | FOR(COMMAND_BUY) | FOR(COMMAND_MIX),
     offsetof(struct options, effort), "work spent on a quicker plan"},
    {"chance", NULL, FOR(COMMAND_TIMETABLE), offsetof(struct options, chance),
     "how likely it is to be on time"},
    {"out", "DIR", FOR(COMMAND_PLAN), offsetof(struct options, out), "write the plan's files into DIR"},
    {"at", "TEMPERATURE", FOR(COMMAND_MIX), offsetof(struct options, at),
     "of the air when it is mixed: 15 C"},
    {"have", "COMPONENT", FOR(COMMAND_MIX), offsetof(struct options, have),
     "the most that AMOUNT of it makes"},
    {"by", "TOOL", FOR(COMMAND_MIX), offsetof(struct options, by), "laid by; the finish's first"},
    {"wood", "WOOD", FOR(COMMAND_MIX), offsetof(struct options, wood), "under a first coat; closed grain"},
    {"later", NULL, FOR(COMMAND_MIX), offsetof(struct options, later), "a later coat, not one on bare wood"},
    {"thin", "RATIO", FOR(COMMAND_MIX), offsetof(struct options, thin), "finish to thinner: 2:1, or 10 %"},
    {"scale", "STEP", FOR(COMMAND_MIX), offsetof(struct options, scale), "of the scale; 1 g"},
    {"cut", "POUNDS", FOR(COMMAND_MIX), offsetof(struct options, cut), "of shellac, made of flakes"},
    {"from", "POUNDS", FOR(COMMAND_MIX), offsetof(struct options, from), "... or of a stronger cut"},
    {"own", "DIR", FOR(COMMAND_FINISHES), offsetof(struct options, own),
     "the shop's own finish files, ahead of the table"},
    {"from-label", NULL, FOR(COMMAND_FINISHES), offsetof(struct options, from_label),
     "a file to fill in for the can in hand, after FINISH"},
    {"json", NULL, FOR_EVERY, offsetof(struct options, json), "print JSON, mistakes too"},
    {"units", "metric|us", FOR_EVERY, offsetof(struct options, units), "the units of what is printed"},
    {"now", "MOMENT", FOR_EVERY, offsetof(struct options, now), "instead of the clock: 2027-03-01 08:00"},
    {"trust-paths", NULL, FOR_EVERY, offsetof(struct options, trust_paths),
     "files of the job may lie outside its folder"},
    {"completion", "bash", FOR(COMMAND_NONE), offsetof(struct options, completion),
     "print what teaches the shell these words"},
    {"help", NULL, FOR_EVERY, offsetof(struct options, help), "print this"},
    {"version", NULL, FOR_EVERY, offsetof(struct options, version), "print the version"},
};

const struct command_entry *command_table(void)
{
    return commands;
}

const struct option_entry *option_table(size_t *count)
{
    *count = sizeof options / sizeof options[0];
    return options;
}

bool option_fits(const struct option_entry *option, enum command command)
{
    return (option->commands & FOR(command)) != 0;
}
