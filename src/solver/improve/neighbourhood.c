#include "solver/improve/neighbourhood.h"

#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "solver/model/model.h"
#include "solver/engine/search.h"
#include "solver/improve/flow.h"
#include "solver/improve/pairs.h"

enum {
    SCRATCH_BYTES = 1 << 28,
    CONFLICTS = 120,
    GOAL_SHARE = 4, /* all but one try in so many ask for a goal */
    SIZE_FIRST = 20,
    SIZE_LEAST = 6,
    MODEL_WORK = 8,
    PULL_MOST = 200
};

/* Connected components of the lags. */
static const int *find_components(const struct network *net, struct arena *arena)
{
    int *component = ARENA_ARRAY(arena, net->operation_count, int);
    for (size_t i = 0; i < net->operation_count; i++)
        component[i] = (int)i;
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < net->lag_count; i++) {
            int *from = &component[net->lags[i].from], *to = &component[net->lags[i].to];
            changed = changed || *from != *to;
            *from = *to = *from < *to ? *from : *to;
        }
    }
    return component;
}

void neighbourhood_init(struct neighbourhood *n, struct incumbent *incumbent, struct arena *arena)
{
    *n = (struct neighbourhood){.incumbent = incumbent, .size = SIZE_FIRST * NEIGHBOURHOOD_PARTS};
    n->component = find_components(incumbent->net, arena);
    n->relaxed = ARENA_ARRAY(arena, incumbent->net->operation_count, unsigned char);
}

static size_t relax(struct neighbourhood *n, size_t operation)
{
    size_t fresh = !n->relaxed[operation];
    n->relaxed[operation] = 1;
    return fresh;
}

static size_t relax_component(struct neighbourhood *n, size_t operation)
{
    size_t count = 0;
    for (size_t i = 0; i < n->incumbent->net->operation_count; i++)
        if (n->component[i] == n->component[operation])
            count += relax(n, i);
    return count;
}

/* Those that start nearest to one of them. */
static void relax_around(struct neighbourhood *n, size_t middle, size_t wanted)
{
    const int32_t *start = n->incumbent->result->start;
    for (size_t count = 0; count < wanted; count++) {
        size_t best = SIZE_MAX;
        for (size_t i = 0; i < n->incumbent->net->operation_count; i++)
            if (!n->relaxed[i] &&
                (best == SIZE_MAX || abs(start[i] - start[middle]) < abs(start[best] - start[middle])))
                best = i;
        if (best == SIZE_MAX)
            return;
        relax(n, best);
    }
}

/* One of those relaxed. */
static size_t draw_relaxed(struct neighbourhood *n, size_t count)
{
    size_t i = 0;
    for (uint32_t skip = incumbent_random(n->incumbent, (uint32_t)count); !n->relaxed[i] || skip > 0; i++)
        skip -= n->relaxed[i];
    return i;
}

/* Around one moment; around a moment of what the late goal waits for; or whole components. With those of the goal. */
static void choose_relaxed(struct neighbourhood *n, const struct net_goal *late)
{
    struct incumbent *incumbent = n->incumbent;
    size_t operations = incumbent->net->operation_count, wanted = n->size / NEIGHBOURHOOD_PARTS;
    memset(n->relaxed, 0, operations);
    size_t waiting = late ? relax_component(n, (size_t)late->operation) : 0;
    if (late && incumbent_random(incumbent, 2)) {
        relax_around(n, draw_relaxed(n, waiting), wanted);
        return;
    }
    if (incumbent_random(incumbent, 3) > 0) {
        relax_around(n, incumbent_random(incumbent, (uint32_t)operations), wanted);
        return;
    }
    for (size_t count = 0; count < wanted && waiting + count < operations;)
        count += relax_component(n, incumbent_random(incumbent, (uint32_t)operations));
}

/* A goal above the bound, drawn; NULL: the draws met none. */
static const struct net_goal *late_goal(struct incumbent *incumbent)
{
    const struct network *net = incumbent->net;
    for (size_t draw = 0; draw < net->goal_count; draw++) {
        const struct net_goal *goal = &net->goals[incumbent_random(incumbent, (uint32_t)net->goal_count)];
        if (net_certain(net, goal->operation) &&
            net_goal_value(net, goal, incumbent->result->start) > incumbent->result->bound)
            return goal;
    }
    return NULL;
}

/* What the operation of a late goal must not start after, to end some slots sooner. */
static int32_t sooner(struct incumbent *incumbent, const struct net_goal *goal)
{
    int32_t value = net_goal_value(incumbent->net, goal, incumbent->result->start);
    int32_t late = value - incumbent->result->bound;
    int32_t less =
        1 + (int32_t)incumbent_random(incumbent, incumbent_random(incumbent, 2) ? PULL_MOST : PULL_MOST / 16);
    less = less < late ? less : late;
    return net_map_last(incumbent->net, goal->map, value - less + goal->due);
}

/* What is not relaxed keeps its order; the other pairs stay open: `open` is the network with those alone. */
static void keep_order(const struct neighbourhood *n, struct network *open, struct model *model,
                       struct arena *arena)
{
    const struct network *net = n->incumbent->net;
    const struct net_result *result = n->incumbent->result;
    struct net_disjunction *kept = ARENA_ARRAY(arena, net->disjunction_count, struct net_disjunction);
    size_t kept_count = 0;
    struct schedule schedule;
    *open = *net;
    open->disjunctions = ARENA_ARRAY(arena, net->disjunction_count, struct net_disjunction);
    open->disjunction_count = 0;
    for (size_t i = 0; i < net->disjunction_count; i++) {
        const struct net_disjunction *pair = &net->disjunctions[i];
        if (n->relaxed[pair->a] || n->relaxed[pair->b])
            open->disjunctions[open->disjunction_count++] = *pair;
        else
            kept[kept_count++] = *pair;
    }
    schedule_init(&schedule, open, arena, result->flag);
    for (size_t i = 0; i < net->operation_count; i++)
        if (!n->relaxed[i])
            schedule.start[i] = result->start[i];
    model_init(model, open, arena, MODEL_MAXIMUM | MODEL_DISJUNCTIONS);
    flow_add_resources(model, &schedule, arena);
    pairs_add_order(model, kept, kept_count, result->start, arena);
    edges_index(&model->edges);
}

/* Asks for a smaller value, or for one goal to end sooner. */
static bool ask(struct neighbourhood *n, const struct model *model, const struct net_goal *goal,
                struct trail *trail)
{
    int32_t value = n->incumbent->result->value;
    if (!goal)
        return trail_decide(trail, at_most(model->value, value - 1));
    return trail_decide(trail, at_most(goal->operation, sooner(n->incumbent, goal))) &&
           trail_decide(trail, at_most(model->value, value));
}

static void fit_size(struct neighbourhood *n, enum outcome outcome)
{
    size_t most = n->incumbent->net->operation_count * NEIGHBOURHOOD_PARTS, step = n->size / 32;
    if (outcome == SEARCH_REFUTED)
        n->size = n->size + step < most ? n->size + step : most;
    else if (outcome == SEARCH_ENDED && n->size > SIZE_LEAST * NEIGHBOURHOOD_PARTS)
        n->size -= step;
}

bool neighbourhood_try(struct neighbourhood *n, int64_t work, int64_t *used)
{
    struct incumbent *incumbent = n->incumbent;
    struct arena *arena = arena_make_within(incumbent->net->arena, SCRATCH_BYTES);
    struct network open;
    struct model model;
    struct search search;
    enum outcome outcome = SEARCH_REFUTED;
    const struct net_goal *goal = incumbent_random(incumbent, GOAL_SHARE) ? late_goal(incumbent) : NULL;
    choose_relaxed(n, goal);
    keep_order(n, &open, &model, arena);
    if (search_init(&search, &model, arena) && ask(n, &model, goal, &search.engine.trail)) {
        int32_t *best = ARENA_ARRAY(arena, model.variables, int32_t);
        model_phases(&model, incumbent->result, best);
        search.best = best;
        outcome = search_run(&search, CONFLICTS, work);
    }
    bool better = outcome == SEARCH_FOUND && incumbent_take(incumbent, &search);
    fit_size(n, outcome);
    n->idle = better ? 0 : n->idle + 1;
    *used += search.engine.trail.work + MODEL_WORK * (int64_t)model.edges.count;
    arena_free_within(incumbent->net->arena, arena);
    return better;
}
