#include "solver/bounds/seekers.h"

#include <string.h>

#include "base/arena.h"

enum { STARTS_MOST = 2000000 };

static bool may_bind(const struct model *model, const struct net_lag *lag)
{
    return !lag->maximum && lag->guard.flag == NET_NONE && model_rule(model, lag->rule).bound < 0 &&
           net_certain(model->net, lag->from) && net_certain(model->net, lag->to);
}

/* Per operation the lag out of it that asks for most, so that no circle closes; NET_NONE: none. */
static void pick_lags(const struct model *model, const struct trail *trail, int *out)
{
    const struct network *net = model->net;
    for (size_t i = 0; i < net->operation_count; i++)
        out[i] = NET_NONE;
    for (size_t i = 0; i < net->lag_count; i++) {
        const struct net_lag *lag = &net->lags[i];
        int32_t low = trail_low(trail, lag->from);
        int other = out[lag->from];
        if (!may_bind(model, lag) || (other != NET_NONE && net_map_at(net, net->lags[other].map, low) >=
                                                               net_map_at(net, lag->map, low)))
            continue;
        int end = lag->to;
        while (end != lag->from && out[end] != NET_NONE)
            end = net->lags[out[end]].to;
        if (end != lag->from)
            out[lag->from] = (int)i;
    }
}

static int32_t next_start(const struct net_calendar *calendar, int32_t t)
{
    return calendar ? calendar->next[t] : t;
}

static int32_t count_starts(const struct profiles *profiles, const struct trail *trail, int operation)
{
    const struct net_calendar *calendar = profiles->model->edges.calendars[operation];
    int32_t high = trail_high(trail, operation), count = 0;
    for (int32_t t = trail_low(trail, operation); t <= high; count++)
        t = t < high ? next_start(calendar, t + 1) : high + 1;
    return count;
}

static void list_starts(const struct profiles *profiles, const struct trail *trail, struct seeker *seeker,
                        struct arena *arena)
{
    const struct net_calendar *calendar = profiles->model->edges.calendars[seeker->operation];
    int32_t count = count_starts(profiles, trail, seeker->operation), t = trail_low(trail, seeker->operation);
    int32_t *starts = ARENA_ARRAY(arena, (size_t)count, int32_t);
    for (int32_t k = 0; k < count; k++) {
        starts[k] = t;
        t = k + 1 < count ? next_start(calendar, t + 1) : t;
    }
    seeker->starts = starts;
    seeker->count = count;
    seeker->before = ARENA_ARRAY(arena, (size_t)count, int64_t);
    seeker->least = ARENA_ARRAY(arena, (size_t)count, int64_t);
    seeker->cheapest = ARENA_ARRAY(arena, (size_t)count, int32_t);
}

int32_t share_end(const struct seekers *seekers, const struct share *share, int32_t start)
{
    int32_t end = net_map_at(seekers->net, share->until, start), most = seekers->net->horizon + 1;
    end = end - start > share->own ? start + share->own : end;
    return end < start ? start : end < most ? end : most;
}

static void add_shares(struct seekers *seekers, const struct profiles *profiles, struct seeker *seeker,
                       struct arena *arena)
{
    const struct network *net = seekers->net;
    int32_t latest = seeker->starts[seeker->count - 1];
    seeker->shares = ARENA_ARRAY(arena, net->resource_count, struct share);
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *use = &net->uses[i];
        const struct profile *profile = &profiles->items[use->resource];
        if (use->operation != seeker->operation || profile->capacity == 0 || profile->selector.bound >= 0)
            continue;
        struct share share = {use->resource, (int64_t)use->amount * SHARE_WHOLE / profile->capacity,
                              use->until, use->holder > 0 ? use->own : NET_NEVER};
        int32_t end = share_end(seekers, &share, latest);
        seekers->span = end > seekers->span ? end : seekers->span;
        seeker->shares[seeker->share_count++] = share;
    }
}

static int depth_of(const struct network *net, const int *out, int operation)
{
    int depth = 0;
    for (; out[operation] != NET_NONE; operation = net->lags[out[operation]].to)
        depth++;
    return depth;
}

/* Those with the longest way to go first; `place` becomes the seeker of each operation. */
static void add_seekers(struct seekers *seekers, const int *out, int *place, struct arena *arena)
{
    const struct network *net = seekers->net;
    size_t left = 0;
    for (size_t i = 0; i < net->operation_count; i++)
        left += net_certain(net, (int)i);
    seekers->items = ARENA_ARRAY(arena, left, struct seeker);
    for (int depth = (int)net->operation_count; depth >= 0 && seekers->count < left; depth--)
        for (size_t i = 0; i < net->operation_count; i++)
            if (net_certain(net, (int)i) && depth_of(net, out, (int)i) == depth) {
                place[i] = (int)seekers->count;
                seekers->items[seekers->count++] = (struct seeker){.operation = (int)i, .next = NET_NONE};
            }
}

static void add_link(struct seekers *seekers, struct seeker *from, const struct net_lag *lag,
                     struct arena *arena)
{
    const struct seeker *to = &seekers->items[from->next];
    int32_t k = 0;
    from->link = ARENA_ARRAY(arena, (size_t)to->count, int32_t);
    for (int32_t i = 0; i < to->count; i++) {
        while (k < from->count && net_map_at(seekers->net, lag->map, from->starts[k]) <= to->starts[i])
            k++;
        from->link[i] = k - 1;
    }
}

void seekers_init(struct seekers *seekers, const struct profiles *profiles, const struct trail *trail,
                  struct arena *arena)
{
    const struct network *net = profiles->model->net;
    int *out = ARENA_ARRAY(arena, net->operation_count, int);
    int *place = ARENA_ARRAY(arena, net->operation_count, int);
    int64_t starts = 0;
    *seekers = (struct seekers){.net = net};
    for (size_t i = 0; i < net->operation_count; i++)
        starts += count_starts(profiles, trail, (int)i);
    if (starts > STARTS_MOST)
        return;
    pick_lags(profiles->model, trail, out);
    add_seekers(seekers, out, place, arena);
    for (size_t s = 0; s < seekers->count; s++) {
        list_starts(profiles, trail, &seekers->items[s], arena);
        add_shares(seekers, profiles, &seekers->items[s], arena);
    }
    for (size_t s = 0; s < seekers->count; s++) {
        struct seeker *seeker = &seekers->items[s];
        int lag = out[seeker->operation];
        seeker->next = lag == NET_NONE ? NET_NONE : place[net->lags[lag].to];
        if (seeker->next != NET_NONE)
            add_link(seekers, seeker, &net->lags[lag], arena);
    }
}

static bool take_window(struct seeker *seeker, const struct trail *trail)
{
    int32_t low = trail_low(trail, seeker->operation), high = trail_high(trail, seeker->operation);
    seeker->first = 0;
    seeker->last = seeker->count - 1;
    while (seeker->first < seeker->count && seeker->starts[seeker->first] < low)
        seeker->first++;
    while (seeker->last >= 0 && seeker->starts[seeker->last] > high)
        seeker->last--;
    memset(seeker->before, 0, (size_t)seeker->count * sizeof *seeker->before);
    return seeker->first <= seeker->last;
}

bool seekers_window(struct seekers *seekers, const struct trail *trail)
{
    for (size_t s = 0; s < seekers->count; s++)
        if (!take_window(&seekers->items[s], trail))
            return false;
    return true;
}
