#include "app/options.h"

#include "base/moment.h"
#include "base/number.h"
#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { WORDS_MOST = 64 };

static const char *command_name(enum command command)
{
    return command_table()[command].name;
}

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

static bool command_read(struct options *options, const char *word, struct err *misuse)
{
    const char *names[COMMAND_COUNT];
    char found[ERR_EXPECTED_SIZE];
    for (int i = 1; i < COMMAND_COUNT; i++) {
        names[i - 1] = command_name((enum command)i);
        if (strcmp(word, names[i - 1]) == 0) {
            options->command = (enum command)i;
            return true;
        }
    }
    return refuse(misuse, found_word(found, sizeof found, word, names, COMMAND_COUNT - 1),
                  "a command: check, area, buy, mix, timetable, plan or finishes");
}

/* The entry that `--name` or `--name=value` names; *value is what follows the equals sign. */
static const struct option_entry *option_find(const char *argument, const char **value)
{
    size_t count, length = strcspn(argument + 2, "=");
    const struct option_entry *table = option_table(&count);
    *value = argument[2 + length] ? argument + 3 + length : NULL;
    for (size_t i = 0; i < count; i++)
        if (strlen(table[i].name) == length && strncmp(table[i].name, argument + 2, length) == 0)
            return &table[i];
    return NULL;
}

static bool option_unknown(const struct options *options, const char *argument, struct err *misuse)
{
    char names[WORDS_MOST][32], word[64], found[ERR_EXPECTED_SIZE];
    const char *known[WORDS_MOST];
    size_t count, n = 0;
    const struct option_entry *table = option_table(&count);
    for (size_t i = 0; i < count; i++)
        if (option_fits(&table[i], options->command) || options->command == COMMAND_NONE) {
            snprintf(names[n], sizeof names[n], "--%s", table[i].name);
            known[n] = names[n];
            n++;
        }
    snprintf(word, sizeof word, "%.*s", (int)strcspn(argument, "="), argument);
    found_word(found, sizeof found, word, known, n);
    if (options->command == COMMAND_NONE)
        return refuse(misuse, found, "an option (coatwright --help lists them)");
    return refuse(misuse, found, "an option of coatwright %s (coatwright %s --help lists them)",
                  command_name(options->command), command_name(options->command));
}

/* Whether the word is one of the choices "a|b"; anything goes where the value is no choice. */
static bool choice_allows(const char *choices, const char *word)
{
    size_t length = strlen(word);
    if (!strchr(choices, '|') && strcmp(choices, "bash") != 0)
        return true;
    for (const char *at = choices; at; at = strchr(at, '|') ? strchr(at, '|') + 1 : NULL)
        if (strcspn(at, "|") == length && strncmp(at, word, length) == 0)
            return true;
    return false;
}

static bool value_store(struct options *options, const struct option_entry *option, const char *value,
                        struct err *misuse)
{
    char found[ERR_EXPECTED_SIZE];
    if (!value)
        return refuse(misuse, "nothing", "%s after --%s", option->value, option->name);
    snprintf(found, sizeof found, "\"%s\"", value);
    if (!*value || !choice_allows(option->value, value))
        return refuse(misuse, found, "%s after --%s", option->value, option->name);
    const char **slot = (const char **)(void *)((char *)options + option->offset);
    *slot = value;
    return true;
}

/* Reads the option at argv[*i]; a value may be the next argument. */
static bool option_read(struct options *options, char *const *argv, int *i, struct err *misuse)
{
    const char *value;
    const struct option_entry *option = option_find(argv[*i], &value);
    if (!option)
        return option_unknown(options, argv[*i], misuse);
    if (option->value)
        return value_store(options, option, value ? value : argv[*i + 1] ? argv[++*i] : NULL, misuse);
    if (value)
        return refuse(misuse, value, "nothing behind --%s", option->name);
    bool *slot = (bool *)(void *)((char *)options + option->offset);
    *slot = true;
    return true;
}

static bool operand_read(struct options *options, const char *word, struct err *misuse)
{
    char found[ERR_EXPECTED_SIZE];
    if (options->command == COMMAND_NONE)
        return command_read(options, word, misuse);
    const struct command_entry *entry = &command_table()[options->command];
    snprintf(found, sizeof found, "\"%s\" as well", word);
    if (options->operand_count == entry->most)
        return refuse(misuse, found, "coatwright %s %s", entry->name, entry->operands);
    options->operands[options->operand_count++] = word;
    return true;
}

/* An option may stand before its command, so whether they fit is seen at the end. */
static bool options_fit(const struct options *options, struct err *misuse)
{
    size_t count;
    const struct option_entry *table = option_table(&count);
    for (size_t i = 0; i < count; i++) {
        const char *at = (const char *)options + table[i].offset;
        bool given =
            table[i].value ? *(const char *const *)(const void *)at != NULL : *(const bool *)(const void *)at;
        char found[ERR_EXPECTED_SIZE];
        snprintf(found, sizeof found, "--%s", table[i].name);
        if (given && !option_fits(&table[i], options->command) && options->command != COMMAND_NONE)
            return refuse(misuse, found, "an option of coatwright %s", command_name(options->command));
    }
    return true;
}

static bool operands_suffice(const struct options *options, struct err *misuse)
{
    const struct command_entry *entry = &command_table()[options->command];
    if (options->help || options->version || options->completion)
        return true;
    if (options->command == COMMAND_NONE)
        return refuse(misuse, "nothing", "a command: check, area, buy, mix, timetable, plan or finishes");
    if (options->operand_count < entry->least)
        return refuse(misuse, "no more", "coatwright %s %s", entry->name, entry->operands);
    return true;
}

/* Its form only: the zone comes with the job. */
static bool now_reads(const struct options *options, struct err *misuse)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct moment_text moment;
    char found[ERR_EXPECTED_SIZE];
    if (!options->now || moment_parse(options->now, &utc, &moment, misuse))
        return true;
    snprintf(found, sizeof found, "\"%s\"", options->now);
    memcpy(misuse->found, found, sizeof found);
    return false;
}

static bool json_asked(int argc, char *const *argv)
{
    for (int i = 1; i < argc && strcmp(argv[i], "--") != 0; i++)
        if (strcmp(argv[i], "--json") == 0)
            return true;
    return false;
}

static bool effort_reads(const struct options *options, struct err *misuse)
{
    int64_t effort;
    if (!options->effort || count_parse(options->effort, INT64_MAX / 2, &effort, NULL))
        return true;
    return refuse(misuse, options->effort, "a whole number above 0 after --effort");
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
    return options_fit(options, misuse) && now_reads(options, misuse) && effort_reads(options, misuse) &&
           operands_suffice(options, misuse);
}
