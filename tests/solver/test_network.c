/* The network's own building blocks: maps; and a value that is late. */
#include "net_shop.h"

#include "base/arena.h"

/* Late: cured Sat 09:30 for a delivery on Fri 17:00; each coat waits 24 h for the one before. */
static void late(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &week, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 30), second = shop_work(&shop, 30), third = shop_work(&shop, 30);
    shop_lag(&shop, first, second, 1440, -1);
    shop_lag(&shop, second, third, 1440, -1);
    shop_ready(&shop, third, 72 * 60);
    shop.net.goals[0].due = at(FRI, 17, 0);
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, 16 * HOUR + 6);
    check_true(HERE, result.proven, "proven");
    shop_release(&shop);
}

/* Forty pairs of 4 h, the second of each within 6 h of the first, for one person of 8 h a day and nine days: no more than 18 fit,
 * and pairs are unscheduled again and again. What is counted ends soon after the effort allowed. */
static void effort_ends(void **state)
{
    (void)state;
    enum { PAIRS = 40, EFFORT = 20000 };
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    for (int i = 0; i < PAIRS; i++) {
        int first = shop_work(&shop, 240), second = shop_work(&shop, 240);
        shop_lag(&shop, first, second, 0, 360);
    }
    net_solve(&shop.net, (struct net_options){EFFORT}, &result);
    check_true(HERE, result.status != NET_PLANNED, "no plan");
    check_true(HERE, result.effort < 2 * EFFORT, "effort");
    shop_release(&shop);
}

/* A goes first by its number, and then B, which may begin at most two slots after it, has no place beside its five: the first plan
 * moves A behind B. */
static void what_is_in_the_way_is_moved(void **state)
{
    (void)state;
    struct network net;
    struct net_result result;
    struct arena *arena = arena_make(0);
    network_init(&net, arena, 20);
    int person = net_add_resource(&net, (struct net_resource){1, NET_NONE});
    for (int i = 0; i < 2; i++) {
        int operation =
            net_add_operation(&net, (struct net_operation){5, NET_NONE, 0, net.horizon, NET_ALWAYS});
        net_add_use(&net, (struct net_use){operation, person, 1, net_after(5), 0, 0});
    }
    net_add_lag(&net, (struct net_lag){0, 1, true, net_after(2), NET_ALWAYS, NET_NONE});
    net_solve(&net, (struct net_options){1}, &result);
    check_int(HERE, result.status, NET_PLANNED);
    check_int(HERE, result.start[1], 0);
    check_int(HERE, result.start[0], 5);
    arena_free(arena);
}

/* B waits for A while the flag is 0, which is tried first. A has no goal and no haste; C may begin at 09:00 at the latest for the ready
 * moment of 10:00 that B asks for at least. So the first plan takes C, then A, and B behind A, however urgent B is. */
static void what_waits_is_placed_later(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int a = shop_work(&shop, 60), b = shop_work(&shop, 60), c = shop_work(&shop, 60);
    struct net_guard kept = {net_add_flag(&shop.net), 0};
    net_add_lag(&shop.net, (struct net_lag){a, b, false, net_after(HOUR), kept, NET_NONE});
    shop_ready(&shop, b, 60);
    shop_ready(&shop, c, 0);
    net_solve(&shop.net, (struct net_options){1}, &result);
    check_int(HERE, result.status, NET_PLANNED);
    check_int(HERE, result.start[c], at(MON, 8, 0));
    check_int(HERE, result.start[a], at(MON, 9, 0));
    check_int(HERE, result.start[b], at(MON, 10, 0));
    shop_release(&shop);
}

/* One of two operations is there, by a flag; neither has a start: the first no day is long enough for, the other must begin before it may.
 * Each rules out one value. */
static void neither_can_be_there(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int flag = net_add_flag(&shop.net);
    int first = shop_work(&shop, 10 * 60), second = shop_work(&shop, 60);
    shop.net.operations[first].presence = (struct net_guard){flag, 0};
    shop.net.operations[second].presence = (struct net_guard){flag, 1};
    net_solve(&shop.net, (struct net_options){0}, &result);
    check_int(HERE, result.status, NET_PLANNED);
    check_int(HERE, result.flag[flag], 1);
    shop.net.operations[second].latest = at(MON, 7, 0);
    net_solve(&shop.net, (struct net_options){0}, &result);
    check_int(HERE, result.status, NET_IMPOSSIBLE);
    shop_release(&shop);
}

enum { LAST_SLOT = 9 };

/* Of a chain of operations the first and the last lie at one place: how many slots the first has it to itself. */
struct alone_row {
    struct row row;
    struct net_map first, second; /* lags from one to the next */
    int32_t want;
};

/* After 0, 1, 2, 3 and 4 slots the next may begin 4, 3, 2, 3 and 3 later, and then never. */
static const int32_t nearest_in_the_middle[] = {4,         4,         4,         6,         7,
                                                NET_NEVER, NET_NEVER, NET_NEVER, NET_NEVER, NET_NEVER};
static const struct alone_row alones[] = {
    {ROW("both lags together"), {0, 3}, {0, 4}, 7},
    {ROW("the least of a table"), {nearest_in_the_middle, 0}, {0, 0}, 2},
    {ROW("the last slot is one"), {0, LAST_SLOT}, {0, 0}, LAST_SLOT},
    {ROW("none begins behind it"), {0, LAST_SLOT}, {0, 1}, LAST_SLOT + 1},
};

/* The later lag is told first, so that the way is found in two rounds. */
static void is_alone(void **state)
{
    const struct alone_row *r = *state;
    struct arena *arena = arena_make(0);
    struct network net;
    network_init(&net, arena, LAST_SLOT);
    int place = net_add_resource(&net, (struct net_resource){1, NET_NONE});
    for (int i = 0; i < 3; i++)
        net_add_operation(&net, (struct net_operation){1, NET_NONE, 0, LAST_SLOT, NET_ALWAYS});
    net_add_lag(&net, (struct net_lag){1, 2, false, r->second, NET_ALWAYS, NET_NONE});
    net_add_lag(&net, (struct net_lag){0, 1, false, r->first, NET_ALWAYS, NET_NONE});
    net_add_use(&net, (struct net_use){0, place, 1, net_after(LAST_SLOT), 1, 0});
    net_add_use(&net, (struct net_use){2, place, 1, net_after(LAST_SLOT), 1, 0});
    net_find_exclusive(&net);
    check_int(&r->row, net.uses[0].exclusive, r->want);
    check_int(&r->row, net.uses[1].exclusive, LAST_SLOT + 1);
    arena_free(arena);
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
    return CHECK_ALL(CHECK_ROWS(maps, inverse_is), CHECK_ROWS(alones, is_alone), CHECK_TEST(late),
                     CHECK_TEST(effort_ends), CHECK_TEST(what_is_in_the_way_is_moved),
                     CHECK_TEST(what_waits_is_placed_later), CHECK_TEST(neither_can_be_there));
}
