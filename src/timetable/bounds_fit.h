/* Batches whose items are known while it is found out by when they can be. */
#ifndef TIMETABLE_BOUNDS_FIT_H
#define TIMETABLE_BOUNDS_FIT_H

#include "timetable/bounds_kinds.h"

struct keyed {
    int32_t key;
    int item;
};

/* What takes so many seconds of people, from one second on and by another. */
struct chore {
    int64_t from, by, seconds;
};

/* Two items that share a batch. */
struct two {
    const struct tally *tally;
    int items[2];
};

/* When a batch begins, and is over, at the soonest; when it begins, and its last unit is done, at the latest; when it is over at the
 * soonest, to the minute: `end` is on five minutes of the clock. */
struct stay {
    int32_t begin, end, begin_by, done_by, over;
};

struct fitting {
    const struct counting *c;
    const struct site *site;
    int32_t *start, *end; /* per operation, as told, so far */
    int32_t *set_up;      /* per operation: nobody sets up for it before */
    int32_t *last;        /* per operation: it ends no later, so far */
    int32_t *begin_by,
        *over; /* per operation: when the batch that holds it begins at the latest, is over at the soonest */
    struct stay *stay; /* per operation, of few batches: when the batch that holds it can be, so far */
    bool *lowered;     /* per operation: what comes before it may have to end sooner */
    bool *near;        /* per operation: it comes after something of the batch looked at, or before */
    bool *seen;        /* per kind: room for what is being told */
    bool dusts;        /* all work in one room, and all people at the same hours */
    const int *
        group; /* per operation, of the kind looked at: see struct counting; NULL: of two items that share a batch */
    int *item;           /* of the batch looked at, by the start */
    int *by_last;        /* by the last end */
    struct keyed *keyed; /* room for sorting */
    int32_t *turned;     /* room for bounds_first_from */
    size_t count;
    const struct tally *tally;
    int64_t units_s, turns_s; /* of the batch; of turns that must be done in it */
    int64_t fill_s;           /* units of all that may be in it */
    int64_t mixing_s;         /* in the batch, at the most */
    struct chore *chores;     /* room for what share_fits asks of the people */
    struct chore **urgent;
    bool moved;
};

/* From the windows. */
struct fitting fitting_begin(const struct counting *c);
/* Takes the items of each batch together, where some kinds are done in few batches or two items share one (NULL: none). What is known
 * already is made use of. False: some batch cannot be in time. */
bool fitting_holds(struct fitting *f, const struct tally *tallies, const struct few *few,
                   const struct two *two);

/* Of the batch looked at, by whoever may do it, if it begins no sooner; its items in the order of their starts and of their last
 * ends. False: it cannot be in time. */
bool stay_within(const struct fitting *f, int32_t begin, struct stay *stay);

/* When an item is done at the latest that starts by a minute, with its mixes and the breaks that its batch may pause in; SITE_NEVER:
 * any time. When it starts at the soonest if it ends no sooner than a minute. */
int32_t stay_item_done(const struct site *site, int item, int32_t start_by);
int32_t stay_item_begun(const struct site *site, int item, int32_t end);

/* What windows of coats, and the time within which is polished, ask of the two operations. False: one of them cannot be kept. */
bool limits_hold(struct fitting *f);

/* Whether those who can do it can share all work out so that each operation ends by its last moment, where some kinds are done in few
 * batches, or two items share a batch (NULL: none do). */
bool share_fits(const struct fitting *f, const struct tally *tallies, const struct few *few,
                const struct two *two);

/* An operation ends no later. */
void fitting_lower(struct fitting *f, int item, int32_t to);

/* What dust asks of the batch looked at, and of all that comes before or after something of it. */
void dust_keep_off(struct fitting *f, struct stay stay);

/* The first second of a moment told rounded up: it may be up to a minute before. */
static inline int64_t fitting_second(int32_t told)
{
    return ((int64_t)told - 1) * MINUTE_S + 1;
}

static inline int64_t fitting_units(const struct fitting *f, int item)
{
    return f->site->rows[item].operation->units.seconds;
}

#endif
