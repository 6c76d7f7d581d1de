/* The days that a drawn timetable shows: from the first to the day on which everything is ready, and on to the delivery
 * where it is near. Days without hands-on work may be drawn narrow: nobody has to be there. */
#ifndef REPORT_SHOWN_DAYS_H
#define REPORT_SHOWN_DAYS_H

#include "timetable/hours.h"
#include "timetable/timetable.h"

struct shown_day {
    int64_t day;                 /* since 1970-01-01 */
    int64_t from_min, to_min;    /* its midnights */
    int64_t open_min, close_min; /* first opening, last closing; equal: closed all day */
    bool worked;                 /* a step begins on it */
};

struct shown_days {
    struct shown_day *items;
    size_t count;              /* at least 1 */
    const struct hours *hours; /* of all of them */
};

struct shown_days shown_days_make(struct arena *arena, const struct timetable *timetable);

/* The day that holds a moment; NULL: it is not shown. */
const struct shown_day *shown_days_at(const struct shown_days *days, int64_t minute);

#endif
