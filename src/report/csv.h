/* Lists as CSV (RFC 4180). */
#ifndef REPORT_CSV_H
#define REPORT_CSV_H

#include "amount/cost.h"
#include "base/buf.h"
#include "plan/plan.h"

/* The shopping list: one row a kind of pack, what must be there first on top.
 *
 * Columns: by (the day of the first coat; the job's start without a timetable), finish, name, component, pack, count,
 * price (of one), sum, currency, left_ml. Prices are empty where none is known; a kit's component is "kit".
 * Sundries come last, by the first day of work: component "sundry", pack the unit ("pcs", or "120 ml" and a count of 1). */
void csv_shopping(const struct plan *plan, struct buf *out);

/* What a job costs. Columns: line ("piece", "tasks", "total", "surplus"), piece, minutes, labour, materials, sum, currency, and
 * as planned without the log, empty where there is none: planned_minutes, planned_labour, planned_materials, planned_sum.
 * The total is of the lines; the surplus of opened packs stands behind it and is in no line. */
void csv_cost(struct buf *out, const struct quote *quote);

#endif
