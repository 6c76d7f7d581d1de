#include "amount/packs.h"

#include "base/arena.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { SLOTS_MOST = 4000000 };

static const double ml_per_l = 1000, whole = 1e-6; /* ml within which a size counts as whole */

int worth_compare(struct worth a, struct worth b)
{
    for (int i = 0; i < 3; i++)
        if (a.key[i] != b.key[i])
            return a.key[i] < b.key[i] ? -1 : 1;
    return 0;
}

static bool is_none(struct worth a)
{
    return a.key[0] >= WORTH_NONE.key[0];
}

struct worth worth_add(struct worth a, struct worth b)
{
    if (is_none(a) || is_none(b))
        return WORTH_NONE;
    return (struct worth){{a.key[0] + b.key[0], a.key[1] + b.key[1], a.key[2] + b.key[2]}};
}

struct worth worth_of(bool by_price, int64_t ml, int64_t cents)
{
    return by_price ? (struct worth){{cents, 1, ml}} : (struct worth){{ml, 1, 0}};
}

int64_t pack_ml(double size_l)
{
    return (int64_t)floor(size_l * ml_per_l + whole);
}

int64_t need_ml(double need_l)
{
    return need_l > 0 ? (int64_t)ceil(need_l * ml_per_l - whole) : 0;
}

bool packs_priced(const struct pack *packs, size_t pack_count)
{
    for (size_t i = 0; i < pack_count; i++)
        if (packs[i].price_cents < 0)
            return false;
    return true;
}

static int64_t common_divisor(int64_t a, int64_t b)
{
    while (b != 0) {
        int64_t rest = a % b;
        a = b;
        b = rest;
    }
    return a;
}

/* The largest unit in which every pack is whole. */
static int64_t unit_of(const struct pack *packs, size_t pack_count, int64_t most_ml)
{
    int64_t unit = 0;
    for (size_t i = 0; i < pack_count; i++)
        unit = common_divisor(unit, pack_ml(packs[i].size_l));
    int64_t coarse = (most_ml + SLOTS_MOST - 1) / SLOTS_MOST;
    int64_t least = coarse > 1 ? coarse : 1;
    return unit > least ? unit : least;
}

static size_t slot_of(const struct pack_table *table, int64_t ml)
{
    assert(table->unit_ml > 0);
    return ml > 0 ? (size_t)((ml + table->unit_ml - 1) / table->unit_ml) : 0;
}

/* What pack i leaves to be covered of n units; n itself: the pack is too small to count. */
static size_t left_after(const struct pack_table *table, size_t i, size_t n)
{
    size_t units = (size_t)(pack_ml(table->packs[i].size_l) / table->unit_ml);
    return units < n ? n - units : 0;
}

static struct worth with_pack(const struct pack_table *table, size_t i, size_t n)
{
    size_t left = left_after(table, i, n);
    if (left == n)
        return WORTH_NONE;
    const struct pack *pack = &table->packs[i];
    return worth_add(worth_of(table->by_price, pack_ml(pack->size_l), pack->price_cents), table->best[left]);
}

struct pack_table pack_table_make(struct arena *arena, const struct pack *packs, size_t pack_count,
                                  int64_t most_ml, bool by_price)
{
    struct pack_table table = {packs, pack_count, by_price, unit_of(packs, pack_count, most_ml), 0, NULL};
    table.slots = slot_of(&table, most_ml) + 1;
    table.best = ARENA_ARRAY(arena, table.slots, struct worth);
    for (size_t n = 1; n < table.slots; n++) {
        table.best[n] = WORTH_NONE;
        for (size_t i = 0; i < pack_count; i++) {
            struct worth worth = with_pack(&table, i, n);
            if (worth_compare(worth, table.best[n]) < 0)
                table.best[n] = worth;
        }
    }
    return table;
}

struct worth pack_table_at(const struct pack_table *table, int64_t ml)
{
    return table->best[slot_of(table, ml)];
}

/* The largest pack that begins a choice as good as the best for n units. */
static size_t first_pack(const struct pack_table *table, size_t n)
{
    size_t found = table->pack_count;
    for (size_t i = 0; i < table->pack_count; i++) {
        bool as_good = worth_compare(with_pack(table, i, n), table->best[n]) == 0;
        if (as_good && (found == table->pack_count || table->packs[i].size_l > table->packs[found].size_l))
            found = i;
    }
    return found;
}

void pack_table_counts(const struct pack_table *table, int64_t ml, int *counts)
{
    for (size_t i = 0; i < table->pack_count; i++)
        counts[i] = 0;
    for (size_t n = slot_of(table, ml); n > 0 && !is_none(table->best[n]);) {
        size_t i = first_pack(table, n);
        counts[i]++;
        n = left_after(table, i, n);
    }
}

void packs_choose(struct arena *arena, const struct pack *packs, size_t pack_count, double need_l,
                  int *counts)
{
    int64_t ml = need_ml(need_l);
    struct pack_table table = pack_table_make(arena, packs, pack_count, ml, packs_priced(packs, pack_count));
    pack_table_counts(&table, ml, counts);
}

/* Numbers of kits are tried one after the other, the packs that fill up the rest are looked up in the tables of
 * packs.c; a branch that costs more than the best so far is left. */

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
