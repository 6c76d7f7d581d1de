#include "network/rounds.h"

#include "base/arena.h"
#include "network/shift.h"

enum { ROUND_CONFLICTS = 100, FLAG_SHARE = 8 };

/* The best plan as values of all variables: the side on which decisions fall. */
static void set_phases(struct rounds *rounds)
{
    const struct model *model = rounds->search.engine.model;
    const struct network *net = model->net;
    const struct net_result *result = rounds->plan->result;
    for (int i = 0; i < model->value; i++)
        rounds->best[i] = result->start[i];
    rounds->best[model->value] = result->bound;
    for (int f = 0; f < net->flag_count; f++)
        rounds->best[model->first_flag + f] = result->flag[f];
    for (size_t i = 0; model->first_order + (int)i < model->first_rule; i++) {
        const struct net_apart *apart = &net->aparts[i];
        bool a_first = net_map_at(net, apart->until_a, result->start[apart->a]) <= result->start[apart->b];
        rounds->best[(size_t)model->first_order + i] = !a_first;
    }
    rounds->best[model->tally] = 0;
    rounds->search.best = rounds->best;
}

static void take_plan(struct rounds *rounds)
{
    const struct trail *trail = &rounds->search.engine.trail;
    const struct model *model = rounds->search.engine.model;
    size_t count = model->net->operation_count;
    int32_t *start = ARENA_ARRAY(rounds->search.engine.arena, count, int32_t);
    unsigned char *flag =
        ARENA_ARRAY(rounds->search.engine.arena, (size_t)model->net->flag_count, unsigned char);
    for (size_t i = 0; i < count; i++)
        start[i] = trail_low(trail, (int)i);
    for (int f = 0; f < model->net->flag_count; f++)
        flag[f] = (unsigned char)trail_low(trail, model->first_flag + f);
    if (plan_keep(rounds->plan, start, flag)) {
        net_left_shift(model->net, rounds->plan->result);
        set_phases(rounds);
    }
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

static void raise_bound(struct rounds *rounds, int64_t conflicts)
{
    const struct model *model = rounds->search.engine.model;
    struct net_result *result = rounds->plan->result;
    rounds->search.assumptions.count = 0;
    assume(rounds, at_most(model->value, result->bound));
    rounds->search.engine.weigh = true;
    if (search(rounds, conflicts) == SEARCH_REFUTED && !rounds->search.engine.refuted)
        plan_raise_bound(rounds->plan, result->bound + 1);
    rounds->search.engine.weigh = false;
}

/* Whether plain propagation refutes a value of at most `most`. */
static bool refutes(struct rounds *rounds, int32_t most)
{
    struct engine *engine = &rounds->search.engine;
    trail_deeper(&engine->trail);
    bool refuted = !trail_set(&engine->trail, at_most(engine->model->value, most),
                              (struct reason){REASON_DECISION, 0}) ||
                   !engine_propagate(engine);
    engine_back(engine, 0);
    return refuted;
}

/* The bound that propagation alone can prove, by bisection below the best plan. */
static void bound_by_work(struct rounds *rounds)
{
    struct engine *engine = &rounds->search.engine;
    int32_t low = rounds->plan->result->bound, high = rounds->plan->result->value;
    if (!plan_found(rounds->plan))
        return;
    engine->weigh = true;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (refutes(rounds, middle))
            low = middle + 1;
        else
            high = middle;
    }
    engine->weigh = false;
    plan_raise_bound(rounds->plan, low);
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

static void find_value(struct rounds *rounds)
{
    const struct trail *trail = &rounds->search.engine.trail;
    int value = rounds->search.engine.model->value;
    plan_raise_bound(rounds->plan, trail_low(trail, value));
    bound_by_work(rounds);
    while (!over(rounds)) {
        int64_t conflicts = ROUND_CONFLICTS * luby(1 + rounds->number);
        if (rounds->number++ % 4 != 3)
            improve(rounds, conflicts);
        else
            raise_bound(rounds, conflicts);
        engine_back(&rounds->search.engine, 0);
        plan_raise_bound(rounds->plan, trail_low(trail, value));
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
