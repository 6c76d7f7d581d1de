/* The rule numbers that a network's constraints carry. */
#ifndef SOLVER_MODEL_RULES_H
#define SOLVER_MODEL_RULES_H

#include "solver/model/network.h"

/* Each once, rising, without NET_NONE. */
int *net_rules(const struct network *net, struct arena *arena, size_t *count);

#endif
