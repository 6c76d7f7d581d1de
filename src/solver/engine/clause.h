/* Learned clauses: at least one literal of each holds.
 *
 * Two literals are watched. A watch hangs on the bound whose rise makes its literal false, at the value at which that
 * happens: it is looked at only when the bound crosses it. Per bound the values stand in order, each with its list. Literature: Moskewicz and others, Chaff, DAC 2001;
 * quality by decision levels: Audemard, Simon, IJCAI 2009. */
#ifndef SOLVER_ENGINE_CLAUSE_H
#define SOLVER_ENGINE_CLAUSE_H

#include "solver/engine/shelf.h"
#include "solver/engine/trail.h"

/* No two literals of a clause are on the same bound. */
struct clause {
    int32_t at, size; /* in the pool; at[0] and at[1] are watched */
    int32_t levels;   /* decision levels it joined when learned: few are good */
    int64_t activity;
};

struct watch {
    int32_t clause;
    struct literal other; /* where this holds, there is nothing to do */
};

struct watches {
    struct watch *items;
    size_t count, room;
};

/* The watches that fire when a bound reaches `value`. */
struct threshold {
    int32_t value, list;
};

struct thresholds {
    struct threshold *items;
    size_t count, room;
};

struct clauses {
    struct arena *arena;
    struct clause *items;
    size_t count, room;
    struct literal *pool;
    size_t pool_size, pool_room;
    struct thresholds *thresholds; /* per bound, rising */
    size_t bound_count;
    struct shelf shelf; /* storage of the lists */
    struct watches *lists;
    size_t list_count, list_room;
    int32_t *spare; /* lists that no threshold has */
    size_t spare_count, spare_room;
    int64_t *sorted; /* scratch */
    size_t sorted_room;
    int64_t bump; /* what a use adds to activity; grows, so that old uses fade */
};

void clauses_init(struct clauses *clauses, struct arena *arena, size_t bounds);

/* Keeps a clause of at least two literals, of which the first is about to be set and the second fell last. */
int32_t clauses_add(struct clauses *clauses, const struct literal *literals, size_t size, int32_t levels);

/* What follows from the rise of entry->bound. False on a clash (in the trail). */
bool clauses_wake(struct clauses *clauses, struct trail *trail, const struct trail_entry *entry);

/* A clause helped to explain a clash. */
void clauses_used(struct clauses *clauses, int32_t index);

/* On level 0: drops clauses that hold for good and the less useful half of the long ones. */
void clauses_reduce(struct clauses *clauses, const struct trail *trail);

#endif
