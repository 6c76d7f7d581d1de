/* The best plan as a value of every variable: the side on which decisions fall (phases: Pipatsrisawat, Darwiche, SAT
 * 2007). */
#ifndef SOLVER_ENGINE_PHASE_H
#define SOLVER_ENGINE_PHASE_H

#include "solver/model/model.h"
#include "solver/model/result.h"

/* Fills `value`, one per variable of the model, from a plan. */
void phase_fill(const struct model *model, const struct net_result *result, int32_t *value);

/* Whether the first of a pair that may not meet comes first in the plan. */
bool phase_first(const struct network *net, const struct net_apart *apart, const int32_t *start);

#endif
