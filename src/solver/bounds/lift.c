#include "solver/bounds/lift.h"

#include "base/arena.h"

/* Prices are watched over so many steps; they are given up where they rose by no more than this part of
 * what was missing. */
enum { WATCH = 50, HOPE = 8 };

void lift_init(struct lift *lift, struct engine *engine, struct plan *plan)
{
    engine_prepare_weighing(engine);
    *lift = (struct lift){.engine = engine, .plan = plan, .hopeless = NET_NEVER, .supposed = NET_NEVER};
}

/* Supposes a value of at most `most` on level 1 and draws all conclusions. False: they clash. */
static bool suppose(struct engine *engine, int32_t most)
{
    trail_deeper(&engine->trail);
    return trail_set(&engine->trail, at_most(engine->model->value, most),
                     (struct reason){REASON_DECISION, 0}) &&
           engine_propagate(engine);
}

void lift_by_work(struct lift *lift)
{
    struct engine *engine = lift->engine;
    int32_t low = lift->plan->result->bound, high = lift->plan->result->value;
    if (!plan_found(lift->plan))
        return;
    engine->weigh = true;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (suppose(engine, middle))
            high = middle;
        else
            low = middle + 1;
        engine_back(engine, 0);
    }
    engine->weigh = false;
    plan_raise_bound(lift->plan, low);
}

/* Prices see the windows below the best plan as it is now. */
static void list_seekers(struct lift *lift)
{
    struct engine *engine = lift->engine;
    lift->listed = true;
    if (suppose(engine, lift->plan->result->value - 1))
        relax_init(&lift->relax, &engine->profiles, &engine->trail, engine->arena);
    else
        plan_raise_bound(lift->plan, lift->plan->result->value);
    engine_back(engine, 0);
}

/* The value to be tried next: halfway to the plan, or to what prices have failed to refute. */
static void suppose_next(struct lift *lift)
{
    const struct net_result *result = lift->plan->result;
    int32_t most = lift->hopeless < result->value ? lift->hopeless : result->value;
    lift->supposed = result->bound + (most - result->bound) / 2;
    lift->best_then = 0;
    relax_again(&lift->relax);
}

static bool refutes(struct lift *lift)
{
    struct engine *engine = lift->engine;
    bool refuted = !suppose(engine, lift->supposed) || relax_refutes(&lift->relax, &engine->trail);
    engine_back(engine, 0);
    return refuted;
}

/* Whether the prices rise too slowly to get there. */
static bool lags_behind(struct lift *lift)
{
    if (lift->relax.steps % WATCH != WATCH - 1)
        return false;
    int32_t rise = lift->relax.best - lift->best_then, missing = RELAX_WHOLE - lift->best_then;
    lift->best_then = lift->relax.best;
    return rise <= missing / HOPE;
}

static void try_prices(struct lift *lift)
{
    if (refutes(lift)) {
        plan_raise_bound(lift->plan, lift->supposed + 1);
        suppose_next(lift);
    } else if (lags_behind(lift)) {
        lift->hopeless = lift->supposed;
        suppose_next(lift);
    } else {
        relax_step(&lift->relax);
    }
}

void lift_by_prices(struct lift *lift, int64_t work)
{
    const struct net_result *result = lift->plan->result;
    struct trail *trail = &lift->engine->trail;
    if (!plan_found(lift->plan) || plan_best(lift->plan))
        return;
    if (!lift->listed)
        list_seekers(lift);
    if (lift->relax.seekers.count == 0)
        return;
    if (lift->supposed < result->bound || lift->supposed >= result->value)
        suppose_next(lift);
    for (int64_t end = trail->work + work; trail->work < end && result->bound < lift->hopeless;) {
        int64_t before = lift->relax.work;
        if (plan_best(lift->plan))
            return;
        try_prices(lift);
        trail->work += lift->relax.work - before;
    }
}
