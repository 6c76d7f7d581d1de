/* The solution of a small network (net_draw.h) by trying every start; shares no code with src/solver. */
#ifndef TESTS_NET_BRUTE_H
#define TESTS_NET_BRUTE_H

#include "solver/network.h"

struct net_brute {
    bool possible;
    int32_t value;
    int flags; /* the fewest with this value */
};

struct net_brute net_brute_solve(const struct network *net);

#endif
