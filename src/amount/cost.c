#include "amount/cost.h"

#include "base/arena.h"

#include <math.h>

/* Cents per litre of one component in the packs bought, -1: none, or a price is missing. */
static double bought_price(const struct purchase_component *component)
{
    double litres = 0, cents = 0;
    for (size_t i = 0; i < component->pack_count; i++) {
        const struct purchase_pack *bought = &component->packs[i];
        if (bought->pack->price_cents < 0)
            return -1;
        litres += bought->count * bought->pack->size_l;
        cents += (double)bought->count * (double)bought->pack->price_cents;
    }
    return litres > 0 ? cents / litres : -1;
}

/* Of the cheapest pack on offer; -1: none has a price. */
static double offered_price(const struct component *component)
{
    double least = -1;
    for (size_t i = 0; i < component->pack_count; i++) {
        const struct pack *pack = &component->packs[i];
        double price = (double)pack->price_cents / pack->size_l;
        if (pack->price_cents >= 0 && (least < 0 || price < least))
            least = price;
    }
    return least;
}

static double component_price(const struct purchase *purchase, size_t i)
{
    const struct purchase_component *component = &purchase->components[i];
    return component->pack_count > 0 ? bought_price(component)
                                     : offered_price(&purchase->need.finish->components[i]);
}

static double bought_litres(const struct purchase *purchase)
{
    double litres = 0;
    for (size_t i = 0; i < purchase->need.finish->component_count; i++) {
        const struct purchase_component *component = &purchase->components[i];
        for (size_t k = 0; k < component->pack_count; k++)
            litres += component->packs[k].count * component->packs[k].pack->size_l;
        for (size_t k = 0; k < purchase->kit_count; k++)
            litres += purchase->kits[k].count * purchase->kits[k].kit->contents_l[i];
    }
    return litres;
}

double price_per_l(const struct purchase *purchase)
{
    double price = 0;
    if (purchase->kit_count > 0)
        return purchase->cost_cents < 0 ? -1 : (double)purchase->cost_cents / bought_litres(purchase);
    for (size_t i = 0; i < purchase->need.finish->component_count; i++) {
        double own = component_price(purchase, i);
        if (own < 0)
            return -1;
        price += own * finish_volume_share(purchase->need.finish, i);
    }
    return price;
}

static const struct purchase *purchase_of(const struct purchases *purchases, const struct finish *finish)
{
    for (size_t i = 0; i < purchases->count; i++)
        if (purchases->items[i].need.finish == finish)
            return &purchases->items[i];
    return NULL;
}

/* Sums in the making: cents are rounded once, for each line. */
struct sum_up {
    double cents;
    int64_t minutes;
    bool used, unpriced;
};

static void add_use(struct sum_up *sum, const struct purchases *purchases, const struct cost_use *use)
{
    sum->minutes += use->minutes;
    sum->used = sum->used || use->minutes > 0 || use->litres > 0;
    if (!use->finish)
        return;
    const struct purchase *purchase = purchase_of(purchases, use->finish);
    double price = purchase ? price_per_l(purchase) : -1;
    sum->unpriced = sum->unpriced || price < 0;
    sum->cents += use->litres * price;
}

static struct cost_line line_of(const struct sum_up *sum, size_t piece, const struct job *job)
{
    int64_t rate = job->shop.rate_cents_per_hour;
    return (struct cost_line){.piece = piece,
                              .minutes = sum->minutes,
                              .labour_cents = rate < 0 ? -1 : (sum->minutes * rate + 30) / 60,
                              .material_cents = sum->unpriced ? -1 : (int64_t)llround(sum->cents)};
}

static int64_t add_cents(int64_t total, int64_t cents)
{
    return total < 0 || cents < 0 ? -1 : total + cents;
}

static int64_t surplus(const struct purchases *purchases)
{
    double cents = 0;
    for (size_t i = 0; i < purchases->count; i++) {
        const struct purchase *purchase = &purchases->items[i];
        for (size_t k = 0; k < purchase->need.finish->component_count; k++) {
            double price = purchase->kit_count > 0 ? price_per_l(purchase) : component_price(purchase, k);
            if (price < 0 && purchase->components[k].left_l > 0)
                return -1;
            cents += purchase->components[k].left_l * price;
        }
    }
    return (int64_t)llround(cents);
}

static bool shelf_is_bare(const struct purchases *purchases)
{
    for (size_t i = 0; i < purchases->count; i++)
        for (size_t k = 0; k < purchases->items[i].need.finish->component_count; k++)
            if (purchases->items[i].components[k].on_hand_l > 0)
                return false;
    return true;
}

/* Lines are rounded to cents one by one: where all that is laid was bought, what is left is the rest of what was paid. */
static int64_t surplus_beside(const struct purchases *purchases, const struct cost_line *total)
{
    if (purchases->cost_cents < 0 || total->material_cents < 0 || !shelf_is_bare(purchases))
        return surplus(purchases);
    return purchases->cost_cents - total->material_cents;
}

struct costs *costs_make(struct arena *arena, const struct job *job, const struct purchases *purchases,
                         const struct cost_use *uses, size_t use_count)
{
    struct costs *costs = ARENA_NEW(arena, struct costs);
    struct sum_up *sums = ARENA_ARRAY(arena, job->piece_count + 1, struct sum_up);
    for (size_t i = 0; i < use_count; i++)
        add_use(&sums[uses[i].piece < job->piece_count ? uses[i].piece : job->piece_count], purchases,
                &uses[i]);
    costs->lines = ARENA_ARRAY(arena, job->piece_count + 1, struct cost_line);
    costs->total.piece = SIZE_MAX;
    for (size_t i = 0; i <= job->piece_count; i++) {
        if (!sums[i].used)
            continue;
        struct cost_line line = line_of(&sums[i], i < job->piece_count ? i : SIZE_MAX, job);
        costs->lines[costs->count++] = line;
        costs->total.minutes += line.minutes;
        costs->total.labour_cents = add_cents(costs->total.labour_cents, line.labour_cents);
        costs->total.material_cents = add_cents(costs->total.material_cents, line.material_cents);
    }
    costs->surplus_cents = surplus_beside(purchases, &costs->total);
    return costs;
}
