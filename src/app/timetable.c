#include "app/several.h"

#include <stdio.h>

enum { THREADS = 2 };

/* Without a timetable there is nothing to write, and an older file stays as it was. */
static bool save(struct run *run, const char *option, enum coatwright_format format, bool planned)
{
    const char *path = option_value(&run->options, option);
    if (path && !planned)
        run_note(path, "not written: there is no timetable");
    return !path || !planned || coatwright_save(run->session, COATWRIGHT_TIMETABLE, format, path);
}

static int timetable_of_several(struct run *run)
{
    struct several several;
    if (option_value(&run->options, "svg") || option_value(&run->options, "chance") ||
        option_value(&run->options, "apply")) {
        char found[24];
        snprintf(found, sizeof found, "%zu", run->options.operand_count);
        return run_misused(run, "one job with --svg, --chance or --apply", found);
    }
    struct run *failed = several_read(&several, run);
    failed = failed ? failed : several_plan(&several, run);
    if (!failed && !save(&several.runs[0], "ics", COATWRIGHT_ICALENDAR, several.outcomes[0].planned))
        failed = &several.runs[0];
    int status = failed ? run_failed(failed) : several_print(&several, COATWRIGHT_TIMETABLE);
    for (size_t i = 0; i < several.count && status == EXIT_DONE; i++)
        status = several.outcomes[i].in_time ? EXIT_DONE : EXIT_MISSED;
    several_close(&several);
    return status;
}

static int timetable(struct run *run)
{
    struct coatwright_outcome outcome;
    struct applied applied;
    if (run->options.operand_count > 1)
        return timetable_of_several(run);
    if (!run_plan(run, &outcome) || !apply_asked(run, &applied, &outcome))
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
    .more = "Several jobs share one shop, and one calendar; --svg, --chance and --apply are for one job.",
    .advice = true,
    .options = {{"ics", "FILE", "write the calendar to FILE", NULL},
                OPTION_SVG,
                OPTION_SOONEST,
                OPTION_LATEST,
                OPTION_EFFORT,
                OPTION_APPLY,
                {"out", "DIR", "make it in DIR, a copy of the job's files", NULL},
                OPTION_IN_PLACE,
                {"chance", NULL, "how likely it is to be on time", NULL}},
    .run = timetable,
};
