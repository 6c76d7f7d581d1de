/* Branching: atoms (x >= k or not) that learned clauses contain, the most active first.
 *
 * An atom's activity is bumped whenever it takes part in a conflict and decays against later ones. Atoms that are
 * decided leave the heap and come back on a backjump above the level at which they left. Integers only; ties by age.
 * Literature: Moskewicz and others, Chaff, DAC 2001; on bounds: Schutt and others, Constraints 16 (2011). */
#ifndef SOLVER_ENGINE_BRANCH_H
#define SOLVER_ENGINE_BRANCH_H

#include "solver/engine/trail.h"

struct atom {
    int32_t variable, value; /* variable >= value, or not */
    int64_t activity;
    int32_t place; /* in the heap, -1: taken out */
    int32_t next;  /* atom in the same hash slot, -1 */
};

struct removed {
    int32_t atom, level;
};

struct branch {
    struct arena *arena;
    struct atom *atoms;
    size_t count, capacity;
    int32_t *slots; /* hash */
    size_t slot_count;
    int32_t *heap;
    size_t heap_count, heap_capacity;
    struct removed *removed;
    size_t removed_count, removed_capacity;
    int64_t bump;
};

void branch_init(struct branch *branch, struct arena *arena);

/* The literal took part in a conflict. */
void branch_bump(struct branch *branch, struct literal literal);
/* Once a conflict. */
void branch_decay(struct branch *branch);

/* The most active atom that the trail leaves open, as literal "at least"; false: none. */
bool branch_next(struct branch *branch, const struct trail *trail, struct literal *atom);
/* After a backjump to this level. */
void branch_backjump(struct branch *branch, size_t level);
/* On level 0: drops atoms whose activity has decayed. */
void branch_reduce(struct branch *branch, const struct trail *trail);

#endif
