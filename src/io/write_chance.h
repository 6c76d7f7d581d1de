/* JSON of the chance to be on time, a member of `timetable`. */
#ifndef IO_WRITE_CHANCE_H
#define IO_WRITE_CHANCE_H

#include "io/json_write.h"
#include "plan/chance.h"

void write_chance(struct json_write *w, const char *key, const struct timetable *timetable,
                  const struct chance *chance);

#endif
