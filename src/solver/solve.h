/* Solving a network: a first plan by insertion (insert.h), then in turn exact search, better plans near the best one
 * and higher bounds (rounds.h), and the reason where there is no plan. Deterministic: effort is counted work, the same
 * input gives the same plan on every machine. The plan is shifted left (shift.h). */
#ifndef SOLVER_SOLVE_H
#define SOLVER_SOLVE_H

#include "solver/model/result.h"
#include "solver/improve/shift.h"

/* Scratch memory of the solver is bounded (an inner arena: where it ends, control leaves through the guard of the
 * network's arena, as when that one ends) and released before return; the result lives in the network's arena. */
void net_solve(const struct network *net, struct net_options options, struct net_result *result);

#endif
