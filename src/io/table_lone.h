/* The card of a mix without a job. */
#ifndef IO_TABLE_LONE_H
#define IO_TABLE_LONE_H

#include "io/table.h"
#include "plan/lone.h"

void table_lone(struct screen *screen, const struct lone_mix *lone);

#endif
