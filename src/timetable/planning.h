/* From a job's surfaces to its timetable: operations, network, solution, dates, reasons. */
#ifndef TIMETABLE_PLANNING_H
#define TIMETABLE_PLANNING_H

#include "timetable/timetable.h"

struct arena;
struct attempt;
struct err_list;

/* operations_make with the limits of the job's own shop: its longest stretch, its warmest working hour until the
 * delivery. NULL when something was added to `errors`. */
const struct operations *timetable_operations(struct arena *arena, const struct job *job,
                                              const struct surfaces *surfaces, struct err_list *errors);

/* Never NULL: a job that cannot be planned, or not so large a one, is a timetable with that status and its reason. */
struct timetable *timetable_make(struct arena *arena, const struct operations *operations,
                                 struct timetable_options options);

/* Solves and dates a timetable whose job, operations and moments stand; *solved is left unset where the timetable is
 * refused for its size. For several.c. */
void timetable_solve(struct arena *arena, struct timetable *timetable, struct timetable_options options,
                     struct attempt *solved);

#endif
