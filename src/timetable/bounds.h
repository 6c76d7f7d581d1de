/* What no plan of batches goes below, whatever its order and its people, in the lots of the site. */
#ifndef TIMETABLE_BOUNDS_H
#define TIMETABLE_BOUNDS_H

#include "timetable/batching.h"

/* Whatever the lateness. Ready: every wait at its shortest, and all hands busy from the start. */
struct least bounds_of(const struct site *site);

/* Seconds of work of the plans in which each job is ready by its moment (SITE_NEVER: any). */
int64_t bounds_work(const struct site *site, const int32_t *ready_by);

/* When each operation can start and end at the earliest, by itself; SITE_NONE where it is left out mostly. Room for all. */
void bounds_first(const struct site *site, int32_t *start, int32_t *end);
/* The same from what is known already: no sooner than these starts and ends, which are raised, and nobody sets up for an operation
 * before its `set_up`. `turned` is room for all. */
void bounds_first_from(const struct site *site, const int32_t *set_up, int32_t *turned, int32_t *start,
                       int32_t *end);

/* Whether the one operation's batch is over, and its tool clean, before that of the next, which waits for it, begins: they are of
 * two kinds that only one person can do. */
bool bounds_is_over_before(const struct site *site, int from, int to);

/* When each operation ends at the latest if each job is ready by its moment (SITE_NEVER: any). */
void bounds_last(const struct site *site, const int32_t *ready_by, int32_t *last);
/* The last end of a link's earlier operation, no later than `limit`, if the later one ends by `last`. */
int32_t bounds_last_for(const struct site *site, const struct link *link, int32_t last, int32_t limit);
/* When the batch that holds an operation begins at the latest if that ends by `last`; SITE_NONE: it cannot. */
int32_t bounds_begin_by(const struct site *site, int item, int32_t last);
/* When somebody must begin a batch at the latest that has done so many seconds of its work by then; SITE_NONE: they cannot. */
int32_t bounds_batch_by(const struct worker *worker, const struct kind *kind, int32_t by, int64_t seconds);

/* When the job is ready for an operation that ends then; 0 where it never waits for it. */
int32_t bounds_line(const struct site *site, int item, int32_t end);
/* Nobody works, or sets up, before. */
int32_t bounds_begin(const struct site *site);
/* The first minute by which so many people can have worked so many minutes since a moment. */
int32_t bounds_hands_done(const struct site *site, int people, int32_t from, int64_t work);
/* When all people together can be through with all work, or with what cannot start sooner, and the last film behind it be ready;
 * from the first starts of the operations, and the seconds of work of which no plan takes less. */
int32_t bounds_hands_ready(const struct site *site, const int32_t *start, int64_t work_s);

/* The earliest moment at which one job can be ready. */
int32_t bounds_ready(const struct site *site, int job);

/* The least work: all units, and for each kind as many batches and mixes as no plan can do without.
 *
 * Two items are apart where more must pass between them than a batch lasts. Of items that are apart from one another each has a
 * batch of its own, and the longest row of such items is found along the order of work (Dilworth, Annals of Mathematics 51,
 * 1950, names the other half of it). What a day, the rack and a mix hold are bins: Martello and Toth, Discrete Applied
 * Mathematics 28, 1990, bound L2. */
/* Per operation: the first minute at which it can start, the last at which it may end (SITE_NEVER: any). */
struct windows {
    const int32_t *first, *last;
};

enum { FEWEST_MORE = 3 };

/* Of one kind taken by itself: how many batches it has at the least (0: no work is of it), for what time items are apart, and
 * what that many batches, one more, ... cost beside the units. */
struct fewest_kind {
    size_t count; /* items */
    int64_t batches, apart_s, cost_s[FEWEST_MORE + 1];
};

static inline void bounds_raise(int32_t *value, int32_t by)
{
    *value = by > *value ? by : *value;
}

static inline int64_t bounds_divide_up(int64_t amount, int64_t by)
{
    return (amount + by - 1) / by;
}

/* Minutes from the start of a batch to its first unit. */
static inline int32_t bounds_before_units(const struct kind *kind)
{
    return kind->set_up + (kind->mixed ? MIXING_MIN + kind->induction : 0);
}

/* Seconds of mixes that so many of units need behind the first. */
static inline int64_t bounds_mixing(const struct kind *kind, int64_t units_s)
{
    if (!kind->mixed || kind->working == INT32_MAX || units_s <= 0)
        return 0;
    return (units_s - 1) / ((int64_t)kind->working * MINUTE_S) * MIXING_MIN * MINUTE_S;
}

/* How many people an operation takes at once: what two must lift, one does where there is nobody else. */
static inline int bounds_hands(const struct site *site, size_t item)
{
    return site->rows[item].operation->people > 1 && site->crew->count > 1 ? 2 : 1;
}

/* How many bins hold the sizes at the least; sizes are sorted. Larger ones than a bin count as one. */
int64_t bins_least(int64_t *sizes, size_t count, int64_t bin);

/* Seconds. The lots are those of the site. */
int64_t fewest_work(struct arena *arena, const struct site *site, struct windows windows);

#endif
