/* How many flags are at 1: a variable that is at least the number of those that surely are. Where no more are
 * allowed, the open ones are at 0. */
#ifndef NETWORK_TALLY_H
#define NETWORK_TALLY_H

#include "network/model.h"

/* Draws all conclusions at once. False on a clash (in the trail). `why` has room for flag_count + 1 literals. */
bool tally_run(const struct model *model, struct trail *trail, struct literal *why);

#endif
