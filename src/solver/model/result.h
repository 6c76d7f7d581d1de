/* What solving a network gives, and what it may cost. */
#ifndef SOLVER_MODEL_RESULT_H
#define SOLVER_MODEL_RESULT_H

#include "solver/model/network.h"

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

#endif
