/* Bound literals created when they are needed. An atom is "variable >= value", or not, of which learned clauses
 * speak: it carries the clauses that watch its two literals, and its activity, by which the search branches.
 *
 * Per variable the atoms are sorted by value, so that a rise of a bound wakes exactly those that it crosses. An
 * atom's activity is bumped whenever it takes part in a conflict and decays against later ones. Atoms that are
 * decided leave the heap and come back on a backjump above the level at which they left. Integers only; ties by age.
 *
 * Literature: Feydy, Stuckey, Lazy clause generation reengineered, CP 2009; Moskewicz and others, Chaff, DAC 2001. */
#ifndef SOLVER_ENGINE_ATOMS_H
#define SOLVER_ENGINE_ATOMS_H

#include "solver/engine/trail.h"

struct watch {
    int32_t clause;
    struct literal blocker; /* where this holds, there is nothing to do */
};

struct watches {
    struct watch *items;
    int32_t count, capacity;
};

struct atom {
    int32_t variable, value;
    int32_t place; /* in the heap, -1: taken out */
    int64_t activity;
    struct watches watches[2]; /* of the clauses with "not", with the atom itself */
};

/* An atom that left the heap on a level. */
struct removed {
    int32_t atom, level;
};

struct atom_at {
    int32_t value, atom;
};

struct atom_list {
    struct atom_at *items;
    size_t count, capacity;
};

struct atoms {
    struct arena *arena;
    struct atom *items;
    size_t count, capacity;
    struct atom_list *lists; /* per variable, by rising value */
    size_t variables;
    int32_t *heap;
    size_t heap_count, heap_capacity;
    struct removed *removed;
    size_t removed_count, removed_capacity;
    int64_t bump;
    int32_t *renumbered; /* after atoms_reduce: per atom before its number now, -1: dropped */
    size_t renumbered_capacity;
};

void atoms_init(struct atoms *atoms, struct arena *arena, size_t variables);

/* The atom of a literal, created where there is none. */
int32_t atoms_of(struct atoms *atoms, struct literal literal);
/* The place in a variable's list of its first atom above `value`. */
size_t atoms_above(const struct atom_list *list, int32_t value);

/* The literal took part in a conflict. */
void atoms_bump(struct atoms *atoms, struct literal literal);
/* Once a conflict. */
void atoms_decay(struct atoms *atoms);

/* The most active atom that the trail leaves open, as literal "at least"; false: none. */
bool atoms_next(struct atoms *atoms, const struct trail *trail, struct literal *literal);
/* After a backjump to this level. */
void atoms_backjump(struct atoms *atoms, size_t level);
/* On level 0, without watches: drops atoms that are decided or whose activity has decayed. */
void atoms_reduce(struct atoms *atoms, const struct trail *trail);

#endif
