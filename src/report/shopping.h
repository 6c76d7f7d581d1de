/* The shopping list as CSV (RFC 4180): one row a kind of pack, what must be there first on top. */
#ifndef REPORT_SHOPPING_H
#define REPORT_SHOPPING_H

#include "base/buf.h"
#include "plan/plan.h"

/* Columns: by (the day of the first coat; the job's start without a timetable), finish, name, component, pack, count,
 * price (of one), sum, currency, left_ml. Prices are empty where none is known; a kit's component is "kit".
 * Sundries come last, by the first day of work: component "sundry", pack the unit ("pcs", or "120 ml" and a count of 1). */
void shopping_write(const struct plan *plan, struct buf *out);

#endif
