#include "solver/improve/flow.h"

#include <stdlib.h>

#include "base/arena.h"
#include "solver/improve/pairs.h"
#include "solver/model/model.h"

/* Units that are free from a moment on, and the use that gave them up (NET_NONE: never used). Where uses of one
 * holder overlap it is the last to begin, and `before` leads to the others. */
struct units {
    int use;
    int32_t amount, free_at;
};

struct pool {
    struct units *items;
    size_t count;
    int *before; /* per use the one of the same holder whose units it shares, NET_NONE */
};

struct turn {
    int32_t start;
    int use;
};

static int by_start(const void *left, const void *right)
{
    const struct turn *a = left, *b = right;
    if (a->start != b->start)
        return a->start < b->start ? -1 : 1;
    return a->use < b->use ? -1 : a->use > b->use;
}

static void follow(struct model *model, const struct net_use *before, const struct net_use *after)
{
    if (before->operation == after->operation)
        return;
    model_add_edge(model, (struct edge){.from = before->operation,
                                        .to = after->operation,
                                        .map = before->until,
                                        .origin = EDGE_RESOURCE});
}

static void follow_all(struct model *model, const struct pool *pool, int before, const struct net_use *after)
{
    for (; before != NET_NONE; before = pool->before[before])
        follow(model, &model->net->uses[before], after);
}

/* Begins while its holder has the units already: then it shares them, and starts no sooner than the one that took
 * them. */
static bool join(struct model *model, struct pool *pool, struct turn turn, int32_t end)
{
    const struct net_use *uses = model->net->uses;
    bool joined = false;
    for (size_t i = 0; i < pool->count; i++) {
        struct units *units = &pool->items[i];
        if (units->use == NET_NONE || units->free_at <= turn.start ||
            !net_same_holder(&uses[units->use], &uses[turn.use]))
            continue;
        pool->before[turn.use] = units->use;
        units->use = turn.use;
        units->free_at = end > units->free_at ? end : units->free_at;
        joined = true;
    }
    return joined;
}

static struct units *longest_free(struct pool *pool)
{
    struct units *best = NULL;
    for (size_t i = 0; i < pool->count; i++)
        if (pool->items[i].amount > 0 && (!best || pool->items[i].free_at < best->free_at))
            best = &pool->items[i];
    return best;
}

static void stay_behind(struct model *model, const struct pool *pool, int use)
{
    const struct net_use *uses = model->net->uses;
    if (pool->before[use] != NET_NONE)
        model_add_edge(model, (struct edge){.from = uses[pool->before[use]].operation,
                                            .to = uses[use].operation,
                                            .origin = EDGE_RESOURCE});
}

/* Gives a use its units, those free for longest first. */
static void serve(struct model *model, struct pool *pool, struct turn turn)
{
    const struct network *net = model->net;
    const struct net_use *use = &net->uses[turn.use];
    int32_t end = net_map_at(net, use->until, turn.start);
    pool->before[turn.use] = NET_NONE;
    if (join(model, pool, turn, end)) {
        stay_behind(model, pool, turn.use);
        return;
    }
    for (int32_t wanted = use->amount; wanted > 0;) {
        struct units *from = longest_free(pool);
        if (!from || from->free_at > turn.start)
            break; /* an interval without length: it needs none */
        int32_t taken = from->amount < wanted ? from->amount : wanted;
        from->amount -= taken;
        wanted -= taken;
        follow_all(model, pool, from->use, use);
    }
    pool->items[pool->count++] = (struct units){turn.use, use->amount, end};
}

static void add_resource(struct model *model, const struct schedule *schedule, int resource,
                         struct turn *turns, struct pool *pool)
{
    const struct network *net = model->net;
    size_t count = 0;
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *use = &net->uses[i];
        int32_t start = schedule->start[use->operation];
        if (use->resource == resource && use->amount > 0 && start != NET_NONE &&
            schedule_present(schedule, use->operation) && net_map_at(net, use->until, start) > start)
            turns[count++] = (struct turn){start, (int)i};
    }
    qsort(turns, count, sizeof *turns, by_start);
    pool->items[0] = (struct units){NET_NONE, net->resources[resource].capacity, -1};
    pool->count = 1;
    for (size_t i = 0; i < count; i++)
        serve(model, pool, turns[i]);
}

void flow_add_resources(struct model *model, const struct schedule *schedule, struct arena *arena)
{
    const struct network *net = model->net;
    struct turn *turns = ARENA_ARRAY(arena, net->use_count, struct turn);
    struct pool pool = {ARENA_ARRAY(arena, net->use_count + 1, struct units), 0,
                        ARENA_ARRAY(arena, net->use_count, int)};
    for (size_t r = 0; r < net->resource_count; r++)
        add_resource(model, schedule, (int)r, turns, &pool);
}

void flow_add(struct model *model, const struct schedule *schedule, struct arena *arena)
{
    flow_add_resources(model, schedule, arena);
    pairs_add_order(model, model->net->disjunctions, model->net->disjunction_count, schedule->start, arena);
}

bool flow_fix(const struct model *model, struct trail *trail, const unsigned char *flag, int32_t most)
{
    trail_push_level(trail);
    size_t head = trail->count;
    for (int f = 0; f < model->net->flag_count; f++) {
        int variable = model->first_flag + f;
        if (!trail_decide(trail, flag[f] ? at_least(variable, 1) : at_most(variable, 0)))
            return false;
    }
    return trail_decide(trail, at_most(model->value, most)) && edges_run(&model->edges, trail, head);
}
