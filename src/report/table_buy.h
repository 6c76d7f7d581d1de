/* The shopping for people. */
#ifndef REPORT_TABLE_BUY_H
#define REPORT_TABLE_BUY_H

#include "report/table.h"
#include "plan/plan.h"

void table_buy(struct screen *screen, const struct plan *plan);

/* The lines of what to buy alone, for the page of a plan. */
void table_buy_short(struct screen *screen, const struct plan *plan);

/* Where the shopping may run short, needs one lot, or lacks a price. */
void table_buy_risks(struct screen *screen, const struct plan *plan);

/* When a finish is first laid; INT64_MAX without a timetable. */
int64_t finish_first_min(const struct timetable *timetable, const struct finish *finish);

#endif
