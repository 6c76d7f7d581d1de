/* Busy times kept from other calendars: their events without anything but when they are, behind a stamp that says when they
 * were had and for which time. */
#ifndef FORMAT_ICAL_TIMES_H
#define FORMAT_ICAL_TIMES_H

#include "format/place.h"

struct buf;

/* Moments, in minutes since 1970. */
struct ical_stamp {
    int64_t at_min;           /* when */
    int64_t from_min, to_min; /* for which time */
};

/* Appends a calendar that holds the stamp alone: a VFREEBUSY without any time in it. */
void ical_stamp_add(const struct ical_stamp *stamp, struct buf *out);

/* The stamp at the beginning of a text; false: there is none. */
bool ical_stamp_read(struct arena *arena, const struct file_text *file, struct ical_stamp *stamp);

/* Appends the calendars of a text: zones, events, free and busy times, but no name, place, guest or alarm of an event, which
 * are nobody's business beside a job. An event that keeps nobody from work is written as a transparent one. False: the text is
 * no calendar; the mistake was added. */
bool ical_times_add(const struct reading *reading, const struct file_text *file, struct buf *out);

#endif
