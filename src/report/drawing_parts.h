/* Drawings while they are made. Inside drawing_*.c.
 *
 * A timetable: its width is fixed, so that on Letter landscape within margins of 8 mm, 263 mm of paper, the smallest letters are
 * still 9 points high: 990 units on 746 points are 11.9 units for 9 points. What does not fit into the width stands in bands below
 * one another. */
#ifndef REPORT_DRAWING_PARTS_H
#define REPORT_DRAWING_PARTS_H

#include "format/svg.h"
#include "report/lanes.h"
#include "surface/sketch.h"
#include "surface/takeoff.h"

enum {
    PICTURE_WIDTH = 990,
    PICTURE_MARGIN = 16,
    PICTURE_SMALL = 12, /* the least size of letters */
};

struct axis_point {
    int64_t minute;
    double x;
};

struct time_axis {
    struct axis_point *points;
    size_t count;
};

/* Working hours of days on which something is done take the room; nights, closed days and days of mere waiting are drawn
 * narrower. Rising throughout; the first midnight is at `x`, the last at x + width. */
struct time_axis time_axis_make(struct arena *arena, const struct shown_days *days, double x, double width);
/* Before the first and after the last day: their edges. */
double time_axis_x(const struct time_axis *axis, int64_t minute);
/* How much room a day takes, in days of work. */
double time_axis_share(const struct shown_day *day);

#define COLOUR_INK "#22302f"
#define COLOUR_QUIET "#5f6b68"
#define COLOUR_RULE "#c9c5ba"
#define COLOUR_CLOSED "#ebe8e0"
#define COLOUR_COAT "#174a5b"
#define COLOUR_BATCH "#3d7f96"
#define COLOUR_FILM "#f8e7bd"
#define COLOUR_FILM_INK "#b97f1f"
#define COLOUR_LAST "#eef0dc"
#define COLOUR_LAST_INK "#6d7a3a"
#define COLOUR_WINDOW "#6b3f86"
#define COLOUR_READY "#2c6a3f"
#define COLOUR_DUE "#b5391c"

/* A row: a lane, or lanes that follow one another and are worked on alike, each step in the same stretch of work. */
struct picture_row {
    const struct lane *lane; /* the first */
    size_t lanes;
    const char *name; /* of the piece or the pieces */
    bool first;       /* of its piece */
};

/* A step of a row: of several lanes from the first to the last of them. */
struct picture_bar {
    size_t row, step;
    int64_t from_min, to_min;
    bool critical;
};

/* Its film, likewise. */
struct picture_film {
    size_t row, wait;
    int64_t from_min, until_min, window_min; /* INT64_MAX: none */
};

struct picture_rows {
    struct picture_row *items;
    size_t count;
    struct picture_bar *bars; /* by row, then time */
    size_t bar_count;
    struct picture_film *films;
    size_t film_count;
    size_t *of_step; /* per step of the timetable: its row */
};

struct picture_rows picture_rows_make(struct arena *arena, const struct timetable *timetable,
                                      const struct shown_days *days);

/* One band: days that lie side by side, and the rows in which something happens on them. */
struct picture {
    struct buf *out;
    struct arena *arena;
    const struct timetable *timetable;
    const struct picture_rows *rows;
    struct shown_days days; /* of the band */
    struct time_axis axis;
    size_t *place;                  /* per row: from above; SIZE_MAX: not in this band */
    size_t first, most;             /* rows of the band that are left out, and that are drawn after them */
    size_t shown;                   /* rows */
    bool more;                      /* there are rows behind them */
    double name_width, left, right; /* of the pieces' names; of the days */
    double top, row_height, bottom;
};

/* Closed hours and the lines between days, below everything; the names of the days; the poles of the flags. */
void picture_closed(const struct picture *picture);
void picture_days(const struct picture *picture);
void picture_poles(const struct picture *picture);
/* The ready moment and the delivery as flags below the rows; returns where they end. */
double picture_flags(const struct picture *picture);

/* Drying, batches, windows and hands-on work, in this order. */
void picture_work(const struct picture *picture);

/* What the signs say, from y downwards; returns where it ends. */
double picture_key(const struct picture *picture, double y);

static inline double picture_x(const struct picture *picture, int64_t minute)
{
    return time_axis_x(&picture->axis, minute);
}

double picture_row_y(const struct picture *picture, size_t row);
const char *picture_moment(const struct picture *picture, int64_t minute);

/* The signs themselves, also shown by the key. */
void picture_bar(const struct picture *picture, struct svg_box box, enum doing doing, const char *tip);
void picture_batch(const struct picture *picture, struct svg_box box, const char *tip);
void picture_window(const struct picture *picture, struct svg_box box, bool ends, const char *tip);
/* The patterns that they are filled with. */
void picture_patterns(struct buf *out);

/* Areas: the parts that are alike stand on one card. */
enum { CARDS_MOST = 400 }; /* of the rest only the number of parts is said */

/* What a region of all parts of a card gets. */
struct card_region {
    bool there;
    int schedule;
    double area_m2;
};

struct card {
    const struct part *part; /* the first of those that are alike */
    const char *piece;       /* "top", "base door 1 to 7", "top and 3 more" */
    size_t parts;            /* rows of the part list */
    int qty;
    struct card_region regions[REGION_COUNT];
    struct sketch sketch;
    double unit_per_m; /* of the drawing, 96 units to the inch */
    double ratio;      /* 1 to so many */
};

struct cards {
    struct card *items;
    size_t count;
    size_t left_out; /* parts */
};

/* In the order of the part list. Parts are alike that share name or the beginning of it, shape, sizes, wood, and what every
 * region of each one gets. Cards of one piece have one scale, the largest at which each fits into `width` and `height`; what
 * that leaves too small to see has one of its own. */
struct cards cards_make(struct arena *arena, const struct job *job, const struct surfaces *surfaces,
                        double width, double height);

#endif
