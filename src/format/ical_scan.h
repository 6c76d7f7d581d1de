/* A first look at a calendar's lines, before libical sees them: it takes garbage and cut files without a word, drops what
 * it cannot read, and knows no lines. */
#ifndef FORMAT_ICAL_SCAN_H
#define FORMAT_ICAL_SCAN_H

#include "format/place.h"

/* The properties that decide when an event is. */
enum ical_when {
    WHEN_DTSTART,
    WHEN_DTEND,
    WHEN_DURATION,
    WHEN_RRULE,
    WHEN_RDATE,
    WHEN_EXDATE,
    WHEN_RECURRENCE_ID,
    WHEN_COUNT
};

/* "DTSTART" ... */
const char *ical_when_name(enum ical_when when);

/* One VEVENT of the text: where its lines stand. */
struct ical_event {
    size_t at;                /* of BEGIN:VEVENT */
    size_t lines[WHEN_COUNT]; /* how many of each */
    size_t first[WHEN_COUNT]; /* the first of them */
};

struct ical_scan {
    struct ical_event *events; /* in the order of the text */
    size_t count;
};

/* False: the text is no calendar, or its BEGIN and END do not match; told at the line. */
bool ical_scan(const struct reading *reading, const struct file_text *file, struct ical_scan *scan);

/* The line at an offset, quoted, for messages. */
const char *ical_line(const struct reading *reading, const struct file_text *file, size_t at);

#endif
