/* From moments to places along a drawn timetable. Working hours of days on which something is done take the room; nights,
 * closed days and days of mere waiting are drawn narrower. Rising throughout. */
#ifndef REPORT_TIME_AXIS_H
#define REPORT_TIME_AXIS_H

#include "report/shown_days.h"

struct axis_point {
    int64_t minute;
    double x;
};

struct time_axis {
    struct axis_point *points;
    size_t count;
};

/* So wide per working hour that the whole lies between `least` and `most` pixels, with each day that is worked on about
 * `day` wide in between; the first midnight is at `x`. */
struct axis_size {
    double x, least, most, day;
};
struct time_axis time_axis_make(struct arena *arena, const struct shown_days *days, struct axis_size size);

/* Before the first and after the last day: their edges. */
double time_axis_x(const struct time_axis *axis, int64_t minute);

#endif
