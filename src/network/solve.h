/* Solving a network: a first plan by insertion, exact search, bounds, and the reason where there is no plan.
 * Deterministic: effort is counted work, the same input gives the same plan on every machine. */
#ifndef NETWORK_SOLVE_H
#define NETWORK_SOLVE_H

#include "network/network.h"

enum net_status {
    NET_PLANNED,
    NET_IMPOSSIBLE, /* proven */
    NET_UNKNOWN,    /* effort ended before a plan or a proof */
};

struct net_options {
    int64_t effort; /* counted work, 0: the default; 1: the first plan only */
};

struct net_result {
    enum net_status status;
    int32_t *start; /* per operation, in the network's arena; NULL without a plan */
    unsigned char *flag;
    int32_t value;    /* largest map(start) - due over the goals */
    int32_t bound;    /* no plan of this network has a smaller value */
    bool proven;      /* value == bound */
    int64_t effort;   /* work done */
    int64_t nodes;    /* decisions of the search, 0 where bounds sufficed */
    const int *rules; /* where impossible: rules that cannot all hold */
    size_t rule_count;
    bool rules_minimal; /* dropping any one of them was shown to lift the contradiction */
};

/* Scratch memory of the solver is bounded (an inner arena: where it ends, control leaves through the guard of the
 * network's arena, as when that one ends) and released before return; the result lives in the network's arena. */
void net_solve(const struct network *net, struct net_options options, struct net_result *result);

/* Moves every operation to its earliest start while the others stay, until none can move. net_solve does so by
 * itself. */
void net_left_shift(const struct network *net, struct net_result *result);

#endif
