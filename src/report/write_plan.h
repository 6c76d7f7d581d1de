/* JSON of `plan`: the other reports as members, and the cautions. */
#ifndef REPORT_WRITE_PLAN_H
#define REPORT_WRITE_PLAN_H

#include "format/json_write.h"
#include "plan/plan.h"

void write_plan(struct json_write *w, const struct plan *plan);

#endif
