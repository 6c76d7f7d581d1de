/* Every command and every option, once: reading, help and completion go by these tables. */
#ifndef APP_OPTION_TABLE_H
#define APP_OPTION_TABLE_H

#include <stdbool.h>
#include <stddef.h>

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

/* What was asked for; texts are those of the command line, NULL where not given. */
struct options {
    enum command command;
    const char *operands[OPERANDS_MOST];
    size_t operand_count;
    bool json, trust_paths, late, later, chance, cost, from_label, help, version;
    const char *units, *now, *at, *ics, *svg, *csv, *explain, *out, *completion, *effort;
    const char *own;                                          /* finishes */
    const char *have, *by, *wood, *thin, *scale, *cut, *from; /* of a mix without a job */
};

struct command_entry {
    const char *name, *operands, *does;
    size_t least, most; /* operands */
    const char *more;   /* for its own help; NULL: nothing */
};

/* By enum command; the first, without a name, stands for the program itself. */
const struct command_entry *command_table(void);

#define FOR(command) (1u << (command))
#define FOR_EVERY (~0u)

struct option_entry {
    const char *name;  /* without the hyphens */
    const char *value; /* NULL: a flag; "metric|us": one of these words; else what the help calls it */
    unsigned commands; /* FOR(...) of those that take it */
    size_t offset;     /* in struct options: a bool for a flag, else a text */
    const char *does;
};

const struct option_entry *option_table(size_t *count);

bool option_fits(const struct option_entry *option, enum command command);

#endif
