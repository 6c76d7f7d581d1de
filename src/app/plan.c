#include "app/run.h"

#include <stdio.h>

static bool compare_earlier(struct run *run, const char *folder)
{
    char path[4096];
    int length = snprintf(path, sizeof path, "%s/plan.json", folder);
    return length < 0 || (size_t)length >= sizeof path || coatwright_earlier_plan(run->session, path);
}

/* Without a timetable there is nothing to write, and the files of an older plan stay as they were. */
static int plan(struct run *run)
{
    struct coatwright_outcome outcome;
    struct applied applied;
    const char *folder = option_value(&run->options, "out");
    if (!run_plan(run, &outcome) || !apply_asked(run, &applied, &outcome))
        return run_failed(run);
    if (folder && !compare_earlier(run, folder))
        return run_failed(run);
    if (folder && !outcome.planned)
        run_note(folder, "nothing written: there is no timetable");
    else if (folder && !coatwright_save_all(run->session, folder))
        return run_failed(run);
    return run_report(run, COATWRIGHT_PLAN, outcome.in_time && outcome.mixes_sound ? EXIT_DONE : EXIT_MISSED);
}

const struct command command_plan = {
    .name = "plan",
    .operands = "JOB",
    .does = "all of it on one page",
    .least = 1,
    .most = 1,
    .more = "In DIR come plan.json, timetable.ics, shopping.csv and sheet.html.",
    .advice = true,
    .options = {OPTION_SOONEST,
                OPTION_LATEST,
                OPTION_EFFORT,
                {"out", "DIR", "write the plan's files into DIR, with --apply the job's as well", NULL},
                OPTION_APPLY,
                OPTION_IN_PLACE},
    .run = plan,
};
