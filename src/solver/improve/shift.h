/* Moving a finished plan to the left, so that it has no needless waits.
 *
 * First all operations together under the plan's own resource flow, then one by one while the others stay (which may
 * change the order), until nothing moves. The value never gets worse. */
#ifndef SOLVER_IMPROVE_SHIFT_H
#define SOLVER_IMPROVE_SHIFT_H

#include "solver/network.h"

/* Every operation to its earliest start while the others stay, until none can move. */
void net_left_shift(const struct network *net, struct net_result *result);

#endif
