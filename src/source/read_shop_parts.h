/* Groups of a shop, each read into its place in the record. Inside this room. */
#ifndef SOURCE_READ_SHOP_PARTS_H
#define SOURCE_READ_SHOP_PARTS_H

#include "format/json.h"
#include "job/shop.h"

/* `hours` and `closed`. */
void shop_read_hours(struct json_at shop, struct shop *to);

/* `air`: the daily round and dated entries, sorted. */
void shop_read_air(struct json_at list, struct air_year *air);

/* `set-up`, `clean-up`, `handling`, `rates`, `losses`, `transfer`: by tool and work. */
void shop_read_tools(struct json_at shop, struct shop *to);

#endif
