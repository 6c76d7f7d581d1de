/* What a job costs, as lines for a quote: for people, as JSON and as CSV (RFC 4180). */
#ifndef REPORT_COST_REPORT_H
#define REPORT_COST_REPORT_H

#include "amount/cost.h"
#include "format/json_write.h"
#include "report/table.h"

void table_cost(struct screen *screen, const struct job *job, const struct purchases *purchases,
                const struct costs *costs);

/* Keys: job, currency, rate_per_hour, lines [piece (null: tasks), minutes, labour, materials, sum], total, bought,
 * surplus. Money that is not known is null. */
void write_cost(struct json_write *w, const struct job *job, const struct purchases *purchases,
                const struct costs *costs);

/* Columns: line ("piece", "tasks", "total", "surplus"), piece, minutes, labour, materials, sum, currency. The total is of
 * the lines; the surplus of opened packs stands behind it and is in no line. */
void csv_cost(struct buf *out, const struct job *job, const struct costs *costs);

#endif
