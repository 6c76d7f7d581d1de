#include "app/run.h"

#include <stdio.h>

enum { THREADS = 2 };

/* Without a timetable there is nothing to write, and an older file stays as it was. */
static bool save(struct run *run, const char *option, enum coatwright_format format, bool planned)
{
    const char *path = option_value(&run->options, option);
    if (path && !planned)
        fprintf(stderr, "%s: not written: there is no timetable\n", path);
    return !path || !planned || coatwright_save(run->session, COATWRIGHT_TIMETABLE, format, path);
}

/* A run of its own for each job, with the same options; the first is the program's. The one that failed, or NULL. */
static struct run *read_all(struct run *runs, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        if (i > 0)
            run_open(&runs[i], &runs[0].options);
        if (!runs[i].session || !coatwright_read(runs[i].session, runs[0].options.operands[i]))
            return &runs[i];
    }
    return NULL;
}

static struct run *plan_all(struct run *first, struct run *runs, size_t count,
                            struct coatwright_outcome *outcomes)
{
    struct coatwright *sessions[OPERANDS_MOST];
    for (size_t i = 0; i < count; i++)
        sessions[i] = runs[i].session;
    progress_begin(&first->progress);
    bool planned = coatwright_plan_together(sessions, count, outcomes);
    progress_end(&first->progress);
    if (planned)
        return save(&runs[0], "ics", COATWRIGHT_ICALENDAR, outcomes[0].planned) ? NULL : &runs[0];
    size_t failed = 0;
    while (failed + 1 < count && coatwright_error_count(sessions[failed]) == 0)
        failed++;
    return &runs[failed];
}

static int print_all(struct run *runs, size_t count, const struct coatwright_outcome *outcomes)
{
    bool json = runs[0].options.json;
    int status = EXIT_DONE;
    const char *texts[OPERANDS_MOST];
    for (size_t i = 0; i < count; i++) {
        texts[i] =
            coatwright_write(runs[i].session, COATWRIGHT_TIMETABLE, json ? COATWRIGHT_JSON : COATWRIGHT_TEXT);
        if (!texts[i])
            return run_failed(&runs[i]);
        status = outcomes[i].in_time ? status : EXIT_MISSED;
    }
    for (size_t i = 0; i < count; i++)
        run_tell_warnings(&runs[i]);
    fputs(json ? "{\"jobs\": [\n" : "", stdout);
    for (size_t i = 0; i < count; i++)
        printf("%s%s", i == 0 ? "" : json ? ",\n" : "\n", texts[i]);
    fputs(json ? "]}\n" : "", stdout);
    return status;
}

static int timetable_of_several(struct run *run)
{
    struct run runs[OPERANDS_MOST] = {*run};
    struct coatwright_outcome outcomes[OPERANDS_MOST];
    size_t count = run->options.operand_count;
    for (size_t i = 0; i < count; i++)
        outcomes[i] = (struct coatwright_outcome)COATWRIGHT_OUTCOME_INIT;
    if (option_value(&run->options, "svg") || option_value(&run->options, "chance")) {
        char found[24];
        snprintf(found, sizeof found, "%zu", count);
        return run_misused(run, "one job with --svg or --chance", found);
    }
    struct run *failed = read_all(runs, count);
    failed = failed ? failed : plan_all(run, runs, count, outcomes);
    int status = failed ? run_failed(failed) : print_all(runs, count, outcomes);
    for (size_t i = count; i-- > 1;)
        coatwright_close(runs[i].session);
    return status;
}

static int timetable(struct run *run)
{
    struct coatwright_outcome outcome;
    if (run->options.operand_count > 1)
        return timetable_of_several(run);
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (option_value(&run->options, "chance") && outcome.planned && !coatwright_chance(run->session, THREADS))
        return run_failed(run);
    if (!save(run, "ics", COATWRIGHT_ICALENDAR, outcome.planned) ||
        !save(run, "svg", COATWRIGHT_SVG, outcome.planned))
        return run_failed(run);
    return run_report(run, COATWRIGHT_TIMETABLE, outcome.in_time ? EXIT_DONE : EXIT_MISSED);
}

const struct command command_timetable = {
    .name = "timetable",
    .operands = "JOB ...",
    .does = "coat by coat, each with its day and hour",
    .least = 1,
    .most = OPERANDS_MOST,
    .more = "Several jobs share one shop, and one calendar; --svg and --chance are for one job.",
    .advice = true,
    .options = {{"ics", "FILE", "write the calendar to FILE", NULL},
                OPTION_SVG,
                OPTION_LATEST,
                OPTION_EFFORT,
                {"chance", NULL, "how likely it is to be on time", NULL}},
    .run = timetable,
};
