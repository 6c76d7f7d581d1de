#include "app/several.h"

/* Without a timetable there is nothing to put on the wall, and an older file stays as it was. */
static int put_sheet(struct run *run, const struct several *several)
{
    const char *path = option_value(&run->options, "out");
    int status = EXIT_DONE;
    for (size_t i = 0; i < several->count; i++) {
        if (!several->outcomes[i].planned) {
            run_note(run->options.operands[i], "no sheet: there is no timetable; see coatwright timetable");
            return EXIT_MISSED;
        }
        status = several->outcomes[i].in_time ? status : EXIT_MISSED;
    }
    if (!path) {
        const char *text = coatwright_write(run->session, COATWRIGHT_SHEET, COATWRIGHT_HTML);
        return text && run_print(run, text) == EXIT_DONE ? status : run_failed(run);
    }
    return coatwright_save(run->session, COATWRIGHT_SHEET, COATWRIGHT_HTML, path) ? status : run_failed(run);
}

static int sheet(struct run *run)
{
    struct several several;
    struct run *failed = several_plan_day(&several, run);
    for (size_t i = 0; !failed && i < several.count; i++)
        run_tell_warnings(&several.runs[i]);
    int status = failed ? run_failed(failed) : put_sheet(run, &several);
    several_close(&several);
    return status;
}

const struct command command_sheet = {
    .name = "sheet",
    .operands = "JOB ...",
    .does = "a sheet to print: work, mixes, shopping, care",
    .least = 1,
    .most = OPERANDS_MOST,
    .more = "One HTML file, for paper and for the screen. Several jobs share one shop.",
    .options = {{"out", "FILE", "write it into FILE instead of to standard output", NULL},
                {"day", "DAY", "the work of one day alone: 2027-03-02", day_reads},
                {"person", "NAME", "the work of this person alone", NULL},
                {"page", "a4|letter", "of the paper; Letter where the units are US", NULL},
                OPTION_SOONEST,
                OPTION_LATEST,
                OPTION_EFFORT},
    .run = sheet,
};
