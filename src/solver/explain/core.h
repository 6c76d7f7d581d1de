/* Why there is no plan, or none as good as wanted: rules of the network that cannot all hold.
 *
 * Every rule becomes an assumption of the search; those that the final conflict rests on are the core, made smaller
 * by deletion of one after the other. Literature: Een, Sorensson, MiniSat, SAT 2003 (assumptions); Junker,
 * QuickXplain, AAAI 2004 (preferred explanations). */
#ifndef SOLVER_EXPLAIN_CORE_H
#define SOLVER_EXPLAIN_CORE_H

#include "solver/network.h"

struct net_core {
    bool found; /* shown within the effort that no such plan exists */
    int *rules; /* rising, in the network's arena; constraints without a rule always hold */
    size_t count;
    bool any_horizon; /* nor with any longer horizon, as far as is known */
    bool minimal;     /* without any one of them such a plan was found */
};

/* Why no plan has a value of at most `most` (NET_NEVER: why there is none at all). Where there is a choice, low rule
 * numbers are kept. `effort` as in net_options, 0: the default. */
void net_explain(const struct network *net, int32_t most, int64_t effort, struct net_core *core);

#endif
