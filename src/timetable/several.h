/* Several jobs in one shop: people, rack and spray places are shared, each job keeps its own delivery. What is made small
 * is the worst lateness, then that of the others (relieve.h); so jobs that are due sooner go first where it matters. */
#ifndef TIMETABLE_SEVERAL_H
#define TIMETABLE_SEVERAL_H

#include "timetable/planning.h"

/* One timetable per job, in their order; their shops are the same. no_earlier_than is that of the job alone, and
 * `proven` says that even alone it could not be ready earlier. */
struct timetable **several_make(struct arena *arena, const struct operations *const *jobs, size_t count,
                                struct timetable_options options);

#endif
