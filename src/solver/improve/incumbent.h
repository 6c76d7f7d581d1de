/* The best plan so far of one net_solve, and the bound against it. */
#ifndef SOLVER_IMPROVE_INCUMBENT_H
#define SOLVER_IMPROVE_INCUMBENT_H

#include "solver/engine/search.h"

struct incumbent {
    const struct network *net;
    struct net_result *result;
    uint64_t seed;
};

/* Pseudo-random, uniform below `below` (at least 1): the same numbers everywhere. */
uint32_t incumbent_random(struct incumbent *incumbent, uint32_t below);

/* Takes over a plan that has a smaller value, or the same with fewer flags, or the same of both with goals that lie
 * less above the bound (their squares added up); whether it did. */
bool incumbent_update(struct incumbent *incumbent, const int32_t *start, const unsigned char *flag);

/* After SEARCH_FOUND: the same with the plan of the search, shifted left. */
bool incumbent_take(struct incumbent *incumbent, const struct search *search);

void incumbent_raise_bound(struct incumbent *incumbent, int32_t bound);

static inline bool incumbent_found(const struct incumbent *incumbent)
{
    return incumbent->result->status == NET_PLANNED;
}

/* Nothing smaller is possible. */
static inline bool incumbent_optimal(const struct incumbent *incumbent)
{
    return incumbent_found(incumbent) && incumbent->result->value == incumbent->result->bound;
}

int incumbent_flags(const struct incumbent *incumbent);

/* Moves a finished plan to the left, so that it has no needless waits: first all operations together under the plan's own
 * resource flow, then one by one while the others stay (which may change the order), until nothing moves. The value never
 * gets worse. */
void net_left_shift(const struct network *net, struct net_result *result);

#endif
