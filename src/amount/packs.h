/* Covering a need with packs at the least price: an exact search by dynamic programming over whole millilitres. */
#ifndef AMOUNT_PACKS_H
#define AMOUNT_PACKS_H

#include "finish/finish.h"

struct arena;

/* What a choice of packs is worth, smaller first: by price cents, packs, ml; without prices ml, packs. */
struct worth {
    int64_t key[3];
};

#define WORTH_NONE ((struct worth){{INT64_MAX / 2, 0, 0}}) /* there is no such choice */

int worth_compare(struct worth a, struct worth b);
struct worth worth_add(struct worth a, struct worth b);
/* Of one pack or kit that holds `ml`. */
struct worth worth_of(bool by_price, int64_t ml, int64_t cents);

/* Whole ml of a pack, rounded down: what is bought must be enough. Of a need, rounded up. */
int64_t pack_ml(double size_l);
int64_t need_ml(double need_l);

/* The least worth for every need up to one: best[n] covers n units of `unit_ml`. */
struct pack_table {
    const struct pack *packs;
    size_t pack_count;
    bool by_price;
    int64_t unit_ml;
    size_t slots;
    struct worth *best;
};

/* Above 4,000,000 units (with packs of any size 4,000 l) the unit is coarser and the choice no longer proven best. */
struct pack_table pack_table_make(struct arena *arena, const struct pack *packs, size_t pack_count,
                                  int64_t most_ml, bool by_price);
struct worth pack_table_at(const struct pack_table *table, int64_t ml);
/* The packs of that choice, the largest first where choices are alike. WORTH_NONE there: all zero. */
void pack_table_counts(const struct pack_table *table, int64_t ml, int *counts);

bool packs_priced(const struct pack *packs, size_t pack_count);

/* One component: counts[i] of packs[i] so that their sizes add up to at least need_l, at least cost, then fewest packs,
 * then least left over; without prices least left over, then fewest packs. Exact (dynamic programming in ml). */
void packs_choose(struct arena *arena, const struct pack *packs, size_t pack_count, double need_l,
                  int *counts);

/* Packs and kits of one finish together. */
struct basket {
    int *kits;   /* per kit of the finish */
    int **packs; /* per component, per pack of it */
    bool exact;  /* false: the search was cut off; the basket covers, but is not proven best */
};

/* need_ml per component, 0 where nothing is to be bought. A component that neither packs nor kits hold stays
 * uncovered. By price when every pack and kit has one; of baskets that are alike the one with packs instead of kits. */
struct basket basket_choose(struct arena *arena, const struct finish *finish, const int64_t *need_ml);

#endif
