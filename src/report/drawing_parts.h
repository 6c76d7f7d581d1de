/* A timetable while it is drawn. Inside drawing_*.c. */
#ifndef REPORT_DRAWING_PARTS_H
#define REPORT_DRAWING_PARTS_H

#include "format/svg.h"
#include "report/lanes.h"

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

#define COLOUR_INK "#22302f"
#define COLOUR_QUIET "#5f6b68"
#define COLOUR_RULE "#c9c5ba"
#define COLOUR_CLOSED "#ebe8e0"
#define COLOUR_COAT "#174a5b"
#define COLOUR_FILM "#f8e7bd"
#define COLOUR_FILM_INK "#b97f1f"
#define COLOUR_LAST "#eef0dc"
#define COLOUR_LAST_INK "#6d7a3a"
#define COLOUR_WINDOW "#6b3f86"
#define COLOUR_DUE "#b5391c"

struct picture {
    struct buf *out;
    struct arena *arena;
    const struct timetable *timetable;
    struct lanes lanes;
    struct shown_days days;
    struct time_axis axis;
    double name_width, left, right; /* of the pieces' names; of the days */
    double top, lane_height, bottom;
    double width;
    bool *critical; /* per step: on the critical path */
};

/* Closed hours and the lines between days, below everything; the names of the days. */
void picture_closed(const struct picture *picture);
void picture_days(const struct picture *picture);
/* The ready moment and the delivery, over everything. */
void picture_due(const struct picture *picture);

/* Drying, windows and hands-on work, in this order. */
void picture_lanes(const struct picture *picture);

/* What the signs say, from y downwards; returns where it ends. */
double picture_key(const struct picture *picture, double y);

static inline double picture_x(const struct picture *picture, int64_t minute)
{
    return time_axis_x(&picture->axis, minute);
}

double picture_lane_y(const struct picture *picture, size_t lane);
const char *picture_moment(const struct picture *picture, int64_t minute);

/* The signs themselves, also shown by the key. */
void picture_work(const struct picture *picture, struct svg_box box, char mark, const char *tip);
void picture_window(const struct picture *picture, struct svg_box box, bool ends, const char *tip);

#endif
