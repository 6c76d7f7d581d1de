/* Orders of batches as words, and from lists of items, for tests of the search. */
#ifndef TESTS_ORDERS_H
#define TESTS_ORDERS_H

#include "timetable/order.h"

/* "0 2 | 1 3": the items of each run. */
const char *order_words(struct arena *arena, const struct order *order);

/* An order of batches, as many of the items as each count says, up to a count of 0. By nobody in
 * particular; a turn is of the kind of the coat that it is for. */
struct variant *ordered(const struct site *site, const int *items, const size_t *counts);

#endif
