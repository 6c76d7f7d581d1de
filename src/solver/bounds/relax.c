#include "solver/bounds/relax.h"

#include <string.h>

#include "base/arena.h"

/* Prices and parts are small enough that what ten thousand operations pay fits 64 bits. */
enum { PRICE_FIRST = 1 << 12, PRICE_MOST = 1 << 21 };
/* How fast prices follow the crowd, and how they calm down; found by trying on shop-like networks. */
enum { SMOOTH_FIRST = 4, SMOOTH_LATER = 4, PACE_FIRST = 2, PACE_LATER = 30, OVER_MOST = 2 };

static const int64_t NO_PRICE = INT64_MAX / 4;

static void open_markets(struct relax *relax, struct arena *arena)
{
    size_t slots = (size_t)relax->seekers.span + 1;
    relax->markets = ARENA_ARRAY(arena, relax->market_count, struct market);
    for (size_t r = 0; r < relax->market_count; r++) {
        relax->markets[r] =
            (struct market){ARENA_ARRAY(arena, slots, int64_t), ARENA_ARRAY(arena, slots, int64_t),
                            ARENA_ARRAY(arena, slots, int64_t), ARENA_ARRAY(arena, slots, int64_t)};
        for (size_t t = 0; t < slots; t++)
            relax->markets[r].price[t] = PRICE_FIRST;
    }
}

void relax_init(struct relax *relax, const struct profiles *profiles, const struct trail *trail,
                struct arena *arena)
{
    *relax = (struct relax){.market_count = profiles->count};
    seekers_init(&relax->seekers, profiles, trail, arena);
    open_markets(relax, arena);
}

/* What all that is open costs. */
static int64_t sum_prices(struct relax *relax)
{
    int64_t open = 0;
    for (size_t r = 0; r < relax->market_count; r++) {
        struct market *market = &relax->markets[r];
        for (int32_t t = 0; t < relax->seekers.span; t++)
            market->sum[t + 1] = market->sum[t] + market->price[t];
        open += market->sum[relax->seekers.span] * SHARE_WHOLE;
    }
    return open;
}

static int64_t pays(const struct relax *relax, const struct seeker *seeker, int32_t start)
{
    int64_t total = 0;
    for (size_t i = 0; i < seeker->share_count; i++) {
        const struct share *share = &seeker->shares[i];
        const int64_t *sum = relax->markets[share->resource].sum;
        total += share->part * (sum[share_end(&relax->seekers, share, start)] - sum[start]);
    }
    return total;
}

/* The least that this one and those before it pay, by each start. */
static int64_t seek(struct relax *relax, struct seeker *seeker)
{
    int64_t least = NO_PRICE;
    int32_t cheapest = seeker->first;
    for (int32_t k = seeker->first; k <= seeker->last; k++) {
        int64_t here = seeker->before[k];
        if (here < least)
            here += pays(relax, seeker, seeker->starts[k]);
        if (here < least) {
            least = here;
            cheapest = k;
        }
        seeker->least[k] = least;
        seeker->cheapest[k] = cheapest;
    }
    relax->work += (seeker->last - seeker->first) / 4 + 1;
    return least;
}

static void hand_on(struct relax *relax, const struct seeker *from)
{
    struct seeker *to = &relax->seekers.items[from->next];
    for (int32_t i = to->first; i <= to->last; i++) {
        int32_t k = from->link[i] < from->last ? from->link[i] : from->last;
        int64_t sum = k < from->first ? NO_PRICE : to->before[i] + from->least[k];
        to->before[i] = sum < NO_PRICE ? sum : NO_PRICE;
    }
}

bool relax_refutes(struct relax *relax, const struct trail *trail)
{
    int64_t open = sum_prices(relax), total = 0;
    if (!seekers_window(&relax->seekers, trail))
        return true;
    for (size_t s = 0; s < relax->seekers.count; s++) {
        struct seeker *seeker = &relax->seekers.items[s];
        int64_t least = seek(relax, seeker);
        if (least >= NO_PRICE)
            return true;
        if (seeker->next != NET_NONE)
            hand_on(relax, seeker);
        else
            total += least;
    }
    int64_t parts = total / (open / RELAX_WHOLE + 1);
    relax->best = parts > relax->best ? (int32_t)parts : relax->best;
    return total > open;
}

/* The starts that pay least, from the last operations back. */
static void choose_starts(struct relax *relax)
{
    for (size_t s = relax->seekers.count; s-- > 0;) {
        struct seeker *seeker = &relax->seekers.items[s];
        int32_t k = seeker->last;
        if (seeker->next != NET_NONE && seeker->link[relax->seekers.items[seeker->next].chosen] < k)
            k = seeker->link[relax->seekers.items[seeker->next].chosen];
        seeker->chosen = seeker->cheapest[k];
        for (size_t i = 0; i < seeker->share_count; i++) {
            int32_t start = seeker->starts[seeker->chosen];
            int64_t *load = relax->markets[seeker->shares[i].resource].load;
            load[start] += seeker->shares[i].part;
            load[share_end(&relax->seekers, &seeker->shares[i], start)] -= seeker->shares[i].part;
        }
    }
}

/* Follows the crowd of one resource; the highest price. */
static int64_t reprice(const struct relax *relax, struct market *market)
{
    int64_t smooth = SMOOTH_FIRST + relax->steps / SMOOTH_LATER,
            pace = PACE_FIRST + relax->steps / PACE_LATER;
    int64_t held = 0, highest = 1;
    for (int32_t t = 0; t < relax->seekers.span; t++) {
        held += market->load[t];
        market->crowd[t] += (held - market->crowd[t]) / smooth;
        int64_t over = market->crowd[t] - SHARE_WHOLE;
        over = over > OVER_MOST * SHARE_WHOLE ? OVER_MOST * SHARE_WHOLE : over;
        int64_t price = market->price[t] + market->price[t] * over / SHARE_WHOLE / pace;
        market->price[t] = price < 1 ? 1 : price;
        highest = market->price[t] > highest ? market->price[t] : highest;
    }
    return highest;
}

void relax_again(struct relax *relax)
{
    relax->steps = 0;
    relax->best = 0;
}

void relax_step(struct relax *relax)
{
    int64_t highest = 1;
    for (size_t r = 0; r < relax->market_count; r++)
        memset(relax->markets[r].load, 0, ((size_t)relax->seekers.span + 1) * sizeof(int64_t));
    choose_starts(relax);
    for (size_t r = 0; r < relax->market_count; r++) {
        int64_t top = reprice(relax, &relax->markets[r]);
        highest = top > highest ? top : highest;
    }
    for (size_t r = 0; r < relax->market_count; r++)
        for (int32_t t = 0; t < relax->seekers.span; t++)
            relax->markets[r].price[t] = relax->markets[r].price[t] * PRICE_MOST / highest;
    relax->steps++;
    relax->work += (int64_t)relax->market_count * relax->seekers.span / 4;
}
