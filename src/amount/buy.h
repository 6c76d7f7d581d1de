/* What to buy: the cheapest packs that cover the need, less what is on the shelf and still good. */
#ifndef AMOUNT_BUY_H
#define AMOUNT_BUY_H

#include "job/job.h"

struct arena;

/* What the coats of one finish ask, without reserve. Filled by the plan from its coats. */
struct need {
    const struct finish *finish;
    double low_l, likely_l, high_l; /* of mixed finish */
    double used_l;                  /* laid already: of the stock, so much is gone */
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
    double left_l;  /* packs, kits and stock less the likely need; 0 where short */
    double short_l; /* to be bought beyond that, reserve included: the finish names no pack that holds it */
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

/* One finish at a reserve of one's own. */
struct purchase purchase_make(struct arena *arena, const struct job *job, const struct need *need,
                              double reserve);
/* The reserve that a finish takes: colour at least 25 %, to be mixed together as one lot (common practice). */
double reserve_of(const struct job *job, const struct finish *finish);

/* Litres of a component on the shelf that are still good on a day. */
double shelf_good_l(const struct job *job, const struct finish *finish, size_t component, int64_t day);

/* Where the price stands on a step: the largest smaller reserve at which it is less, and what covering the high figure
 * would add. */
struct purchase_hint {
    double smaller_reserve; /* -1: none down to no reserve at all */
    int64_t saves_cents;
    int64_t high_adds_cents; /* -1: the high figure is covered, or a price is missing */
};

struct purchase_hint purchase_hint(struct arena *arena, const struct job *job,
                                   const struct purchase *purchase);

#endif
