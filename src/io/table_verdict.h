/* Whether it will be ready, in the first two lines that a maker reads. */
#ifndef IO_TABLE_VERDICT_H
#define IO_TABLE_VERDICT_H

#include "io/table.h"
#include "timetable/timetable.h"

/* Ready when, in hand or late how much; where there is no plan the reason. */
void table_verdict(struct screen *screen, const struct timetable *timetable);

#endif
