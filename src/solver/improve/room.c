#include "solver/improve/room.h"

static bool guarded_off(const struct usage *usage, const struct net_lag *lag)
{
    if (!usage_present(usage, lag->from) || !usage_present(usage, lag->to))
        return true;
    return lag->guard.flag != NET_NONE && usage->flag[lag->guard.flag] != lag->guard.value;
}

static void raise(int32_t *low, int32_t value)
{
    if (value > *low)
        *low = value;
}

static void lower(int32_t *high, int32_t value)
{
    if (value < *high)
        *high = value;
}

static void lag_room(const struct usage *usage, const struct net_lag *lag, int operation, int32_t *low,
                     int32_t *high)
{
    const struct network *net = usage->net;
    int32_t from = usage->start[lag->from], to = usage->start[lag->to];
    if (lag->to == operation && lag->maximum)
        lower(high, net_map_at(net, lag->map, from));
    else if (lag->to == operation)
        raise(low, net_map_at(net, lag->map, from));
    else if (lag->maximum)
        raise(low, net_map_first(net, lag->map, to));
    else
        lower(high, net_map_last(net, lag->map, to));
}

void room_among(const struct usage *usage, int operation, int32_t most, int32_t *low, int32_t *high)
{
    const struct network *net = usage->net;
    *low = net->operations[operation].earliest;
    *high = net->operations[operation].latest;
    for (size_t i = 0; i < net->lag_count; i++) {
        const struct net_lag *lag = &net->lags[i];
        if ((lag->from == operation || lag->to == operation) && !guarded_off(usage, lag))
            lag_room(usage, lag, operation, low, high);
    }
    for (size_t i = 0; i < net->goal_count; i++)
        if (net->goals[i].operation == operation)
            lower(high, net_map_last(net, net->goals[i].map, most + net->goals[i].due));
}
