/* What no plan of batches goes below, whatever its order, its people and its lateness. */
#ifndef TIMETABLE_BOUNDS_H
#define TIMETABLE_BOUNDS_H

#include "timetable/batching.h"

/* Work: all units, and for each kind as many batches as it must have: of the items of one row, where what dries between
 * them outlasts a batch; as its longest day holds; as the rack holds. Ready: every wait at its shortest, and all hands busy
 * from the start. */
struct least bounds_of(const struct site *site);

/* The earliest moment at which one job can be ready. */
int32_t bounds_ready(const struct site *site, int job);

#endif
