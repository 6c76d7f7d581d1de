/* Learned clauses: at least one literal of each holds.
 *
 * Two literals are watched. A watch is kept at the bound whose rise makes its literal false, at the value at which that
 * happens: it is looked at only when the bound crosses it. Per bound the values are sorted, each with its list.
 *
 * Literature: Moskewicz and others, Chaff, DAC 2001; literal block distance (LBD): Audemard, Simon, IJCAI 2009. */
#ifndef SOLVER_ENGINE_CLAUSE_H
#define SOLVER_ENGINE_CLAUSE_H

#include "solver/engine/trail.h"

enum { STORAGE_SIZES = 48 };

/* No two literals of a clause are on the same bound. */
struct clause {
    int32_t at, size; /* in the pool; at[0] and at[1] are watched */
    int32_t lbd;      /* LBD: number of decision levels when learned */
    int64_t activity;
};

struct watch {
    int32_t clause;
    struct literal other; /* where this holds, there is nothing to do */
};

struct watches {
    struct watch *items;
    size_t count, capacity;
};

/* The watches that fire when a bound reaches `value`. */
struct threshold {
    int32_t value, list;
};

struct thresholds {
    struct threshold *items;
    size_t count, capacity;
};

struct clauses {
    struct arena *arena;
    struct clause *items;
    size_t count, capacity;
    struct literal *pool;
    size_t pool_size, pool_capacity;
    struct thresholds *thresholds; /* per bound, rising */
    size_t bound_count;
    void *free_lists[STORAGE_SIZES]; /* storage of watch lists given back, by size: each holds the next one */
    struct watches *lists;
    size_t list_count, list_capacity;
    int32_t *spare; /* lists that no threshold has */
    size_t spare_count, spare_capacity;
    int64_t *sorted; /* scratch */
    size_t sorted_capacity;
    int64_t bump; /* added to the activity; grows, so that earlier bumps decay */
};

void clauses_init(struct clauses *clauses, struct arena *arena, size_t bounds);

/* Keeps a clause of at least two literals, of which the first is about to be set and the second fell last. */
int32_t clauses_add(struct clauses *clauses, const struct literal *literals, size_t size, int32_t lbd);

/* What follows from the rise of entry->bound. False on a conflict (in the trail). */
bool clauses_wake(struct clauses *clauses, struct trail *trail, const struct trail_entry *entry);

/* A clause helped to explain a conflict. */
void clauses_bump(struct clauses *clauses, int32_t index);

/* On level 0: drops clauses that hold for good and the less useful half of the long ones. */
void clauses_reduce(struct clauses *clauses, const struct trail *trail);

#endif
