/* The command line. A command is one file of this room, which holds its row, and one line of COMMANDS; reading, help and
 * completion go by the rows. */
#ifndef APP_OPTIONS_H
#define APP_OPTIONS_H

#include "base/err.h"

#include <stdio.h>

struct run;

struct option {
    const char *name;  /* without the hyphens; NULL ends a list */
    const char *value; /* NULL: a flag; "metric|us": one of these words; else what the help calls it */
    const char *does;
    bool (*reads)(const char *value, struct err *misuse); /* NULL: any value */
};

enum { OPERANDS_MOST = 8, OPTIONS_MOST = 20 };

struct command {
    const char *name, *operands, *does;
    size_t least, most;                  /* operands */
    const char *more;                    /* for its own help; NULL: nothing */
    bool advice;                         /* says what would help a late plan */
    bool any_plan;                       /* plans to find mistakes alone: the first plan serves */
    struct option options[OPTIONS_MOST]; /* its own; those of every command stand in options.c */
    int (*run)(struct run *run);         /* with a session that is open; gives the exit status */
};

/* In the order of the help. */
#define COMMANDS(each)                                                                                       \
    each(check) each(area) each(buy) each(mix) each(timetable) each(plan) each(today) each(sheet)            \
        each(publish) each(fetch_busy) each(finishes) each(woods) each(new) each(done) each(again)           \
            each(skip) each(undo) each(air) each(log) each(learned) each(serve)

#define COMMAND_ROW(name) extern const struct command command_##name;
COMMANDS(COMMAND_ROW)
#undef COMMAND_ROW

/* What was asked for; texts are those of the command line. */
struct options {
    const struct command *command; /* NULL: none */
    const char *operands[OPERANDS_MOST];
    size_t operand_count;
    const struct option *given[4 * OPTIONS_MOST];
    const char *values[4 * OPTIONS_MOST]; /* for each; a flag's is its name */
    size_t given_count;
    bool json; /* asked for anywhere, so that a misuse can be told as it was asked */
};

/* Fills *options, as far as it came on failure too. */
bool options_read(struct options *options, int argc, char *const *argv, struct err *misuse);

/* The value of an option, the last where it was given more than once; NULL: not given. */
const char *option_value(const struct options *options, const char *name);

/* The commands in the order of the help; the options of one, its own first, or those of the program alone (NULL). NULL behind
 * the last. */
const struct command *command_at(size_t i);
const struct option *option_at(const struct command *command, size_t i);

/* Help for one command, or for the program (NULL). */
void options_help(FILE *out, const struct command *command);

/* Completion (completion.c). A short script for "bash", "zsh" or "fish" asks the program what may stand next, so that all of
 * them know the same words, and finishes, steps and people are those of the moment. */
void completion_script(FILE *out, const char *shell);
/* Whether it is one of those scripts that asks, and the answer on standard output for the words behind the program's name, of
 * which the last is being written: a line for each word that may stand there, with a tab before what it does, and a line "/"
 * where a file may. A job is planned with hardly any search: its steps are named the same in every plan. */
bool completion_asked(int argc, char *const *argv);
void completion_words(size_t count, char *const *words);

/* Options that several commands have. */
#define OPTION_EFFORT                                                                                        \
    {                                                                                                        \
        "effort", "NUMBER", "work spent on a quicker plan", effort_reads                                     \
    }
#define OPTION_EXPLAIN                                                                                       \
    {                                                                                                        \
        "explain", "NAME", "the arithmetic of this part (area) or finish (buy)", NULL                        \
    }
#define OPTION_SOONEST                                                                                       \
    {                                                                                                        \
        "soonest", NULL, "ready as early as can be, not with the least work", NULL                           \
    }
#define OPTION_LATEST                                                                                        \
    {                                                                                                        \
        "latest", NULL, "as late as the delivery allows", NULL                                               \
    }
#define OPTION_APPLY                                                                                         \
    {                                                                                                        \
        "apply", "N", "make the change of line N of what would help", NULL                                   \
    }
#define OPTION_IN_PLACE                                                                                      \
    {                                                                                                        \
        "in-place", NULL, "make it in the files themselves", NULL                                            \
    }
#define OPTION_SVG                                                                                           \
    {                                                                                                        \
        "svg", "FILE", "draw it into FILE", NULL                                                             \
    }
bool effort_reads(const char *value, struct err *misuse);
/* A day of the wall; which zone's is known with the job. */
bool day_reads(const char *value, struct err *misuse);

#endif
