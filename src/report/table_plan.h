/* The page of a plan, in the order in which a maker asks: will it be ready, what do I do, what do I buy, what was
 * assumed, when can it be touched, the mixes, the square metres, the cautions. */
#ifndef REPORT_TABLE_PLAN_H
#define REPORT_TABLE_PLAN_H

#include "report/table.h"
#include "plan/plan.h"

struct err_list;

/* `now_min` decides which days are shown; the warnings of the reading are told among what was assumed. */
void table_plan(struct screen *screen, const struct plan *plan, int64_t now_min,
                const struct err_list *warnings);

#endif
