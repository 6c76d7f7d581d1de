/* A bound by Lagrangian relaxation of the capacities: every slot of every resource has a multiplier, and every
 * operation is a subproblem of its own, which takes the start that is cheapest within its window, its calendar and
 * the lag from its predecessors. Where all of them together cost more than the whole capacity of all slots, no plan
 * exists. Multipliers rise where the cheapest starts overload a slot and fall where they leave capacity unused. So
 * nights, weekends and breaks, in which nothing can start but much may be held, are weighed as they are, unlike in a
 * count of open hours.
 *
 * Of the minimum lags one to a successor is kept for each operation, so that the cheapest starts of a tree of
 * operations follow by dynamic programming from its first operations to its last. Maximum lags, disjunctive pairs,
 * flags, and operations that may be absent are left out: fewer conditions only make the bound weaker.
 *
 * Literature: Christofides, Alvarez-Valdes, Tamarit, Project scheduling with resource constraints, EJOR 29 (1987);
 * Moehring, Schulz, Stork, Uetz, Solving project scheduling problems by minimum cut computations, Management Science
 * 49 (2003); multiplicative updates: Plotkin, Shmoys, Tardos, Math. of Operations Research 20 (1995). */
#ifndef SOLVER_BOUNDS_LAGRANGIAN_H
#define SOLVER_BOUNDS_LAGRANGIAN_H

#include "solver/propagators/cumulative.h"

enum { LAGRANGIAN_WHOLE = 1000 };

struct lagrangian {
    const struct network *net;
    struct multipliers *resources; /* per resource of the network */
    size_t resource_count;
    struct subproblem *subproblems; /* predecessors first: a forest */
    size_t count;                   /* 0: there are too many starts to be listed */
    int32_t span;                   /* no demand lasts longer; at most horizon + 1 */
    int64_t steps;                  /* of the multipliers, since lagrangian_restart */
    int32_t best; /* highest cost since then, in parts of LAGRANGIAN_WHOLE of the cost of all capacity */
    int64_t work;
};

/* Starts are listed for the windows of the trail, which may only shrink afterwards. */
void lagrangian_init(struct lagrangian *lagrangian, const struct profiles *profiles,
                     const struct trail *trail, struct arena *arena);

/* Whether the multipliers as they are prove that no plan lies in the windows of the trail. */
bool lagrangian_refutes(struct lagrangian *lagrangian, const struct trail *trail);

/* For other windows: the multipliers stay, and move in large steps again. */
void lagrangian_restart(struct lagrangian *lagrangian);

/* Moves the multipliers once, by the starts that lagrangian_refutes, called before, has found cheapest. */
void lagrangian_step(struct lagrangian *lagrangian);

#endif
