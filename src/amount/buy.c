#include "amount/buy.h"

#include "amount/packs.h"
#include "base/arena.h"
#include "base/day.h"

#include <math.h>

static const double colour_reserve = 0.25; /* common practice */
static const double g_per_kg = 1000;

double reserve_of(const struct job *job, const struct finish *finish)
{
    return finish->colours ? fmax(job->reserve, colour_reserve) : job->reserve;
}

static bool is_good(const struct stock *stock, int64_t day)
{
    int32_t opened_life = stock->finish->components[stock->component].opened_life_min;
    if (stock->best_before_day < day)
        return false;
    if (stock->opened_day == INT64_MIN || opened_life == SPAN_NEVER)
        return true;
    return (day - stock->opened_day) * DAY_MINUTES <= opened_life;
}

double shelf_good_l(const struct job *job, const struct finish *finish, size_t component, int64_t day)
{
    double litres = 0;
    for (size_t i = 0; i < job->stock_count; i++) {
        const struct stock *stock = &job->stock[i];
        if (stock->finish == finish && stock->component == component && is_good(stock, day))
            litres += stock->amount_l;
    }
    return litres;
}

/* What has to be there of a component, reserve included. */
static double target_l(const struct purchase *purchase, size_t i)
{
    return purchase->components[i].need_l * (1 + purchase->reserve);
}

static void list_packs(struct arena *arena, const struct component *component, const int *counts,
                       struct purchase_component *bought)
{
    struct purchase_pack *list = ARENA_ARRAY(arena, component->pack_count, struct purchase_pack);
    for (size_t i = 0; i < component->pack_count; i++) {
        if (counts[i] == 0)
            continue;
        size_t at = bought->pack_count++;
        for (; at > 0 && list[at - 1].pack->size_l < component->packs[i].size_l; at--)
            list[at] = list[at - 1];
        list[at] = (struct purchase_pack){&component->packs[i], counts[i]};
    }
    bought->packs = list;
}

static void list_kits(struct arena *arena, const struct finish *finish, const int *counts,
                      struct purchase *purchase)
{
    struct purchase_kit *list = ARENA_ARRAY(arena, finish->kit_count, struct purchase_kit);
    for (size_t k = 0; k < finish->kit_count; k++)
        if (counts[k] > 0)
            list[purchase->kit_count++] = (struct purchase_kit){&finish->kits[k], counts[k]};
    purchase->kits = list;
}

/* Litres of a component in what is bought. */
static double bought_l(const struct purchase *purchase, size_t i)
{
    const struct purchase_component *component = &purchase->components[i];
    double litres = 0;
    for (size_t k = 0; k < component->pack_count; k++)
        litres += component->packs[k].count * component->packs[k].pack->size_l;
    for (size_t k = 0; k < purchase->kit_count; k++)
        litres += purchase->kits[k].count * purchase->kits[k].kit->contents_l[i];
    return litres;
}

static void settle(struct purchase *purchase, size_t i)
{
    struct purchase_component *component = &purchase->components[i];
    const struct finish *finish = purchase->need.finish;
    double there = component->on_hand_l + bought_l(purchase, i);
    int64_t lacking = need_ml(target_l(purchase, i) - component->on_hand_l);
    if (lacking > 0 && bought_l(purchase, i) <= 0)
        component->short_l = target_l(purchase, i) - component->on_hand_l;
    component->left_l = fmax(there - component->need_l, 0);
    if (component->short_l <= 0 && there < purchase->need.high_l * finish_volume_share(finish, i))
        purchase->high_short = true;
}

static int64_t add_price(int64_t cost, int64_t price, int count)
{
    return cost < 0 || price < 0 ? -1 : cost + price * count;
}

static int64_t cost_of(const struct purchase *purchase)
{
    int64_t cost = 0;
    for (size_t k = 0; k < purchase->kit_count; k++)
        cost = add_price(cost, purchase->kits[k].kit->price_cents, purchase->kits[k].count);
    for (size_t i = 0; i < purchase->need.finish->component_count; i++) {
        const struct purchase_component *component = &purchase->components[i];
        if (component->short_l > 0)
            cost = -1;
        for (size_t k = 0; k < component->pack_count; k++)
            cost = add_price(cost, component->packs[k].pack->price_cents, component->packs[k].count);
    }
    return cost;
}

struct purchase purchase_make(struct arena *arena, const struct job *job, const struct need *need,
                              double reserve)
{
    const struct finish *finish = need->finish;
    struct purchase purchase = {.need = *need, .reserve = reserve};
    int64_t *missing_ml = ARENA_ARRAY(arena, finish->component_count, int64_t);
    purchase.components = ARENA_ARRAY(arena, finish->component_count, struct purchase_component);
    for (size_t i = 0; i < finish->component_count; i++) {
        struct purchase_component *component = &purchase.components[i];
        component->need_l = need->likely_l * finish_volume_share(finish, i);
        component->need_g = component->need_l * finish->components[i].density_kg_per_l * g_per_kg;
        double left_l =
            shelf_good_l(job, finish, i, need->last_coat_day) - need->used_l * finish_volume_share(finish, i);
        component->on_hand_l = left_l > 0 ? left_l : 0;
        missing_ml[i] = need_ml(target_l(&purchase, i) - component->on_hand_l);
    }
    struct basket basket = basket_choose(arena, finish, missing_ml);
    list_kits(arena, finish, basket.kits, &purchase);
    for (size_t i = 0; i < finish->component_count; i++)
        list_packs(arena, &finish->components[i], basket.packs[i], &purchase.components[i]);
    for (size_t i = 0; i < finish->component_count; i++)
        settle(&purchase, i);
    purchase.cost_cents = cost_of(&purchase);
    return purchase;
}

struct purchases *purchases_make(struct arena *arena, const struct job *job, const struct need *needs,
                                 size_t need_count)
{
    struct purchases *purchases = ARENA_NEW(arena, struct purchases);
    purchases->items = ARENA_ARRAY(arena, need_count, struct purchase);
    purchases->count = need_count;
    for (size_t i = 0; i < need_count; i++) {
        purchases->items[i] = purchase_make(arena, job, &needs[i], reserve_of(job, needs[i].finish));
        purchases->cost_cents = add_price(purchases->cost_cents, purchases->items[i].cost_cents, 1);
    }
    return purchases;
}

/* Where the price of a purchase stands on a step. */

static const double grain = 0.001; /* reserves are printed in tenths of a per cent */

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
