/* The timetable as iCalendar (RFC 5545): hands-on steps and drying as events, the shopping as a to-do. */
#ifndef REPORT_ICAL_WRITE_H
#define REPORT_ICAL_WRITE_H

#include "plan/plan.h"

struct buf;
struct err_list;

struct ical_options {
    int64_t now_min;      /* DTSTAMP, and LAST-MODIFIED of what changed */
    const char *previous; /* the file that is replaced, NULL: none; what cannot be read counts as none */
    size_t previous_length;
};

/* Appends the calendar of a plan, or of several of one zone, whose events then name their jobs, to `out`. False, with an
 * entry in `errors`, when the zone is not known to the system, or when two jobs have one name, by which events are told
 * apart. The text has CRLF line ends and folded lines. Events that stand in `previous` unchanged keep their SEQUENCE and
 * LAST-MODIFIED, changed ones get the next number. */
bool ical_write(struct arena *arena, const struct plan *const *plans, size_t count,
                struct ical_options options, struct buf *out, struct err_list *errors);

#endif
