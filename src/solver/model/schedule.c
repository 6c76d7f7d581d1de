#include "solver/model/schedule.h"

#include <assert.h>

#include "base/arena.h"

static void index_uses(struct schedule *schedule, struct arena *arena)
{
    const struct network *net = schedule->net;
    struct net_index_pair *pairs = ARENA_ARRAY(arena, net->use_count, struct net_index_pair);
    for (size_t i = 0; i < net->use_count; i++)
        pairs[i] = (struct net_index_pair){net->uses[i].operation, (int32_t)i};
    schedule->uses = net_index_make(arena, net->operation_count, pairs, net->use_count);
    for (size_t i = 0; i < net->operation_count; i++)
        for (int32_t k = schedule->uses.from[i]; k < schedule->uses.from[i + 1]; k++)
            for (int32_t other = schedule->uses.from[i]; other < k; other++)
                assert(net->uses[schedule->uses.list[k]].resource !=
                       net->uses[schedule->uses.list[other]].resource);
}

/* Cyclic lists of the uses that count once where they overlap. */
static void index_siblings(struct schedule *schedule, struct arena *arena)
{
    const struct network *net = schedule->net;
    schedule->sibling = ARENA_ARRAY(arena, net->use_count, int32_t);
    for (size_t i = 0; i < net->use_count; i++) {
        schedule->sibling[i] = (int32_t)i;
        for (size_t k = i; net->uses[i].holder > 0 && k-- > 0;)
            if (net_same_holder(&net->uses[i], &net->uses[k])) {
                schedule->sibling[i] = schedule->sibling[k];
                schedule->sibling[k] = (int32_t)i;
                break;
            }
    }
}

static void index_disjuncts(struct schedule *schedule, struct arena *arena)
{
    const struct network *net = schedule->net;
    struct net_index_pair *pairs = ARENA_ARRAY(arena, 2 * net->disjunction_count, struct net_index_pair);
    schedule->disjuncts = ARENA_ARRAY(arena, 2 * net->disjunction_count, struct disjunct);
    for (size_t i = 0; i < net->disjunction_count; i++) {
        const struct net_disjunction *pair = &net->disjunctions[i];
        schedule->disjuncts[2 * i] = (struct disjunct){(int)i, pair->b, pair->until_a, pair->until_b};
        schedule->disjuncts[2 * i + 1] = (struct disjunct){(int)i, pair->a, pair->until_b, pair->until_a};
        pairs[2 * i] = (struct net_index_pair){pair->a, (int32_t)(2 * i)};
        pairs[2 * i + 1] = (struct net_index_pair){pair->b, (int32_t)(2 * i + 1)};
    }
    schedule->by_operation = net_index_make(arena, net->operation_count, pairs, 2 * net->disjunction_count);
}

void schedule_init(struct schedule *schedule, const struct network *net, struct arena *arena,
                   const unsigned char *flag)
{
    *schedule = (struct schedule){.net = net, .flag = flag};
    schedule->held = ARENA_ARRAY(arena, net->resource_count, int32_t *);
    for (size_t r = 0; r < net->resource_count; r++)
        schedule->held[r] = ARENA_ARRAY(arena, (size_t)net->horizon + 1, int32_t);
    schedule->start = ARENA_ARRAY(arena, net->operation_count, int32_t);
    for (size_t i = 0; i < net->operation_count; i++)
        schedule->start[i] = NET_NONE;
    index_uses(schedule, arena);
    index_siblings(schedule, arena);
    index_disjuncts(schedule, arena);
}

void schedule_fill(struct schedule *schedule, const struct network *net, struct arena *arena,
                   const struct net_result *result)
{
    schedule_init(schedule, net, arena, result->flag);
    for (size_t i = 0; i < net->operation_count; i++)
        schedule_place(schedule, (int)i, result->start[i]);
}

bool schedule_present(const struct schedule *schedule, int operation)
{
    return net_present(schedule->net, operation, schedule->flag);
}

/* The end of an interval, cut at the horizon. */
static int32_t end_of(const struct schedule *schedule, struct net_map until, int32_t start)
{
    int32_t end = net_map_at(schedule->net, until, start);
    return end > schedule->net->horizon ? schedule->net->horizon + 1 : end;
}

/* Whether another placed use of the same holder holds slot t. */
static bool is_shared(const struct schedule *schedule, const struct net_use *use, int32_t t)
{
    int32_t own = (int32_t)(use - schedule->net->uses);
    for (int32_t i = schedule->sibling[own]; i != own; i = schedule->sibling[i]) {
        const struct net_use *other = &schedule->net->uses[i];
        int32_t start = schedule->start[other->operation];
        if (start != NET_NONE && start <= t && schedule_present(schedule, other->operation) &&
            end_of(schedule, other->until, start) > t)
            return true;
    }
    return false;
}

static void hold(struct schedule *schedule, int operation, int sign)
{
    if (!schedule_present(schedule, operation))
        return;
    int32_t start = schedule->start[operation];
    for (int32_t i = schedule->uses.from[operation]; i < schedule->uses.from[operation + 1]; i++) {
        const struct net_use *use = &schedule->net->uses[schedule->uses.list[i]];
        int32_t end = end_of(schedule, use->until, start);
        for (int32_t t = start; t < end; t++)
            if (!is_shared(schedule, use, t))
                schedule->held[use->resource][t] += sign * use->amount;
    }
}

void schedule_place(struct schedule *schedule, int operation, int32_t start)
{
    assert(schedule->start[operation] == NET_NONE && start >= 0 && start <= schedule->net->horizon);
    schedule->start[operation] = start;
    hold(schedule, operation, 1);
}

void schedule_remove(struct schedule *schedule, int operation)
{
    assert(schedule->start[operation] != NET_NONE);
    hold(schedule, operation, -1);
    schedule->start[operation] = NET_NONE;
}

static bool has_capacity(const struct schedule *schedule, const struct net_use *use, int32_t t)
{
    int32_t spare = schedule->net->resources[use->resource].capacity - use->amount;
    return schedule->held[use->resource][t] <= spare || is_shared(schedule, use, t);
}

/* The first start at or after t that clears the last overloaded slot of this use; t itself where none is. */
static int32_t use_first(struct schedule *schedule, const struct net_use *use, int32_t t)
{
    if (use->amount == 0)
        return t;
    int32_t end = end_of(schedule, use->until, t);
    schedule->work += 1 + (end - t) / 8;
    while (end > t && has_capacity(schedule, use, end - 1))
        end--;
    return end > t ? end : t;
}

/* The first start from t on that keeps this pair apart. */
static int32_t disjunct_first(const struct schedule *schedule, const struct disjunct *pair, int32_t t)
{
    int32_t other = schedule->start[pair->other];
    if (other == NET_NONE || !schedule_present(schedule, pair->other))
        return t;
    int32_t other_end = net_map_at(schedule->net, pair->other_until, other);
    return t >= other_end || net_map_at(schedule->net, pair->until, t) <= other ? t : other_end;
}

static int32_t next_step(struct schedule *schedule, int operation, int32_t t)
{
    const struct net_operation *o = &schedule->net->operations[operation];
    if (o->calendar != NET_NONE)
        t = schedule->net->calendars[o->calendar].next[t];
    for (int32_t i = schedule->uses.from[operation];
         t <= schedule->net->horizon && i < schedule->uses.from[operation + 1]; i++)
        t = use_first(schedule, &schedule->net->uses[schedule->uses.list[i]], t);
    for (int32_t i = schedule->by_operation.from[operation];
         t <= schedule->net->horizon && i < schedule->by_operation.from[operation + 1]; i++)
        t = disjunct_first(schedule, &schedule->disjuncts[schedule->by_operation.list[i]], t);
    return t;
}

int32_t schedule_first(struct schedule *schedule, int operation, int32_t low, int32_t high)
{
    if (!schedule_present(schedule, operation))
        return low <= high ? low : NET_NEVER;
    for (int32_t t = low, moved; t <= high; t = moved) {
        moved = next_step(schedule, operation, t);
        if (moved == t)
            return t;
    }
    return NET_NEVER;
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

static void lag_window(const struct schedule *schedule, const struct net_lag *lag, int operation,
                       int32_t *low, int32_t *high)
{
    const struct network *net = schedule->net;
    int32_t from = schedule->start[lag->from], to = schedule->start[lag->to];
    if (lag->to == operation && lag->maximum)
        lower(high, net_map_at(net, lag->map, from));
    else if (lag->to == operation)
        raise(low, net_map_at(net, lag->map, from));
    else if (lag->maximum)
        raise(low, net_map_first(net, lag->map, to));
    else
        lower(high, net_map_last(net, lag->map, to));
}

void schedule_window(const struct schedule *schedule, int operation, int32_t most, int32_t *low,
                     int32_t *high)
{
    const struct network *net = schedule->net;
    *low = net->operations[operation].earliest;
    *high = net->operations[operation].latest;
    for (size_t i = 0; i < net->lag_count; i++) {
        const struct net_lag *lag = &net->lags[i];
        if ((lag->from == operation || lag->to == operation) && net_lag_holds(net, lag, schedule->flag))
            lag_window(schedule, lag, operation, low, high);
    }
    for (size_t i = 0; i < net->goal_count; i++)
        if (net->goals[i].operation == operation)
            lower(high, net_map_last(net, net->goals[i].map, most + net->goals[i].due));
}
