#include "format/ical_zone.h"

#include "base/arena.h"

#include <libical/ical.h>
#include <time.h>

enum { STEP_MIN = DAY_MINUTES, SECONDS = 60 };

/* Wall minus UTC in minutes. Seconds of the years before standard time are dropped. */
static int32_t offset_at(icaltimezone *zone, int64_t minute)
{
    int is_daylight;
    struct icaltimetype utc = icaltime_from_timet_with_zone((time_t)(minute * SECONDS), 0, NULL);
    utc.zone = icaltimezone_get_utc_timezone();
    return icaltimezone_get_utc_offset_of_utc_time(zone, &utc, &is_daylight) / SECONDS;
}

/* The minute in from..to at which the offset becomes what it is at `to`: one change lies between. */
static int64_t find_change(icaltimezone *zone, int64_t from, int64_t to)
{
    int32_t after = offset_at(zone, to);
    while (to - from > 1) {
        int64_t middle = from + (to - from) / 2;
        if (offset_at(zone, middle) == after)
            to = middle;
        else
            from = middle;
    }
    return to;
}

static void add(struct arena *arena, struct zone_change **changes, struct zone *zone,
                struct zone_change change, size_t *capacity)
{
    *changes = arena_grow(arena, *changes, zone->count, capacity, sizeof **changes);
    (*changes)[zone->count++] = change;
    zone->changes = *changes;
}

const struct zone *zone_load(struct arena *arena, const char *name, struct zone_years years)
{
    icaltimezone_set_builtin_tzdata(0);
    icaltimezone *known = icaltimezone_get_builtin_timezone(name);
    if (!known)
        return NULL;
    struct zone *zone = ARENA_NEW(arena, struct zone);
    struct zone_change *changes = NULL;
    size_t capacity = 0;
    int64_t at = date_days((struct date){years.first, 1, 1}) * DAY_MINUTES;
    int64_t end = date_days((struct date){years.last + 1, 1, 1}) * DAY_MINUTES;
    int32_t offset = offset_at(known, at);
    zone->name = arena_text(arena, name);
    add(arena, &changes, zone, (struct zone_change){INT64_MIN, offset}, &capacity);
    for (; at < end; at += STEP_MIN) {
        int32_t next = offset_at(known, at + STEP_MIN);
        if (next == offset)
            continue;
        offset = next;
        add(arena, &changes, zone, (struct zone_change){find_change(known, at, at + STEP_MIN), offset},
            &capacity);
    }
    return zone;
}

const char **zone_names(struct arena *arena, size_t *count)
{
    icaltimezone_set_builtin_tzdata(0);
    icalarray *zones = icaltimezone_get_builtin_timezones();
    *count = zones->num_elements;
    const char **names = ARENA_ARRAY(arena, *count, const char *);
    for (size_t i = 0; i < *count; i++)
        names[i] = icaltimezone_get_location(icalarray_element_at(zones, i));
    return names;
}
