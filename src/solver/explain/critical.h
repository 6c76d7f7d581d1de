/* Why a plan is not shorter: its critical path, and the float of each operation.
 *
 * Both look at a plan as net_solve gives it (shifted left). Results live in the network's arena. */
#ifndef SOLVER_EXPLAIN_CRITICAL_H
#define SOLVER_EXPLAIN_CRITICAL_H

#include "solver/network.h"

enum net_link_kind {
    NET_LINK_RELEASE,     /* not before its earliest start */
    NET_LINK_CALENDAR,    /* the starts before it are not allowed; the next link says why not before those */
    NET_LINK_LAG,         /* index: the lag; a maximum lag's `earlier` is its `to`, which starts later */
    NET_LINK_RESOURCE,    /* index: the resource that `earlier` holds */
    NET_LINK_DISJUNCTION, /* index: the pair */
};

/* Why the operation does not start sooner. */
struct net_link {
    int operation;
    int earlier; /* operation, NET_NONE for release and calendar */
    enum net_link_kind kind;
    int index; /* NET_NONE for release and calendar */
};

/* The critical path: from the operation that fixes the value back to one that waits for no other. Ends early where a
 * maximum lag leads back to an operation already on the path. Empty without a plan or goal. */
const struct net_link *net_critical_path(const struct network *net, const struct net_result *result,
                                         size_t *count);

/* Per operation how many slots later it can start, the others following in the same order, before the value moves or
 * a maximum lag is broken (those that open a maximum lag do not move along); not 0 where it can move while all others
 * stay. NULL without a plan; 0 where absent. */
const int32_t *net_float(const struct network *net, const struct net_result *result);

#endif
