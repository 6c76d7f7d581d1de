/* Keys of a finish file that hold lists and objects of their own. Inside finish_*.c. */
#ifndef SOURCE_FINISH_PARTS_H
#define SOURCE_FINISH_PARTS_H

#include "finish/finish.h"
#include "source/field.h"

/* `components`, and the `kits` of them that are sold together. `context` is the number of decimals of a price. */
void finish_read_components(struct field_in in);
void finish_read_kits(struct field_in in);

/* m2 a litre; what is given by mass by the density of the finish. */
void finish_read_coverage(struct json_at at, const struct finish *finish, double *m2_per_l);
/* `by-tool`, {"rubber": {"coverage": "22 m2/l", "no-between": true}}. */
void finish_read_by_tool(struct field_in in);

#endif
