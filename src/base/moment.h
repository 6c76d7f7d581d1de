/* Moments and what the clock on the wall shows. A moment is int64_t whole real minutes since 1970-01-01T00:00Z. The
 * table of a zone is filled by format; here it is only data. */
#ifndef BASE_MOMENT_H
#define BASE_MOMENT_H

#include "base/day.h"

#include <stddef.h>
#include <stdint.h>

struct zone_change {
    int64_t from_min;   /* the moment at which it begins to hold; INT64_MIN for the first */
    int32_t offset_min; /* wall = moment + offset; east of Greenwich is positive */
};

/* Changes in rising order. Without any (count 0): UTC. Borrowed. */
struct zone {
    const char *name;
    size_t count;
    const struct zone_change *changes;
};

struct wall {
    int year, month, day, hour, minute;
    enum weekday weekday;
};

int32_t zone_offset_at(const struct zone *zone, int64_t minute);

struct wall zone_wall(const struct zone *zone, int64_t minute);
/* The same as days since 1970-01-01 and minutes of that day (may be NULL). */
int64_t zone_day(const struct zone *zone, int64_t minute, int *minute_of_day);

/* The moment at which the wall shows this (the weekday is ignored; minute_of_day may be 1440 or more). A time that a
 * change skips moves forward by the gap, one that comes twice is its first occurrence: both as RFC 5545 3.3.5 has it. */
int64_t zone_moment(const struct zone *zone, struct wall wall);
int64_t zone_moment_on(const struct zone *zone, int64_t days, int minute_of_day);

/* What was written: a moment, or a day alone, which the caller completes with its opening or closing. */
struct moment_text {
    bool date_only;
    int64_t minute;   /* unless date_only */
    struct date date; /* if date_only */
};

/* `2027-03-01 08:00` on the zone's wall, RFC 3339 with offset (`2027-03-01T08:00:00+01:00`, `...Z`), or a date.
 * Seconds are dropped: moments are whole minutes. */
bool moment_parse(const char *text, const struct zone *zone, struct moment_text *moment, struct err *fault);

enum moment_style {
    MOMENT_RFC3339,  /* 2027-03-05T08:00:00+00:00 */
    MOMENT_PLAIN,    /* 2027-03-05 08:00 */
    MOMENT_DATE,     /* 2027-03-05 */
    MOMENT_DAY,      /* Fri 5 Mar */
    MOMENT_DAY_TIME, /* Fri 5 Mar 08:00 */
    MOMENT_LONG,     /* Fri 5 Mar 2027 08:00 */
    MOMENT_TIME,     /* 08:00 */
};

struct text_short moment_format(const struct zone *zone, int64_t minute, enum moment_style style);

#endif
