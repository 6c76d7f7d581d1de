/* The timetable as a picture of plain characters, at most 80 wide: rows are pieces, columns are days.
 *
 * A day on which something is done has several columns, from opening to closing; any other day one. A coat stands with
 * its number, other work with a letter, '-' is a film that dries. Long jobs are cut into blocks of whole weeks. */
#ifndef REPORT_CHART_H
#define REPORT_CHART_H

#include "report/table.h"
#include "timetable/timetable.h"

/* Prints nothing where there is no plan. */
void chart_print(struct screen *screen, const struct timetable *timetable);

#endif
