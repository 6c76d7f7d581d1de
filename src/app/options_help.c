#include "app/options_help.h"

#include <string.h>

static void print_option(FILE *out, const struct option_entry *option)
{
    char left[64];
    snprintf(left, sizeof left, "--%s%s%s", option->name, option->value ? " " : "",
             option->value ? option->value : "");
    fprintf(out, "  %-24s %s\n", left, option->does);
}

static void print_commands(FILE *out)
{
    for (int i = 1; i < COMMAND_COUNT; i++) {
        const struct command_entry *entry = &command_table()[i];
        char left[64];
        snprintf(left, sizeof left, "%s %s", entry->name, entry->operands);
        fprintf(out, "  %-24s %s\n", left, entry->does);
    }
}

void options_help(FILE *out, enum command command)
{
    size_t count;
    const struct option_entry *table = option_table(&count);
    const struct command_entry *entry = &command_table()[command];
    fprintf(out, "coatwright %s%s%s: %s\n", entry->name ? entry->name : "", entry->name ? " " : "",
            entry->operands, entry->does);
    if (entry->more)
        fprintf(out, "%s\n", entry->more);
    if (command == COMMAND_NONE) {
        fprintf(out, "\nCommands (JOB is a file, or - for standard input):\n");
        print_commands(out);
    }
    fprintf(out, "\nOptions:\n");
    for (size_t i = 0; i < count; i++)
        if (option_fits(&table[i], command))
            print_option(out, &table[i]);
    if (command == COMMAND_NONE)
        fprintf(
            out,
            "\nEach command tells its own options: coatwright plan --help.\n"
            "Exit status: 0 done, 1 late or not possible, 2 wrong usage, 3 wrong input, 4 a file failed.\n");
}

static void print_words(FILE *out, enum command command)
{
    size_t count;
    const struct option_entry *table = option_table(&count);
    for (int i = 1; command == COMMAND_NONE && i < COMMAND_COUNT; i++)
        fprintf(out, "%s ", command_table()[i].name);
    for (size_t i = 0; i < count; i++)
        if (option_fits(&table[i], command))
            fprintf(out, "--%s ", table[i].name);
}

void options_completion(FILE *out)
{
    fprintf(
        out,
        "_coatwright() {\n    local words here=${COMP_WORDS[COMP_CWORD]}\n    case ${COMP_WORDS[1]} in\n");
    for (int i = 1; i < COMMAND_COUNT; i++) {
        fprintf(out, "    %s) words='", command_table()[i].name);
        print_words(out, (enum command)i);
        fprintf(out, "' ;;\n");
    }
    fprintf(out, "    *) words='");
    print_words(out, COMMAND_NONE);
    fprintf(out, "' ;;\n    esac\n"
                 "    if [[ $COMP_CWORD = 1 || $here = -* ]]; then\n"
                 "        COMPREPLY=($(compgen -W \"$words\" -- \"$here\"))\n"
                 "    else\n"
                 "        COMPREPLY=($(compgen -f -- \"$here\"))\n"
                 "    fi\n"
                 "}\ncomplete -o filenames -F _coatwright coatwright\n");
}
