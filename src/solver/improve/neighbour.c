#include "solver/improve/neighbour.h"

#include <stdlib.h>

#include "base/arena.h"
#include "solver/propagators/order.h"
#include "solver/engine/phase.h"
#include "solver/engine/search.h"

enum {
    SCRATCH_BYTES = 1 << 28,
    CONFLICTS = 500,
    SIZE_FIRST = 20,
    SIZE_LEAST = 6,
    MODEL_WORK = 8,
    PULL_MOST = 200
};

static const struct reason GIVEN = {REASON_DECISION, 0};

/* Operations that lags bind together, however far. */
static const int *find_pieces(const struct network *net, struct arena *arena)
{
    int *piece = ARENA_ARRAY(arena, net->operation_count, int);
    for (size_t i = 0; i < net->operation_count; i++)
        piece[i] = (int)i;
    for (bool changed = true; changed;) {
        changed = false;
        for (size_t i = 0; i < net->lag_count; i++) {
            int *from = &piece[net->lags[i].from], *to = &piece[net->lags[i].to];
            changed = changed || *from != *to;
            *from = *to = *from < *to ? *from : *to;
        }
    }
    return piece;
}

void neighbour_init(struct neighbour *n, struct plan *plan, struct arena *arena)
{
    *n = (struct neighbour){.plan = plan, .size = SIZE_FIRST * NEIGHBOUR_PARTS};
    n->piece = find_pieces(plan->net, arena);
    n->loose = ARENA_ARRAY(arena, plan->net->operation_count, unsigned char);
}

static size_t loosen(struct neighbour *n, size_t operation)
{
    size_t fresh = !n->loose[operation];
    n->loose[operation] = 1;
    return fresh;
}

static size_t loosen_piece(struct neighbour *n, size_t operation)
{
    size_t count = 0;
    for (size_t i = 0; i < n->plan->net->operation_count; i++)
        if (n->piece[i] == n->piece[operation])
            count += loosen(n, i);
    return count;
}

/* Those that start nearest to one of them. */
static void loosen_around(struct neighbour *n, size_t middle, size_t wanted)
{
    const int32_t *start = n->plan->result->start;
    for (size_t count = 0; count < wanted; count++) {
        size_t best = SIZE_MAX;
        for (size_t i = 0; i < n->plan->net->operation_count; i++)
            if (!n->loose[i] &&
                (best == SIZE_MAX || abs(start[i] - start[middle]) < abs(start[best] - start[middle])))
                best = i;
        if (best == SIZE_MAX)
            return;
        loosen(n, best);
    }
}

static void choose_loose(struct neighbour *n)
{
    struct plan *plan = n->plan;
    size_t operations = plan->net->operation_count, wanted = n->size / NEIGHBOUR_PARTS;
    for (size_t i = 0; i < operations; i++)
        n->loose[i] = 0;
    if (plan_draw(plan, 3) > 0) {
        loosen_around(n, plan_draw(plan, (uint32_t)operations), wanted);
        return;
    }
    for (size_t count = 0; count < wanted && count < operations;)
        count += loosen_piece(n, plan_draw(plan, (uint32_t)operations));
}

/* A goal above the bound, drawn; NULL: the draws met none. */
static const struct net_goal *late_goal(struct plan *plan)
{
    const struct network *net = plan->net;
    for (size_t draw = 0; draw < net->goal_count; draw++) {
        const struct net_goal *goal = &net->goals[plan_draw(plan, (uint32_t)net->goal_count)];
        if (net_certain(net, goal->operation) &&
            net_goal_value(net, goal, plan->result->start) > plan->result->bound)
            return goal;
    }
    return NULL;
}

/* What the operation of a late goal must not start after, to end some slots sooner. */
static int32_t sooner(struct plan *plan, const struct net_goal *goal)
{
    int32_t value = net_goal_value(plan->net, goal, plan->result->start);
    int32_t late = value - plan->result->bound;
    int32_t less = 1 + (int32_t)plan_draw(plan, plan_draw(plan, 2) ? PULL_MOST : PULL_MOST / 16);
    less = less < late ? less : late;
    return net_map_last(plan->net, goal->map, value - less + goal->due);
}

/* The order that is kept, for what is not loose; the other pairs stay open. */
static void keep_order(const struct neighbour *n, struct model *model, struct arena *arena)
{
    const struct net_result *result = n->plan->result;
    struct usage usage;
    usage_init(&usage, n->plan->net, arena, result->flag);
    for (size_t i = 0; i < n->plan->net->operation_count; i++)
        if (!n->loose[i])
            usage.start[i] = result->start[i];
    order_add_resources(model, &usage, arena);
}

static bool keep_pairs(const struct neighbour *n, const struct model *model, struct trail *trail)
{
    const struct network *net = n->plan->net;
    for (size_t i = 0; i < net->apart_count; i++) {
        const struct net_apart *apart = &net->aparts[i];
        int order = model->first_order + (int)i;
        bool first = phase_first(net, apart, n->plan->result->start);
        if (!n->loose[apart->a] && !n->loose[apart->b] &&
            !trail_set(trail, first ? at_most(order, 0) : at_least(order, 1), GIVEN))
            return false;
    }
    return true;
}

/* Asks for a smaller value, or for one goal to end sooner. */
static bool ask(struct neighbour *n, const struct model *model, const struct net_goal *goal,
                struct trail *trail)
{
    int32_t value = n->plan->result->value;
    if (!goal)
        return trail_set(trail, at_most(model->value, value - 1), GIVEN);
    return trail_set(trail, at_most(goal->operation, sooner(n->plan, goal)), GIVEN) &&
           trail_set(trail, at_most(model->value, value), GIVEN);
}

static void fit_size(struct neighbour *n, enum outcome outcome)
{
    size_t most = n->plan->net->operation_count * NEIGHBOUR_PARTS, step = n->size / 32;
    if (outcome == SEARCH_REFUTED)
        n->size = n->size + step < most ? n->size + step : most;
    else if (outcome == SEARCH_ENDED && n->size > SIZE_LEAST * NEIGHBOUR_PARTS)
        n->size -= step;
}

bool neighbour_try(struct neighbour *n, int64_t work, int64_t *used)
{
    struct plan *plan = n->plan;
    struct arena *arena = arena_make_within(plan->net->arena, SCRATCH_BYTES);
    struct model model;
    struct search search;
    enum outcome outcome = SEARCH_REFUTED;
    const struct net_goal *goal = plan_draw(plan, 2) ? late_goal(plan) : NULL;
    choose_loose(n);
    if (goal)
        loosen_piece(n, (size_t)goal->operation);
    model_init(&model, plan->net, arena, MODEL_MAXIMUM | MODEL_APARTS);
    keep_order(n, &model, arena);
    edges_index(&model.edges);
    if (search_init(&search, &model, arena) && keep_pairs(n, &model, &search.engine.trail) &&
        ask(n, &model, goal, &search.engine.trail)) {
        int32_t *best = ARENA_ARRAY(arena, model.variables, int32_t);
        phase_fill(&model, plan->result, best);
        search.best = best;
        outcome = search_run(&search, CONFLICTS, work);
    }
    int32_t value = plan->result->value;
    bool better = outcome == SEARCH_FOUND && search_take(&search, plan);
    fit_size(n, outcome);
    n->tries++;
    n->idle = plan->result->value < value ? 0 : n->idle + 1;
    *used += search.engine.trail.work + MODEL_WORK * (int64_t)model.edges.count;
    arena_free_within(plan->net->arena, arena);
    return better;
}
