/* Whether it will be ready, in the first two lines that a maker reads. */
#ifndef REPORT_TABLE_VERDICT_H
#define REPORT_TABLE_VERDICT_H

#include "report/table.h"
#include "timetable/timetable.h"

/* Ready when, in hand or late how much; where there is no plan the reason. */
void table_verdict(struct screen *screen, const struct timetable *timetable);

#endif
