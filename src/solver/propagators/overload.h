/* Energetic overload check: the tasks that must fall between two moments may not need more than is open between them.
 *
 * Time is counted in the slots in which any task of the resource could run at all, so that nights and weekends
 * neither offer nor take work. A task counts with the part of its shortest length that lies between the moments
 * when it starts as late as it can. The check costs the square of the number of tasks: it serves the rounds that
 * raise the bound, and the bound before the search.
 *
 * Literature: Baptiste, Le Pape, Nuijten, Constraint-Based Scheduling (2001); Vilim, Timetable edge finding
 * filtering algorithm for discrete cumulative resources, CPAIOR 2011; Schutt, Feydy, Stuckey, CPAIOR 2013. */
#ifndef SOLVER_PROPAGATORS_OVERLOAD_H
#define SOLVER_PROPAGATORS_OVERLOAD_H

#include "solver/propagators/cumulative.h"

/* One task with its shortest length; moments in open slots. */
struct overload_task {
    int task;            /* of the profile */
    int32_t length;      /* shortest over its window */
    int32_t first, last; /* start: earliest, latest */
};

struct overload {
    struct profile *profile;
    const int32_t *open; /* open slots before t, for t up to the last end of a task */
    int32_t open_most;   /* the largest t */
    struct overload_task *tasks;
    size_t count;
    struct overload_task *now; /* those present, by falling `first` */
};

struct overloads {
    struct profiles *profiles;
    struct overload *items;
    size_t count;
    struct literal *explanation;
};

/* On level 0: shortest lengths are taken over the windows there. */
void overloads_init(struct overloads *overloads, struct profiles *profiles, const struct trail *trail,
                    struct arena *arena);

/* Checks all resources touched since. False on a conflict (in the trail). */
bool overloads_run(struct overloads *overloads, struct trail *trail);

#endif
