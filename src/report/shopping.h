/* The shopping as a list, and the day for it. */
#ifndef REPORT_SHOPPING_H
#define REPORT_SHOPPING_H

#include "plan/plan.h"
#include "timetable/hours.h"

/* "1 x 500 ml Wiping varnish, varnish", one a line, sundries after them; "": there is nothing to buy. In the arena. */
const char *shopping_lines(struct arena *arena, const struct plan *plan);

/* The last open day before that of the first step that uses anything of it; where the shop was never open before, the day
 * before. */
int64_t shopping_day_min(const struct plan *plan, const struct hours *hours);

#endif
