#include "plan/promise.h"

bool promise_moves(const struct job *job, const struct shop *changed)
{
    int64_t closing;
    return job->deliver_is_day && shop_nearest_hours(changed, job->zone, job->deliver_day, true, &closing) &&
           closing != job->deliver_min;
}

void promise_hold(struct job *job)
{
    job->deliver_is_day = false;
}
