#include "app/commands.h"

#include <stdio.h>

enum { THREADS = 2 };

/* Without a timetable there is nothing to write, and an older file stays as it was. */
static bool save_timetable(struct run *run, enum coatwright_format format, const char *path, bool planned)
{
    if (path && !planned)
        fprintf(stderr, "%s: not written: there is no timetable\n", path);
    return !path || !planned || coatwright_save(run->session, COATWRIGHT_TIMETABLE, format, path);
}

/* A session each but for the first job, which has the run's own. False: the errors stand in *failed. */
static bool read_all(struct run *run, struct coatwright **sessions, struct coatwright **failed)
{
    for (size_t i = 0; i < run->options->operand_count; i++) {
        sessions[i] = i == 0 ? run->session : run_session(run->options);
        *failed = sessions[i];
        if (!sessions[i] || !coatwright_read(sessions[i], run->options->operands[i]))
            return false;
    }
    return true;
}

static bool fits_several(const struct options *options, struct err *misuse)
{
    if (!options->svg && !options->chance)
        return true;
    err_expect(misuse, "one job with --svg or --chance");
    snprintf(misuse->found, sizeof misuse->found, "%zu", options->operand_count);
    return false;
}

static int print_all(struct run *run, struct coatwright **sessions, const struct coatwright_outcome *outcomes)
{
    bool json = run->options->json;
    size_t count = run->options->operand_count;
    int status = EXIT_DONE;
    const char *texts[OPERANDS_MOST];
    for (size_t i = 0; i < count; i++) {
        texts[i] =
            coatwright_write(sessions[i], COATWRIGHT_TIMETABLE, json ? COATWRIGHT_JSON : COATWRIGHT_TEXT);
        if (!texts[i])
            return run_failed(&(struct run){run->options, sessions[i]});
        status = outcomes[i].in_time ? status : EXIT_MISSED;
    }
    for (size_t i = 0; i < count; i++)
        run_tell_warnings(&(struct run){run->options, sessions[i]});
    fputs(json ? "{\"jobs\": [\n" : "", stdout);
    for (size_t i = 0; i < count; i++)
        printf("%s%s", i == 0 ? "" : json ? ",\n" : "\n", texts[i]);
    fputs(json ? "]}\n" : "", stdout);
    return status;
}

static int run_several(struct run *run)
{
    struct coatwright *sessions[OPERANDS_MOST] = {0}, *failed = run->session;
    struct coatwright_outcome outcomes[OPERANDS_MOST];
    struct err misuse;
    size_t count = run->options->operand_count;
    int status;
    if (!fits_several(run->options, &misuse))
        return run_misused(run, &misuse);
    bool done = read_all(run, sessions, &failed);
    if (done && !coatwright_plan_together(sessions, count, outcomes)) {
        done = false;
        for (size_t i = count; i-- > 0;)
            failed = coatwright_error_count(sessions[i]) ? sessions[i] : failed;
    }
    if (done) {
        failed = run->session;
        done = save_timetable(run, COATWRIGHT_ICALENDAR, run->options->ics, outcomes[0].planned);
    }
    status = done ? print_all(run, sessions, outcomes) : run_failed(&(struct run){run->options, failed});
    for (size_t i = count; i-- > 1;)
        coatwright_close(sessions[i]);
    return status;
}

int run_timetable(struct run *run)
{
    struct coatwright_outcome outcome;
    if (run->options->operand_count > 1)
        return run_several(run);
    if (!run_plan(run, &outcome))
        return run_failed(run);
    if (run->options->chance && outcome.planned && !coatwright_chance(run->session, THREADS))
        return run_failed(run);
    if (!save_timetable(run, COATWRIGHT_ICALENDAR, run->options->ics, outcome.planned) ||
        !save_timetable(run, COATWRIGHT_SVG, run->options->svg, outcome.planned))
        return run_failed(run);
    return run_report(run, COATWRIGHT_TIMETABLE, outcome.in_time ? EXIT_DONE : EXIT_MISSED);
}
