/* The shop (contract, section 3) -> struct shop: what is given goes over the stated defaults. */
#ifndef IO_READ_SHOP_H
#define IO_READ_SHOP_H

#include "io/json.h"
#include "io/path.h"
#include "job/shop.h"

/* What a shop is read for. */
struct shop_place {
    struct path_rule rule; /* for the calendars that it names */
    const struct zone *zone;
    int currency_digits;
};

/* Fills the shop, with defaults first; mistakes are added. The air stays `assumed` where no daily round is given. */
void shop_read(struct json_at at, const struct shop_place *place, struct shop *shop);

#endif
