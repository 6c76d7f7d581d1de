#include "net_shop.h"

#include "base/arena.h"
#include "net_verify.h"

int32_t at(int day, int hour, int minute)
{
    return day + hour * HOUR + minute / 5;
}

const struct hours daily = {7, 1, {8}, {17}};
const struct hours week = {5, 2, {8, 13}, {12, 17}};

static bool fits(const struct hours *hours, int32_t start, int32_t duration)
{
    int32_t day = start / DAY, minute = start % DAY;
    for (int i = 0; i < hours->count; i++)
        if (day % 7 < hours->days && minute >= hours->from[i] * HOUR &&
            minute + duration <= hours->to[i] * HOUR)
            return true;
    return false;
}

static int add_hours(struct network *net, const struct hours *hours, int32_t duration)
{
    size_t size = (size_t)net->horizon + 1;
    int32_t *next = ARENA_ARRAY(net->arena, size, int32_t),
            *previous = ARENA_ARRAY(net->arena, size, int32_t);
    for (int32_t t = 0; t <= net->horizon; t++)
        previous[t] = fits(hours, t, duration) ? t : t > 0 ? previous[t - 1] : -1;
    for (int32_t t = net->horizon; t >= 0; t--)
        next[t] = fits(hours, t, duration) ? t : t < net->horizon ? next[t + 1] : NET_NEVER;
    return net_add_calendar(net, (struct net_calendar){next, previous});
}

void shop_init(struct shop *shop, const struct hours *hours, int people, int32_t free_from)
{
    network_init(&shop->net, arena_make(0), HORIZON);
    net_add_resource(&shop->net, (struct net_resource){people, 1});
    shop->hours = hours;
    shop->free_from = free_from;
}

void shop_release(struct shop *shop)
{
    arena_free(shop->net.arena);
}

int shop_work(struct shop *shop, int32_t minutes)
{
    struct net_operation o = {.duration = minutes / 5,
                              .calendar = add_hours(&shop->net, shop->hours, minutes / 5),
                              .earliest = shop->free_from,
                              .latest = HORIZON,
                              .presence = NET_ALWAYS};
    int operation = net_add_operation(&shop->net, o);
    net_add_use(&shop->net, (struct net_use){operation, 0, 1, net_after(minutes / 5), 0, 0});
    return operation;
}

void shop_lag(struct shop *shop, int from, int to, int low, int high)
{
    int32_t end = shop->net.operations[from].duration;
    net_add_lag(&shop->net,
                (struct net_lag){from, to, false, net_after(end + low / 5), NET_ALWAYS, 10 + from});
    if (high >= 0)
        net_add_lag(&shop->net,
                    (struct net_lag){from, to, true, net_after(end + high / 5), NET_ALWAYS, 20 + from});
}

void shop_ready(struct shop *shop, int operation, int minutes)
{
    int32_t end = shop->net.operations[operation].duration;
    net_add_goal(&shop->net, (struct net_goal){operation, net_after(end + minutes / 5), 0});
}

void shop_solve(const struct row *row, struct shop *shop, struct net_result *result)
{
    net_solve(&shop->net, (struct net_options){0}, result);
    net_verify(row, &shop->net, result);
    net_verify_left(row, &shop->net, result);
}
