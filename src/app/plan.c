#include "app/commands.h"

#include <stdio.h>

/* Without a timetable there is nothing to write, and the files of an older plan stay as they were. */
int run_whole_plan(struct run *run)
{
    struct coatwright_outcome outcome;
    const char *folder = run->options->out;
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (folder && !outcome.planned)
        fprintf(stderr, "%s: nothing written: there is no timetable\n", folder);
    else if (folder && !coatwright_save_all(run->session, folder))
        return run_failed(run);
    bool good = outcome.in_time && outcome.mixes_sound;
    return run_report(run, COATWRIGHT_PLAN, good ? EXIT_DONE : EXIT_MISSED);
}
