/* The work of a whole job: every piece's rows, the tasks, and what waits for what between them; of several jobs together, and
 * how far ahead its plan looks. */
#ifndef TIMETABLE_WORK_H
#define TIMETABLE_WORK_H

#include "timetable/emit.h"

struct arena;
struct err_list;

/* `lots` per piece: into how many it is divided, at most its parts. NULL when something was added to `errors`: work longer than the longest stretch that cannot be cut, sections
 * that cannot be wiped in time, two pieces or tasks whose names give the same id. */
struct operations *operations_make(struct arena *arena, const struct job *job,
                                   const struct surfaces *surfaces, struct shop_limits limits,
                                   const int *lots, struct err_list *errors);

/* Whether every part that is still to be worked on fits, with the set-up and clean-up that must lie in one stretch with it, the
 * longest stretch of anybody; what does not is added to `errors`. */
bool operations_fit(const struct operations *operations, struct shop_limits limits, struct err_list *errors);

/* The operations of several jobs as one list. */
struct joined {
    struct job
        *shop_job; /* the first job, from the earliest start to the last delivery: the shop is the same */
    struct operations all;
    size_t *first; /* per job: its first operation; and the end of the last */
};

void operations_join(struct arena *arena, const struct operations *const *jobs, size_t count,
                     struct joined *joined);

enum { HORIZON_MOST_MIN = 104 * 7 * DAY_MINUTES }; /* no plan looks further ahead */

/* Slots of five minutes from the job's start in which a plan is sought first: a guess from the work and its waits; `late`: at
 * least until its delivery. */
int32_t operations_horizon(struct arena *arena, const struct operations *operations, bool late);

#endif
