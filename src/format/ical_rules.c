#include "format/ical_when.h"

#include "base/arena.h"

#include <string.h>

struct starts {
    struct ical_span span;
    int64_t *items;
    size_t count, capacity;
};

static void add(const struct ical_reading *in, struct starts *starts, int64_t minute)
{
    if (minute < starts->span.from_min || minute > starts->span.to_min)
        return;
    starts->items = arena_grow(in->reading->arena, starts->items, starts->count, &starts->capacity,
                               sizeof *starts->items);
    starts->items[starts->count++] = minute;
}

/* Days that no year has, such as 30 February, keep libical searching for centuries. */
static bool day_exists(const struct icalrecurrencetype *rule)
{
    static const int longest[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (rule->by_month[0] == ICAL_RECURRENCE_ARRAY_MAX || rule->by_month_day[0] == ICAL_RECURRENCE_ARRAY_MAX)
        return true;
    for (int m = 0; m < ICAL_BY_MONTH_SIZE && rule->by_month[m] != ICAL_RECURRENCE_ARRAY_MAX; m++)
        for (int d = 0; d < ICAL_BY_MONTHDAY_SIZE && rule->by_month_day[d] != ICAL_RECURRENCE_ARRAY_MAX;
             d++) {
            int month = rule->by_month[m],
                day = rule->by_month_day[d] < 0 ? -rule->by_month_day[d] : rule->by_month_day[d];
            if (month >= 1 && month <= 12 && day <= longest[month - 1])
                return true;
        }
    return false;
}

static bool sound(struct ical_reading *in, const struct icalrecurrencetype *rule, size_t at)
{
    bool whole_days = rule->freq == ICAL_DAILY_RECURRENCE || rule->freq == ICAL_WEEKLY_RECURRENCE ||
                      rule->freq == ICAL_MONTHLY_RECURRENCE || rule->freq == ICAL_YEARLY_RECURRENCE;
    if (!whole_days || rule->rscale)
        return ical_refuse(in, at, "a rule by day, week, month or year of the usual calendar");
    if (!day_exists(rule))
        return ical_refuse(in, at, "a rule with a day that exists");
    if (++in->rules > ICAL_RULES_MOST)
        return ical_refuse(in, at, "at most 500 repeating events");
    return true;
}

static void release(void *walk)
{
    icalrecur_iterator_free(walk);
}

/* One rule's occurrences up to the end of the span. */
static bool follow(struct ical_reading *in, struct icalrecurrencetype rule, struct icaltimetype first,
                   struct ical_clock clock, size_t at, struct starts *starts)
{
    icalrecur_iterator *walk = icalrecur_iterator_new(rule, first);
    int64_t minute = INT64_MIN;
    bool good = true;
    if (!walk)
        return ical_refuse(in, at, "a rule that can be followed");
    arena_own(in->reading->arena, walk, release);
    while (good && minute <= starts->span.to_min) {
        struct icaltimetype time = icalrecur_iterator_next(walk);
        if (icaltime_is_null_time(time))
            break;
        if (++in->steps > ICAL_STEPS_MOST)
            good = ical_refuse(in, at, "a rule that does not begin so long ago");
        else if (ical_moment(in, time, clock, &minute))
            add(in, starts, minute);
    }
    arena_disown(in->reading->arena, walk);
    release(walk);
    return good;
}

/* RDATE: further starts; of a period its beginning. */
static bool add_dates(struct ical_reading *in, icalcomponent *event, size_t at, struct starts *starts)
{
    for (icalproperty *p = icalcomponent_get_first_property(event, ICAL_RDATE_PROPERTY); p;
         p = icalcomponent_get_next_property(event, ICAL_RDATE_PROPERTY)) {
        struct icaldatetimeperiodtype date = icalproperty_get_rdate(p);
        bool period = icaltime_is_null_time(date.time);
        int64_t minute;
        if (!ical_moment(in, period ? date.period.start : date.time, ical_clock_of(in, p), &minute))
            return ical_refuse(in, at, "a date that exists");
        add(in, starts, minute);
    }
    return true;
}

/* EXDATE: starts that do not take place; of a date alone every one on that day. */
static bool drop_dates(struct ical_reading *in, icalcomponent *event, size_t at, struct starts *starts)
{
    for (icalproperty *p = icalcomponent_get_first_property(event, ICAL_EXDATE_PROPERTY); p;
         p = icalcomponent_get_next_property(event, ICAL_EXDATE_PROPERTY)) {
        struct icaltimetype time = icalproperty_get_exdate(p);
        int64_t from;
        if (!ical_moment(in, time, ical_clock_of(in, p), &from))
            return ical_refuse(in, at, "a date that exists");
        int64_t to = time.is_date ? from + DAY_MINUTES : from + 1;
        size_t kept = 0;
        for (size_t i = 0; i < starts->count; i++)
            if (starts->items[i] < from || starts->items[i] >= to)
                starts->items[kept++] = starts->items[i];
        starts->count = kept;
    }
    return true;
}

bool ical_starts(struct ical_reading *in, icalcomponent *event, const struct ical_event *at,
                 struct ical_span span, int64_t **starts, size_t *count)
{
    struct starts found = {.span = span};
    icalproperty *begin = icalcomponent_get_first_property(event, ICAL_DTSTART_PROPERTY);
    struct ical_clock clock = ical_clock_of(in, begin);
    struct icaltimetype first = icalproperty_get_dtstart(begin);
    int64_t minute;
    if (!ical_moment(in, first, clock, &minute))
        return ical_refuse(in, at->first[WHEN_DTSTART], "a date that exists");
    add(in, &found, minute);
    if (!icaltime_is_utc(first) && clock.ical)
        first.zone = clock.ical;
    for (icalproperty *p = icalcomponent_get_first_property(event, ICAL_RRULE_PROPERTY); p;
         p = icalcomponent_get_next_property(event, ICAL_RRULE_PROPERTY)) {
        struct icalrecurrencetype rule = icalproperty_get_rrule(p);
        if (!sound(in, &rule, at->first[WHEN_RRULE]) ||
            !follow(in, rule, first, clock, at->first[WHEN_RRULE], &found))
            return false;
    }
    bool good = add_dates(in, event, at->first[WHEN_RDATE], &found) &&
                drop_dates(in, event, at->first[WHEN_EXDATE], &found);
    *starts = found.items;
    *count = found.count;
    return good;
}
