/* The timetable as iCalendar (RFC 5545): hands-on steps and drying as events, the shopping as a to-do. */
#ifndef IO_ICAL_WRITE_H
#define IO_ICAL_WRITE_H

#include "plan/plan.h"

struct buf;
struct err_list;

struct ical_options {
    int64_t now_min;      /* DTSTAMP, and LAST-MODIFIED of what changed */
    const char *previous; /* the file that is replaced, NULL: none; what cannot be read counts as none */
    size_t previous_length;
};

/* Appends the calendar to `out`. False, with an entry in `errors`, when the zone is not known to the system. The text
 * has CRLF line ends and folded lines. Events that stand in `previous` unchanged keep their SEQUENCE and
 * LAST-MODIFIED, changed ones get the next number. */
bool ical_write(struct arena *arena, const struct plan *plan, struct ical_options options, struct buf *out,
                struct err_list *errors);

#endif
