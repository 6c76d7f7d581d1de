/* Where the price of a purchase stands on a step. */
#include "amount/buy.h"

#include <math.h>

static const double grain = 0.001; /* reserves are told in tenths of a per cent */

static int64_t cost_at(struct arena *arena, const struct job *job, const struct purchase *purchase,
                       double reserve)
{
    return purchase_make(arena, job, &purchase->need, reserve).cost_cents;
}

/* Price never falls as the reserve grows: the step is found by halving. In grains. */
static int step_below(struct arena *arena, const struct job *job, const struct purchase *purchase)
{
    int low = 0, high = (int)floor(purchase->reserve / grain + 1e-9);
    while (high - low > 1) {
        int middle = low + (high - low) / 2;
        if (cost_at(arena, job, purchase, middle * grain) < purchase->cost_cents)
            low = middle;
        else
            high = middle;
    }
    return low;
}

struct purchase_hint purchase_hint(struct arena *arena, const struct job *job,
                                   const struct purchase *purchase)
{
    struct purchase_hint hint = {-1, 0, -1};
    if (purchase->cost_cents < 0)
        return hint;
    if (cost_at(arena, job, purchase, 0) < purchase->cost_cents) {
        hint.smaller_reserve = step_below(arena, job, purchase) * grain;
        hint.saves_cents = purchase->cost_cents - cost_at(arena, job, purchase, hint.smaller_reserve);
    }
    if (purchase->high_short && purchase->need.likely_l > 0) {
        double reserve = purchase->need.high_l / purchase->need.likely_l - 1;
        hint.high_adds_cents = cost_at(arena, job, purchase, reserve) - purchase->cost_cents;
    }
    return hint;
}
