/* The timetable for people: whether it will be ready, every step, when each piece can be touched, wrapped and used. */
#ifndef REPORT_TABLE_TIMETABLE_H
#define REPORT_TABLE_TIMETABLE_H

#include "report/table.h"
#include "plan/plan.h"

void table_timetable(struct screen *screen, const struct plan *plan);

#endif
