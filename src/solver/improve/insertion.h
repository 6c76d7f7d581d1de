/* First plans by insertion with unscheduling: operations are placed one after the other at the earliest moment that
 * lags, calendar, resources and disjunctive pairs allow. Where a maximum lag leaves no start, the operation that
 * opened it gets a later release, and it and everything placed since are unscheduled. Flags are tried at 0 and fall
 * to 1 where that cannot be had.
 *
 * Literature: Franck, Neumann, Schwindt, Truncated branch-and-bound, schedule-construction, and schedule-improvement
 * procedures for resource-constrained project scheduling, OR Spektrum 23 (2001); the order is by latest start. */
#ifndef SOLVER_IMPROVE_INSERTION_H
#define SOLVER_IMPROVE_INSERTION_H

#include "solver/model/model.h"
#include "solver/model/schedule.h"

struct insertion {
    const struct model *model; /* without the disjunctive pairs, which the schedule looks up */
    struct trail trail;
    struct schedule schedule;
    unsigned char *flag;          /* as decided in this attempt */
    unsigned char *try_one_first; /* flags no longer tried at 0 */
    int32_t *release;             /* raised by unscheduling */
    int32_t *key;                 /* latest start where the value is at its bound */
    int32_t *noise;               /* this attempt's change of the key */
    unsigned char *waits;         /* per operation: a predecessor is not placed */
    int *placed;                  /* stack */
    size_t count, flags;
    size_t stuck; /* operation that could not be placed */
};

/* False: the lags alone, with the calendars, prove that there is no plan. */
bool insertion_init(struct insertion *insertion, const struct model *model, struct arena *arena);

/* Counted work of all attempts so far. */
int64_t insertion_work(const struct insertion *insertion);

/* One attempt with the present keys; true: schedule.start and flag hold a plan. `patience` bounds the unscheduling, and the
 * attempt is given up where the counted work of all has reached the limit. */
bool insertion_run(struct insertion *insertion, size_t patience, int64_t work_limit);

#endif
