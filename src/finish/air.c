#include "finish/air.h"

#include "base/moment.h"

#include <math.h>
#include <stdlib.h>

static const struct air_day *dated_on(const struct air_year *year, int64_t day)
{
    size_t low = 0, high = year->dated_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (year->dated[middle].day < day)
            low = middle + 1;
        else
            high = middle;
    }
    return low < year->dated_count && year->dated[low].day == day ? &year->dated[low] : NULL;
}

static const struct air_day *day_of(const struct air_year *year, int64_t day)
{
    const struct air_day *dated = dated_on(year, day);
    return dated ? dated : &year->daily;
}

/* One spell a day and no dated day near or ahead: the air never changes again. */
static bool constant_from(const struct air_year *year, int64_t day)
{
    bool dated_ahead = year->dated_count > 0 && year->dated[year->dated_count - 1].day >= day - 1;
    return year->daily.spell_count == 1 && !dated_ahead;
}

enum { DAYS_BACK = 2, DAYS_ON = 2 };

/* The air of the round, and the beginning of its next spell, the same air or another.
 *
 * Spells are compared as moments, not by the wall: an hour that the wall shows twice brings none back. Where a clock
 * change puts two in the wrong order, the later one of the list holds. */
static struct air round_at(const struct air_year *year, const struct zone *zone, int64_t minute,
                           int64_t *until)
{
    int64_t today = zone_day(zone, minute, NULL), next = INT64_MAX;
    struct air found = day_of(year, today)->spells[0].air;
    for (int64_t day = today - DAYS_BACK; day <= today + DAYS_ON; day++) {
        const struct air_day *air = day_of(year, day);
        for (size_t i = 0; i < air->spell_count; i++) {
            int64_t begins = zone_moment_on(zone, day, air->spells[i].from_min);
            if (begins <= minute) {
                found = air->spells[i].air;
                next = INT64_MAX;
            } else if (begins < next) {
                next = begins;
            }
        }
    }
    *until = next;
    return found;
}

static int by_moment(const void *a, const void *b)
{
    const struct air_measured *left = a, *right = b;
    if (left->at_min != right->at_min)
        return left->at_min < right->at_min ? -1 : 1;
    return left->order < right->order ? -1 : left->order > right->order;
}

void air_sort_measured(struct air_measured *measured, size_t count)
{
    for (size_t i = 0; i < count; i++)
        measured[i].order = i;
    if (count > 1)
        qsort(measured, count, sizeof *measured, by_moment);
}

/* How many were measured up to a moment. */
static size_t measured_until(const struct air_year *year, int64_t minute)
{
    size_t low = 0, high = year->measured_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        if (year->measured[middle].at_min <= minute)
            low = middle + 1;
        else
            high = middle;
    }
    return low;
}

struct air air_at(const struct air_year *year, const struct zone *zone, int64_t minute, int64_t *until)
{
    int64_t next, held;
    struct air found = round_at(year, zone, minute, &next);
    size_t measured = measured_until(year, minute);
    if (measured < year->measured_count) {
        int64_t again = year->measured[measured].at_min;
        next = again < next ? again : next;
    } else if (constant_from(year, zone_day(zone, minute, NULL))) {
        next = INT64_MAX;
    }
    if (measured > 0) {
        const struct air_measured *last = &year->measured[measured - 1];
        (void)round_at(year, zone, last->at_min, &held);
        if (minute < held) {
            found = last->air;
            next = held < next ? held : next;
        }
    }
    if (until)
        *until = next;
    return found;
}

double air_saturation_hpa(double temperature_c)
{
    return 6.112 * exp(17.62 * temperature_c / (243.12 + temperature_c));
}

double air_deficit_hpa(struct air air)
{
    return air_saturation_hpa(air.temperature_c) * (1 - air.humidity);
}

double air_dew_point_c(struct air air)
{
    if (air.humidity <= 0)
        return -INFINITY;
    double x = log(air.humidity) + 17.62 * air.temperature_c / (243.12 + air.temperature_c);
    return 243.12 * x / (17.62 - x);
}
