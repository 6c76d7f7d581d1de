/* From a job's surfaces to its timetable: operations, network, solution, dates, reasons. */
#ifndef TIMETABLE_PLANNING_H
#define TIMETABLE_PLANNING_H

#include "timetable/timetable.h"

struct arena;
struct err_list;

struct timetable_options {
    int64_t effort; /* counted work of the solver; 0: the default */
    bool late;      /* as late as the delivery allows */
};

/* operations_make with the limits of the job's own shop: its longest stretch, its warmest working hour until the
 * delivery. NULL when something was added to `errors`. */
const struct operations *timetable_operations(struct arena *arena, const struct job *job,
                                              const struct surfaces *surfaces, struct err_list *errors);

/* Never NULL: a job that cannot be planned, or not so large a one, is a timetable with that status and its reason. */
struct timetable *timetable_make(struct arena *arena, const struct operations *operations,
                                 struct timetable_options options);

#endif
