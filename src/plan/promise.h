/* The delivery that the customer was promised. Where the job's file names a day alone, longer hours would move it to
 * their own closing: the advice to work them holds it where it was. */
#ifndef PLAN_PROMISE_H
#define PLAN_PROMISE_H

#include "job/job.h"

/* Whether a shop with other hours moves the delivery of a job. */
bool promise_moves(const struct job *job, const struct shop *changed);

/* Names the moment of the delivery where the job names its day alone. */
void promise_hold(struct job *job);

#endif
