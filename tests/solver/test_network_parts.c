/* The parts of the search that only large networks need, each by itself: the bound by prices, and better plans near
 * one at hand. */
#include "net_shop.h"

#include "base/arena.h"
#include "net_brute.h"
#include "net_draw.h"
#include "net_verify.h"
#include "solver/bounds/destructive.h"
#include "solver/improve/neighbourhood.h"

enum { NETWORKS = 1000, MUCH = 1 << 24 };

/* The bound of plain propagation or by work, then by prices, below a plan of which only the value is known. */
struct bounds {
    int32_t before, multipliers;
};

/* What raises a bound; release it behind. */
struct raising {
    struct arena *arena;
    struct incumbent incumbent;
    struct model model;
    struct engine engine;
    struct destructive destructive;
};

/* False: there is no plan. */
static bool begin(struct raising *r, const struct network *net, struct net_result *result)
{
    r->arena = arena_make(0);
    r->incumbent = (struct incumbent){.net = net, .result = result};
    model_init(&r->model, net, r->arena, MODEL_MAXIMUM | MODEL_DISJUNCTIONS);
    edges_index(&r->model.edges);
    if (!engine_init(&r->engine, &r->model, r->arena))
        return false;
    result->bound = trail_low(&r->engine.trail, r->model.value);
    destructive_init(&r->destructive, &r->engine, &r->incumbent);
    return true;
}

static struct bounds raise(const struct network *net, struct net_result *result, bool work)
{
    struct raising r;
    struct bounds bounds = {0, 0};
    if (begin(&r, net, result)) {
        if (work)
            destructive_by_energy(&r.destructive);
        bounds.before = result->bound;
        destructive_by_multipliers(&r.destructive, MUCH);
        bounds.multipliers = result->bound;
    }
    arena_free(r.arena);
    return bounds;
}

/* By hand: one place on the rack, open 08:00-17:00, each coat of 30 minutes holds the place for 8 h. Every coat lies
 * there at 15:55 or at 16:25 of its day, so a day takes two: the fourth starts on Tuesday at 16:00. A count of rack
 * hours sees the night as room for a third. */
static void nights_are_no_room(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int rack = net_add_resource(&shop.net, (struct net_resource){1, NET_NONE});
    for (int i = 0; i < 4; i++) {
        int coat = shop_work(&shop, 30);
        net_add_use(&shop.net, (struct net_use){coat, rack, 1, net_after(8 * HOUR), 0, 0});
        shop_ready(&shop, coat, 0);
    }
    struct net_result result = {.status = NET_PLANNED, .value = at(THU, 12, 0)};
    struct bounds bounds = raise(&shop.net, &result, true);
    check_int(HERE, bounds.multipliers, at(TUE, 16, 30));
    check_true(HERE, bounds.before < bounds.multipliers, "work alone proves less");
    shop_release(&shop);
}

/* The same four coats in two pairs, of which the second coat stands in the list before the first: whatever the order of the list, what
 * the first costs counts as well, and no wait between them is longer than the rack makes it. */
static void a_later_coat_may_stand_first(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int rack = net_add_resource(&shop.net, (struct net_resource){1, NET_NONE}), coats[4];
    for (int i = 0; i < 4; i++) {
        coats[i] = shop_work(&shop, 30);
        net_add_use(&shop.net, (struct net_use){coats[i], rack, 1, net_after(8 * HOUR), 0, 0});
        shop_ready(&shop, coats[i], 0);
    }
    shop_lag(&shop, coats[1], coats[0], 0, -1);
    shop_lag(&shop, coats[3], coats[2], 0, -1);
    struct net_result result = {.status = NET_PLANNED, .value = at(THU, 12, 0)};
    struct bounds bounds = raise(&shop.net, &result, true);
    check_int(HERE, bounds.multipliers, at(TUE, 16, 30));
    shop_release(&shop);
}

/* Three coats of one piece: it lies on the only place once, however many of its films are wet. A count of rack hours of each coat
 * would have the second wait for the first to dry. */
static void one_thing_lies_there_once(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int rack = net_add_resource(&shop.net, (struct net_resource){1, NET_NONE});
    for (int i = 0; i < 3; i++) {
        int coat = shop_work(&shop, 30);
        net_add_use(&shop.net, (struct net_use){coat, rack, 1, net_after(8 * HOUR), 1, 0});
        shop_ready(&shop, coat, 0);
    }
    net_find_exclusive(&shop.net);
    struct net_result result = {.status = NET_PLANNED, .value = at(THU, 12, 0)};
    struct bounds bounds = raise(&shop.net, &result, true);
    check_int(HERE, bounds.before, at(MON, 9, 30));
    check_int(HERE, bounds.multipliers, at(MON, 9, 30));
    shop_release(&shop);
}

/* A second coat eight hours behind the first: while the ready moment is held below the plan at hand, the one is over before the
 * other may begin, and what is open between them counts for neither. */
static void far_apart_is_not_too_much(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int first = shop_work(&shop, 30), second = shop_work(&shop, 30);
    shop_lag(&shop, first, second, 8 * 60, -1);
    shop_ready(&shop, second, 0);
    struct net_result result = {.status = NET_PLANNED, .value = at(TUE, 8, 30)};
    struct bounds bounds = raise(&shop.net, &result, true);
    check_int(HERE, bounds.before, at(MON, 17, 0));
    check_int(HERE, bounds.multipliers, at(MON, 17, 0));
    shop_release(&shop);
}

/* No bound is above the best plan that trying everything finds. */
static void no_bound_is_above_the_best(void **state)
{
    (void)state;
    int sharp = 0, lifted = 0;
    for (int i = 0; i < NETWORKS; i++) {
        struct net_draw draw;
        net_draw(&draw, HERE, 90000 + (uint64_t)i);
        struct net_brute want = net_brute_solve(&draw.net);
        struct net_result result = {.status = NET_PLANNED, .value = want.value + 1 + i % 4};
        if (want.possible) {
            struct bounds bounds = raise(&draw.net, &result, false);
            check_true(&draw.row, bounds.multipliers <= want.value, "the bound is no greater than the best");
            struct net_result other = {.status = NET_PLANNED, .value = want.value + 1 + i % 4};
            check_true(&draw.row, raise(&draw.net, &other, true).before <= want.value, "nor is that by work");
            sharp += bounds.multipliers == want.value;
            lifted += bounds.multipliers > bounds.before;
        }
        net_draw_release(&draw);
    }
    check_true(HERE, sharp > NETWORKS / 4 && lifted > NETWORKS / 100,
               "bounds are sharp often, and prices destructive some");
}

/* A coat of an hour, there by choice, must begin at 10:00 or at 10:05. One of two places is taken from 10:00 to 10:30, and both from 14:00
 * on, or from 10:30 on. In the first case nobody knows yet whether the coat is there; in the second it is not. */
static void what_has_room_stays_open(void **state)
{
    (void)state;
    for (int meets = 0; meets < 2; meets++) {
        struct shop shop;
        struct raising r;
        struct net_result result = {.status = NET_PLANNED};
        int32_t from = at(MON, 10, 0), taken = meets ? at(MON, 10, 30) : at(MON, 14, 0);
        shop_init(&shop, &daily, 1, at(MON, 8, 0));
        int places = net_add_resource(&shop.net, (struct net_resource){2, NET_NONE});
        struct net_guard chosen = {net_add_flag(&shop.net), 0};
        int coat =
            net_add_operation(&shop.net, (struct net_operation){HOUR, NET_NONE, from, from + 1, chosen});
        int beside =
            net_add_operation(&shop.net, (struct net_operation){HOUR / 2, NET_NONE, from, from, NET_ALWAYS});
        int other =
            net_add_operation(&shop.net, (struct net_operation){HOUR, NET_NONE, taken, taken, NET_ALWAYS});
        net_add_use(&shop.net, (struct net_use){coat, places, 1, net_after(HOUR), 0, 0});
        net_add_use(&shop.net, (struct net_use){beside, places, 1, net_after(HOUR / 2), 0, 0});
        net_add_use(&shop.net, (struct net_use){other, places, 2, net_after(HOUR), 0, 0});
        check_true(HERE, begin(&r, &shop.net, &result) && engine_propagate(&r.engine), "nothing is refuted");
        check_int(HERE, trail_low(&r.engine.trail, r.model.first_flag), meets);
        check_int(HERE, trail_high(&r.engine.trail, r.model.first_flag), 1);
        arena_free(r.arena);
        shop_release(&shop);
    }
}

/* From 10:00 on one thing has the only place, for good: a coat of an hour begins by 09:00, whatever may be there besides by choice. */
static void what_is_held_for_good_is_held(void **state)
{
    (void)state;
    struct shop shop;
    struct raising r;
    struct net_result result = {.status = NET_PLANNED};
    int32_t opens = at(MON, 8, 0), held = at(MON, 10, 0);
    shop_init(&shop, &daily, 1, opens);
    int place = net_add_resource(&shop.net, (struct net_resource){1, NET_NONE});
    struct net_guard chosen = {net_add_flag(&shop.net), 0};
    int maybe = net_add_operation(&shop.net, (struct net_operation){HOUR, NET_NONE, opens, HORIZON, chosen});
    int thing = net_add_operation(&shop.net, (struct net_operation){HOUR, NET_NONE, held, held, NET_ALWAYS});
    int coat =
        net_add_operation(&shop.net, (struct net_operation){HOUR, NET_NONE, opens, HORIZON, NET_ALWAYS});
    net_add_use(&shop.net, (struct net_use){maybe, place, 1, net_after(HOUR), 0, 0});
    net_add_use(&shop.net, (struct net_use){thing, place, 1, net_after(NET_NEVER), 0, 0});
    net_add_use(&shop.net, (struct net_use){coat, place, 1, net_after(HOUR), 0, 0});
    check_true(HERE, begin(&r, &shop.net, &result) && engine_propagate(&r.engine), "nothing is refuted");
    check_int(HERE, trail_low(&r.engine.trail, coat), opens);
    check_int(HERE, trail_high(&r.engine.trail, coat), at(MON, 9, 0));
    arena_free(r.arena);
    shop_release(&shop);
}

/* Three rows of two: one machine is for the first works, another for the second ones, each of which takes a slot. Two rows wait for
 * nine slots in between, and the third for seven. Were all over behind slot 10, the first works of the two would have slots 0 and 1
 * and the second ones 9 and 10: the third begins in slot 2 and its second work in 9, where there is no room. Each wait by itself, and
 * the work in all, leave room for that; prices see it only with the third wait, wherever it stands in the list. */
static void every_wait_has_its_price(void **state)
{
    (void)state;
    for (int third = 0; third < 3; third++) {
        struct arena *arena = arena_make(0);
        struct network net;
        struct net_result result = {.status = NET_PLANNED, .value = 20};
        network_init(&net, arena, 30);
        for (int machine = 0; machine < 2; machine++)
            net_add_resource(&net, (struct net_resource){1, NET_NONE});
        for (int row = 0; row < 3; row++) {
            int work[2];
            for (int machine = 0; machine < 2; machine++) {
                work[machine] =
                    net_add_operation(&net, (struct net_operation){1, NET_NONE, 0, 30, NET_ALWAYS});
                net_add_use(&net, (struct net_use){work[machine], machine, 1, net_after(1), 0, 0});
            }
            net_add_lag(&net, (struct net_lag){work[0], work[1], false, net_after(row == third ? 7 : 9),
                                               NET_ALWAYS, NET_NONE});
            net_add_goal(&net, (struct net_goal){work[1], net_after(1), 0});
        }
        struct bounds bounds = raise(&net, &result, true);
        check_true(HERE, bounds.before < bounds.multipliers, "the work alone proves less");
        check_int(HERE, bounds.multipliers, 12);
        arena_free(arena);
    }
}

/* Two million starts are listed: twenty operations that may begin in any of 100000 slots. With one more slot there are too many. */
static void so_many_starts_are_listed(void **state)
{
    (void)state;
    for (int32_t more = 0; more < 2; more++) {
        struct arena *arena = arena_make(0);
        struct network net;
        struct raising r;
        struct lagrangian lagrangian;
        struct net_result result = {.status = NET_PLANNED};
        network_init(&net, arena, 99999 + more);
        for (int i = 0; i < 20; i++)
            net_add_operation(&net, (struct net_operation){1, NET_NONE, 0, net.horizon, NET_ALWAYS});
        check_true(HERE, begin(&r, &net, &result), "nothing is refuted");
        lagrangian_init(&lagrangian, &r.engine.profiles, &r.engine.trail, r.arena);
        check_int(HERE, (intmax_t)lagrangian.count, more ? 0 : 20);
        arena_free(r.arena);
        arena_free(arena);
    }
}

/* What needs nothing of the one place costs no part of it, and still none where the count of the best cost starts over. */
static void what_needs_nothing_costs_nothing(void **state)
{
    (void)state;
    struct arena *arena = arena_make(0);
    struct network net;
    struct raising r;
    struct lagrangian lagrangian;
    struct net_result result = {.status = NET_PLANNED};
    network_init(&net, arena, 30);
    net_add_resource(&net, (struct net_resource){1, NET_NONE});
    net_add_operation(&net, (struct net_operation){1, NET_NONE, 0, 30, NET_ALWAYS});
    check_true(HERE, begin(&r, &net, &result), "nothing is refuted");
    lagrangian_init(&lagrangian, &r.engine.profiles, &r.engine.trail, r.arena);
    for (int windows = 0; windows < 2; windows++) {
        check_true(HERE, !lagrangian_refutes(&lagrangian, &r.engine.trail), "nothing is too dear");
        check_int(HERE, lagrangian.best, 0);
        lagrangian_restart(&lagrangian);
    }
    arena_free(r.arena);
    arena_free(arena);
}

/* A coat that can be ready at 08:30, of which a plan for 08:30 on the next day is known: prices try the value halfway, 20:30, and go on
 * with it when they are asked again. A plan for 16:30 is found elsewhere: then the value halfway is 12:30. Four starts that are looked at,
 * or four slots in which a price moves, are one unit of work. */
static void prices_go_on_halfway(void **state)
{
    (void)state;
    struct shop shop;
    struct raising r;
    struct net_result result = {.status = NET_PLANNED};
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    shop_ready(&shop, shop_work(&shop, 30), 0);
    check_true(HERE, begin(&r, &shop.net, &result), "nothing is refuted");
    const int32_t values[] = {at(TUE, 8, 30), at(TUE, 8, 30), at(MON, 16, 30)};
    const int32_t targets[] = {at(MON, 20, 30), at(MON, 20, 30), at(MON, 12, 30)};
    static const int64_t steps[] = {1, 2, 1};
    /* 103 starts from 08:00 until 16:30, or 49 until 12:00; 204 slots until the last coat is through at 17:00. */
    static const int64_t work[] = {26 + 51, 2 * (26 + 51), 2 * (26 + 51) + 13 + 51};
    for (int i = 0; i < 3; i++) {
        result.value = values[i];
        destructive_by_multipliers(&r.destructive, 1);
        check_int(HERE, r.destructive.target, targets[i]);
        check_int(HERE, r.destructive.lagrangian.steps, steps[i]);
        check_int(HERE, r.destructive.lagrangian.work, work[i]);
        /* At first every slot costs the same: six of 204 are 29 thousandths. */
        check_true(HERE, r.destructive.lagrangian.best == 29 || i > 0, "the cost of the coat");
    }
    arena_free(r.arena);
    shop_release(&shop);
}

/* Dust: A is coated at 08:00, so B must not be sanded before 09:30 and is ready at 12:00 in a plan that
 * starts with A; sanding B first gives 11:00. Everything is loose here, so a try that asks for a smaller value finds it. */
static void finds_the_better_order(void **state)
{
    (void)state;
    struct shop shop;
    shop_init(&shop, &daily, 1, at(MON, 8, 0));
    int a = shop_work(&shop, 30), sand = shop_work(&shop, 60), b = shop_work(&shop, 30);
    shop_lag(&shop, sand, b, 0, -1);
    shop_ready(&shop, a, 60);
    shop_ready(&shop, b, 60);
    net_add_disjunction(&shop.net, (struct net_disjunction){a, sand, net_after(18), net_after(12), NET_NONE});
    int32_t start[] = {at(MON, 8, 0), at(MON, 9, 30), at(MON, 10, 30)};
    unsigned char flag[1] = {0};
    struct net_result result = {.status = NET_PLANNED, .start = start, .flag = flag, .value = at(MON, 12, 0)};
    struct incumbent incumbent = {.net = &shop.net, .result = &result};
    struct neighbourhood neighbourhood;
    int64_t used = 0;
    neighbourhood_init(&neighbourhood, &incumbent, shop.net.arena);
    for (int try = 0; try < 10 && result.value > at(MON, 11, 0); try++)
        neighbourhood_try(&neighbourhood, MUCH, &used);
    check_int(HERE, result.value, at(MON, 11, 0));
    check_true(HERE, used > 0, "its work is counted");
    net_verify(HERE, &shop.net, &result);
    shop_release(&shop);
}

/* From first plans on, whatever neighbourhoods find is a plan, and no try makes it worse. */
static void stays_a_plan(void **state)
{
    (void)state;
    int better = 0;
    for (int i = 0; i < NETWORKS; i++) {
        struct net_draw draw;
        struct net_result result;
        net_draw(&draw, HERE, 70000 + (uint64_t)i);
        net_solve(&draw.net, (struct net_options){1}, &result);
        struct incumbent incumbent = {.net = &draw.net, .result = &result};
        struct neighbourhood neighbourhood;
        neighbourhood_init(&neighbourhood, &incumbent, draw.arena);
        neighbourhood.size = 3 * NEIGHBOURHOOD_PARTS;
        for (int try = 0; try < 8 && incumbent_found(&incumbent); try++) {
            int64_t used = 0;
            int32_t before = result.value;
            better += neighbourhood_try(&neighbourhood, MUCH, &used);
            check_true(&draw.row, result.value <= before, "not worse");
            result.proven = result.value == result.bound;
            net_verify(&draw.row, &draw.net, &result);
        }
        net_draw_release(&draw);
    }
    check_true(HERE, better > NETWORKS / 50, "some first plans are bettered");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(nights_are_no_room), CHECK_TEST(a_later_coat_may_stand_first),
                     CHECK_TEST(one_thing_lies_there_once), CHECK_TEST(far_apart_is_not_too_much),
                     CHECK_TEST(no_bound_is_above_the_best), CHECK_TEST(what_has_room_stays_open),
                     CHECK_TEST(what_is_held_for_good_is_held), CHECK_TEST(every_wait_has_its_price),
                     CHECK_TEST(so_many_starts_are_listed), CHECK_TEST(what_needs_nothing_costs_nothing),
                     CHECK_TEST(prices_go_on_halfway), CHECK_TEST(finds_the_better_order),
                     CHECK_TEST(stays_a_plan));
}
