/* The timetable for people: whether it will be ready, every step, when each piece can be touched, wrapped and used. */
#ifndef IO_TABLE_TIMETABLE_H
#define IO_TABLE_TIMETABLE_H

#include "io/table.h"
#include "plan/plan.h"

void table_timetable(struct screen *screen, const struct plan *plan);

#endif
