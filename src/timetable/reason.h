/* Why a plan is as it is, or why there is none: values, which a report puts into words. Operations of other jobs that share
 * the shop appear among them. */
#ifndef TIMETABLE_REASON_H
#define TIMETABLE_REASON_H

#include "timetable/operations.h"

/* What a step waited for. */
enum wait_kind {
    WAIT_NOTHING,
    WAIT_JOB,    /* the job begins at `until_min` */
    WAIT_PIECE,  /* its piece is there from `until_min` on */
    WAIT_LINK,   /* `link` from `earlier` */
    WAIT_WINDOW, /* `earlier`, which comes later, must come within its window or polish, `link` */
    WAIT_DUST,   /* dust and wet films of `earlier` share the room */
    WAIT_SPRAY,  /* `earlier` holds the spray place, */
    WAIT_RACK,   /* the rack, */
    WAIT_ITS_TURN /* or the piece itself: one person at a time works on it */,
    WAIT_PERSON /* `earlier` keeps the people busy */
};

/* Why the moment at which the wait is over does not serve. */
enum closed_kind {
    CLOSED_NOT,
    CLOSED_SHOP,  /* until the step starts */
    CLOSED_SOON,  /* at `closes_min`: the step does not fit in before */
    CLOSED_AIR,   /* the air is wrong until the step starts */
    CLOSED_EITHER /* the hours or the air */
};

struct cause {
    enum wait_kind wait;
    const struct operation *earlier;
    const struct link *link;
    int64_t until_min; /* INT64_MAX: never */
    enum closed_kind closed;
    int64_t closes_min;
};

enum reason_kind {
    /* Of a plan, in the order of time. */
    REASON_STEP, /* `first` starts at `from_min` because of `cause` */
    REASON_ROW,  /* `count` steps from `first` to `last` follow one another from `from_min` to `until_min` */
    REASON_READY, /* `line` of `first` is over at `until_min`; for the delivery `first` would have to end by `end_by_min` */
    /* Why there is none. */
    REASON_EFFORT,      /* none was found within the effort allowed */
    REASON_CONTRADICTS, /* the limits contradict each other */
    REASON_SIZE,        /* `count` steps, of which one timetable takes `most` */
    REASON_CLOSED,      /* the shop never opens */
    REASON_LONG,        /* `first` is longer than any stretch of work */
    REASON_AIR,         /* the air is never right for `first` in working hours */
    REASON_RACK_SMALL,  /* the piece of `first` alone takes more than the rack has: `rack_m2` */
    REASON_RACK,
    REASON_PEOPLE,
    REASON_SPRAY,
    REASON_TURNS, /* one person at a time works on a piece */
    REASON_DUST,  /* one room for dust and wet films */
    REASON_LINK   /* `link` from `first` to `last` */
};

struct reason {
    enum reason_kind kind;
    const struct operation *first, *last;
    const struct link *link;
    const struct finish_line *line;
    struct cause cause;
    int64_t from_min, until_min;
    int64_t end_by_min; /* INT64_MIN: not said */
    size_t count, most;
    double rack_m2;
};

#endif
