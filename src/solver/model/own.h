/* How long a use is surely the only one of its holder: what work-based bounds may count. */
#ifndef SOLVER_MODEL_OWN_H
#define SOLVER_MODEL_OWN_H

#include "solver/model/network.h"

/* Sets `own` of every use with a holder, from the longest ways through the minimum lags that hold in every plan; after
 * the last net_add_lag. Where lags leave the order of two uses open, only the first of them counts. Without this call
 * `own` is what the caller wrote, and 0 is always true. */
void net_find_own(struct network *net);

#endif
