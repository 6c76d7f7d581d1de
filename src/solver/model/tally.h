/* How many flags are at 1: a variable that is at least the number of those that surely are. Where no more are
 * allowed, the open ones are at 0. */
#ifndef SOLVER_MODEL_TALLY_H
#define SOLVER_MODEL_TALLY_H

#include "solver/model/model.h"

/* Draws all conclusions at once. False on a clash (in the trail). `why` has room for flag_count + 1 literals. */
bool tally_run(const struct model *model, struct trail *trail, struct literal *why);

#endif
