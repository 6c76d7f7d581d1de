#include "timetable/hours.h"

#include "base/arena.h"
#include "base/number.h"

#include <string.h>

int64_t hours_moment(const struct hours *hours, int32_t slot)
{
    return hours->origin_min + (int64_t)slot * SLOT_MIN;
}

int32_t hours_slot_down(const struct hours *hours, int64_t minute)
{
    return (int32_t)number_floor_div(minute - hours->origin_min, SLOT_MIN);
}

int32_t hours_slot_up(const struct hours *hours, int64_t minute)
{
    return (int32_t)-number_floor_div(hours->origin_min - minute, SLOT_MIN);
}

static bool closed_on(const struct shop *shop, int64_t day)
{
    for (size_t i = 0; i < shop->closed_count; i++)
        if (shop->closed[i].first_day <= day && day <= shop->closed[i].last_day)
            return true;
    return false;
}

/* Joins what touches: 08:00-12:00 and 12:00-17:00 are one stretch for work. */
static void add_stretch(struct hours *hours, int32_t from, int32_t to)
{
    if (from < 0)
        from = 0;
    if (to > hours->slots)
        to = hours->slots;
    if (from >= to)
        return;
    struct open_stretch *last = hours->count ? &hours->stretches[hours->count - 1] : NULL;
    if (last && from <= last->to)
        last->to = to > last->to ? to : last->to;
    else
        hours->stretches[hours->count++] = (struct open_stretch){from, to};
}

/* One stretch of one day, cut by the busy times that meet it (in any order, so: the earliest next). */
static void add_open(struct hours *hours, const struct shop *shop, int64_t from, int64_t to)
{
    while (from < to) {
        int64_t busy_from = to, busy_to = to;
        for (size_t i = 0; i < shop->busy_count; i++)
            if (shop->busy[i].to_min > from && shop->busy[i].from_min < busy_from) {
                busy_from = shop->busy[i].from_min;
                busy_to = shop->busy[i].to_min;
            }
        if (busy_from > from)
            add_stretch(hours, hours_slot_up(hours, from), hours_slot_down(hours, busy_from));
        from = busy_to;
    }
}

static size_t stretches_a_week(const struct shop *shop)
{
    size_t count = 0;
    for (int i = 0; i < 7; i++)
        count += shop->hours[i].count;
    return count;
}

static void measure_longest(struct hours *hours)
{
    for (size_t i = 0; i < hours->count; i++) {
        int32_t length = hours->stretches[i].to - hours->stretches[i].from;
        if (length > hours->longest)
            hours->longest = length;
    }
}

struct hours *hours_make(struct arena *arena, const struct shop *shop, const struct zone *zone,
                         int64_t origin_min, int32_t slots)
{
    struct hours *hours = ARENA_NEW(arena, struct hours);
    hours->zone = zone;
    hours->origin_min = origin_min;
    hours->slots = slots;
    int64_t first = zone_day(zone, origin_min, NULL) - 1;
    int64_t last = zone_day(zone, hours_moment(hours, slots), NULL) + 1;
    size_t most = (size_t)((last - first) / 7 + 2) * stretches_a_week(shop) + shop->busy_count + 1;
    hours->stretches = ARENA_ARRAY(arena, most, struct open_stretch);
    for (int64_t day = first; day <= last; day++) {
        const struct shop_day *open = &shop->hours[weekday_of(day)];
        if (closed_on(shop, day))
            continue;
        for (size_t i = 0; i < open->count; i++)
            add_open(hours, shop, zone_moment_on(zone, day, open->stretches[i].from_min),
                     zone_moment_on(zone, day, open->stretches[i].to_min));
    }
    measure_longest(hours);
    return hours;
}
