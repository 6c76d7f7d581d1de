/* The chance to be on time, in sentences. */
#ifndef REPORT_TABLE_CHANCE_H
#define REPORT_TABLE_CHANCE_H

#include "report/table.h"
#include "plan/chance.h"

void table_chance(struct screen *screen, const struct timetable *timetable, const struct chance *chance);

#endif
