/* One row of a chart: the characters of a lane in the columns of a block. */
#ifndef REPORT_CHART_ROW_H
#define REPORT_CHART_ROW_H

#include "report/chart_columns.h"
#include "report/lanes.h"

enum { CHART_DRIES = '-', CHART_CLOSED = ':', CHART_BAR = '|' };

/* Fills line[0 .. block->to - block->from). False: nothing happens to the lane in this block. */
bool chart_row_fill(const struct chart_columns *columns, const struct chart_block *block,
                    const struct timetable *timetable, const struct lanes *lanes, size_t lane, char *line);

/* The column of a block in which a moment lies; SIZE_MAX: none. A moment of closed hours belongs to the columns of its
 * own day: before opening to the first, after closing to the last. */
size_t chart_column_at(const struct chart_columns *columns, const struct chart_block *block, int64_t minute);

#endif
