#include "format/ical_value.h"

#include "base/day.h"
#include "base/moment.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { YEAR_LEAST = 1600, YEAR_MOST = 2500, NUMBER_MOST = 60000000 };

struct text_short ical_utc(int64_t minute)
{
    static const struct zone utc = {"UTC", 0, NULL};
    struct wall wall = zone_wall(&utc, minute);
    struct text_short text;
    snprintf(text.text, sizeof text.text, "%04d%02d%02dT%02d%02d00Z", wall.year, wall.month, wall.day,
             wall.hour, wall.minute);
    return text;
}

static bool two_digits(const char **at, int *value)
{
    const char *text = *at;
    if (text[0] < '0' || text[0] > '9' || text[1] < '0' || text[1] > '9')
        return false;
    *value = (text[0] - '0') * 10 + text[1] - '0';
    *at += 2;
    return true;
}

static bool time_of_day(const char **at, struct ical_time *time)
{
    int hour, minute, second;
    if (!two_digits(at, &hour) || !two_digits(at, &minute) || !two_digits(at, &second) || hour > 23 ||
        minute > 59 || second > 60)
        return false;
    time->minute = hour * 60 + minute;
    time->seconds = second > 0;
    time->utc = **at == 'Z' || **at == 'z';
    *at += time->utc;
    return true;
}

bool ical_time_read(const char *text, struct ical_time *time, const char **next)
{
    struct date date;
    int first, second;
    *time = (struct ical_time){.date = true};
    if (!two_digits(&text, &first) || !two_digits(&text, &second) || !two_digits(&text, &date.month) ||
        !two_digits(&text, &date.day))
        return false;
    date.year = first * 100 + second;
    if (date.year < YEAR_LEAST || date.year > YEAR_MOST || !date_valid(date))
        return false;
    time->day = date_days(date);
    if (*text == 'T' || *text == 't') {
        text++;
        time->date = false;
        if (!time_of_day(&text, time))
            return false;
    }
    *next = text;
    return *text == '\0' || *text == ',' || *text == '/';
}

/* Digits and a letter: adds the number in the letter's unit. False: none of these stands there. */
static bool span_part(const char **at, bool time, struct ical_span *span, int64_t *seconds)
{
    char *end;
    if (**at < '0' || **at > '9')
        return false;
    long number = strtol(*at, &end, 10);
    if (number > NUMBER_MOST)
        return false;
    if (!time && *end == 'W')
        span->days += 7 * number;
    else if (!time && *end == 'D')
        span->days += number;
    else if (time && strchr("HMS", *end) && *end)
        *seconds += number * (*end == 'H' ? 3600 : *end == 'M' ? 60 : 1);
    else
        return false;
    *at = end + 1;
    return true;
}

bool ical_span_read(const char *text, struct ical_span *span, const char **next)
{
    int64_t seconds = 0;
    bool any = false;
    *span = (struct ical_span){0, 0};
    text += *text == '+';
    if (*text++ != 'P')
        return false;
    while (span_part(&text, false, span, &seconds))
        any = true;
    if (*text == 'T')
        for (text++; span_part(&text, true, span, &seconds);)
            any = true;
    span->minutes = (seconds + 59) / 60;
    *next = text;
    return any && (*text == '\0' || *text == ',' || *text == '/');
}

bool ical_offset_read(const char *text, int *minutes)
{
    int hours, rest, seconds = 0;
    bool minus = *text == '-';
    if (*text != '-' && *text != '+')
        return false;
    text++;
    if (!two_digits(&text, &hours) || !two_digits(&text, &rest) || (*text && !two_digits(&text, &seconds)))
        return false;
    *minutes = minus ? -(hours * 60 + rest) : hours * 60 + rest;
    return hours < 24 && rest < 60 && *text == '\0';
}
