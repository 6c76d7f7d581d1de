/* The square metres for people. */
#ifndef REPORT_TABLE_AREA_H
#define REPORT_TABLE_AREA_H

#include "report/table.h"
#include "surface/takeoff.h"

void table_area(struct screen *screen, const struct job *job, const struct surfaces *surfaces);

/* "oil 1.64 m2, varnish 1.28 m2, together 2.92 m2; ...": by schedule, for the page of a plan. */
void table_area_short(struct screen *screen, const struct job *job, const struct surfaces *surfaces);

#endif
