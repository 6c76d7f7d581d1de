#include "solver/rounds.h"

#include "base/arena.h"
#include "solver/engine/phase.h"

enum { ROUND_CONFLICTS = 100, FLAG_SHARE = 8, PRICE_ROUNDS = 16, PRICE_SHARE = 12 };
/* Neighbourhoods get one part in so many of the work, a larger part while they find smaller values. A network of few
 * operations is searched whole, and its bound raised step by step. */
enum { LARGE_OPERATIONS = 50, NEAR_IDLE = 16, NEAR_SHARE = 2, NEAR_SHARE_IDLE = 8 };

static void set_phases(struct rounds *rounds)
{
    phase_fill(rounds->search.engine.model, rounds->plan->result, rounds->best);
    rounds->search.best = rounds->best;
}

static void take_plan(struct rounds *rounds)
{
    if (search_take(&rounds->search, rounds->plan))
        set_phases(rounds);
}

static void assume(struct rounds *rounds, struct literal literal)
{
    literals_add(&rounds->search.assumptions, rounds->search.engine.arena, literal);
}

static enum outcome search(struct rounds *rounds, int64_t conflicts)
{
    enum outcome outcome = search_run(&rounds->search, conflicts, rounds->effort);
    if (outcome == SEARCH_FOUND)
        take_plan(rounds);
    return outcome;
}

/* Better than the best plan, or any. */
static void improve(struct rounds *rounds, int64_t conflicts)
{
    const struct model *model = rounds->search.engine.model;
    struct net_result *result = rounds->plan->result;
    rounds->search.assumptions.count = 0;
    if (plan_found(rounds->plan))
        assume(rounds, at_most(model->value, result->value - 1));
    if (search(rounds, conflicts) == SEARCH_REFUTED && plan_found(rounds->plan))
        plan_raise_bound(rounds->plan, result->value);
}

/* Supposes a value of at most `most`, below the best plan's: that of the bound, or one halfway to the plan, which a
 * night or a weekend may make no harder to refute than the next slot. */
static void raise_bound(struct rounds *rounds, int32_t most, int64_t conflicts)
{
    const struct model *model = rounds->search.engine.model;
    rounds->search.assumptions.count = 0;
    assume(rounds, at_most(model->value, most));
    rounds->search.engine.weigh = true;
    if (search(rounds, conflicts) == SEARCH_REFUTED && !rounds->search.engine.refuted)
        plan_raise_bound(rounds->plan, most + 1);
    rounds->search.engine.weigh = false;
}

/* With the value frozen, fewer flags until there are none to spare. */
static void fewer_flags(struct rounds *rounds)
{
    const struct model *model = rounds->search.engine.model;
    struct net_result *result = rounds->plan->result;
    for (enum outcome outcome = SEARCH_FOUND; outcome == SEARCH_FOUND && plan_flags(rounds->plan) > 0;) {
        rounds->search.assumptions.count = 0;
        assume(rounds, at_most(model->value, result->value));
        assume(rounds, at_most(model->tally, plan_flags(rounds->plan) - 1));
        outcome = search(rounds, INT64_MAX);
    }
}

static bool over(const struct rounds *rounds)
{
    return rounds->search.engine.refuted || plan_best(rounds->plan) ||
           rounds->search.engine.trail.work >= rounds->effort;
}

static bool is_large(const struct rounds *rounds)
{
    return rounds->plan->net->operation_count >= LARGE_OPERATIONS;
}

static void search_near(struct rounds *rounds)
{
    int64_t *work = &rounds->search.engine.trail.work;
    if (!plan_found(rounds->plan) || !is_large(rounds))
        return;
    while (!over(rounds)) {
        int64_t share = rounds->neighbour.idle < NEAR_IDLE ? NEAR_SHARE : NEAR_SHARE_IDLE, used = 0;
        if (rounds->near_work * share > *work)
            return;
        if (neighbour_try(&rounds->neighbour, rounds->effort - *work, &used))
            set_phases(rounds);
        rounds->near_work += used;
        *work += used;
    }
}

static void search_whole(struct rounds *rounds)
{
    const struct trail *trail = &rounds->search.engine.trail;
    int64_t conflicts = ROUND_CONFLICTS * luby(1 + rounds->number);
    const struct net_result *result = rounds->plan->result;
    int64_t turn = rounds->number++ % 4;
    if (turn == 3)
        raise_bound(rounds, result->bound, conflicts);
    else if (turn == 1 && plan_found(rounds->plan) && is_large(rounds))
        raise_bound(rounds, result->bound + (result->value - 1 - result->bound) / 2, conflicts);
    else
        improve(rounds, conflicts);
    engine_back(&rounds->search.engine, 0);
    plan_raise_bound(rounds->plan, trail_low(trail, rounds->search.engine.model->value));
}

static void find_value(struct rounds *rounds)
{
    struct engine *engine = &rounds->search.engine;
    plan_raise_bound(rounds->plan, trail_low(&engine->trail, engine->model->value));
    lift_by_work(&rounds->lift);
    while (!over(rounds)) {
        search_whole(rounds);
        search_near(rounds);
        if (rounds->number % PRICE_ROUNDS == 0 && !over(rounds))
            lift_by_prices(&rounds->lift, rounds->effort / PRICE_SHARE);
    }
}

void rounds_run(struct rounds *rounds, struct plan *plan, const struct model *model, struct arena *arena,
                int64_t effort)
{
    bool flags = model->net->flag_count > 0;
    *rounds = (struct rounds){.plan = plan, .effort = flags ? effort - effort / FLAG_SHARE : effort};
    if (!search_init(&rounds->search, model, arena)) {
        plan->result->status = NET_IMPOSSIBLE;
        return;
    }
    lift_init(&rounds->lift, &rounds->search.engine, plan);
    neighbour_init(&rounds->neighbour, plan, arena);
    rounds->best = ARENA_ARRAY(arena, model->variables, int32_t);
    if (plan_found(plan))
        set_phases(rounds);
    find_value(rounds);
    rounds->effort = effort;
    if (plan_found(plan) && flags)
        fewer_flags(rounds);
    if (rounds->search.engine.refuted && !plan_found(plan))
        plan->result->status = NET_IMPOSSIBLE;
}
