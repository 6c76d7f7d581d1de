/* Several jobs as one network: whose goals count, and the plan in which no job is late for the sake of another.
 *
 * What is made small is the worst lateness. Where one job must be late anyway, that leaves the others as much room to be
 * late as it takes: so one job is allowed the worst, each in turn, and the worst of the rest made small, until the rest are
 * in time (the leximax order of multi-objective scheduling, see Ehrgott, Multicriteria Optimization, ch. 5). */
#ifndef TIMETABLE_RELIEVE_H
#define TIMETABLE_RELIEVE_H

#include "timetable/attempt.h"

/* The operations of job j are those from begin[j] to before begin[j + 1]. */
struct job_rows {
    const size_t *begin;
    size_t count;
};

/* The same network with the goals of one job only. */
struct network relieve_goals_of(const struct network *net, struct job_rows rows, size_t job);
/* The same network with every job due when it is ready in a plan, so many slots after its delivery at the least. */
struct network relieve_due_when_ready(const struct network *net, struct job_rows rows,
                                      const struct net_result *result, int32_t least);
/* Changes a plan; its value stays that of the worst job. As late as may be, each job is as late as it then must. */
void relieve(struct attempt *solved, struct job_rows rows, struct timetable_options options);

#endif
