#include "io/read_job_parts.h"

#include "base/moment.h"

enum { DAYS_SOUGHT = 4000 };

/* The day's hours, none where the shop is closed. */
static struct shop_day day_hours(const struct shop *shop, int64_t day)
{
    if (shop_closed_on(shop, day))
        return (struct shop_day){NULL, 0};
    return shop->hours[weekday_of(day)];
}

/* The first opening from a day on, or the last closing up to it. False: the shop stays closed for years. */
static bool nearest_hours(const struct job *job, int64_t day, bool closing, int64_t *minute)
{
    for (int n = 0; n < DAYS_SOUGHT; n++, day += closing ? -1 : 1) {
        struct shop_day hours = day_hours(&job->shop, day);
        if (hours.count == 0)
            continue;
        int at = closing ? hours.stretches[hours.count - 1].to_min : hours.stretches[0].from_min;
        *minute = zone_moment_on(job->zone, day, at);
        return true;
    }
    return false;
}

bool job_read_moment(const struct job_draft *draft, struct json_at at, bool closing, int64_t *minute)
{
    struct fault fault;
    struct moment_text moment;
    const char *text;
    if (!json_text(at, "a moment such as \"2027-03-01 08:00\"", &text))
        return false;
    if (!moment_parse(text, draft->job->zone, &moment, &fault))
        return json_refuse(at, fault.expected);
    if (!moment.date_only)
        *minute = moment.minute;
    else if (!nearest_hours(draft->job, date_days(moment.date), closing, minute))
        /* Where hours could not be read, it is they that must be mended. */
        return reading_mistakes(draft->reading) == 0 &&
               json_refuse(at, "a day near one on which the shop is open");
    return true;
}

void job_read_dates(struct job_draft *draft)
{
    struct job *job = draft->job;
    job_read_moment(draft, json_member(draft->root, "start"), false, &job->start_min);
    job_read_moment(draft, json_member(draft->root, "deliver"), true, &job->deliver_min);
}
