#include "source/read_job_parts.h"

#include "base/arena.h"
#include "format/ical_busy.h"
#include "source/named.h"

enum { DAYS_BEFORE = 2, DAYS_AFTER = 3 * 366 };

/* From before the start until long after the delivery: a plan may be late. */
static struct busy_window window_of(const struct job *job)
{
    int64_t last = job->deliver_min > job->start_min ? job->deliver_min : job->start_min;
    return (struct busy_window){job->zone, job->start_min - (int64_t)DAYS_BEFORE * DAY_MINUTES,
                                last + (int64_t)DAYS_AFTER * DAY_MINUTES};
}

void job_read_busy(struct job_draft *draft)
{
    struct json_at at = draft->busy;
    struct busy_window window = window_of(draft->job);
    struct busy_list list = {NULL, 0, 0};
    if (!at.node || !json_list(at, "a list of calendar files"))
        return;
    for (struct json_at item = json_first(at); item.node; item = json_next(item)) {
        struct file_text file;
        if (named_load(item, draft->busy_rule, &file))
            (void)busy_read(draft->reading, &file, &window, &list);
    }
    busy_join(&list);
    struct busy *busy = ARENA_ARRAY(draft->reading->arena, list.count, struct busy);
    for (size_t i = 0; i < list.count; i++)
        busy[i] = (struct busy){list.items[i].from_min, list.items[i].to_min};
    draft->job->shop.busy = busy;
    draft->job->shop.busy_count = list.count;
}
