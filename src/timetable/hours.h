/* When the shop works, as slots of five minutes since an origin: what the wall clock says, told in real minutes, so
 * that a clock change lengthens or shortens the stretch that it falls into. */
#ifndef TIMETABLE_HOURS_H
#define TIMETABLE_HOURS_H

#include "base/moment.h"
#include "job/shop.h"

struct arena;

enum { SLOT_MIN = 5 };

/* Whole slots that hold so many minutes. */
static inline int32_t span_slots_up(int32_t minutes)
{
    return (minutes + SLOT_MIN - 1) / SLOT_MIN;
}

/* Slots from..to in which hands may work. */
struct open_stretch {
    int32_t from, to;
};

struct hours {
    const struct zone *zone;
    int64_t origin_min;             /* slot 0, on five minutes of the clock */
    int32_t slots;                  /* the horizon */
    struct open_stretch *stretches; /* rising, apart */
    size_t count;
    int32_t longest; /* slots of the longest stretch; 0: the shop never opens */
};

/* Weekly hours less closed days and busy times. Opening rounds up to a slot, closing down. */
struct hours *hours_make(struct arena *arena, const struct shop *shop, const struct zone *zone,
                         int64_t origin_min, int32_t slots);

int64_t hours_moment(const struct hours *hours, int32_t slot);
/* The slot that begins at or after a moment; the one at or before it. */
int32_t hours_slot_up(const struct hours *hours, int64_t minute);
int32_t hours_slot_down(const struct hours *hours, int64_t minute);

#endif
