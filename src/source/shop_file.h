/* The shop as a file has it: read over the stated defaults, written back, and compared with another one. */
#ifndef SOURCE_SHOP_FILE_H
#define SOURCE_SHOP_FILE_H

#include "format/json.h"
#include "format/json_write.h"
#include "job/job.h"

/* Fills the shop, with defaults first; mistakes are added. The air stays `assumed` where no daily round is given. `busy` is
 * left to the caller: calendars are read for a span of time. */
void shop_read(struct json_at at, int currency_digits, struct shop *shop);

/* The members of a shop's object that differ from another shop's (`shop_default` for a file of its own); nothing of
 * `busy`, which names files. */
void shop_write(struct json_write *to, const struct shop *shop, const struct shop *base);

/* Whether two shops say the same under every key, written or left to its default. */
bool shop_same(const struct shop *a, const struct shop *b);

/* Whether jobs that are planned together share one shop: adds to errors[j] each key of the shop, and the zone, in which job
 * j says something else than the first job; false when any was added. Both files are named: the place is job j's, what is
 * expected stands in the first one's. What one leaves to its default and the other writes out is the same. The scale,
 * losses, transfer and the hourly rate are not looked at: they change mixes, packs and prices, and each job may keep its
 * own. */
bool shops_agree(const struct job *const *jobs, size_t count, struct err_list *const *errors);

#endif
