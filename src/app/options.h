/* The command line: one table of commands and one of options drive reading, help and completion. */
#ifndef APP_OPTIONS_H
#define APP_OPTIONS_H

#include "base/fault.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

enum command {
    COMMAND_NONE,
    COMMAND_CHECK,
    COMMAND_AREA,
    COMMAND_BUY,
    COMMAND_MIX,
    COMMAND_TIMETABLE,
    COMMAND_PLAN,
    COMMAND_FINISHES,
    COMMAND_COUNT
};

enum { OPERANDS_MOST = 8 };

/* What was asked for; texts are those of argv, NULL where not given. */
struct options {
    enum command command;
    const char *operands[OPERANDS_MOST];
    size_t operand_count;
    bool json, trust_paths, help, version;
    const char *units, *now, *at, *ics, *out, *completion;
};

/* A command line that makes no sense: what was expected, and what stood there. */
struct misuse {
    struct fault fault;
    char found[FAULT_SIZE];
};

/* Fills *options, as far as it came on failure too: `json` is then true if it stood anywhere. */
bool options_read(struct options *options, int argc, char *const *argv, struct misuse *misuse);

/* Of one command, or of the program (COMMAND_NONE). */
void options_help(FILE *out, enum command command);
/* Completion for bash. */
void options_completion(FILE *out);

const char *command_name(enum command command);

#endif
