/* Values of calendars that say when: dates, durations, offsets (RFC 5545, sections 3.3.4 to 3.3.6 and 3.3.14). */
#ifndef FORMAT_ICAL_VALUE_H
#define FORMAT_ICAL_VALUE_H

#include "base/text.h"

#include <stdbool.h>
#include <stdint.h>

/* What a clock on the wall shows, or UTC. Seconds are dropped. */
struct ical_time {
    int64_t day; /* since 1970-01-01 */
    int minute;  /* of the day; of a date alone 0 */
    bool date, utc;
    bool seconds; /* some were dropped */
};

/* `20270302`, `20270302T090000`, `20270302T090000Z`, up to the end or a comma or slash. *next is what stands behind it. */
bool ical_time_read(const char *text, struct ical_time *time, const char **next);

/* A moment, minutes since 1970, as `20270302T090000Z`. */
struct text_short ical_utc(int64_t minute);

/* `P1DT2H`: whole days of the calendar, and minutes (of seconds, the next whole one). Never negative. */
struct ical_span {
    int64_t days, minutes;
};
bool ical_span_read(const char *text, struct ical_span *span, const char **next);

/* `+0100`, `-033000`: minutes. */
bool ical_offset_read(const char *text, int *minutes);

#endif
