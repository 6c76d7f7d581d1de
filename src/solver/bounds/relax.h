/* A bound by prices: every slot of every resource has a price, and every operation looks by itself for the cheapest
 * start that its window, its calendar and the lag from its predecessors allow. Where all of them together cannot help
 * paying more than all that is open costs, no plan exists. Prices rise where the cheapest starts crowd and fall where
 * they leave room; so nights, weekends and breaks price themselves, which a count of open hours cannot do.
 *
 * Of the minimum lags one to a successor is kept for each operation, so that the cheapest starts of a tree of
 * operations follow by dynamic programming from its first operations to its last. Maximum lags, pairs that may not
 * meet, flags, and operations that may be absent are left out: fewer conditions only make the bound weaker.
 *
 * Literature: Christofides, Alvarez-Valdes, Tamarit, Project scheduling with resource constraints, EJOR 29 (1987);
 * Moehring, Schulz, Stork, Uetz, Solving project scheduling problems by minimum cut computations, Management Science
 * 49 (2003); prices that change by factors: Plotkin, Shmoys, Tardos, Math. of Operations Research 20 (1995). */
#ifndef SOLVER_BOUNDS_RELAX_H
#define SOLVER_BOUNDS_RELAX_H

#include "solver/bounds/seekers.h"

enum { RELAX_WHOLE = 1000 };

/* One resource over time; arrays are per slot. */
struct market {
    int64_t *price; /* of the whole capacity */
    int64_t *sum;   /* of the prices before */
    int64_t *load;  /* what the cheapest starts hold, as differences */
    int64_t *crowd; /* the same smoothed over the steps, as it stands */
};

struct relax {
    struct market *markets; /* per resource */
    size_t market_count;
    struct seekers seekers;
    int64_t steps; /* of the prices, since relax_again */
    int32_t best;  /* most that was paid since then, in parts of RELAX_WHOLE of what all costs */
    int64_t work;
};

/* Starts are listed for the windows of the trail, which may only shrink afterwards. */
void relax_init(struct relax *relax, const struct profiles *profiles, const struct trail *trail,
                struct arena *arena);

/* Whether the prices as they stand prove that no plan lies in the windows of the trail. */
bool relax_refutes(struct relax *relax, const struct trail *trail);

/* Other windows: the prices stay, and move fast again. */
void relax_again(struct relax *relax);

/* Moves the prices once, by what relax_refutes, called before, has found. */
void relax_step(struct relax *relax);

#endif
