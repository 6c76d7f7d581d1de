/* The best plan so far of one net_solve, and the bound against it. */
#ifndef SOLVER_MODEL_PLAN_H
#define SOLVER_MODEL_PLAN_H

#include "solver/model/result.h"

struct plan {
    const struct network *net;
    struct net_result *result;
    uint64_t seed;
};

/* Pseudo-random, uniform below `below` (at least 1): the same numbers everywhere. */
uint32_t plan_draw(struct plan *plan, uint32_t below);

/* Takes over a plan that has a smaller value, or the same with fewer flags, or the same of both with goals that lie
 * less above the bound (their squares added up); whether it did. */
bool plan_keep(struct plan *plan, const int32_t *start, const unsigned char *flag);

void plan_raise_bound(struct plan *plan, int32_t bound);

static inline bool plan_found(const struct plan *plan)
{
    return plan->result->status == NET_PLANNED;
}

/* Nothing smaller is possible. */
static inline bool plan_best(const struct plan *plan)
{
    return plan_found(plan) && plan->result->value == plan->result->bound;
}

int plan_flags(const struct plan *plan);

#endif
