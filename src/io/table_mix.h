/* Mixing cards for people. */
#ifndef IO_TABLE_MIX_H
#define IO_TABLE_MIX_H

#include "io/table.h"
#include "plan/plan.h"

void table_mix(struct screen *screen, const struct plan *plan);

/* One line a mix: when, what, how much of each, use by. */
void table_mix_short(struct screen *screen, const struct plan *plan);

#endif
