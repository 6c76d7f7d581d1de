#include "app/several.h"

/* Each with the same options. */
static struct run *read_all(struct several *several)
{
    struct run *runs = several->runs;
    for (size_t i = 0; i < several->count; i++) {
        if (i > 0)
            run_open(&runs[i], &runs[0].options);
        if (!runs[i].session || !coatwright_read(runs[i].session, runs[0].options.operands[i]))
            return &runs[i];
    }
    return NULL;
}

static struct run *plan_all(struct several *several, struct run *first)
{
    struct coatwright *sessions[OPERANDS_MOST];
    for (size_t i = 0; i < several->count; i++)
        sessions[i] = several->runs[i].session;
    progress_begin(&first->progress);
    bool planned = coatwright_plan_together(sessions, several->count, several->outcomes);
    progress_end(&first->progress);
    if (planned)
        return NULL;
    size_t failed = 0;
    while (failed + 1 < several->count && coatwright_error_count(sessions[failed]) == 0)
        failed++;
    return &several->runs[failed];
}

struct run *several_plan(struct several *several, struct run *run)
{
    *several = (struct several){.runs = {*run}, .count = run->options.operand_count};
    for (size_t i = 0; i < several->count; i++)
        several->outcomes[i] = (struct coatwright_outcome)COATWRIGHT_OUTCOME_INIT;
    struct run *failed = read_all(several);
    return failed ? failed : plan_all(several, run);
}

void several_close(struct several *several)
{
    for (size_t i = several->count; i-- > 1;)
        coatwright_close(several->runs[i].session);
}
