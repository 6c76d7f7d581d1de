/* The finish table for people, and one finish with its sources. */
#ifndef REPORT_TABLE_FINISHES_H
#define REPORT_TABLE_FINISHES_H

#include "finish/finish.h"
#include "report/table.h"

void table_finishes(struct screen *screen, const struct finish *const *finishes, size_t count);

/* "38 groups of figures: 5 name a published source, ...". */
void table_source_count(struct screen *screen, const struct finish *const *finishes, size_t count);

#endif
