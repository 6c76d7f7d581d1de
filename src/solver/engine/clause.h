/* Learned clauses: at least one literal of each holds. Two literals are watched (atoms.h).
 *
 * Clauses whose literals were decided on two levels when they were learned (LBD) are kept for good; of the others the
 * less active half is dropped again and again.
 *
 * Literature: Moskewicz and others, Chaff, DAC 2001; literal block distance (LBD): Audemard, Simon, IJCAI 2009; where
 * to look for the next watch: Gent, Optimal implementation of watched literals, JAIR 48 (2013). */
#ifndef SOLVER_ENGINE_CLAUSE_H
#define SOLVER_ENGINE_CLAUSE_H

#include "solver/engine/atoms.h"

enum { STORAGE_SIZES = 48 };

struct clause {
    int32_t at; /* its first literal in the pool */
    int32_t lbd;
    int64_t activity;
};

/* A clause is named by the place of its first literal in the pool. Before it are {where to look for the next watch,
 * 0} and {size, index of its struct clause}; no two of its literals are on the same bound, and the first two are
 * watched. */
struct clauses {
    struct arena *arena;
    struct atoms *atoms;
    struct clause *items;
    size_t count, capacity;
    struct literal *pool;
    int32_t *pool_atoms; /* per literal of the pool its atom */
    size_t pool_size, pool_capacity;
    void *free_lists[STORAGE_SIZES]; /* storage of watch lists given back, by size: each holds the next one */
    int64_t *sorted;                 /* scratch */
    size_t sorted_capacity;
    int64_t bump; /* added to the activity; grows, so that earlier bumps decay */
};

void clauses_init(struct clauses *clauses, struct atoms *atoms, struct arena *arena);

/* Keeps a clause of at least two literals, of which the first is about to be set and the second fell last. */
int32_t clauses_add(struct clauses *clauses, const struct literal *literals, size_t size, int32_t lbd);

static inline const struct literal *clauses_literals(const struct clauses *clauses, int32_t clause,
                                                     int32_t *size)
{
    *size = clauses->pool[clause - 1].bound;
    return &clauses->pool[clause];
}

/* What follows from the rise of entry->bound. False on a conflict (in the trail). */
bool clauses_wake(struct clauses *clauses, struct trail *trail, const struct trail_entry *entry);

/* A clause helped to explain a conflict. */
void clauses_bump(struct clauses *clauses, int32_t clause);

/* On level 0: drops clauses that hold for good and those of little use, and atoms likewise. */
void clauses_reduce(struct clauses *clauses, const struct trail *trail);

#endif
