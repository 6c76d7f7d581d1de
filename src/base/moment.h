/* Moments as text. */
#ifndef BASE_MOMENT_H
#define BASE_MOMENT_H

#include "base/zone.h"

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
