/* What to buy: the cheapest packs that cover the need, less what is on the shelf and still good. */
#ifndef AMOUNT_BUY_H
#define AMOUNT_BUY_H

#include "job/job.h"

struct arena;

/* What the coats of one finish ask, without reserve. Filled by the plan from its coats. */
struct need {
    const struct finish *finish;
    double low_l, likely_l, high_l; /* of mixed finish */
    int64_t last_coat_day;          /* stock and opened cans must be good until then */
};

struct purchase_pack {
    const struct pack *pack;
    int count;
};

struct purchase_component {
    double need_l, need_g;             /* likely, without reserve */
    double on_hand_l;                  /* still good on the day of the last coat */
    const struct purchase_pack *packs; /* large to small, counts above 0 */
    size_t pack_count;
    double left_l; /* packs and stock less the likely need */
};

struct purchase_kit {
    const struct kit *kit;
    int count;
};

struct purchase {
    struct need need;
    double reserve;                        /* as applied: at least 25 % for colour */
    bool high_short;                       /* the high figure would run short of what is bought and on hand */
    struct purchase_component *components; /* as in the finish */
    const struct purchase_kit *kits;
    size_t kit_count;
    int64_t cost_cents; /* -1: a price is missing */
};

struct purchases {
    struct purchase *items; /* in the order of the needs */
    size_t count;
    int64_t cost_cents; /* -1: a price is missing */
};

struct purchases *purchases_make(struct arena *arena, const struct job *job, const struct need *needs,
                                 size_t need_count);

/* One component: counts[i] of packs[i] so that their sizes add up to at least need_l, at least cost, then fewest packs,
 * then least left over; without prices least left over, then fewest packs. Exact (dynamic programming in ml). */
void packs_choose(struct arena *arena, const struct pack *packs, size_t pack_count, double need_l,
                  int *counts);

#endif
