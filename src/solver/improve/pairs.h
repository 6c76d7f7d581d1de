/* The order of disjunctive pairs in a plan, as edges, but for those that follow from others: where b comes after a,
 * and c is sure not to start before b, c comes after a by itself. One operation that excludes a hundred others, which
 * follow each other on one resource, needs one edge for them, not a hundred.
 *
 * Literature: Aho, Garey, Ullman, The transitive reduction of a directed graph, SIAM J. Computing 1 (1972). */
#ifndef SOLVER_IMPROVE_PAIRS_H
#define SOLVER_IMPROVE_PAIRS_H

#include "solver/model/model.h"

/* Adds what keeps these pairs in the order that `start` (per operation) gives them to a model made without them. After
 * the edges of the resource flow, by which most of them follow. */
void pairs_add_order(struct model *model, const struct net_disjunction *pairs, size_t count,
                     const int32_t *start, struct arena *arena);

#endif
