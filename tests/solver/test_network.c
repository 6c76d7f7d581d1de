/* The network's own building blocks: maps, chains and floats. */
#include "net_shop.h"

#include "base/arena.h"
#include "solver/explain/critical.h"

static void check_link(const struct row *row, struct net_link got, struct net_link want)
{
    check_int(row, got.operation, want.operation);
    check_int(row, got.earlier, want.earlier);
    check_int(row, got.kind, want.kind);
    check_int(row, got.index, want.index);
}

/* Late, with its chain: cured Sat 09:30 for a delivery on Fri 17:00; each coat waits 24 h for the one before. */
static void late_chain(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    size_t count;
    shop_init(&shop, &week, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 30), second = shop_work(&shop, 30), third = shop_work(&shop, 30);
    shop_lag(&shop, first, second, 1440, -1);
    shop_lag(&shop, second, third, 1440, -1);
    shop_ready(&shop, third, 72 * 60);
    shop.net.goals[0].due = at(FRI, 17, 0);
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, 16 * HOUR + 6);
    check_true(HERE, result.proven, "proven");
    const struct net_link *chain = net_critical_path(&shop.net, &result, &count);
    check_int(HERE, (intmax_t)count, 3);
    check_link(HERE, chain[0], (struct net_link){third, second, NET_LINK_LAG, 1});
    check_link(HERE, chain[1], (struct net_link){second, first, NET_LINK_LAG, 0});
    check_link(HERE, chain[2], (struct net_link){first, NET_NONE, NET_LINK_RELEASE, NET_NONE});
    shop_release(&shop);
}

/* The window over the night: coat 2 waits for the morning and coat 1, coat 1 may not open its window earlier. */
static void window_chain(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    size_t count;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 60), second = shop_work(&shop, 60);
    shop_lag(&shop, first, second, 600, 1200);
    shop_ready(&shop, second, 0);
    shop_solve(HERE, &shop, &result);
    const struct net_link *chain = net_critical_path(&shop.net, &result, &count);
    check_int(HERE, (intmax_t)count, 3);
    check_link(HERE, chain[0], (struct net_link){second, NET_NONE, NET_LINK_CALENDAR, NET_NONE});
    check_link(HERE, chain[1], (struct net_link){second, first, NET_LINK_LAG, 0});
    check_link(HERE, chain[2], (struct net_link){first, second, NET_LINK_LAG, 1});
    shop_release(&shop);
}

/* A: 60 min, then B: 60 min, both on the one person, 4 h until ready; C: 30 min, ready at once. C comes last and
 * may slip until the others are ready; A and B may not slip at all. */
static void floats(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int a = shop_work(&shop, 60), b = shop_work(&shop, 60), c = shop_work(&shop, 30);
    shop_lag(&shop, a, b, 0, -1);
    shop_lag(&shop, b, c, 0, 120);
    shop_ready(&shop, b, 240);
    shop_ready(&shop, c, 0);
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, at(MON, 14, 0));
    const int32_t *slack = net_float(&shop.net, &result);
    check_int(HERE, slack[a], 0);
    check_int(HERE, slack[b], 0);
    check_int(HERE, slack[c], 24); /* the window of two hours ends first */
    shop_release(&shop);
}

struct map_row {
    struct row row;
    struct net_map map;
    int32_t value, first, last;
};

static const int32_t steps[] = {0, 2, 2, 5, NET_NEVER, NET_NEVER};
static const struct map_row maps[] = {
    {ROW("offset"), {0, 3}, 5, 2, 2},
    {ROW("offset before the start"), {0, 3}, 1, 0, -1},
    {ROW("offset beyond the end"), {0, -2}, 9, 6, 5},
    {ROW("step met"), {steps, 0}, 2, 1, 2},
    {ROW("step between"), {steps, 0}, 3, 3, 2},
    {ROW("above all but never"), {steps, 0}, 6, 4, 3},
    {ROW("below all"), {steps, 0}, -1, 0, -1},
};

static void inverse_is(void **state)
{
    const struct map_row *r = *state;
    struct arena *arena = arena_make(0);
    struct network net;
    network_init(&net, arena, 5);
    check_int(&r->row, net_map_first(&net, r->map, r->value), r->first);
    check_int(&r->row, net_map_last(&net, r->map, r->value), r->last);
    check_int(&r->row, net_map_at(&net, r->map, 6), NET_NEVER);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(maps, inverse_is), CHECK_TEST(late_chain), CHECK_TEST(window_chain),
                     CHECK_TEST(floats));
}
