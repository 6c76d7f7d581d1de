#include "base/moment.h"

#include "base/number.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>

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

/* Seconds and their fraction are read and dropped. */
static bool seconds_skip(const char **at)
{
    int seconds;
    if (**at != ':')
        return true;
    const char *p = *at + 1;
    if (!digits_scan(&p, 2, 2, &seconds) || seconds > 59)
        return false;
    if (*p == '.') {
        p++;
        if (*p < '0' || *p > '9')
            return false;
        while (*p >= '0' && *p <= '9')
            p++;
    }
    *at = p;
    return true;
}

/* `Z` or `+01:00`. */
static bool offset_scan(const char **at, int *offset_min)
{
    const char *p = *at;
    int hours, minutes, sign = *p == '-' ? -1 : 1;
    if (*p == 'Z' || *p == 'z') {
        *at = p + 1;
        *offset_min = 0;
        return true;
    }
    if (*p != '+' && *p != '-')
        return false;
    p++;
    if (!digits_scan(&p, 2, 2, &hours) || *p++ != ':' || !digits_scan(&p, 2, 2, &minutes))
        return false;
    if (hours > 23 || minutes > 59)
        return false;
    *at = p;
    *offset_min = sign * (hours * 60 + minutes);
    return true;
}

/* What follows the date: a time of day and perhaps an offset, to the end of the text. */
static bool rest_parse(const char *at, const struct zone *zone, struct moment_text *found)
{
    int minute, offset;
    if (!time_scan(&at, &minute) || minute == DAY_MINUTES || !seconds_skip(&at))
        return false;
    int64_t days = date_days(found->date);
    at = blanks_skip(at);
    if (*at == '\0') {
        found->minute = zone_moment_on(zone, days, minute);
        return true;
    }
    if (!offset_scan(&at, &offset) || *blanks_skip(at) != '\0')
        return false;
    found->minute = days * DAY_MINUTES + minute - offset;
    return true;
}

bool moment_parse(const char *text, const struct zone *zone, struct moment_text *moment, struct err *fault)
{
    static const char form[] =
        "a moment such as \"2027-03-01 08:00\", \"2027-03-01T08:00:00+00:00\" or a date";
    const char *at = blanks_skip(text);
    struct moment_text found = {false, 0, {0, 0, 0}};
    if (*at < '0' || *at > '9')
        return err_say(fault, form);
    if (!date_scan(&at, &found.date, fault))
        return false;
    if (*blanks_skip(at) == '\0') {
        found.date_only = true;
        *moment = found;
        return true;
    }
    if (*at != ' ' && *at != 'T' && *at != 't')
        return err_say(fault, form);
    if (!rest_parse(blanks_skip(at + 1), zone, &found))
        return err_say(fault, form);
    *moment = found;
    return true;
}

static void put_rfc3339(struct text_short *out, const struct wall *wall, int32_t offset)
{
    int away = abs((int)offset);
    snprintf(out->text, sizeof out->text, "%04d-%02d-%02dT%02d:%02d:00%c%02d:%02d", wall->year, wall->month,
             wall->day, wall->hour, wall->minute, offset < 0 ? '-' : '+', away / 60, away % 60);
}

struct text_short moment_format(const struct zone *zone, int64_t minute, enum moment_style style)
{
    struct text_short out = {""};
    struct wall w = zone_wall(zone, minute);
    const char *weekday = weekday_name(w.weekday), *month = month_name(w.month);
    const size_t size = sizeof out.text;
    switch (style) {
    case MOMENT_RFC3339:
        put_rfc3339(&out, &w, zone_offset_at(zone, minute));
        break;
    case MOMENT_PLAIN:
        snprintf(out.text, size, "%04d-%02d-%02d %02d:%02d", w.year, w.month, w.day, w.hour, w.minute);
        break;
    case MOMENT_DATE:
        snprintf(out.text, size, "%04d-%02d-%02d", w.year, w.month, w.day);
        break;
    case MOMENT_DAY:
        snprintf(out.text, size, "%s %d %s", weekday, w.day, month);
        break;
    case MOMENT_DAY_TIME:
        snprintf(out.text, size, "%s %d %s %02d:%02d", weekday, w.day, month, w.hour, w.minute);
        break;
    case MOMENT_LONG:
        snprintf(out.text, size, "%s %d %s %d %02d:%02d", weekday, w.day, month, w.year, w.hour, w.minute);
        break;
    case MOMENT_TIME:
        snprintf(out.text, size, "%02d:%02d", w.hour, w.minute);
        break;
    }
    return out;
}
