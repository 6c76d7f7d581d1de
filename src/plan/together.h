/* Jobs planned together share one shop: whether they say so. */
#ifndef PLAN_TOGETHER_H
#define PLAN_TOGETHER_H

#include "job/job.h"

/* Adds to errors[j] each key of the shop, and the zone, in which job j's is not the first job's; false when any was
 * added. Both files are named: the place is job j's, what is expected stands in the first one's. */
bool together_check(const struct job *const *jobs, size_t count, struct err_list *const *errors);

#endif
