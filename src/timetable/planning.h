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

/* The two halves of timetable_make, on a blank timetable, for several.c: false where it is refused for its size. */
bool timetable_attempt(struct arena *arena, struct timetable *timetable, struct timetable_options options,
                       struct attempt *solved);
void timetable_fill(struct attempt *last, struct timetable *timetable, bool late);

#endif
