/* Jobs that are planned together: a session for each, the program's own for the first. */
#ifndef APP_SEVERAL_H
#define APP_SEVERAL_H

#include "app/run.h"

struct several {
    struct run runs[OPERANDS_MOST]; /* the first is a copy of the program's run */
    struct coatwright_outcome outcomes[OPERANDS_MOST];
    size_t count;
};

/* Reads every operand, each with the same options. NULL, or the run that failed. */
struct run *several_read(struct several *several, struct run *run);
/* Plans what was read of the same run, one job like several. NULL, or the run that failed. */
struct run *several_plan(struct several *several, struct run *run);

/* Reads them, asks for the day and person of the options before the planning, which takes its time, and plans. NULL, or the run
 * that failed. */
struct run *several_plan_day(struct several *several, struct run *run);

/* Prints a report of each, as JSON in one list of "jobs". The exit status: done, or that of the one that failed. */
int several_print(struct several *several, enum coatwright_report report);

/* Closes the sessions but the first. */
void several_close(struct several *several);

#endif
