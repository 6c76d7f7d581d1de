#include "net_draw.h"

#include <stdio.h>

#include "base/arena.h"
#include "solver/network.h"

static struct net_calendar random_calendar(struct arena *arena, int32_t horizon, uint64_t *seed)
{
    unsigned char open[NET_DRAW_SLOTS + 2];
    for (int32_t t = 0; t <= horizon; t++)
        open[t] = 1;
    for (int holes = check_random_int(seed, 0, 3); holes > 0; holes--) {
        int32_t at = check_random_int(seed, 0, horizon);
        for (int32_t t = at; t <= horizon && t <= at + check_random_int(seed, 0, 3); t++)
            open[t] = 0;
    }
    int32_t *next = ARENA_ARRAY(arena, (size_t)horizon + 1, int32_t);
    int32_t *previous = ARENA_ARRAY(arena, (size_t)horizon + 1, int32_t);
    for (int32_t t = 0; t <= horizon; t++)
        previous[t] = open[t] ? t : t > 0 ? previous[t - 1] : -1;
    for (int32_t t = horizon; t >= 0; t--)
        next[t] = open[t] ? t : t < horizon ? next[t + 1] : NET_NEVER;
    return (struct net_calendar){next, previous};
}

static struct net_map random_map(struct network *net, int low, int high, uint64_t *seed)
{
    if (check_random_int(seed, 0, 2))
        return net_after(check_random_int(seed, low, high));
    int32_t *table = ARENA_ARRAY(net->arena, (size_t)net->horizon + 1, int32_t);
    int32_t at = check_random_int(seed, low, high);
    for (int32_t t = 0; t <= net->horizon; t++) {
        at += check_random_int(seed, 0, 2);
        table[t] = at < t + low ? t + low : at;
        at = table[t];
    }
    if (!check_random_int(seed, 0, 3))
        for (int32_t t = net->horizon - check_random_int(seed, 0, 4); t <= net->horizon; t++)
            if (t >= 0)
                table[t] = NET_NEVER;
    return (struct net_map){table, 0};
}

static struct net_guard random_guard(const struct network *net, int odds, uint64_t *seed)
{
    if (!net->flag_count || check_random_int(seed, 0, odds))
        return NET_ALWAYS;
    int flag = check_random_int(seed, 0, net->flag_count - 1), value = check_random_int(seed, 0, 1);
    return (struct net_guard){flag, value};
}

static void random_operations(struct network *net, uint64_t *seed)
{
    for (int count = check_random_int(seed, 1, NET_DRAW_OPERATIONS); count > 0; count--) {
        bool late = !check_random_int(seed, 0, 4), early = !check_random_int(seed, 0, 5);
        struct net_operation o = {.duration = check_random_int(seed, 0, 4), .latest = net->horizon};
        o.calendar = check_random_int(seed, -1, (int)net->calendar_count - 1);
        o.earliest = late ? check_random_int(seed, 0, 5) : 0;
        o.latest = early ? check_random_int(seed, 0, net->horizon) : net->horizon;
        o.presence = random_guard(net, 5, seed);
        net_add_operation(net, o);
    }
}

static void random_lags(struct network *net, uint64_t *seed)
{
    int count = (int)net->operation_count;
    for (int lags = count > 1 ? check_random_int(seed, 0, 2 * count) : 0; lags > 0; lags--) {
        int from = check_random_int(seed, 0, count - 1), to = check_random_int(seed, 0, count - 1);
        if (from == to)
            continue;
        bool maximum = !check_random_int(seed, 0, 2);
        if (!maximum && from > to && check_random_int(seed, 0, 4)) {
            int swap = from;
            from = to;
            to = swap;
        }
        struct net_map map = random_map(net, maximum ? -1 : -3, maximum ? 6 : 4, seed);
        struct net_guard guard = random_guard(net, 1, seed);
        net_add_lag(net, (struct net_lag){from, to, maximum, map, guard, lags});
    }
}

/* Some uses are of one thing, all with the amount of its first. */
static int random_holder(const struct network *net, int resource, int32_t *amount, uint64_t *seed)
{
    int holder = check_random_int(seed, -1, 2);
    if (holder > 0)
        *amount = check_random_int(seed, 1, net->resources[resource].capacity);
    for (size_t i = 0; i < net->use_count && holder > 0; i++)
        if (net->uses[i].resource == resource && net->uses[i].holder == holder)
            *amount = net->uses[i].amount;
    return holder > 0 ? holder : 0;
}

static void random_uses(struct network *net, uint64_t *seed)
{
    for (int r = check_random_int(seed, 0, 2); r > 0; r--) {
        int resource = net_add_resource(net, (struct net_resource){check_random_int(seed, 1, 3), 100 + r});
        bool things = !check_random_int(seed, 0, 2);
        for (size_t i = 0; i < net->operation_count; i++) {
            if (!check_random_int(seed, 0, 3))
                continue;
            int32_t amount = check_random_int(seed, 0, 2);
            int holder = things ? random_holder(net, resource, &amount, seed) : 0;
            struct net_map until = check_random_int(seed, 0, 2) ? net_after(net->operations[i].duration)
                                                                : random_map(net, 0, 3, seed);
            net_add_use(net, (struct net_use){(int)i, resource, amount, until, holder, 0});
        }
    }
}

static void random_pairs(struct network *net, uint64_t *seed)
{
    int count = (int)net->operation_count;
    for (int pairs = check_random_int(seed, 0, 3); pairs > 0; pairs--) {
        int a = check_random_int(seed, 0, count - 1), b = check_random_int(seed, 0, count - 1);
        if (a == b)
            continue;
        struct net_map until_a = random_map(net, 0, 3, seed), until_b = random_map(net, 0, 3, seed);
        net_add_disjunction(net, (struct net_disjunction){a, b, until_a, until_b, 200 + pairs});
    }
    for (int goals = check_random_int(seed, 0, 4); goals > 0; goals--) {
        int last = check_random_int(seed, 0, count - 1);
        struct net_map map = random_map(net, 0, 6, seed);
        int32_t due = check_random_int(seed, 0, 9);
        net_add_goal(net, (struct net_goal){last, map, due});
    }
}

void net_random(struct network *net, struct arena *arena, uint64_t *seed)
{
    network_init(net, arena, check_random_int(seed, 4, NET_DRAW_SLOTS));
    for (int calendars = check_random_int(seed, 0, 2); calendars > 0; calendars--)
        net_add_calendar(net, random_calendar(arena, net->horizon, seed));
    for (int flags = check_random_int(seed, 0, NET_DRAW_FLAGS); flags > 0; flags--)
        net_add_flag(net);
    random_operations(net, seed);
    random_lags(net, seed);
    random_uses(net, seed);
    net_find_exclusive(net);
    random_pairs(net, seed);
}

void net_draw(struct net_draw *draw, const struct row *where, uint64_t seed)
{
    snprintf(draw->name, sizeof draw->name, "seed %llu", (unsigned long long)seed);
    draw->row = (struct row){draw->name, where->file, where->line};
    draw->arena = arena_make(0);
    net_random(&draw->net, draw->arena, &seed);
}

void net_draw_release(struct net_draw *draw)
{
    arena_free(draw->arena);
}
