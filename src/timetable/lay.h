/* One batch laid on a person's time: set-up, mixes, unit after unit, clean-up. It pauses only while the person is off, and
 * no longer than its tool or its mix may lie; where that does not do it cannot begin at that minute.
 *
 * Within the batch every second counts: a unit begins where the one before it ended. Moments that are told, and all that
 * waits for them, are those rounded up to whole minutes. */
#ifndef TIMETABLE_LAY_H
#define TIMETABLE_LAY_H

#include "timetable/site.h"

/* Work items in their order, one kind, one person (helper: the second where two must be there). */
struct batch {
    int kind, person, helper; /* from 0; helper SITE_NONE: none */
    const int *items;
    size_t count;
    bool thrifty; /* waits for a start from which it takes fewer mixes */
};

struct laid_mix {
    int32_t at; /* mixing begins; then comes the induction, of a later mix while the one before is used */
    int32_t seconds; /* of units that it serves */
};

struct laying {
    int32_t start, work_from, work_until, end; /* end on five minutes of the clock */
    int32_t hands_on,
        hands_on_s; /* minutes, rounded up, and seconds; pauses and the rounding of the end not counted */
    int mixes;
    struct laid_mix *mix; /* room for `mix_room` of them; NULL: they are only counted */
    int mix_room;
    /* Why not: the item at which it broke (count: cleaning up). */
    size_t broke_at;
    int32_t again_from; /* no start before this one helps */
    int64_t effort;     /* steps taken */
};

/* Minutes before the first item and after the last: where work of one kind is set up differently, the most that any item asks. */
int32_t lay_set_up(const struct site *site, const struct batch *batch);
int32_t lay_clean_up(const struct site *site, const struct batch *batch);

/* Writes start and end of each item, by operation; false: it cannot begin then. */
bool lay_batch(const struct site *site, const struct batch *batch, int32_t start, int32_t *starts,
               int32_t *ends, struct laying *laid);

/* The first start at or after a minute at which its person is on duty for the set-up; SITE_NEVER. */
int32_t lay_on_duty(const struct site *site, const struct batch *batch, int32_t start);

/* Whether a batch may go on into a stretch from the one before it, as far as the time off between them tells; not of the first. */
bool lay_may_go_on(const struct kind *kind, const struct duty *duty);

/* Minutes that the batch takes at the least, one mix for each working time. */
int32_t lay_least(const struct site *site, const struct batch *batch);

/* Whether the batch could fit any day of the person's: false only where no start ever serves. */
bool lay_may_fit(const struct site *site, const struct batch *batch);

#endif
