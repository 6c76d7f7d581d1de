/* Keys of a shop that hold more than one value: when it works, and its air. Inside shop_*.c. */
#ifndef SOURCE_SHOP_PARTS_H
#define SOURCE_SHOP_PARTS_H

#include "source/field.h"

/* `hours` by weekday. Written from a base, only the days that differ; where the base's hours were assumed all of them, for
 * naming one day closes the others. */
void shop_read_hours(struct field_in in);
void shop_write_hours(struct field_out out);
bool shop_same_hours(const void *a, const void *b);

/* `people`: their number or a list; behind hours and closed days, which are theirs where they name none. */
void shop_read_people(struct field_in in);
void shop_write_people(struct field_out out);
bool shop_same_people(const void *a, const void *b);

/* `closed` days, and what makes the shop busy: it does not matter how the spans are cut or ordered. */
void shop_read_closed(struct field_in in);
void shop_write_closed(struct field_out out);
bool shop_same_closed(const void *a, const void *b);
bool shop_same_busy(const void *a, const void *b);

/* `air`: the daily round and dated entries, sorted. Always written whole. */
void shop_read_air(struct field_in in);
void shop_write_air(struct field_out out);
bool shop_same_air(const void *a, const void *b);

#endif
