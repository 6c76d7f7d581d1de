/* When each piece can be touched, wrapped and used, and when it has cured. */
#ifndef REPORT_TABLE_STATES_H
#define REPORT_TABLE_STATES_H

#include "report/table.h"
#include "timetable/timetable.h"

void table_states(struct screen *screen, const struct timetable *timetable);
/* The same for a page: of many pieces only when the last is so far. */
void table_states_short(struct screen *screen, const struct timetable *timetable);

#endif
