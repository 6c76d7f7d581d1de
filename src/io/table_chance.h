/* The chance to be on time, in sentences. */
#ifndef IO_TABLE_CHANCE_H
#define IO_TABLE_CHANCE_H

#include "io/table.h"
#include "plan/chance.h"

void table_chance(struct screen *screen, const struct timetable *timetable, const struct chance *chance);

#endif
