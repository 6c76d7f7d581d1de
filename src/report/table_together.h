/* Jobs planned together at a glance, before the timetable of each: which is due when, and how they stand. */
#ifndef REPORT_TABLE_TOGETHER_H
#define REPORT_TABLE_TOGETHER_H

#include "report/table.h"
#include "plan/plan.h"

/* One row a job, the first delivery first. Nothing where there is no timetable. */
void table_together(struct screen *screen, const struct plan *const *plans, size_t count);

#endif
