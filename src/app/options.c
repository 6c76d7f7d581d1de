#include "app/options.h"

#include "base/day.h"
#include "base/moment.h"
#include "base/number.h"
#include "base/text.h"

#include <assert.h>
#include <stdarg.h>
#include <string.h>

static bool refuse(struct err *misuse, const char *found, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

static bool refuse(struct err *misuse, const char *found, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(misuse->expected, sizeof misuse->expected, format, arguments);
    va_end(arguments);
    snprintf(misuse->found, sizeof misuse->found, "%s", found);
    return false;
}

/* The form of a moment only: the zone comes with the job. */
static bool now_reads(const char *value, struct err *misuse)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct moment_text moment;
    char found[ERR_FOUND_SIZE];
    snprintf(found, sizeof found, "\"%s\"", value);
    bool reads = moment_parse(value, &utc, &moment, misuse);
    memcpy(misuse->found, found, sizeof found);
    return reads;
}

bool effort_reads(const char *value, struct err *misuse)
{
    int64_t effort;
    return count_parse(value, INT64_MAX / 2, &effort, NULL) ||
           refuse(misuse, value, "a whole number above 0 after --effort");
}

bool day_reads(const char *value, struct err *misuse)
{
    struct date date;
    char found[ERR_FOUND_SIZE];
    snprintf(found, sizeof found, "\"%s\"", value);
    bool reads = date_parse(value, &date, misuse);
    snprintf(misuse->found, sizeof misuse->found, "%s", found);
    return reads;
}

#define COMMAND_ROW(name) &command_##name,
static const struct command *const commands[] = {COMMANDS(COMMAND_ROW)};
enum { COMMAND_COUNT = sizeof commands / sizeof commands[0] };

static const struct option every[] = {
    {"json", NULL, "print JSON, mistakes too", NULL},
    {"units", "metric|us", "the units of what is printed", NULL},
    {"now", "MOMENT", "instead of the clock: 2027-03-01 08:00", now_reads},
    {"trust-paths", NULL, "files of the job may lie outside its folder", NULL},
    {"help", NULL, "print this", NULL},
    {"version", NULL, "print the version", NULL},
};

/* Without a command alone. */
static const struct option completion = {"completion", "bash|zsh|fish",
                                         "print what teaches the shell these words", NULL};

const struct command *command_at(size_t i)
{
    return i < COMMAND_COUNT ? commands[i] : NULL;
}

const struct option *option_at(const struct command *command, size_t i)
{
    size_t own = 0, common = sizeof every / sizeof every[0];
    while (command && own < OPTIONS_MOST && command->options[own].name)
        own++;
    if (i < own)
        return &command->options[i];
    if (i - own < common)
        return &every[i - own];
    return !command && i == common ? &completion : NULL;
}

static const struct option *option_find(const struct command *command, const char *name, size_t length)
{
    const struct option *option;
    for (size_t i = 0; (option = option_at(command, i)); i++)
        if (strlen(option->name) == length && strncmp(option->name, name, length) == 0)
            break;
    return option;
}

/* Of the command, or else of any: an option may stand before its command. */
static const struct option *option_known(const struct command *command, const char *name, size_t length)
{
    const struct option *found = option_find(command, name, length);
    found = found ? found : option_find(NULL, name, length);
    for (size_t i = 0; i < COMMAND_COUNT && !found; i++)
        found = option_find(commands[i], name, length);
    return found;
}

const char *option_value(const struct options *options, const char *name)
{
    assert(option_known(options->command, name, strlen(name)));
    for (size_t i = options->given_count; i-- > 0;)
        if (strcmp(options->given[i]->name, name) == 0)
            return options->values[i];
    return NULL;
}

/* `"plam" (did you mean "plan"?)`. */
static const char *found_word(char *text, size_t size, const char *word, const char *const *known,
                              size_t count)
{
    const char *near = text_nearest(word, known, count);
    if (near)
        snprintf(text, size, "\"%s\" (did you mean \"%s\"?)", word, near);
    else
        snprintf(text, size, "\"%s\"", word);
    return text;
}

/* `a command: check, area or buy`. */
static bool command_wanted(struct err *misuse, const char *found)
{
    char names[ERR_EXPECTED_SIZE] = "";
    for (size_t i = 0, used = 0; i < COMMAND_COUNT && used < sizeof names; i++)
        used += (size_t)snprintf(names + used, sizeof names - used, "%s%s",
                                 i == 0                   ? ""
                                 : i + 1 == COMMAND_COUNT ? " or "
                                                          : ", ",
                                 commands[i]->name);
    return refuse(misuse, found, "a command: %s", names);
}

static bool command_read(struct options *options, const char *word, struct err *misuse)
{
    const char *names[COMMAND_COUNT];
    char found[ERR_FOUND_SIZE];
    for (size_t i = 0; i < COMMAND_COUNT; i++) {
        names[i] = commands[i]->name;
        if (strcmp(word, names[i]) == 0)
            options->command = commands[i];
    }
    return options->command ||
           command_wanted(misuse, found_word(found, sizeof found, word, names, COMMAND_COUNT));
}

static size_t add_names(const struct command *command, char names[][32], const char **known, size_t count)
{
    const struct option *option;
    for (size_t i = 0; (option = option_at(command, i)); i++, count++) {
        snprintf(names[count], sizeof names[count], "--%s", option->name);
        known[count] = names[count];
    }
    return count;
}

static bool option_unknown(const struct options *options, const char *argument, struct err *misuse)
{
    enum { NAMES_MOST = (COMMAND_COUNT + 1) * 2 * OPTIONS_MOST };
    char names[NAMES_MOST][32], word[64], found[ERR_FOUND_SIZE];
    const char *known[NAMES_MOST];
    size_t count = add_names(options->command, names, known, 0);
    for (size_t i = 0; i < COMMAND_COUNT && !options->command; i++)
        count = add_names(commands[i], names, known, count);
    snprintf(word, sizeof word, "%.*s", (int)strcspn(argument, "="), argument);
    found_word(found, sizeof found, word, known, count);
    if (!options->command)
        return refuse(misuse, found, "an option (coatwright --help lists them)");
    return refuse(misuse, found, "an option of coatwright %s (coatwright %s --help lists them)",
                  options->command->name, options->command->name);
}

/* Whether the word is one of the choices "a|b"; anything goes where the value is no choice. */
static bool choice_allows(const char *choices, const char *word)
{
    return !strchr(choices, '|') || text_listed(choices, word);
}

static bool value_fits(const struct option *option, const char *value, struct err *misuse)
{
    char found[ERR_FOUND_SIZE] = "nothing";
    if (value)
        snprintf(found, sizeof found, "\"%s\"", value);
    if (!value || !*value || !choice_allows(option->value, value))
        return refuse(misuse, found, "%s after --%s", option->value, option->name);
    return true;
}

static bool option_fits(const struct command *command, const struct option *option)
{
    size_t length = strlen(option->name);
    return option_find(command, option->name, length) || option_find(NULL, option->name, length);
}

/* An option that other commands have: which they are. */
static bool option_misplaced(const struct options *options, const char *name, struct err *misuse)
{
    char found[ERR_FOUND_SIZE];
    size_t used = (size_t)snprintf(found, sizeof found, "--%s (an option of", name);
    const char *before = " ";
    for (size_t i = 0; i < COMMAND_COUNT && used < sizeof found; i++) {
        if (!option_find(commands[i], name, strlen(name)))
            continue;
        used +=
            (size_t)snprintf(found + used, sizeof found - used, "%scoatwright %s", before, commands[i]->name);
        before = ", ";
    }
    if (used < sizeof found)
        snprintf(found + used, sizeof found - used, ")");
    return refuse(misuse, found, "an option of coatwright %s (coatwright %s --help lists them)",
                  options->command->name, options->command->name);
}

/* Reads the option at argv[*i]; a value follows an equals sign, or is the next argument. */
static bool option_read(struct options *options, char *const *argv, int *i, struct err *misuse)
{
    const char *name = argv[*i] + 2, *value;
    size_t length = strcspn(name, "=");
    const struct option *option = option_known(options->command, name, length);
    if (!option)
        return option_unknown(options, argv[*i], misuse);
    if (options->command && !option_fits(options->command, option))
        return option_misplaced(options, option->name, misuse);
    value = name[length] ? name + length + 1 : NULL;
    if (!option->value && value)
        return refuse(misuse, value, "nothing behind --%s", option->name);
    if (option->value && !value && argv[*i + 1])
        value = argv[++*i];
    if (option->value && !value_fits(option, value, misuse))
        return false;
    if (options->given_count == sizeof options->given / sizeof options->given[0])
        return refuse(misuse, "more", "at most %zu options", options->given_count);
    options->given[options->given_count] = option;
    options->values[options->given_count++] = option->value ? value : option->name;
    return true;
}

static bool operand_read(struct options *options, const char *word, struct err *misuse)
{
    char found[ERR_FOUND_SIZE];
    const struct command *command = options->command;
    if (!command)
        return command_read(options, word, misuse);
    snprintf(found, sizeof found, "\"%s\" as well", word);
    if (options->operand_count == command->most)
        return refuse(misuse, found, "coatwright %s%s%s", command->name, *command->operands ? " " : "",
                      command->operands);
    options->operands[options->operand_count++] = word;
    return true;
}

/* Whether the options are the command's, which may stand behind them. */
static bool options_fit(const struct options *options, struct err *misuse)
{
    for (size_t i = 0; i < options->given_count; i++) {
        const struct option *given = options->given[i];
        if (options->command && !option_fits(options->command, given))
            return option_misplaced(options, given->name, misuse);
        if (given->reads && !given->reads(options->values[i], misuse))
            return false;
    }
    return true;
}

static bool operands_suffice(const struct options *options, struct err *misuse)
{
    const struct command *command = options->command;
    if (option_value(options, "help") || option_value(options, "version") ||
        (!command && option_value(options, "completion")))
        return true;
    if (!command)
        return command_wanted(misuse, "nothing");
    if (options->operand_count < command->least)
        return refuse(misuse, "nothing", "%s after %s, such as: coatwright %s %s", command->operands,
                      command->name, command->name,
                      strcmp(command->operands, "FOLDER") == 0 ? "jobs" : "desk.json");
    return true;
}

static bool json_asked(int argc, char *const *argv)
{
    for (int i = 1; i < argc && strcmp(argv[i], "--") != 0; i++)
        if (strcmp(argv[i], "--json") == 0)
            return true;
    return false;
}

bool options_read(struct options *options, int argc, char *const *argv, struct err *misuse)
{
    bool ended = false;
    *options = (struct options){.json = json_asked(argc, argv)};
    for (int i = 1; i < argc; i++) {
        const char *word = argv[i];
        if (!ended && strcmp(word, "--") == 0)
            ended = true;
        else if (!ended && strncmp(word, "--", 2) == 0) {
            if (!option_read(options, argv, &i, misuse))
                return false;
        } else if (!ended && word[0] == '-' && word[1])
            return option_unknown(options, word, misuse);
        else if (!operand_read(options, word, misuse))
            return false;
    }
    return options_fit(options, misuse) && operands_suffice(options, misuse);
}

static void print_pair(FILE *out, const char *mark, const char *name, const char *rest, const char *does)
{
    char left[64];
    snprintf(left, sizeof left, "%s%s%s%s", mark, name, rest ? " " : "", rest ? rest : "");
    fprintf(out, "  %-24s %s\n", left, does);
}

static void print_options(FILE *out, const struct command *command)
{
    const struct option *option;
    fprintf(out, "\nOptions:\n");
    for (size_t i = 0; (option = option_at(command, i)); i++)
        print_pair(out, "--", option->name, option->value, option->does);
}

void options_help(FILE *out, const struct command *command)
{
    if (command) {
        fprintf(out, "coatwright %s %s: %s\n%s%s", command->name, command->operands, command->does,
                command->more ? command->more : "", command->more ? "\n" : "");
        print_options(out, command);
        return;
    }
    fprintf(out, "coatwright COMMAND ...: plans the finishing of furniture, from the part list to the last "
                 "coat\n\nCommands (JOB is a file, or - for standard input):\n");
    for (size_t i = 0; i < COMMAND_COUNT; i++)
        print_pair(out, "", commands[i]->name, commands[i]->operands, commands[i]->does);
    print_options(out, NULL);
    fprintf(out,
            "\nEach command lists its own options: coatwright plan --help.\n"
            "Exit status: 0 done, 1 late or not possible, 2 wrong usage, 3 wrong input, 4 a file failed.\n");
}
