#include "app/run.h"
#include "base/text.h"
#include "coatwright_walk.h"

#include <ctype.h>
#include <string.h>

static const char bash[] =
    "_coatwright() {\n"
    "    local word here=${COMP_WORDS[COMP_CWORD]} typed=(\"${COMP_WORDS[@]:1:COMP_CWORD}\") files=()\n"
    "    COMPREPLY=()\n"
    "    while IFS= read -r word; do\n"
    "        if [[ $word = / ]]; then\n"
    "            mapfile -t files < <(compgen -f -- \"$here\")\n"
    "            compopt -o filenames 2>/dev/null\n"
    "            COMPREPLY+=(\"${files[@]}\")\n"
    "        else\n"
    "            printf -v word %q \"${word%%$'\\t'*}\"\n"
    "            COMPREPLY+=(\"$word\")\n"
    "        fi\n"
    "    done < <(coatwright --completion words \"${typed[@]//\\\\/}\" 2>/dev/null)\n"
    "}\n"
    "complete -F _coatwright coatwright\n";

static const char zsh[] =
    "#compdef coatwright\n"
    "_coatwright() {\n"
    "    local -a lines\n"
    "    lines=(\"${(@f)$(coatwright --completion words \"${(@Q)words[2,CURRENT]}\" 2>/dev/null)}\")\n"
    "    if (( ${lines[(Ie)/]} )); then\n"
    "        _files\n"
    "        lines=(\"${(@)lines:#/}\")\n"
    "    fi\n"
    "    lines=(\"${(@)lines:#}\")\n"
    "    lines=(\"${(@)lines//:/\\\\:}\")\n"
    "    lines=(\"${(@)lines/$'\\t'/:}\")\n"
    "    (( $#lines )) && _describe coatwright lines\n"
    "}\n"
    "compdef _coatwright coatwright\n";

static const char fish[] = "function __coatwright_words\n"
                           "    set -l typed (commandline -opc)\n"
                           "    set -e typed[1]\n"
                           "    set -l here (commandline -ct)\n"
                           "    for line in (coatwright --completion words $typed \"$here\" 2>/dev/null)\n"
                           "        if test \"$line\" = /\n"
                           "            __fish_complete_path \"$here\"\n"
                           "        else\n"
                           "            printf '%s\\n' $line\n"
                           "        end\n"
                           "    end\n"
                           "end\n"
                           "complete -c coatwright -f -a '(__coatwright_words)'\n";

void completion_script(FILE *out, const char *shell)
{
    fputs(strcmp(shell, "bash") == 0 ? bash : strcmp(shell, "zsh") == 0 ? zsh : fish, out);
}

bool completion_asked(int argc, char *const *argv)
{
    return argc > 3 && strcmp(argv[1], "--completion") == 0 && strcmp(argv[2], "words") == 0;
}

/* What was written so far. */
struct line {
    const struct command *command; /* NULL: none yet */
    const struct option *open;     /* waits for its value */
    const char *job;               /* the first operand; NULL: none yet */
    size_t operands;
    const char *before,
        *here; /* the word being written: what stands fast, such as `--units=`, and the rest */
    size_t before_length;
};

static const struct option *option_named(const struct command *command, const char *name, size_t length)
{
    const struct option *option;
    for (size_t i = 0; (option = option_at(command, i)); i++)
        if (strlen(option->name) == length && strncmp(option->name, name, length) == 0)
            break;
    return option;
}

static const struct command *command_named(const char *name)
{
    const struct command *command;
    for (size_t i = 0; (command = command_at(i)); i++)
        if (strcmp(command->name, name) == 0)
            break;
    return command;
}

/* bash splits `--units=us` at the equals sign, which is then a word. */
static void line_read(struct line *line, const char *word)
{
    if (strcmp(word, "=") == 0)
        return;
    if (line->open)
        line->open = NULL;
    else if (strncmp(word, "--", 2) == 0 && !strchr(word, '=')) {
        line->open = option_named(line->command, word + 2, strlen(word + 2));
        if (line->open && !line->open->value)
            line->open = NULL;
    } else if (word[0] == '-' && word[1])
        return;
    else if (!line->command)
        line->command = command_named(word);
    else if (line->operands++ == 0)
        line->job = word;
}

static void line_end(struct line *line, const char *word)
{
    const char *equals = strncmp(word, "--", 2) == 0 ? strchr(word, '=') : NULL;
    line->before = word;
    line->here = strcmp(word, "=") == 0 ? "" : word;
    if (!equals)
        return;
    line->open = option_named(line->command, word + 2, (size_t)(equals - word - 2));
    line->here = equals + 1;
    line->before_length = (size_t)(line->here - word);
}

/* Names of the user's with control characters are for no terminal. */
static void offer(const struct line *line, const char *mark, const char *word, const char *does)
{
    char whole[256];
    if (snprintf(whole, sizeof whole, "%s%s", mark, word) >= (int)sizeof whole)
        return;
    for (const char *at = whole; *at;)
        if (text_is_control(text_next(&at)))
            return;
    if (strncmp(whole, line->here, strlen(line->here)) == 0)
        printf("%.*s%s%s%s\n", (int)line->before_length, line->before, whole, does ? "\t" : "",
               does ? does : "");
}

static void offer_options(const struct line *line)
{
    const struct option *option;
    for (size_t i = 0; (option = option_at(line->command, i)); i++)
        offer(line, "--", option->name, option->does);
}

static void offer_commands(const struct line *line)
{
    const struct command *command;
    for (size_t i = 0; (command = command_at(i)); i++)
        offer(line, "", command->name, command->does);
}

static void offer_choices(const struct line *line, const char *choices)
{
    for (size_t length; *choices; choices += length + (choices[length] == '|')) {
        char word[32];
        length = strcspn(choices, "|");
        snprintf(word, sizeof word, "%.*s", (int)length, choices);
        offer(line, "", word, NULL);
    }
}

static void offer_finishes(const struct line *line)
{
    static const char key[] = "\n      \"finish\": \"";
    struct options options = {.command = command_named("finishes")};
    struct run run;
    const char *at = NULL;
    run_open(&run, &options);
    if (coatwright_finishes(run.session, NULL, NULL))
        at = coatwright_write(run.session, COATWRIGHT_FINISH_TABLE, COATWRIGHT_JSON);
    while (at && (at = strstr(at, key))) {
        char id[64];
        at += sizeof key - 1;
        snprintf(id, sizeof id, "%.*s", (int)strcspn(at, "\""), at);
        offer(line, "", id, NULL);
    }
    coatwright_close(run.session);
}

static bool planned(struct run *run, const struct line *line)
{
    const struct command *timetable = command_named("timetable");
    struct options options = {.command = timetable,
                              .operands = {line->job},
                              .operand_count = 1,
                              .given = {option_named(timetable, "effort", strlen("effort"))},
                              .values = {"1"},
                              .given_count = 1};
    struct coatwright_outcome outcome;
    run_open(run, &options);
    return line->job && run_plan(run, &outcome);
}

static void offer_steps(const struct line *line)
{
    struct run run;
    bool good = planned(&run, line);
    for (size_t i = 0; good && i < coatwright_step_count(run.session); i++)
        offer(line, "", coatwright_step(run.session, i)->id, NULL);
    coatwright_close(run.session);
}

/* Those who have work; one without a name has a number, which needs no completing. */
static void offer_people(const struct line *line)
{
    struct run run;
    bool good = planned(&run, line);
    for (size_t i = 0; good && i < coatwright_batch_count(run.session); i++) {
        const char *person = coatwright_batch(run.session, i)->person;
        size_t before = 0;
        while (strcmp(coatwright_batch(run.session, before)->person, person) != 0)
            before++;
        if (before == i && strncmp(person, "person ", 7) != 0)
            offer(line, "", person, NULL);
    }
    coatwright_close(run.session);
}

/* Whether the operand at this place may be of the kind: `JOB | FINISH AMOUNT`, `[LIST]`, `JOB ...`. */
static bool takes(const char *operands, size_t place, const char *kind)
{
    bool is_kind = false;
    size_t at = 0, length;
    for (const char *word = operands; *(word += strspn(word, " [")); word += length) {
        length = strcspn(word, " ]");
        if (*word == '|')
            at = 0;
        else if (*word == '.' && is_kind && place >= at)
            return true;
        else {
            is_kind = length == strlen(kind) && strncmp(word, kind, length) == 0;
            if (is_kind && at == place)
                return true;
            at++;
        }
        length += word[length] == ']';
    }
    return false;
}

static void offer_operands(const struct line *line)
{
    const char *operands = line->command->operands;
    if (takes(operands, line->operands, "FINISH"))
        offer_finishes(line);
    if (takes(operands, line->operands, "STEP") || takes(operands, line->operands, "WHAT"))
        offer_steps(line);
    if (takes(operands, line->operands, "JOB") || takes(operands, line->operands, "LIST") ||
        takes(operands, line->operands, "FOLDER"))
        printf("/\n");
}

static void offer_values(const struct line *line)
{
    const char *value = line->open->value ? line->open->value : "";
    if (strchr(value, '|'))
        offer_choices(line, value);
    else if (strcmp(value, "FINISH") == 0)
        offer_finishes(line);
    else if (strcmp(line->open->name, "person") == 0)
        offer_people(line);
    else if (strcmp(value, "FILE") == 0 || strcmp(value, "DIR") == 0)
        printf("/\n");
}

void completion_words(size_t count, char *const *words)
{
    struct line line = {.command = NULL};
    for (size_t i = 0; i + 1 < count; i++)
        line_read(&line, words[i]);
    line_end(&line, words[count - 1]);
    if (line.open)
        offer_values(&line);
    else if (line.here[0] == '-')
        offer_options(&line);
    else if (!line.command)
        offer_commands(&line);
    else
        offer_operands(&line);
}
