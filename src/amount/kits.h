/* Packs and kits of one finish together: every component covered at the least worth. */
#ifndef AMOUNT_KITS_H
#define AMOUNT_KITS_H

#include "amount/packs.h"

struct basket {
    int *kits;   /* per kit of the finish */
    int **packs; /* per component, per pack of it */
    bool exact;  /* false: the search was cut off; the basket covers, but is not proven best */
};

/* need_ml per component, 0 where nothing is to be bought. A component that neither packs nor kits hold stays
 * uncovered. By price when every pack and kit has one. */
struct basket basket_choose(struct arena *arena, const struct finish *finish, const int64_t *need_ml);

#endif
