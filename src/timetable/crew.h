/* When each person works, in minutes since an origin. */
#ifndef TIMETABLE_CREW_H
#define TIMETABLE_CREW_H

#include "base/moment.h"
#include "job/shop.h"

struct arena;

/* One unbroken stretch of work, from a slot of five minutes to another. */
struct duty {
    int32_t from, to;
    int32_t day; /* days on the wall since the origin's */
};

struct worker {
    const char *name; /* NULL: one who is only counted */
    unsigned does;    /* 1 << enum work */
    const struct duty *duties;
    size_t duty_count;
    const size_t *at_day; /* per day of 24 hours since the origin: crew_duty_at of its first minute */
    size_t days;          /* 0: not counted out */
    int alike;            /* the first worker with the same skills and hours: it itself, or one before it */
    int32_t gaps_most;    /* minutes off within a working day, at the most */
    int breaks_most;      /* how often a day */
    int32_t gap_least;    /* the shortest time off within a day */
    int32_t night_least;  /* the shortest time off between two days */
};

struct crew {
    struct worker *workers;
    int count;
    int64_t origin_min;
    int32_t horizon;      /* minutes */
    int32_t longest_duty; /* of anybody */
};

struct crew *crew_make(struct arena *arena, const struct shop *shop, const struct zone *zone,
                       int64_t origin_min, int32_t horizon);

/* The first stretch that ends after a moment; duty_count: none. */
size_t crew_duty_at(const struct worker *worker, int32_t minute);

/* Whether all work at the same hours. */
bool crew_is_there_together(const struct crew *crew);

bool worker_can(const struct worker *worker, unsigned needs);

#endif
