#include "solver/model/own.h"

#include "base/arena.h"

static const int32_t NO_WAY = -NET_NEVER;

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
        return NO_WAY;
    if (!lag->map.table)
        return lag->map.offset;
    for (int32_t t = net->operations[lag->from].earliest; t <= net->operations[lag->from].latest; t++)
        if (lag->map.table[t] < NET_NEVER && lag->map.table[t] - t < least)
            least = lag->map.table[t] - t;
    return least == NET_NEVER ? NO_WAY : least;
}

/* Longest ways from one operation; a circle that gets longer and longer is left after as many rounds as operations. */
static void find_ways(const struct network *net, const int32_t *gap, int from, int32_t *way)
{
    bool changed = true;
    for (size_t i = 0; i < net->operation_count; i++)
        way[i] = NO_WAY;
    way[from] = 0;
    for (size_t round = 0; changed && round < net->operation_count; round++) {
        changed = false;
        for (size_t i = 0; i < net->lag_count; i++) {
            const struct net_lag *lag = &net->lags[i];
            if (gap[i] == NO_WAY || way[lag->from] == NO_WAY || way[lag->from] + gap[i] <= way[lag->to])
                continue;
            way[lag->to] = way[lag->from] + gap[i];
            changed = way[lag->to] < net->horizon || changed;
        }
    }
}

/* Takes what the ways from use k say of its mates; `ordered` gets those that surely begin after it. */
static void look_ahead(struct network *net, size_t k, const int32_t *way, unsigned char *ordered)
{
    struct net_use *use = &net->uses[k];
    use->own = net->horizon + 1;
    for (size_t j = 0; j < net->use_count; j++) {
        int32_t apart = way[net->uses[j].operation];
        if (j == k || !net_same_holder(use, &net->uses[j]) || apart < 0)
            continue;
        ordered[j] = 1;
        use->own = apart < use->own ? apart : use->own;
    }
}

void net_find_own(struct network *net)
{
    struct arena *arena = arena_make_within(net->arena, 0);
    int32_t *gap = ARENA_ARRAY(arena, net->lag_count, int32_t);
    int32_t *way = ARENA_ARRAY(arena, net->operation_count, int32_t);
    unsigned char **ordered = ARENA_ARRAY(arena, net->use_count, unsigned char *);
    for (size_t i = 0; i < net->lag_count; i++)
        gap[i] = least_gap(net, &net->lags[i]);
    for (size_t k = 0; k < net->use_count; k++)
        if (net->uses[k].holder > 0) {
            ordered[k] = ARENA_ARRAY(arena, net->use_count, unsigned char);
            find_ways(net, gap, net->uses[k].operation, way);
            look_ahead(net, k, way, ordered[k]);
        }
    for (size_t k = 0; k < net->use_count; k++)
        for (size_t j = 0; j < k; j++)
            if (net_same_holder(&net->uses[k], &net->uses[j]) && !ordered[k][j] && !ordered[j][k])
                net->uses[k].own = 0;
    arena_free_within(net->arena, arena);
}
