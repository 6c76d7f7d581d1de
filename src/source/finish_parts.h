/* Keys of a finish file that hold lists and objects of their own. Inside finish_*.c. */
#ifndef SOURCE_FINISH_PARTS_H
#define SOURCE_FINISH_PARTS_H

#include "source/field.h"

/* `components`, and the `kits` of them that are sold together. `context` is the number of decimals of a price. */
void finish_read_components(struct field_in in);
void finish_read_kits(struct field_in in);

#endif
