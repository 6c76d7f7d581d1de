#include "format/ical_zone.h"

#include "base/arena.h"
#include "format/ical_lock.h"

#include <libical/ical.h>
#include <string.h>
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

/* A name becomes the name of a file. */
static bool is_zone_name(const char *name)
{
    static const char marks[] = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_+-/";
    return name[0] && name[0] != '/' && name[strspn(name, marks)] == '\0';
}

/* A zone whose file cannot be read has no component, and libical would take it for UTC. */
static icaltimezone *builtin_zone(const char *name)
{
    icaltimezone_set_builtin_tzdata(0);
    icaltimezone *zone = is_zone_name(name) ? icaltimezone_get_builtin_timezone(name) : NULL;
    bool known = zone && (zone == icaltimezone_get_utc_timezone() || icaltimezone_get_component(zone));
    return known ? zone : NULL;
}

static const struct zone *load_locked(struct arena *arena, const char *name, struct zone_years years)
{
    icaltimezone *known = builtin_zone(name);
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

const struct zone *zone_load(struct arena *arena, const char *name, struct zone_years years)
{
    ical_lock(arena);
    const struct zone *zone = load_locked(arena, name, years);
    ical_unlock(arena);
    return zone;
}

const char **zone_names(struct arena *arena, size_t *count)
{
    ical_lock(arena);
    icaltimezone_set_builtin_tzdata(0);
    icalarray *zones = icaltimezone_get_builtin_timezones();
    *count = zones->num_elements;
    const char **names = ARENA_ARRAY(arena, *count, const char *);
    for (size_t i = 0; i < *count; i++)
        names[i] = arena_text(arena, icaltimezone_get_location(icalarray_element_at(zones, i)));
    ical_unlock(arena);
    return names;
}
