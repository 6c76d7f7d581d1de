/* Tints and hatchings of schedules in a drawing of areas; used by area_*.c only. */
#ifndef REPORT_AREA_TINT_H
#define REPORT_AREA_TINT_H

#include "format/svg.h"

#include <stddef.h>

enum { TINT_COUNT = 6 };

/* Any two differ in their hatching, not in colour alone; the ink of each stands out from its ground. A seventh schedule
 * looks like the first: its name tells them apart. */
const struct svg_pattern *tint_of(size_t schedule);

/* Attributes of a figure that gets a schedule; of one that stays bare, for any negative one. */
const char *tint_look(struct arena *arena, int schedule);

#endif
