#include "source/read_job_parts.h"

#include "base/moment.h"

static bool read_written(const struct job_draft *draft, struct json_at at, struct moment_text *moment)
{
    struct err fault;
    const char *text;
    if (!json_text(at, "a moment such as \"2027-03-01 08:00\"", &text))
        return false;
    return moment_parse(text, draft->job->zone, moment, &fault) || json_refuse(at, fault.expected);
}

/* A day alone is completed with its hours. */
static bool complete(const struct job_draft *draft, struct json_at at, const struct moment_text *moment,
                     bool closing, int64_t *minute)
{
    const struct job *job = draft->job;
    if (!moment->date_only)
        *minute = moment->minute;
    else if (!shop_nearest_hours(&job->shop, job->zone, date_days(moment->date), closing, minute))
        /* Where hours could not be read, it is they that must be mended. */
        return reading_mistakes(draft->reading) == 0 &&
               json_refuse(at, "a day near one on which the shop is open");
    return true;
}

bool job_read_moment(const struct job_draft *draft, struct json_at at, int64_t *minute)
{
    struct moment_text moment;
    return read_written(draft, at, &moment) && complete(draft, at, &moment, false, minute);
}

static void read_deliver(struct job_draft *draft)
{
    struct job *job = draft->job;
    struct json_at at = json_member(draft->root, "deliver");
    struct moment_text moment;
    if (!read_written(draft, at, &moment) || !complete(draft, at, &moment, true, &job->deliver_min))
        return;
    job->deliver_is_day = moment.date_only;
    job->deliver_day = moment.date_only ? date_days(moment.date) : 0;
}

void job_read_dates(struct job_draft *draft)
{
    job_read_moment(draft, json_member(draft->root, "start"), &draft->job->start_min);
    read_deliver(draft);
}
