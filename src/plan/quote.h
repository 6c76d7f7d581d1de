/* From the work and the purchases of a plan to the lines of a quote. */
#ifndef PLAN_QUOTE_H
#define PLAN_QUOTE_H

#include "amount/cost.h"
#include "plan/plan.h"

/* Minutes of every hands-on step and litres of every coat as planned; without a timetable those of all operations but
 * late scuffs. Thinner and sundries have no price here. */
struct costs *plan_costs(struct arena *arena, const struct plan *plan);

#endif
