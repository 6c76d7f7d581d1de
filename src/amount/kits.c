/* Numbers of kits are tried one after the other, the packs that fill up the rest are looked up in the tables of
 * packs.c; a branch that costs more than the best so far is left. */
#include "amount/kits.h"

#include "base/arena.h"

#include <string.h>

enum { STEPS_MOST = 5000000 };

struct trying {
    const struct finish *finish;
    bool by_price;
    struct pack_table *tables; /* per component */
    int64_t **left_ml;         /* per kit tried and component */
    int *counts, *best_counts; /* per kit */
    struct worth best;
    int steps;
};

static bool priced(const struct finish *finish)
{
    for (size_t i = 0; i < finish->component_count; i++)
        if (!packs_priced(finish->components[i].packs, finish->components[i].pack_count))
            return false;
    for (size_t k = 0; k < finish->kit_count; k++)
        if (finish->kits[k].price_cents < 0)
            return false;
    return true;
}

static bool is_sold(const struct finish *finish, size_t component)
{
    for (size_t k = 0; k < finish->kit_count; k++)
        if (pack_ml(finish->kits[k].contents_l[component]) > 0)
            return true;
    return finish->components[component].pack_count > 0;
}

static struct worth kit_worth(const struct trying *t, size_t k)
{
    int64_t ml = 0;
    for (size_t i = 0; i < t->finish->component_count; i++)
        ml += pack_ml(t->finish->kits[k].contents_l[i]);
    return worth_of(t->by_price, ml, t->finish->kits[k].price_cents);
}

static struct worth fill_up(const struct trying *t, struct worth worth, const int64_t *left_ml)
{
    for (size_t i = 0; i < t->finish->component_count; i++)
        worth = worth_add(worth, pack_table_at(&t->tables[i], left_ml[i]));
    return worth;
}

/* Whether another kit k still covers something. */
static bool helps(const struct trying *t, size_t k, const int64_t *left_ml)
{
    for (size_t i = 0; i < t->finish->component_count; i++)
        if (left_ml[i] > 0 && pack_ml(t->finish->kits[k].contents_l[i]) > 0)
            return true;
    return false;
}

static void take_kit(const struct trying *t, size_t k, int64_t *left_ml)
{
    for (size_t i = 0; i < t->finish->component_count; i++) {
        left_ml[i] -= pack_ml(t->finish->kits[k].contents_l[i]);
        left_ml[i] = left_ml[i] > 0 ? left_ml[i] : 0;
    }
}

static void keep_better(struct trying *t, struct worth worth)
{
    if (worth_compare(worth, t->best) >= 0)
        return;
    t->best = worth;
    memcpy(t->best_counts, t->counts, t->finish->kit_count * sizeof *t->counts);
}

/* Kits from k on, for what is left in left_ml[k]. */
static void try_kits(struct trying *t, size_t k,
                     struct worth worth) /* NOLINT(misc-no-recursion): depth = kits */
{
    if (worth_compare(worth, t->best) >= 0 || ++t->steps > STEPS_MOST)
        return;
    if (k == t->finish->kit_count) {
        keep_better(t, fill_up(t, worth, t->left_ml[k]));
        return;
    }
    size_t bytes = t->finish->component_count * sizeof **t->left_ml;
    for (t->counts[k] = 0;; t->counts[k]++) {
        memcpy(t->left_ml[k + 1], t->left_ml[k], bytes);
        try_kits(t, k + 1, worth);
        if (!helps(t, k, t->left_ml[k]) || worth_compare(worth, t->best) >= 0 || t->steps > STEPS_MOST)
            break;
        take_kit(t, k, t->left_ml[k]);
        worth = worth_add(worth, kit_worth(t, k));
    }
}

static struct trying trying_make(struct arena *arena, const struct finish *finish, const int64_t *need_ml)
{
    size_t components = finish->component_count;
    struct trying t = {.finish = finish, .by_price = priced(finish), .best = WORTH_NONE};
    t.tables = ARENA_ARRAY(arena, components, struct pack_table);
    t.left_ml = ARENA_ARRAY(arena, finish->kit_count + 1, int64_t *);
    for (size_t k = 0; k <= finish->kit_count; k++)
        t.left_ml[k] = ARENA_ARRAY(arena, components, int64_t);
    t.counts = ARENA_ARRAY(arena, finish->kit_count, int);
    t.best_counts = ARENA_ARRAY(arena, finish->kit_count, int);
    for (size_t i = 0; i < components; i++) {
        const struct component *c = &finish->components[i];
        t.left_ml[0][i] = is_sold(finish, i) ? need_ml[i] : 0;
        t.tables[i] = pack_table_make(arena, c->packs, c->pack_count, t.left_ml[0][i], t.by_price);
    }
    return t;
}

struct basket basket_choose(struct arena *arena, const struct finish *finish, const int64_t *need_ml)
{
    size_t components = finish->component_count;
    struct trying t = trying_make(arena, finish, need_ml);
    int64_t *left_ml = ARENA_ARRAY(arena, components, int64_t);
    memcpy(left_ml, t.left_ml[0], components * sizeof *left_ml);
    try_kits(&t, 0, (struct worth){{0, 0, 0}});
    struct basket basket = {t.best_counts, ARENA_ARRAY(arena, components, int *), t.steps <= STEPS_MOST};
    for (size_t k = 0; k < finish->kit_count; k++)
        for (int n = 0; n < basket.kits[k]; n++)
            take_kit(&t, k, left_ml);
    for (size_t i = 0; i < components; i++) {
        basket.packs[i] = ARENA_ARRAY(arena, finish->components[i].pack_count, int);
        pack_table_counts(&t.tables[i], left_ml[i], basket.packs[i]);
    }
    return basket;
}
