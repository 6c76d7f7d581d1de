/* Solving a network: first plans by insertion (improve/insertion.h), then in turn exact search for a better plan or a
 * higher bound (engine/search.h, bounds/destructive.h) and neighbourhoods of the best plan (improve/neighbourhood.h),
 * each with a share of the effort until value and bound meet; then the fewest flags with the value frozen, and the
 * explanation (explain/core.h) where there is no plan. Deterministic: effort is counted work, the same input gives
 * the same plan on every machine. The plan is shifted left (improve/incumbent.h).
 *
 * A refuted "value at most the bound" raises the bound: Klein, Scholl, Computing lower bounds by destructive
 * improvement, EJOR 112 (1999). */
#ifndef SOLVER_SOLVE_H
#define SOLVER_SOLVE_H

#include "solver/network.h"

struct net_options {
    int64_t effort; /* counted work, 0: the default; 1: the first plan only */
};

/* The result lives in the network's arena. Scratch memory is charged to it, has a ceiling of its own, and is released
 * before return. Where it ends the best plan so far is the result; where there is none, control leaves through the
 * guard of the network's arena. */
void net_solve(const struct network *net, struct net_options options, struct net_result *result);

#endif
