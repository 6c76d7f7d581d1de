/* What the others of a plan leave one operation while they stay: the starts that lags and goals allow. */
#ifndef SOLVER_IMPROVE_ROOM_H
#define SOLVER_IMPROVE_ROOM_H

#include "solver/model/usage.h"

/* All are placed; no goal of the operation may give more than `most`. Calendar, resources and pairs are the usage's. */
void room_among(const struct usage *usage, int operation, int32_t most, int32_t *low, int32_t *high);

#endif
