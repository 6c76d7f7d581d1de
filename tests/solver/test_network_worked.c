/* The worked problems of the timetable's computation written as networks, to the slot. Each value was worked by hand
 * and confirmed by two other programs; the comment beside a check says what was expected where it is not plain. */
#include "net_shop.h"

#include "base/arena.h"
#include "net_verify.h"
#include "solver/improve/incumbent.h"

struct want {
    int count;
    int32_t start[6], value;
};

static void expect(const struct row *row, struct shop *shop, struct want want)
{
    struct net_result result;
    shop_solve(row, shop, &result);
    check_int(row, result.status, NET_PLANNED);
    for (int i = 0; i < want.count; i++)
        check_int(row, result.start[i], want.start[i]);
    check_int(row, result.value, want.value);
    shop_release(shop);
}

static void one_coat(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    shop_ready(&shop, shop_work(&shop, 60), 360);
    expect(HERE, &shop, (struct want){1, {at(MON, 8, 0)}, at(MON, 15, 0)});
}

static void two_coats(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 60), second = shop_work(&shop, 60);
    shop_lag(&shop, first, second, 600, -1);
    shop_ready(&shop, second, 0);
    expect(HERE, &shop, (struct want){2, {at(MON, 8, 0), at(TUE, 8, 0)}, at(TUE, 9, 0)});
}

static void window_over_night(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 60), second = shop_work(&shop, 60);
    shop_lag(&shop, first, second, 600, 1200);
    shop_ready(&shop, second, 0);
    expect(HERE, &shop, (struct want){2, {at(MON, 11, 0), at(TUE, 8, 0)}, at(TUE, 9, 0)});
}

static void window_too_short(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 60), second = shop_work(&shop, 60);
    shop_lag(&shop, first, second, 600, 840);
    shop_ready(&shop, second, 0);
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.status, NET_IMPOSSIBLE);
    shop_release(&shop);
}

/* The scuff (20 min) stands between the coats where the window is missed. */
static void window_missed_scuff(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 60), second = shop_work(&shop, 60), scuff = shop_work(&shop, 20);
    int flag = net_add_flag(&shop.net);
    struct net_guard missed = {flag, 1}, kept = {flag, 0};
    shop.net.operations[scuff].presence = missed;
    shop_lag(&shop, first, second, 600, -1);
    net_add_lag(&shop.net, (struct net_lag){first, second, true, net_after((60 + 840) / 5), kept, 20});
    shop_lag(&shop, first, scuff, 600, -1);
    shop_lag(&shop, scuff, second, 0, 0);
    shop_ready(&shop, second, 0);
    expect(HERE, &shop, (struct want){3, {at(MON, 8, 0), at(TUE, 8, 20), at(TUE, 8, 0)}, at(TUE, 9, 20)});
}

static void polish_window(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    for (int piece = 0; piece < 2; piece++) {
        int coat = shop_work(&shop, 60), polish = shop_work(&shop, 15);
        shop_lag(&shop, coat, polish, 10, 20);
        shop_ready(&shop, polish, 0);
    }
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, at(MON, 10, 50));
    check_int(HERE, result.start[0] + result.start[2], at(MON, 8, 0) + at(MON, 9, 25));
    check_int(HERE, result.start[1] + result.start[3], at(MON, 9, 10) + at(MON, 10, 35));
    shop_release(&shop);
}

static void flat_panel(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int back = shop_work(&shop, 30), flip = shop_work(&shop, 5), face = shop_work(&shop, 30);
    shop_lag(&shop, back, flip, 240, -1);
    shop_lag(&shop, flip, face, 0, -1);
    shop_ready(&shop, face, 240);
    expect(HERE, &shop, (struct want){3, {at(MON, 8, 0), at(MON, 12, 30), at(MON, 12, 35)}, at(MON, 17, 5)});
}

static void shared_room(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int coat = shop_work(&shop, 30), sand = shop_work(&shop, 60);
    net_add_disjunction(&shop.net,
                        (struct net_disjunction){coat, sand, net_after(150 / 5), net_after(60 / 5), 30});
    shop_ready(&shop, coat, 360);
    shop_ready(&shop, sand, 0);
    expect(HERE, &shop, (struct want){2, {at(MON, 8, 0), at(MON, 10, 30)}, at(MON, 14, 30)});
}

/* Reaction drying, 12 h at 23 C, by night at 13 C half as fast: units of half a slot of progress. */
static void cold_night(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int coat = shop_work(&shop, 120);
    int32_t *dry = ARENA_ARRAY(shop.net.arena, HORIZON + 1, int32_t);
    for (int32_t start = 0; start <= HORIZON; start++) {
        int32_t t = start + 24;
        for (int progress = 0; progress < 2 * 12 * HOUR; t++)
            progress += t % DAY >= 8 * HOUR && t % DAY < 18 * HOUR ? 2 : 1;
        dry[start] = t;
    }
    net_add_goal(&shop.net, (struct net_goal){coat, {dry, 0}, 0});
    expect(HERE, &shop, (struct want){1, {at(MON, 8, 0)}, at(TUE, 2, 0)});
}

static void small_rack(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int rack = net_add_resource(&shop.net, (struct net_resource){100, 2});
    for (int piece = 0; piece < 2; piece++) {
        int coat = shop_work(&shop, 60);
        net_add_use(&shop.net, (struct net_use){coat, rack, 60, net_after(420 / 5), 0, 0});
        shop_ready(&shop, coat, 360);
    }
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, at(MON, 22, 0));
    check_int(HERE, result.start[0] + result.start[1], at(MON, 8, 0) + at(MON, 15, 0));
    shop_release(&shop);
}

static void noon_break(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &week, 1, at(MON, 11, 30));
    int sand = shop_work(&shop, 60), apply = shop_work(&shop, 30);
    shop_lag(&shop, sand, apply, 0, -1);
    shop_ready(&shop, apply, 24 * 60);
    expect(HERE, &shop, (struct want){2, {at(MON, 13, 0), at(MON, 14, 0)}, at(TUE, 14, 30)});
}

static void nights(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &week, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 30), second = shop_work(&shop, 30), third = shop_work(&shop, 30);
    shop_lag(&shop, first, second, 240, -1);
    shop_lag(&shop, second, third, 240, -1);
    shop_ready(&shop, third, 48 * 60);
    expect(HERE, &shop, (struct want){3, {at(MON, 8, 0), at(MON, 13, 0), at(TUE, 8, 0)}, at(THU, 8, 30)});
}

static void weekend(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &week, 1, at(FRI, 13, 0));
    int first = shop_work(&shop, 60), second = shop_work(&shop, 60);
    shop_lag(&shop, first, second, 240, 1440);
    shop_ready(&shop, second, 720);
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.start[first], at(NEXT_MON, 8, 0));
    check_int(HERE, result.start[second], at(NEXT_MON, 13, 0));
    check_int(HERE, result.value, at(NEXT_MON + DAY, 2, 0));
    shop_release(&shop);
}

static void rack_of_two(void **state)
{
    (void)state;
    struct shop shop;
    struct net_result result;
    shop_init(&shop, &week, 1, at(MON, 8, 0));
    int rack = net_add_resource(&shop.net, (struct net_resource){2, 2});
    for (int piece = 0; piece < 3; piece++) {
        int coat = shop_work(&shop, 30);
        net_add_use(&shop.net, (struct net_use){coat, rack, 1, net_after(150 / 5), 0, 0});
        shop_ready(&shop, coat, 120);
    }
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, at(MON, 13, 0));
    shop.net.resources[rack].capacity = 3;
    shop_solve(HERE, &shop, &result);
    check_int(HERE, result.value, at(MON, 11, 30));
    shop_release(&shop);
}

static void dust(void **state)
{
    (void)state;
    for (int people = 1; people <= 2; people++) {
        struct shop shop;
        struct net_result result;
        shop_init(&shop, &week, people, at(MON, 8, 0));
        int a = shop_work(&shop, 30), sand = shop_work(&shop, 60), b = shop_work(&shop, 30);
        shop_lag(&shop, sand, b, 0, -1);
        net_add_disjunction(&shop.net,
                            (struct net_disjunction){a, sand, net_after(90 / 5), net_after(60 / 5), 30});
        shop_ready(&shop, a, 60);
        shop_ready(&shop, b, 60);
        shop_solve(HERE, &shop, &result);
        check_int(HERE, result.value, people == 1 ? at(MON, 11, 0) : at(MON, 10, 30));
        check_int(HERE, result.start[sand], at(MON, 8, 0));
        shop_release(&shop);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(one_coat), CHECK_TEST(two_coats), CHECK_TEST(window_over_night),
                     CHECK_TEST(window_too_short), CHECK_TEST(window_missed_scuff), CHECK_TEST(polish_window),
                     CHECK_TEST(flat_panel), CHECK_TEST(shared_room), CHECK_TEST(cold_night),
                     CHECK_TEST(small_rack), CHECK_TEST(noon_break), CHECK_TEST(nights), CHECK_TEST(weekend),
                     CHECK_TEST(rack_of_two), CHECK_TEST(dust));
}
