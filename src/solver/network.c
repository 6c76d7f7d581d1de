#include "solver/network.h"

#include <assert.h>

#include "base/arena.h"

void network_init(struct network *net, struct arena *arena, int32_t horizon)
{
    assert(horizon >= 0 && horizon < NET_NEVER / 4);
    *net = (struct network){.arena = arena, .horizon = horizon};
}

/* Makes a place for one more and counts it; the caller fills the last place. */
#define ADD(net, items, count, capacity, value)                                                              \
    do {                                                                                                     \
        (net)->items =                                                                                       \
            arena_grow((net)->arena, (net)->items, (net)->count, &(net)->capacity, sizeof *(net)->items);    \
        (net)->items[(net)->count++] = (value);                                                              \
    } while (0)

int net_add_calendar(struct network *net, struct net_calendar calendar)
{
    ADD(net, calendars, calendar_count, calendar_capacity, calendar);
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
    ADD(net, operations, operation_count, operation_capacity, operation);
    return (int)net->operation_count - 1;
}

int net_add_flag(struct network *net)
{
    return net->flag_count++;
}

int net_add_resource(struct network *net, struct net_resource resource)
{
    assert(resource.capacity >= 0);
    ADD(net, resources, resource_count, resource_capacity, resource);
    return (int)net->resource_count - 1;
}

void net_add_lag(struct network *net, struct net_lag lag)
{
    check_operation(net, lag.from);
    check_operation(net, lag.to);
    assert(lag.from != lag.to);
    check_guard(net, lag.guard);
    ADD(net, lags, lag_count, lag_capacity, lag);
}

void net_add_use(struct network *net, struct net_use use)
{
    check_operation(net, use.operation);
    assert(use.resource >= 0 && (size_t)use.resource < net->resource_count && use.amount >= 0 &&
           use.holder >= 0);
    for (size_t i = 0; use.holder > 0 && i < net->use_count; i++)
        assert(!net_same_holder(&net->uses[i], &use) || net->uses[i].amount == use.amount);
    ADD(net, uses, use_count, use_capacity, use);
}

bool net_same_holder(const struct net_use *a, const struct net_use *b)
{
    return a->holder > 0 && a->holder == b->holder && a->resource == b->resource;
}

void net_add_disjunction(struct network *net, struct net_disjunction pair)
{
    check_operation(net, pair.a);
    check_operation(net, pair.b);
    assert(pair.a != pair.b);
    ADD(net, disjunctions, disjunction_count, disjunction_capacity, pair);
}

void net_add_goal(struct network *net, struct net_goal goal)
{
    check_operation(net, goal.operation);
    ADD(net, goals, goal_count, goal_capacity, goal);
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

static const int32_t NO_PATH = -NET_NEVER;

static bool certain(const struct network *net, const struct net_lag *lag)
{
    return !lag->maximum && lag->guard.flag == NET_NONE && net_certain(net, lag->from) &&
           net_certain(net, lag->to);
}

/* The least that a lag keeps between two starts, whenever the first is. */
static int32_t least_gap(const struct network *net, const struct net_lag *lag)
{
    int32_t least = NET_NEVER;
    if (!certain(net, lag))
        return NO_PATH;
    if (!lag->map.table)
        return lag->map.offset;
    for (int32_t t = net->operations[lag->from].earliest; t <= net->operations[lag->from].latest; t++)
        if (lag->map.table[t] < NET_NEVER && lag->map.table[t] - t < least)
            least = lag->map.table[t] - t;
    return least == NET_NEVER ? NO_PATH : least;
}

/* Longest paths from one operation; a cycle that gets longer and longer is left after as many rounds as operations. */
static void longest_paths(const struct network *net, const int32_t *gap, int from, int32_t *path)
{
    bool changed = true;
    for (size_t i = 0; i < net->operation_count; i++)
        path[i] = NO_PATH;
    path[from] = 0;
    for (size_t round = 0; changed && round < net->operation_count; round++) {
        changed = false;
        for (size_t i = 0; i < net->lag_count; i++) {
            const struct net_lag *lag = &net->lags[i];
            if (gap[i] == NO_PATH || path[lag->from] == NO_PATH || path[lag->from] + gap[i] <= path[lag->to])
                continue;
            path[lag->to] = path[lag->from] + gap[i];
            changed = path[lag->to] <= net->horizon || changed;
        }
    }
}

/* Takes what the paths from use k say of the uses of the same holder; `ordered` gets those that surely begin after
 * it. */
static void note_exclusive(struct network *net, size_t k, const int32_t *path, unsigned char *ordered)
{
    struct net_use *use = &net->uses[k];
    use->exclusive = net->horizon + 1;
    for (size_t j = 0; j < net->use_count; j++) {
        int32_t pair = path[net->uses[j].operation];
        if (j == k || !net_same_holder(use, &net->uses[j]) || pair < 0)
            continue;
        ordered[j] = 1;
        use->exclusive = pair < use->exclusive ? pair : use->exclusive;
    }
}

void net_find_exclusive(struct network *net)
{
    struct arena *arena = arena_make_within(net->arena, 0);
    int32_t *gap = ARENA_ARRAY(arena, net->lag_count, int32_t);
    int32_t *path = ARENA_ARRAY(arena, net->operation_count, int32_t);
    unsigned char **ordered = ARENA_ARRAY(arena, net->use_count, unsigned char *);
    for (size_t i = 0; i < net->lag_count; i++)
        gap[i] = least_gap(net, &net->lags[i]);
    for (size_t k = 0; k < net->use_count; k++)
        if (net->uses[k].holder > 0) {
            ordered[k] = ARENA_ARRAY(arena, net->use_count, unsigned char);
            longest_paths(net, gap, net->uses[k].operation, path);
            note_exclusive(net, k, path, ordered[k]);
        }
    for (size_t k = 0; k < net->use_count; k++)
        for (size_t j = 0; j < k; j++)
            if (net_same_holder(&net->uses[k], &net->uses[j]) && !ordered[k][j] && !ordered[j][k])
                net->uses[k].exclusive = 0;
    arena_free_within(net->arena, arena);
}

int32_t net_next_start(const struct network *net, int calendar, int32_t t)
{
    return calendar == NET_NONE || t >= net->horizon ? t + 1 : net->calendars[calendar].next[t + 1];
}

bool net_window(const struct network *net, int operation, int32_t *low, int32_t *high)
{
    const struct net_operation *o = &net->operations[operation];
    *low = o->earliest;
    *high = o->latest;
    if (*low > *high)
        return false;
    if (o->calendar != NET_NONE) {
        *low = net->calendars[o->calendar].next[*low];
        *high = net->calendars[o->calendar].previous[*high];
    }
    return *low <= *high;
}

bool net_always_holds(const struct network *net, const struct net_use *use)
{
    int calendar = net->operations[use->operation].calendar;
    int32_t low, high;
    if (!net_window(net, use->operation, &low, &high))
        return false;
    for (int32_t t = low; t <= high; t = net_next_start(net, calendar, t))
        if (net_map_at(net, use->until, t) <= t)
            return false;
    return true;
}

/* Whether two uses exceed the capacity together, in the order in which the first comes. */
static bool exclude(const struct network *net, const struct net_use *a, const struct net_use *b)
{
    return a->resource == b->resource && a->operation != b->operation && !net_same_holder(a, b) &&
           a->amount + b->amount > net->resources[a->resource].capacity && net_always_holds(net, a) &&
           net_always_holds(net, b);
}

struct network net_with_pairs(const struct network *net, struct arena *arena)
{
    struct network copy = *net;
    copy.arena = arena;
    copy.disjunctions = NULL;
    copy.disjunction_count = copy.disjunction_capacity = 0;
    for (size_t i = 0; i < net->disjunction_count; i++)
        net_add_disjunction(&copy, net->disjunctions[i]);
    for (size_t i = 0; i < net->use_count; i++)
        for (size_t j = 0; j < i; j++) {
            const struct net_use *a = &net->uses[i], *b = &net->uses[j];
            if (exclude(net, a, b))
                net_add_disjunction(&copy,
                                    (struct net_disjunction){a->operation, b->operation, a->until, b->until,
                                                             net->resources[a->resource].rule});
        }
    return copy;
}

bool net_lag_holds(const struct network *net, const struct net_lag *lag, const unsigned char *flag)
{
    return net_present(net, lag->from, flag) && net_present(net, lag->to, flag) &&
           (lag->guard.flag == NET_NONE || flag[lag->guard.flag] == lag->guard.value);
}

bool net_first_of_pair(const struct network *net, const struct net_disjunction *pair, const int32_t *start)
{
    return net_map_at(net, pair->until_a, start[pair->a]) <= start[pair->b];
}

int32_t net_value(const struct network *net, const int32_t *start, const unsigned char *flag)
{
    int32_t value = net->goal_count ? -NET_NEVER / 2 : 0;
    bool sure = false;
    for (size_t i = 0; i < net->goal_count; i++) {
        const struct net_goal *goal = &net->goals[i];
        sure = sure || net_certain(net, goal->operation);
        if (!net_present(net, goal->operation, flag))
            continue;
        int32_t at = net_goal_value(net, goal, start);
        value = at > value ? at : value;
    }
    return !sure && value < 0 ? 0 : value;
}

struct net_index net_index_make(struct arena *arena, size_t keys, const struct net_index_pair *pairs,
                                size_t count)
{
    struct net_index index = {ARENA_ARRAY(arena, keys + 1, int32_t), ARENA_ARRAY(arena, count, int32_t)};
    for (size_t i = 0; i < count; i++)
        index.from[pairs[i].key]++;
    for (size_t k = 0; k < keys; k++)
        index.from[k + 1] += index.from[k];
    for (size_t i = count; i-- > 0;)
        index.list[--index.from[pairs[i].key]] = pairs[i].item;
    return index;
}

void net_by_start(const int32_t *start, size_t count, int *order)
{
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        for (; at > 0 && start[order[at - 1]] > start[i]; at--)
            order[at] = order[at - 1];
        order[at] = (int)i;
    }
}
