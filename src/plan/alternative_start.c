/* An earlier start, as far as the day allows. */
#include "plan/alternative.h"

#include "base/moment.h"

enum { GRID_MIN = 5, DAYS_EARLIER_MOST = 60, DAYS_MORE = 3 };

static bool opens(const struct alternatives *all, int64_t day, int64_t *moment)
{
    return !shop_closed_on(&all->job->shop, day) &&
           shop_nearest_hours(&all->job->shop, all->job->zone, day, false, moment) &&
           zone_day(all->job->zone, *moment, NULL) == day;
}

/* The opening so many working days before the start; the start where there is none. */
static int64_t opening_before(const struct alternatives *all, int days)
{
    int64_t day = zone_day(all->job->zone, all->job->start_min, NULL), moment, found = all->job->start_min;
    for (int n = 0; n < DAYS_EARLIER_MOST && days > 0; n++)
        if (opens(all, --day, &moment)) {
            found = moment;
            days--;
        }
    return days > 0 ? all->job->start_min : found;
}

/* Days on which the shop opens between the delivery and the ready moment, the latter's among them. */
static int days_late(const struct alternatives *all)
{
    const struct timetable *timetable = all->timetable;
    if (timetable->status != TIMETABLE_PLANNED)
        return 0;
    int64_t first = zone_day(all->job->zone, timetable->deliver_min, NULL), moment;
    int64_t last = zone_day(all->job->zone, timetable->ready_min, NULL);
    int days = 0;
    for (int64_t day = first + 1; day <= last && days < DAYS_EARLIER_MOST; day++)
        days += opens(all, day, &moment);
    return days;
}

/* False: it is no earlier than `before`, or lies in the past. */
static bool add_start(struct alternatives *all, int64_t start_min, int64_t before_min)
{
    struct job job = *all->job;
    if (start_min >= before_min || start_min < all->now_min)
        return false;
    job.start_min = start_min;
    alternatives_add_job(all, (struct change){.kind = ALTERNATIVE_START, .start_min = start_min}, &job);
    return true;
}

/* As soon as the day allows: now, or when the shop opens next. */
static int64_t start_at_once(const struct alternatives *all)
{
    int64_t now = (all->now_min + GRID_MIN - 1) / GRID_MIN * GRID_MIN, closing, opening = now;
    int64_t day = zone_day(all->job->zone, now, NULL);
    if (!shop_nearest_hours(&all->job->shop, all->job->zone, day, false, &opening))
        return all->job->start_min;
    if (opening >= now)
        return opening;
    if (shop_nearest_hours(&all->job->shop, all->job->zone, day, true, &closing) && closing > now)
        return now;
    return shop_nearest_hours(&all->job->shop, all->job->zone, day + 1, false, &opening)
               ? opening
               : all->job->start_min;
}

/* A working day earlier, as many as the job is late, and some more; at once where that is not possible any more. */
void alternatives_add_start(struct alternatives *all)
{
    const int days[] = {1, days_late(all), days_late(all) + DAYS_MORE};
    int64_t earliest = all->job->start_min;
    for (size_t i = 0; i < sizeof days / sizeof days[0]; i++) {
        int64_t start = opening_before(all, days[i]);
        if (start < all->now_min) {
            (void)add_start(all, start_at_once(all), earliest);
            return;
        }
        if (add_start(all, start, earliest))
            earliest = start;
    }
}
