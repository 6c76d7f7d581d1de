#include "base/zone.h"

#include "base/number.h"

#include <assert.h>

/* The offset of change i; without changes UTC. */
static int32_t offset_of(const struct zone *zone, size_t i)
{
    return zone->count ? zone->changes[i].offset_min : 0;
}

/* The change in force at a moment. */
static size_t change_at(const struct zone *zone, int64_t minute)
{
    size_t low = 0, high = zone->count;
    while (high - low > 1) {
        size_t middle = low + (high - low) / 2;
        if (zone->changes[middle].from_min <= minute)
            low = middle;
        else
            high = middle;
    }
    return low;
}

int32_t zone_offset_at(const struct zone *zone, int64_t minute)
{
    return offset_of(zone, zone->count ? change_at(zone, minute) : 0);
}

int64_t zone_day(const struct zone *zone, int64_t minute, int *minute_of_day)
{
    int64_t wall = minute + zone_offset_at(zone, minute);
    int64_t days = number_floor_div(wall, DAY_MINUTES);
    if (minute_of_day)
        *minute_of_day = (int)(wall - days * DAY_MINUTES);
    return days;
}

struct wall zone_wall(const struct zone *zone, int64_t minute)
{
    int minute_of_day;
    int64_t days = zone_day(zone, minute, &minute_of_day);
    struct date date = date_of(days);
    return (struct wall){date.year,          date.month,         date.day,
                         minute_of_day / 60, minute_of_day % 60, weekday_of(days)};
}

/* The first change under which the wall shows `wall` or later before the next one begins. Where that change shows it,
 * this is the first occurrence; where it does not, the wall jumped over it, and the offset before the jump moves it
 * forward by the gap. */
int64_t zone_moment_on(const struct zone *zone, int64_t days, int minute_of_day)
{
    int64_t wall = days * DAY_MINUTES + minute_of_day;
    if (zone->count == 0)
        return wall;
    /* No offset reaches two days, so every change that matters lies after this. */
    size_t i = change_at(zone, wall - 2 * DAY_MINUTES);
    while (i + 1 < zone->count && wall - offset_of(zone, i) >= zone->changes[i + 1].from_min &&
           wall - offset_of(zone, i + 1) >= zone->changes[i + 1].from_min)
        i++;
    return wall - offset_of(zone, i);
}

int64_t zone_moment(const struct zone *zone, struct wall wall)
{
    struct date date = {wall.year, wall.month, wall.day};
    assert(date_valid(date));
    return zone_moment_on(zone, date_days(date), wall.hour * 60 + wall.minute);
}
