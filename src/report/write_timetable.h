/* JSON of `timetable`: steps by start, then id. `side` is "back" or "face", null for all round. */
#ifndef REPORT_WRITE_TIMETABLE_H
#define REPORT_WRITE_TIMETABLE_H

#include "format/json_write.h"
#include "plan/chance.h"
#include "plan/plan.h"

/* `chance` NULL: not asked for, and then not a member. */
void write_timetable(struct json_write *w, const char *key, const struct plan *plan,
                     const struct chance *chance);

#endif
