/* Large neighbourhoods of the best plan: some operations are relaxed, those around one moment or whole components of
 * the lags, and all others keep their resource flow and the order of their pairs among themselves, but not their
 * starts. What is left is small enough for a short exact search. Besides a smaller value it may ask for one late goal
 * to end sooner: the largest value is often held by many goals at once, and they have to be brought forward one by one.
 *
 * The number relaxed follows the outcomes: more where the search ended early, fewer where it did not.
 *
 * Literature: Shaw, CP 1998; Godard, Laborie, Nuijten, Randomized large neighborhood search for cumulative
 * scheduling, ICAPS 2005. */
#ifndef SOLVER_IMPROVE_NEIGHBOURHOOD_H
#define SOLVER_IMPROVE_NEIGHBOURHOOD_H

#include "solver/improve/incumbent.h"

struct neighbourhood {
    struct incumbent *incumbent;
    const int *component;   /* per operation the least one that lags connect it to */
    unsigned char *relaxed; /* in this try */
    size_t size;            /* how many to relax, in parts of NEIGHBOURHOOD_PARTS */
    int64_t idle;           /* tries since the last better plan */
};

enum { NEIGHBOURHOOD_PARTS = 64 };

void neighbourhood_init(struct neighbourhood *neighbourhood, struct incumbent *incumbent,
                        struct arena *arena);

/* One try with a plan at hand and at most `work`; adds what it used to *used. True: the plan is better now. */
bool neighbourhood_try(struct neighbourhood *neighbourhood, int64_t work, int64_t *used);

#endif
