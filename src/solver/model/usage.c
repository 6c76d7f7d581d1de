#include "solver/model/usage.h"

#include <assert.h>

#include "base/arena.h"

static void index_uses(struct usage *usage, struct arena *arena)
{
    const struct network *net = usage->net;
    usage->use_from = ARENA_ARRAY(arena, net->operation_count + 1, int32_t);
    usage->use_list = ARENA_ARRAY(arena, net->use_count, int32_t);
    for (size_t i = 0; i < net->use_count; i++)
        usage->use_from[net->uses[i].operation]++;
    for (size_t i = 0; i < net->operation_count; i++)
        usage->use_from[i + 1] += usage->use_from[i];
    for (size_t i = net->use_count; i-- > 0;)
        usage->use_list[--usage->use_from[net->uses[i].operation]] = (int32_t)i;
    for (size_t i = 0; i < net->operation_count; i++)
        for (int32_t k = usage->use_from[i]; k < usage->use_from[i + 1]; k++)
            for (int32_t other = usage->use_from[i]; other < k; other++)
                assert(net->uses[usage->use_list[k]].resource != net->uses[usage->use_list[other]].resource);
}

/* Rings of the uses that count once where they overlap. */
static void index_mates(struct usage *usage, struct arena *arena)
{
    const struct network *net = usage->net;
    usage->mate = ARENA_ARRAY(arena, net->use_count, int32_t);
    for (size_t i = 0; i < net->use_count; i++) {
        usage->mate[i] = (int32_t)i;
        for (size_t k = i; net->uses[i].holder > 0 && k-- > 0;)
            if (net_same_holder(&net->uses[i], &net->uses[k])) {
                usage->mate[i] = usage->mate[k];
                usage->mate[k] = (int32_t)i;
                break;
            }
    }
}

static void index_meetings(struct usage *usage, struct arena *arena)
{
    const struct network *net = usage->net;
    usage->meeting_from = ARENA_ARRAY(arena, net->operation_count + 1, int32_t);
    usage->meetings = ARENA_ARRAY(arena, 2 * net->apart_count, struct meeting);
    for (size_t i = 0; i < net->apart_count; i++) {
        usage->meeting_from[net->aparts[i].a]++;
        usage->meeting_from[net->aparts[i].b]++;
    }
    for (size_t i = 0; i < net->operation_count; i++)
        usage->meeting_from[i + 1] += usage->meeting_from[i];
    for (size_t i = net->apart_count; i-- > 0;) {
        const struct net_apart *pair = &net->aparts[i];
        usage->meetings[--usage->meeting_from[pair->a]] =
            (struct meeting){(int)i, pair->b, pair->until_a, pair->until_b};
        usage->meetings[--usage->meeting_from[pair->b]] =
            (struct meeting){(int)i, pair->a, pair->until_b, pair->until_a};
    }
}

void usage_init(struct usage *usage, const struct network *net, struct arena *arena,
                const unsigned char *flag)
{
    *usage = (struct usage){.net = net, .flag = flag};
    usage->held = ARENA_ARRAY(arena, net->resource_count, int32_t *);
    for (size_t r = 0; r < net->resource_count; r++)
        usage->held[r] = ARENA_ARRAY(arena, (size_t)net->horizon + 1, int32_t);
    usage->start = ARENA_ARRAY(arena, net->operation_count, int32_t);
    for (size_t i = 0; i < net->operation_count; i++)
        usage->start[i] = NET_NONE;
    index_uses(usage, arena);
    index_mates(usage, arena);
    index_meetings(usage, arena);
}

bool usage_present(const struct usage *usage, int operation)
{
    return net_present(usage->net, operation, usage->flag);
}

/* The end of an interval, cut at the horizon. */
static int32_t end_of(const struct usage *usage, struct net_map until, int32_t start)
{
    int32_t end = net_map_at(usage->net, until, start);
    return end > usage->net->horizon ? usage->net->horizon + 1 : end;
}

bool usage_shared(const struct usage *usage, const struct net_use *use, int32_t t)
{
    int32_t own = (int32_t)(use - usage->net->uses);
    for (int32_t i = usage->mate[own]; i != own; i = usage->mate[i]) {
        const struct net_use *other = &usage->net->uses[i];
        int32_t start = usage->start[other->operation];
        if (start != NET_NONE && start <= t && usage_present(usage, other->operation) &&
            end_of(usage, other->until, start) > t)
            return true;
    }
    return false;
}

static void hold(struct usage *usage, int operation, int sign)
{
    if (!usage_present(usage, operation))
        return;
    int32_t start = usage->start[operation];
    for (int32_t i = usage->use_from[operation]; i < usage->use_from[operation + 1]; i++) {
        const struct net_use *use = &usage->net->uses[usage->use_list[i]];
        int32_t end = end_of(usage, use->until, start);
        for (int32_t t = start; t < end; t++)
            if (!usage_shared(usage, use, t))
                usage->held[use->resource][t] += sign * use->amount;
    }
}

void usage_place(struct usage *usage, int operation, int32_t start)
{
    assert(usage->start[operation] == NET_NONE && start >= 0 && start <= usage->net->horizon);
    usage->start[operation] = start;
    hold(usage, operation, 1);
}

void usage_lift(struct usage *usage, int operation)
{
    assert(usage->start[operation] != NET_NONE);
    hold(usage, operation, -1);
    usage->start[operation] = NET_NONE;
}

static bool has_room(const struct usage *usage, const struct net_use *use, int32_t t)
{
    int32_t room = usage->net->resources[use->resource].capacity - use->amount;
    return usage->held[use->resource][t] <= room || usage_shared(usage, use, t);
}

/* The first start at or after t that clears the last overloaded slot of this use; t itself where none is. */
static int32_t use_first(struct usage *usage, const struct net_use *use, int32_t t)
{
    if (use->amount == 0)
        return t;
    int32_t end = end_of(usage, use->until, t);
    usage->work += 1 + (end - t) / 8;
    while (end > t && has_room(usage, use, end - 1))
        end--;
    return end > t ? end : t;
}

static int32_t use_last(struct usage *usage, const struct net_use *use, int32_t t)
{
    if (use->amount == 0)
        return t;
    int32_t end = end_of(usage, use->until, t), at = t;
    usage->work += 1 + (end - t) / 8;
    while (at < end && has_room(usage, use, at))
        at++;
    return at < end ? net_map_last(usage->net, use->until, at) : t;
}

/* The nearest start from t on (before: down from t) that keeps this pair apart; t where it does already. */
static int32_t apart_move(const struct usage *usage, const struct meeting *pair, int32_t t, bool before)
{
    int32_t other = usage->start[pair->other];
    if (other == NET_NONE || !usage_present(usage, pair->other))
        return t;
    int32_t other_end = net_map_at(usage->net, pair->other_until, other);
    if (t >= other_end || net_map_at(usage->net, pair->until, t) <= other)
        return t;
    return before ? net_map_last(usage->net, pair->until, other) : other_end;
}

static int32_t next_step(struct usage *usage, int operation, int32_t t)
{
    const struct net_operation *o = &usage->net->operations[operation];
    if (o->calendar != NET_NONE)
        t = usage->net->calendars[o->calendar].next[t];
    for (int32_t i = usage->use_from[operation];
         t <= usage->net->horizon && i < usage->use_from[operation + 1]; i++)
        t = use_first(usage, &usage->net->uses[usage->use_list[i]], t);
    for (int32_t i = usage->meeting_from[operation];
         t <= usage->net->horizon && i < usage->meeting_from[operation + 1]; i++)
        t = apart_move(usage, &usage->meetings[i], t, false);
    return t;
}

static int32_t previous_step(struct usage *usage, int operation, int32_t t)
{
    const struct net_operation *o = &usage->net->operations[operation];
    if (o->calendar != NET_NONE)
        t = usage->net->calendars[o->calendar].previous[t];
    for (int32_t i = usage->use_from[operation]; t >= 0 && i < usage->use_from[operation + 1]; i++)
        t = use_last(usage, &usage->net->uses[usage->use_list[i]], t);
    for (int32_t i = usage->meeting_from[operation]; t >= 0 && i < usage->meeting_from[operation + 1]; i++)
        t = apart_move(usage, &usage->meetings[i], t, true);
    return t;
}

int32_t usage_first(struct usage *usage, int operation, int32_t low, int32_t high)
{
    if (!usage_present(usage, operation))
        return low <= high ? low : NET_NEVER;
    for (int32_t t = low, moved; t <= high; t = moved) {
        moved = next_step(usage, operation, t);
        if (moved == t)
            return t;
    }
    return NET_NEVER;
}

int32_t usage_last(struct usage *usage, int operation, int32_t low, int32_t high)
{
    if (!usage_present(usage, operation))
        return low <= high ? high : NET_NONE;
    for (int32_t t = high, moved; t >= low; t = moved) {
        moved = previous_step(usage, operation, t);
        if (moved == t)
            return t;
    }
    return NET_NONE;
}
