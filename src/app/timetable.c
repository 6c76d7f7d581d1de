#include "app/commands.h"

#include <stdio.h>

/* Without a timetable there is nothing to write, and an older file stays as it was. */
static bool save_timetable(struct run *run, enum coatwright_format format, const char *path, bool planned)
{
    if (path && !planned)
        fprintf(stderr, "%s: not written: there is no timetable\n", path);
    return !path || !planned || coatwright_save(run->session, COATWRIGHT_TIMETABLE, format, path);
}

int run_timetable(struct run *run)
{
    struct coatwright_outcome outcome;
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (!save_timetable(run, COATWRIGHT_ICALENDAR, run->options->ics, outcome.planned) ||
        !save_timetable(run, COATWRIGHT_SVG, run->options->svg, outcome.planned))
        return run_failed(run);
    return run_report(run, COATWRIGHT_TIMETABLE, outcome.in_time ? EXIT_DONE : EXIT_MISSED);
}
