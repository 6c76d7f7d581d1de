/* The card of a mix without a job. */
#ifndef REPORT_TABLE_LONE_H
#define REPORT_TABLE_LONE_H

#include "report/table.h"
#include "plan/lone.h"

void table_lone(struct screen *screen, const struct lone_mix *lone);

#endif
