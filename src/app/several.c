#include "app/several.h"

#include <stdio.h>

struct run *several_read(struct several *several, struct run *run)
{
    struct run *runs = several->runs;
    *several = (struct several){.runs = {*run}, .count = run->options.operand_count};
    for (size_t i = 0; i < several->count; i++)
        several->outcomes[i] = (struct coatwright_outcome)COATWRIGHT_OUTCOME_INIT;
    for (size_t i = 0; i < several->count; i++) {
        if (i > 0)
            run_open(&runs[i], &runs[0].options);
        if (!runs[i].session || !coatwright_read(runs[i].session, runs[0].options.operands[i]))
            return &runs[i];
    }
    return NULL;
}

struct run *several_plan(struct several *several, struct run *run)
{
    struct coatwright *sessions[OPERANDS_MOST] = {NULL};
    for (size_t i = 0; i < several->count; i++)
        sessions[i] = several->runs[i].session;
    progress_begin(&run->progress);
    bool planned = several->count == 1
                       ? coatwright_plan(run->session, several->outcomes)
                       : coatwright_plan_together(sessions, several->count, several->outcomes);
    progress_end(&run->progress);
    if (planned)
        return NULL;
    size_t failed = 0;
    while (failed + 1 < several->count && coatwright_error_count(sessions[failed]) == 0)
        failed++;
    return &several->runs[failed];
}

struct run *several_plan_day(struct several *several, struct run *run)
{
    struct coatwright_day_want want = COATWRIGHT_DAY_WANT_INIT;
    want.day = option_value(&run->options, "day");
    want.person = option_value(&run->options, "person");
    struct run *failed = several_read(several, run);
    if (failed)
        return failed;
    return coatwright_day(run->session, &want) ? several_plan(several, run) : run;
}

int several_print(struct several *several, enum coatwright_report report)
{
    struct run *runs = several->runs;
    size_t count = several->count;
    bool json = runs[0].options.json;
    const char *texts[OPERANDS_MOST];
    for (size_t i = 0; i < count; i++) {
        texts[i] = coatwright_write(runs[i].session, report, json ? COATWRIGHT_JSON : COATWRIGHT_TEXT);
        if (!texts[i])
            return run_failed(&runs[i]);
    }
    for (size_t i = 0; i < count; i++)
        run_tell_warnings(&runs[i]);
    fputs(json ? "{\"jobs\": [\n" : "", stdout);
    for (size_t i = 0; i < count; i++)
        printf("%s%s", i == 0 ? "" : json ? ",\n" : "\n", texts[i]);
    fputs(json ? "]}\n" : "", stdout);
    return EXIT_DONE;
}

void several_close(struct several *several)
{
    for (size_t i = several->count; i-- > 1;)
        coatwright_close(several->runs[i].session);
}
