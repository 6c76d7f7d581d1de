/* The timetable as a calendar: an event a batch, moments without length for the ends of recoat windows, for what is
 * safe to wrap, ready and delivered, the shopping as a to-do and as an event of its day. */
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

/* Appends the calendar of a plan, or of several of one zone, to `out`, put into the
 * previous one as ical_write does. False, with an entry in `errors`, when that cannot be read, or when two jobs have one
 * name, by which events are told apart. */
bool calendar_write(struct arena *arena, const struct plan *const *plans, size_t count,
                    struct calendar_options options, struct buf *out, struct err_list *errors);

#endif
