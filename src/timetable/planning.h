/* From a job's surfaces to its timetable: operations, batches, dates, reasons. */
#ifndef TIMETABLE_PLANNING_H
#define TIMETABLE_PLANNING_H

#include "timetable/timetable.h"

struct arena;
struct err_list;

/* The work of a job in as few lots as serve, with the limits of its own shop: its longest stretch, its warmest working hour
 * until the delivery. NULL when something was added to `errors`. */
const struct operations *timetable_operations(struct arena *arena, const struct job *job,
                                              const struct surfaces *surfaces, struct err_list *errors);

/* Never NULL: a job that cannot be planned, or not so large a one, is a timetable with that status and its reason. Its
 * operations are those given, or the same work in more lots where that serves the aim. */
struct timetable *timetable_make(struct arena *arena, const struct operations *operations,
                                 struct timetable_options options);

/* Several jobs that share a shop: a timetable each, in their order. no_earlier_than is that of the job alone. */
struct timetable **timetable_several(struct arena *arena, const struct operations *const *jobs, size_t count,
                                     struct timetable_options options);

#endif
