/* One finish for people: each group of figures beside its source. */
#ifndef IO_TABLE_FINISH_H
#define IO_TABLE_FINISH_H

#include "finish/finish.h"
#include "io/table.h"

void table_finish(struct screen *screen, const struct finish *finish);

#endif
