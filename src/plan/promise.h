/* The delivery that the customer was promised. Where the job's file names a day alone, longer hours would move it to
 * their own closing: the advice to work them holds it where it was. */
#ifndef PLAN_PROMISE_H
#define PLAN_PROMISE_H

#include "job/job.h"

struct arena;

/* The merge patch of the job's file that holds the delivery in a shop with other hours; NULL: they do not move it. */
const char *promise_patch(struct arena *arena, const struct job *job, const struct shop *changed);

#endif
