/* What would help where a plan is late or impossible. */
#ifndef REPORT_TABLE_ADVICE_H
#define REPORT_TABLE_ADVICE_H

#include "report/table.h"
#include "plan/plan.h"

/* A heading and one line each, the first `most` of them; nothing where there is no advice. Where all are told the change
 * stands below, in one line, however long: it is there to be copied. */
void table_advice(struct screen *screen, const struct plan *plan, size_t most);

#endif
