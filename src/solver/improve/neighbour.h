/* A better plan near the best one: some operations are set free, those around one moment or some pieces whole, and
 * all others keep their order of work among themselves, but not their starts. What is left is small enough for a
 * short exact search. Besides a smaller value it may ask for one late goal to end sooner: the largest value is often
 * held by many goals at once, and they have to be brought forward one by one.
 *
 * The number set free follows what was learned: more where the search ended early, fewer where it did not.
 *
 * Literature: Shaw, CP 1998; Godard, Laborie, Nuijten, Randomized large neighborhood search for cumulative
 * scheduling, ICAPS 2005. */
#ifndef SOLVER_IMPROVE_NEIGHBOUR_H
#define SOLVER_IMPROVE_NEIGHBOUR_H

#include "solver/model/plan.h"

struct neighbour {
    struct plan *plan;
    const int *piece;     /* per operation the least one that lags bind it to */
    unsigned char *loose; /* set free in this try */
    size_t size;          /* how many to set free, in parts of NEIGHBOUR_PARTS */
    int64_t tries, idle;  /* all; since the last smaller value */
};

enum { NEIGHBOUR_PARTS = 64 };

void neighbour_init(struct neighbour *neighbour, struct plan *plan, struct arena *arena);

/* One try with a plan at hand and at most `work`; adds what it used to *used. True: the plan is better now. */
bool neighbour_try(struct neighbour *neighbour, int64_t work, int64_t *used);

#endif
