/* What would help jobs that share a shop: as advice.h, but each alternative is planned with all jobs in view, and told to
 * every job that is late with what it gains that one, and whom it makes later. */
#ifndef PLAN_ADVICE_SEVERAL_H
#define PLAN_ADVICE_SEVERAL_H

#include "plan/advice.h"

/* A list for each of the timetables that timetable_several gave; empty for a job in time with enough to spare. Changes of the shop are for all
 * jobs, and where its description stands in several files all of them are named; other changes are of the late jobs alone.
 * Only what was planned as a run on the changed files would plan it is told. */
struct advice_list *advice_several(struct arena *arena, struct timetable *const *timetables, size_t count,
                                   struct timetable_options options, int64_t now_min);

#endif
