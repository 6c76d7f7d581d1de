#include "solver/explain/chain.h"

#include "base/arena.h"
#include "solver/model/usage.h"

enum { SCRATCH_BYTES = 1 << 28 };

struct tracing {
    const struct network *net;
    struct usage usage;
    unsigned char *told; /* per operation */
};

/* A reason against start t of one operation, and the first start that it allows. */
struct block {
    struct net_link link;
    int32_t first;
};

static bool is_told(const struct tracing *tr, const struct block *block)
{
    return block->link.earlier != NET_NONE && tr->told[block->link.earlier];
}

/* Keeps the tighter one; one that leads somewhere new goes first. */
static void offer(const struct tracing *tr, struct block *best, struct block block, int32_t t)
{
    if (block.first <= t)
        return;
    bool fresh = !is_told(tr, &block), had = best->first > t;
    if (!had || (fresh && is_told(tr, best)) || (fresh == !is_told(tr, best) && block.first > best->first))
        *best = block;
}

static bool holds(const struct tracing *tr, const struct net_lag *lag)
{
    return usage_present(&tr->usage, lag->from) && usage_present(&tr->usage, lag->to) &&
           (lag->guard.flag == NET_NONE || tr->usage.flag[lag->guard.flag] == lag->guard.value);
}

static void offer_lags(const struct tracing *tr, struct block *best, int operation, int32_t t)
{
    const int32_t *start = tr->usage.start;
    for (size_t i = 0; i < tr->net->lag_count; i++) {
        const struct net_lag *lag = &tr->net->lags[i];
        if ((lag->maximum ? lag->from : lag->to) != operation || !holds(tr, lag))
            continue;
        int other = lag->maximum ? lag->to : lag->from;
        int32_t first = lag->maximum ? net_map_first(tr->net, lag->map, start[other])
                                     : net_map_at(tr->net, lag->map, start[other]);
        offer(tr, best, (struct block){{operation, other, NET_LINK_LAG, (int)i}, first}, t);
    }
}

static void offer_aparts(const struct tracing *tr, struct block *best, int operation, int32_t t)
{
    const struct usage *usage = &tr->usage;
    for (int32_t i = usage->meeting_from[operation]; i < usage->meeting_from[operation + 1]; i++) {
        const struct meeting *pair = &usage->meetings[i];
        if (!usage_present(usage, pair->other) ||
            net_map_at(tr->net, pair->until, t) <= usage->start[pair->other])
            continue;
        int32_t first = net_map_at(tr->net, pair->other_until, usage->start[pair->other]);
        offer(tr, best, (struct block){{operation, pair->other, NET_LINK_APART, pair->pair}, first}, t);
    }
}

/* The last slot that the use would overload when started at t, NET_NONE where it fits. `held` counts the use itself
 * at its present start. */
static int32_t overloaded(const struct tracing *tr, const struct net_use *use, int32_t t)
{
    const struct network *net = tr->net;
    int32_t own = tr->usage.start[use->operation],
            room = net->resources[use->resource].capacity - use->amount;
    int32_t end = net_map_at(net, use->until, t), own_end = net_map_at(net, use->until, own);
    for (int32_t q = (end > net->horizon ? net->horizon + 1 : end) - 1; q >= t; q--) {
        int32_t mine = q >= own && q < own_end ? use->amount : 0;
        if (tr->usage.held[use->resource][q] - mine > room && !usage_shared(&tr->usage, use, q))
            return q;
    }
    return NET_NONE;
}

static void offer_holders(const struct tracing *tr, struct block *best, const struct net_use *use, int32_t t)
{
    int32_t q = overloaded(tr, use, t);
    if (q == NET_NONE || use->amount == 0)
        return;
    for (size_t i = 0; i < tr->net->use_count; i++) {
        const struct net_use *other = &tr->net->uses[i];
        int32_t start = tr->usage.start[other->operation], end = net_map_at(tr->net, other->until, start);
        if (other->resource == use->resource && other->operation != use->operation && other->amount > 0 &&
            usage_present(&tr->usage, other->operation) && start <= q && end > q)
            offer(tr, best,
                  (struct block){{use->operation, other->operation, NET_LINK_RESOURCE, use->resource}, end},
                  t);
    }
}

/* The tightest reason against start t; first <= t where there is none. */
static struct block find_block(const struct tracing *tr, int operation, int32_t t)
{
    struct block best = {{operation, NET_NONE, NET_LINK_RELEASE, NET_NONE},
                         tr->net->operations[operation].earliest};
    if (t < 0) /* nothing begins before the first slot */
        return best;
    offer_lags(tr, &best, operation, t);
    for (int32_t i = tr->usage.use_from[operation]; i < tr->usage.use_from[operation + 1]; i++)
        offer_holders(tr, &best, &tr->net->uses[tr->usage.use_list[i]], t);
    offer_aparts(tr, &best, operation, t);
    return best;
}

static int last_goal(const struct tracing *tr, const struct net_result *result)
{
    for (size_t i = 0; i < tr->net->goal_count; i++) {
        const struct net_goal *goal = &tr->net->goals[i];
        if (usage_present(&tr->usage, goal->operation) &&
            net_goal_value(tr->net, goal, result->start) == result->value)
            return goal->operation;
    }
    return NET_NONE;
}

static size_t trace(struct tracing *tr, int operation, struct net_link *links)
{
    size_t count = 0;
    while (operation != NET_NONE && !tr->told[operation]) {
        const struct net_operation *o = &tr->net->operations[operation];
        int32_t t = tr->usage.start[operation] - 1;
        tr->told[operation] = 1;
        if (t >= o->earliest && o->calendar != NET_NONE && tr->net->calendars[o->calendar].previous[t] < t) {
            links[count++] = (struct net_link){operation, NET_NONE, NET_LINK_CALENDAR, NET_NONE};
            t = tr->net->calendars[o->calendar].previous[t];
        }
        struct block block = find_block(tr, operation, t);
        if (block.first <= t)
            break;
        links[count++] = block.link;
        operation = block.link.earlier;
    }
    return count;
}

const struct net_link *net_chain(const struct network *net, const struct net_result *result, size_t *count)
{
    *count = 0;
    if (result->status != NET_PLANNED)
        return NULL;
    struct net_link *links = ARENA_ARRAY(net->arena, 2 * net->operation_count, struct net_link);
    struct arena *arena = arena_make_within(net->arena, SCRATCH_BYTES);
    struct tracing tr = {.net = net, .told = ARENA_ARRAY(arena, net->operation_count, unsigned char)};
    usage_init(&tr.usage, net, arena, result->flag);
    for (size_t i = 0; i < net->operation_count; i++)
        usage_place(&tr.usage, (int)i, result->start[i]);
    *count = trace(&tr, last_goal(&tr, result), links);
    arena_free_within(net->arena, arena);
    return links;
}
