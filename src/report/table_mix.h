/* Mixing cards for people. */
#ifndef REPORT_TABLE_MIX_H
#define REPORT_TABLE_MIX_H

#include "report/table.h"
#include "plan/plan.h"

void table_mix(struct screen *screen, const struct plan *plan);

/* One line a mix: when, what, how much of each, use by. */
void table_mix_short(struct screen *screen, const struct plan *plan);

#endif
