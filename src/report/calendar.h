/* The timetable as a calendar: hands-on steps and drying as events, the shopping as a to-do. */
#ifndef REPORT_CALENDAR_H
#define REPORT_CALENDAR_H

#include "plan/plan.h"

struct buf;
struct err_list;
struct file_text;

struct calendar_options {
    int64_t now_min;                  /* when it is written */
    const struct file_text *previous; /* the file that is replaced, NULL: none */
    const char *const *keys; /* of each job, what tells it from others of its name; NULL: nothing does */
};

/* Appends the calendar of a plan, or of several of one zone, whose events then name their jobs, to `out`, put into the
 * previous one as ical_write does. False, with an entry in `errors`, when that cannot be read, or when two jobs have one
 * name, by which events are told apart. */
bool calendar_write(struct arena *arena, const struct plan *const *plans, size_t count,
                    struct calendar_options options, struct buf *out, struct err_list *errors);

#endif
