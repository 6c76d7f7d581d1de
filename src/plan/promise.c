#include "plan/promise.h"

#include "base/arena.h"
#include "base/moment.h"

const char *promise_patch(struct arena *arena, const struct job *job, const struct shop *changed)
{
    int64_t closing;
    if (!job->deliver_is_day || !shop_nearest_hours(changed, job->zone, job->deliver_day, true, &closing) ||
        closing == job->deliver_min)
        return NULL;
    return arena_textf(arena, "{\"deliver\": \"%s\"}",
                       moment_format(job->zone, job->deliver_min, MOMENT_PLAIN).text);
}
