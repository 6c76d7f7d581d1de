/* The work of a whole job: every piece's rows, the tasks, and what waits for what between them. */
#ifndef TIMETABLE_WORK_H
#define TIMETABLE_WORK_H

#include "timetable/emit.h"

struct arena;
struct err_list;

/* NULL when something was added to `errors`: work longer than the longest stretch that cannot be cut, lots that
 * cannot be wiped in time, two pieces or tasks whose names give the same id. */
struct operations *operations_make(struct arena *arena, const struct job *job,
                                   const struct surfaces *surfaces, struct shop_limits limits,
                                   struct err_list *errors);

#endif
