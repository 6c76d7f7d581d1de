/* When an event of a foreign calendar is: its zones, its moments, its rules. */
#ifndef FORMAT_ICAL_WHEN_H
#define FORMAT_ICAL_WHEN_H

#include "base/moment.h"
#include "format/ical_scan.h"
#include "format/ical_zone.h"
#include "format/names.h"

#include <libical/ical.h>

/* A calendar while it is read. */
struct ical_reading {
    const struct reading *reading;
    const struct file_text *file;
    const struct zone *shop_zone; /* of moments that name no zone */
    struct zone_years years;
    icalcomponent *calendar; /* the VCALENDAR at hand */
    struct names zone_names; /* zones used so far: what each is */
    struct ical_clock *clocks;
    size_t clock_capacity;
    size_t rules, steps; /* counted against the ceilings below */
};

enum {
    ICAL_RULES_MOST = 500,    /* in one file */
    ICAL_STEPS_MOST = 400000, /* occurrences looked at, in one file */
};

/* A zone by libical for its rules, and by our own table for moments; either may be NULL: the shop's. */
struct ical_clock {
    icaltimezone *ical;
    const struct zone *zone;
};

/* The clock that a property's TZID names: the calendar's own VTIMEZONE where its rules are yearly, else the system's;
 * else the shop's, with a warning. */
struct ical_clock ical_clock_of(struct ical_reading *in, icalproperty *property);

/* A time of the wall or of UTC as a moment; a date alone is that day's midnight in the shop. False: it does not exist. */
bool ical_moment(const struct ical_reading *in, struct icaltimetype time, struct ical_clock clock,
                 int64_t *minute);

/* Told occurrences of an event: each start within from..to; *stop ends it. */
struct ical_span {
    int64_t from_min, to_min;
};

/* Moments that begin an occurrence, in any order, some of them twice. False: a mistake was added. */
bool ical_starts(struct ical_reading *in, icalcomponent *event, const struct ical_event *at,
                 struct ical_span span, int64_t **starts, size_t *count);

/* Adds a mistake at a line of the calendar; false. */
bool ical_refuse(const struct ical_reading *in, size_t at, const char *expected);

#endif
