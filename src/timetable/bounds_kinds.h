/* The items of one kind, and which of them no batch can hold together. */
#ifndef TIMETABLE_BOUNDS_KINDS_H
#define TIMETABLE_BOUNDS_KINDS_H

#include "timetable/between.h"
#include "timetable/bounds.h"

/* The items of one kind, by operation. */
struct tally {
    const struct kind *kind;
    const int *items;
    size_t count;
    int64_t seconds, flips_s; /* of all its units; of turns that may be done in its batches */
    int32_t longest_s;        /* of a unit */
    int64_t
        idle_s; /* of a unit or such a turn and the mixes for it: before a break there may be no room for them */
    int64_t apart_s; /* two items are apart between which more than that must pass */
    int32_t handle;  /* the least time for which an item lies on the rack; SITE_NEVER: nothing does */
};

struct fitting;
struct trying;

/* Steps of tests of time, and those of them after which no more ways are tried to share items among batches. */
enum { TEST_STEPS_MOST = 4000000, BRANCH_STEPS_MOST = 500000 };

/* Counting of all kinds. */

struct counting {
    struct arena *arena;
    const struct site *site;
    struct windows windows;
    struct betweens betweens;
    int32_t *key;   /* per operation: its first start, no sooner than that of what must come before */
    int32_t *most;  /* per operation: the longest row of items that are apart, up to it */
    int *before;    /* per operation: the one before it in that row; SITE_NONE */
    int64_t *sizes; /* room for the sizes of bins */
    size_t *place;  /* per operation: its place in its kind */
    int *
        group; /* per operation: which batch holds it where its kind has as few as can be; SITE_NONE: not known */
    bool *leads;                   /* per operation: it is of a row of which no two fit into one batch */
    const struct fitting *fitting; /* room for tests of time */
    struct trying *trying;         /* and for trying ways to share items among batches */
    int64_t *left;                 /* steps that they may still take */
};

/* Seconds that can pass by the moments told, which are rounded up to minutes, within a batch with so many of units. A mix is
 * followed by another where it would not last for the next unit. */
int64_t kind_filled(const struct site *site, const struct tally *tally, int64_t units_s);

/* Of these the seconds in which mixes are made. */
int64_t kind_mixing_most(const struct site *site, const struct tally *tally, int64_t units_s);

/* Whether two operations are of one row of a job: such follow one another. */
bool kind_same_row(const struct site *site, int a, int b);

/* The first place behind an item's in its kind that is apart from it in its row, or not in its row any more. */
size_t kind_row_until(const struct counting *c, const struct tally *tally, size_t at, int64_t apart_s);

/* The least time for which two items are apart where more than that must pass between them. */
int64_t kind_apart(const struct counting *c, const struct tally *tally);

/* Finds pairs of items that are apart although no more time passes between them than a batch may last: what may lie between just
 * these two does not fill it, and a batch stands still for nothing but a break before which the next unit has no room. What must
 * pass between them is then SITE_NEVER. False: there are none. */
bool kind_part_pairs(struct counting *c, const struct tally *tally, int64_t apart_s);

/* Whether it is known of two items of a kind that no batch holds both, by what must pass between them or by when they can be. */
bool kind_parts(const struct counting *c, const struct tally *tally, int item, int other);

/* Room for tests of time, which are many. */
const struct fitting *fitting_make(struct arena *arena, const struct site *site);
struct trying *trying_make(struct arena *arena, const struct site *site);

/* Whether a batch can hold both, and each operation still end by its last moment. */
bool kind_two_fit(const struct counting *c, const struct tally *tally, int item, int other);

/* Items of a kind of which no two fit into one batch if each operation ends by its last moment, as many as are found; `row` has room
 * for all of the kind. */
size_t kind_row_in_time(const struct counting *c, const struct tally *tally, int *row);

/* Which batch holds which items where the kind has so many, no more than are in the row. */
void kind_group(const struct counting *c, const struct tally *tally, const int *row, size_t count);

/* How many batches of a kind have items that are known. */
int kind_groups(const struct counting *c, const struct tally *tally);

/* Kinds that are done in few batches: as many as have items that are known, and `more`. Both per kind. */
struct few {
    const bool *is;
    const int *more;
};

/* Whether kinds can be done in so few batches, and each operation still end by its last moment. */
bool kinds_fit(const struct counting *c, const struct tally *tallies, const struct few *few);

/* Seconds of set-ups, clean-ups and mixes of all kinds together: no less than each by itself, and more where a kind that is done
 * in one batch, by the only person, parts the batches of another, or where kinds in as few batches as can be are ready too late. */
int64_t merged_cost(const struct counting *c, const struct tally *tallies, const struct fewest_kind *kinds);

#endif
