#include "solver/model/network.h"

#include <assert.h>

#include "base/arena.h"

void network_init(struct network *net, struct arena *arena, int32_t horizon)
{
    assert(horizon >= 0 && horizon < NET_NEVER / 4);
    *net = (struct network){.arena = arena, .horizon = horizon};
}

/* Makes room for one more and counts it; the caller fills the last place. */
#define ADD(net, items, count, room, value)                                                                  \
    do {                                                                                                     \
        (net)->items =                                                                                       \
            arena_grow((net)->arena, (net)->items, (net)->count, &(net)->room, sizeof *(net)->items);        \
        (net)->items[(net)->count++] = (value);                                                              \
    } while (0)

int net_add_calendar(struct network *net, struct net_calendar calendar)
{
    ADD(net, calendars, calendar_count, calendar_room, calendar);
    return (int)net->calendar_count - 1;
}

static void check_guard(const struct network *net, struct net_guard guard)
{
    assert(guard.flag == NET_NONE || (guard.flag >= 0 && guard.flag < net->flag_count));
    assert(guard.value == 0 || guard.value == 1);
}

static void check_operation(const struct network *net, int operation)
{
    assert(operation >= 0 && (size_t)operation < net->operation_count);
}

int net_add_operation(struct network *net, struct net_operation operation)
{
    assert(operation.duration >= 0 && operation.earliest >= 0 && operation.latest <= net->horizon);
    assert(operation.calendar == NET_NONE ||
           (operation.calendar >= 0 && (size_t)operation.calendar < net->calendar_count));
    check_guard(net, operation.presence);
    ADD(net, operations, operation_count, operation_room, operation);
    return (int)net->operation_count - 1;
}

int net_add_flag(struct network *net)
{
    return net->flag_count++;
}

int net_add_resource(struct network *net, struct net_resource resource)
{
    assert(resource.capacity >= 0);
    ADD(net, resources, resource_count, resource_room, resource);
    return (int)net->resource_count - 1;
}

void net_add_lag(struct network *net, struct net_lag lag)
{
    check_operation(net, lag.from);
    check_operation(net, lag.to);
    assert(lag.from != lag.to);
    check_guard(net, lag.guard);
    ADD(net, lags, lag_count, lag_room, lag);
}

void net_add_use(struct network *net, struct net_use use)
{
    check_operation(net, use.operation);
    assert(use.resource >= 0 && (size_t)use.resource < net->resource_count && use.amount >= 0 &&
           use.holder >= 0);
    for (size_t i = 0; use.holder > 0 && i < net->use_count; i++)
        assert(!net_same_holder(&net->uses[i], &use) || net->uses[i].amount == use.amount);
    ADD(net, uses, use_count, use_room, use);
}

bool net_same_holder(const struct net_use *a, const struct net_use *b)
{
    return a->holder > 0 && a->holder == b->holder && a->resource == b->resource;
}

void net_add_apart(struct network *net, struct net_apart apart)
{
    check_operation(net, apart.a);
    check_operation(net, apart.b);
    assert(apart.a != apart.b);
    ADD(net, aparts, apart_count, apart_room, apart);
}

void net_add_goal(struct network *net, struct net_goal goal)
{
    check_operation(net, goal.operation);
    ADD(net, goals, goal_count, goal_room, goal);
}

bool net_certain(const struct network *net, int operation)
{
    return net->operations[operation].presence.flag == NET_NONE;
}

bool net_present(const struct network *net, int operation, const unsigned char *flag)
{
    struct net_guard presence = net->operations[operation].presence;
    return net_certain(net, operation) || flag[presence.flag] == presence.value;
}

int32_t net_goal_value(const struct network *net, const struct net_goal *goal, const int32_t *start)
{
    return net_map_at(net, goal->map, start[goal->operation]) - goal->due;
}

int32_t net_map_at(const struct network *net, struct net_map map, int32_t t)
{
    if (t > net->horizon)
        return NET_NEVER;
    assert(t >= 0);
    return map.table ? map.table[t] : t + map.offset;
}

static int32_t clamp(int64_t t, int32_t low, int32_t high)
{
    return t < low ? low : t > high ? high : (int32_t)t;
}

int32_t net_map_first(const struct network *net, struct net_map map, int32_t value)
{
    if (!map.table)
        return clamp((int64_t)value - map.offset, 0, net->horizon + 1);
    int32_t low = 0, high = net->horizon + 1;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (map.table[middle] >= value)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

int32_t net_map_last(const struct network *net, struct net_map map, int32_t value)
{
    if (!map.table)
        return clamp((int64_t)value - map.offset, -1, net->horizon);
    return net_map_first(net, map, value + 1) - 1;
}
