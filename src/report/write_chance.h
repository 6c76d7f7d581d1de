/* JSON of the chance to be on time, a member of `timetable`. */
#ifndef REPORT_WRITE_CHANCE_H
#define REPORT_WRITE_CHANCE_H

#include "format/json_write.h"
#include "plan/chance.h"

void write_chance(struct json_write *w, const char *key, const struct timetable *timetable,
                  const struct chance *chance);

#endif
