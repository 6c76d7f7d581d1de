/* The shop (contract, section 3) -> struct shop: what is given goes over the stated defaults. */
#ifndef SOURCE_READ_SHOP_H
#define SOURCE_READ_SHOP_H

#include "format/json.h"
#include "job/shop.h"

/* Fills the shop, with defaults first; mistakes are added. The air stays `assumed` where no daily round is given. `busy` is
 * left to the caller: calendars are read for a span of time. */
void shop_read(struct json_at at, int currency_digits, struct shop *shop);

#endif
