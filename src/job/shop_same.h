/* Whether two descriptions of a shop say the same of what bears on the time: by what they say, not by how or where it is
 * written. What one leaves to its default and the other writes out is the same. */
#ifndef JOB_SHOP_SAME_H
#define JOB_SHOP_SAME_H

#include "base/text.h"
#include "job/shop.h"

/* A key of the shop's file of which they say different things. */
struct shop_difference {
    const char *key;
    struct text_short here, there; /* in words, "" where it is no single value */
};

enum { SHOP_DIFFERENCES_MOST = 13 };

/* In the order of the README; how many. The scale, losses, transfer and the hourly rate are not looked at: they change
 * mixes, packs and prices, and each job may keep its own. */
size_t shop_differences(const struct shop *here, const struct shop *there,
                        struct shop_difference found[SHOP_DIFFERENCES_MOST]);

#endif
