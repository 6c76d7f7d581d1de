#include "app/run.h"

#include "base/moment.h"
#include "base/text.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <time.h>
#include <unistd.h>

enum {
    MEMORY_MB = 512, /* no job of a workshop needs as much */
    CHECK_EFFORT = 2 /* the first plan, and no proof that there is none */
};

static bool colour_wanted(void)
{
    const char *none = getenv("NO_COLOR"), *term = getenv("TERM");
    return isatty(STDOUT_FILENO) && (!none || !*none) && term && strcmp(term, "dumb") != 0;
}

/* Columns of the terminal, as COLUMNS says or the terminal itself; 0: it is none. */
static int width_wanted(void)
{
    const char *columns = getenv("COLUMNS");
    struct winsize size;
    long width = columns ? strtol(columns, NULL, 10) : 0;
    if (width > 0 && width < 10000)
        return (int)width;
    return isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 ? size.ws_col : 0;
}

/* The folder that was installed together with this program, found by where the program is now: both may have been moved. */
static const char *finishes_beside(char *found, size_t size)
{
    static const char below[] = "/share/coatwright/finishes";
    ssize_t length = readlink("/proc/self/exe", found, size - sizeof below);
    if (length <= 0)
        return NULL;
    found[length] = '\0';
    char *end = NULL;
    for (int up = 0; up < 2; up++) { /* from bin/coatwright */
        end = strrchr(found, '/');
        if (!end)
            return NULL;
        *end = '\0';
    }
    (void)snprintf(end, sizeof below, "%s", below);
    return access(found, R_OK) == 0 ? found : NULL;
}

void run_open(struct run *run, const struct options *options)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct text_short clock = moment_format(&utc, (int64_t)time(NULL) / 60, MOMENT_RFC3339);
    const char *finishes = getenv("COATWRIGHT_FINISHES"), *now = option_value(options, "now");
    const char *effort = option_value(options, "effort"), *units = option_value(options, "units");
    const char *page = option_value(options, "page");
    struct coatwright_options asked = COATWRIGHT_OPTIONS_INIT;
    *run = (struct run){.options = *options};
    run->finishes = finishes && *finishes ? finishes : finishes_beside(run->beside, sizeof run->beside);
    asked.finishes = run->finishes;
    asked.now = now ? now : clock.text;
    asked.memory_ceiling = (size_t)MEMORY_MB << 20;
    asked.advice = options->command && options->command->advice;
    asked.trust_paths = option_value(options, "trust-paths") != NULL;
    asked.soonest = option_value(options, "soonest") != NULL;
    asked.as_planned = option_value(options, "cost") != NULL;
    asked.latest = option_value(options, "latest") != NULL;
    asked.effort = effort                                           ? strtoll(effort, NULL, 10)
                   : options->command && options->command->any_plan ? CHECK_EFFORT
                                                                    : 0;
    asked.units = !units                     ? COATWRIGHT_UNITS_OF_JOB
                  : strcmp(units, "us") == 0 ? COATWRIGHT_US
                                             : COATWRIGHT_METRIC;
    asked.colour = colour_wanted();
    asked.width = width_wanted();
    asked.page = !page                     ? COATWRIGHT_PAGE_OF_UNITS
                 : strcmp(page, "a4") == 0 ? COATWRIGHT_A4
                                           : COATWRIGHT_LETTER;
    asked.progress = progress_ask;
    asked.caller = &run->progress;
    run->session = coatwright_open(&asked);
}

bool run_plan(struct run *run, struct coatwright_outcome *outcome)
{
    *outcome = (struct coatwright_outcome)COATWRIGHT_OUTCOME_INIT;
    if (!coatwright_read(run->session, run->options.operands[0]))
        return false;
    progress_begin(&run->progress);
    bool planned = coatwright_plan(run->session, outcome);
    progress_end(&run->progress);
    return planned;
}

/* What concerns no file is about the command line. */
static void tell(const struct coatwright_error *error)
{
    char line[1200];
    coatwright_error_line(error, line, sizeof line);
    fprintf(stderr, "%s%s\n", error->file && *error->file ? "" : "coatwright: ", line);
}

struct run_name run_shown(const char *name)
{
    struct run_name shown;
    (void)text_shown(name, shown.text, sizeof shown.text);
    return shown;
}

void run_note(const char *file, const char *remark)
{
    fprintf(stderr, "%s: %s\n", run_shown(file).text, remark);
}

/* Prints a text, and keeps the first reason why it could not be written. */
static void put(struct run *run, const char *text)
{
    if (fputs(text, stdout) == EOF && !run->unwritten)
        run->unwritten = errno;
}

int run_close(struct run *run, int status)
{
    coatwright_close(run->session);
    run->session = NULL;
    errno = 0;
    if (!ferror(stdout) && fflush(stdout) == 0)
        return status;
    int reason = run->unwritten ? run->unwritten : errno;
    struct coatwright_error error = {.code = COATWRIGHT_FILE,
                                     .file = "standard output",
                                     .found = reason ? strerror(reason) : "no room",
                                     .expected = "room for all of it"};
    tell(&error);
    return EXIT_FILE;
}

void run_tell_warnings(const struct run *run)
{
    for (size_t i = 0; i < coatwright_warning_count(run->session); i++)
        tell(coatwright_warning(run->session, i));
}

/* The page of a plan and a check carry the warnings themselves. */
static bool tells_warnings(enum coatwright_report report, bool json)
{
    return report == COATWRIGHT_CHECK || (report == COATWRIGHT_PLAN && !json);
}

int run_report(struct run *run, enum coatwright_report report, int status)
{
    bool json = run->options.json;
    const char *text = coatwright_write(run->session, report, json ? COATWRIGHT_JSON : COATWRIGHT_TEXT);
    if (!text)
        return run_failed(run);
    if (!tells_warnings(report, json))
        run_tell_warnings(run);
    put(run, text);
    return status;
}

static int status_of(enum coatwright_code code)
{
    switch (code) {
    case COATWRIGHT_USAGE:
        return EXIT_USAGE;
    case COATWRIGHT_FILE:
    case COATWRIGHT_MEMORY:
        return EXIT_FILE;
    default:
        return EXIT_INPUT;
    }
}

/* Wrong usage comes before failing files, and they before wrong input. */
static int status_of_all(const struct run *run)
{
    int status = EXIT_INPUT;
    for (size_t i = 0; i < coatwright_error_count(run->session); i++) {
        int one = status_of(coatwright_error(run->session, i)->code);
        if (one == EXIT_USAGE)
            return EXIT_USAGE;
        status = one == EXIT_FILE ? EXIT_FILE : status;
    }
    return status;
}

int run_failed(struct run *run)
{
    if (!run->session) {
        fprintf(stderr, "expected memory for a session, found none\n");
        return EXIT_FILE;
    }
    run_tell_warnings(run);
    if (run->options.json) {
        const char *text = coatwright_write(run->session, COATWRIGHT_ERRORS, COATWRIGHT_JSON);
        put(run, text ? text : "");
        return status_of_all(run);
    }
    for (size_t i = 0; i < coatwright_error_count(run->session); i++)
        tell(coatwright_error(run->session, i));
    if (coatwright_error_more(run->session))
        fprintf(stderr, "and %zu more\n", coatwright_error_more(run->session));
    return status_of_all(run);
}

int run_print(struct run *run, const char *text)
{
    if (!text)
        return run_failed(run);
    put(run, text);
    return EXIT_DONE;
}

int run_misused(struct run *run, const char *expected, const char *found)
{
    struct coatwright_error error = {
        .code = COATWRIGHT_USAGE, .file = "coatwright", .found = found, .expected = expected};
    if (run->session)
        coatwright_error_add(run->session, &error);
    return run_failed(run);
}
