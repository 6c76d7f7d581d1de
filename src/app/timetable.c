#include "app/commands.h"

#include <stdio.h>

/* Without a timetable there is nothing to write, and an older calendar stays as it was. */
int run_timetable(struct run *run)
{
    struct coatwright_outcome outcome;
    const char *calendar = run->options->ics;
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (calendar && !outcome.planned)
        fprintf(stderr, "%s: not written: there is no timetable\n", calendar);
    else if (calendar && !coatwright_save(run->session, COATWRIGHT_TIMETABLE, COATWRIGHT_ICALENDAR, calendar))
        return run_failed(run);
    return run_report(run, COATWRIGHT_TIMETABLE, outcome.in_time ? EXIT_DONE : EXIT_MISSED);
}
