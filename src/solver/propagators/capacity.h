/* What capacities forbid, from the profiles of what is surely held (profile.h).
 *
 * Where the sure parts together are too much there is a clash; where one more would be too much it cannot run.
 * Explanations name one moment: each sure holder starts no later than it and ends after it.
 *
 * Literature: Schutt, Feydy, Stuckey, Wallace, Explaining the cumulative propagator, Constraints 16 (2011). */
#ifndef SOLVER_PROPAGATORS_CAPACITY_H
#define SOLVER_PROPAGATORS_CAPACITY_H

#include "solver/propagators/profile.h"

/* Draws conclusions from one profile that was touched; *idle where none was. False on a clash (in the trail). */
bool capacity_run(struct profiles *profiles, struct trail *trail, bool *idle);

#endif
