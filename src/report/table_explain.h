/* The arithmetic of one finish for people: every coat and surface with its numbers, the film, the range, the reserve,
 * the shelf and the packs. */
#ifndef REPORT_TABLE_EXPLAIN_H
#define REPORT_TABLE_EXPLAIN_H

#include "report/table.h"
#include "plan/plan.h"

void table_explain(struct screen *screen, const struct plan *plan, const struct purchase *purchase);

#endif
