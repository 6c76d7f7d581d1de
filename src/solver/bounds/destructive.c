#include "solver/bounds/destructive.h"

#include "base/arena.h"

/* The cost is compared over so many steps of the multipliers; a value is given up as not to be refuted where it rose
 * by no more than this part of what was missing. */
enum { WATCH = 50, HOPE = 8 };

void destructive_init(struct destructive *destructive, struct engine *engine, struct incumbent *incumbent)
{
    engine_prepare_overload(engine);
    *destructive = (struct destructive){
        .engine = engine, .incumbent = incumbent, .unrefuted = NET_NEVER, .target = NET_NEVER};
}

/* Decides a value of at most `most` on level 1 and propagates. False on a conflict. */
static bool assume_value(struct engine *engine, int32_t most)
{
    trail_push_level(&engine->trail);
    return trail_decide(&engine->trail, at_most(engine->model->value, most)) && engine_propagate(engine);
}

void destructive_by_energy(struct destructive *destructive)
{
    struct engine *engine = destructive->engine;
    int32_t low = destructive->incumbent->result->bound, high = destructive->incumbent->result->value;
    if (!incumbent_found(destructive->incumbent))
        return;
    engine->overload_on = true;
    while (low < high) {
        int32_t middle = low + (high - low) / 2;
        if (assume_value(engine, middle))
            high = middle;
        else
            low = middle + 1;
        engine_backjump(engine, 0);
    }
    engine->overload_on = false;
    incumbent_raise_bound(destructive->incumbent, low);
}

/* The relaxation sees the windows below the best plan as it is now. */
static void relax_below_incumbent(struct destructive *destructive)
{
    struct engine *engine = destructive->engine;
    destructive->listed = true;
    if (assume_value(engine, destructive->incumbent->result->value - 1))
        lagrangian_init(&destructive->lagrangian, &engine->profiles, &engine->trail, engine->arena);
    else
        incumbent_raise_bound(destructive->incumbent, destructive->incumbent->result->value);
    engine_backjump(engine, 0);
}

/* The value to be refuted next: halfway to the plan, or to what the multipliers have failed to refute. */
static void next_target(struct destructive *destructive)
{
    const struct net_result *result = destructive->incumbent->result;
    int32_t most = destructive->unrefuted < result->value ? destructive->unrefuted : result->value;
    destructive->target = result->bound + (most - result->bound) / 2;
    destructive->best_then = 0;
    lagrangian_restart(&destructive->lagrangian);
}

static bool refutes(struct destructive *destructive)
{
    struct engine *engine = destructive->engine;
    bool refuted = !assume_value(engine, destructive->target) ||
                   lagrangian_refutes(&destructive->lagrangian, &engine->trail);
    engine_backjump(engine, 0);
    return refuted;
}

/* Whether the cost rises too slowly to get there. */
static bool has_stalled(struct destructive *destructive)
{
    if (destructive->lagrangian.steps % WATCH != WATCH - 1)
        return false;
    int32_t rise = destructive->lagrangian.best - destructive->best_then,
            missing = LAGRANGIAN_WHOLE - destructive->best_then;
    destructive->best_then = destructive->lagrangian.best;
    return rise <= missing / HOPE;
}

static void try_multipliers(struct destructive *destructive)
{
    if (refutes(destructive)) {
        incumbent_raise_bound(destructive->incumbent, destructive->target + 1);
        next_target(destructive);
    } else if (has_stalled(destructive)) {
        destructive->unrefuted = destructive->target;
        next_target(destructive);
    } else {
        lagrangian_step(&destructive->lagrangian);
    }
}

void destructive_by_multipliers(struct destructive *destructive, int64_t work)
{
    const struct net_result *result = destructive->incumbent->result;
    struct trail *trail = &destructive->engine->trail;
    if (!incumbent_found(destructive->incumbent) || incumbent_optimal(destructive->incumbent))
        return;
    if (!destructive->listed)
        relax_below_incumbent(destructive);
    if (destructive->lagrangian.count == 0)
        return;
    if (destructive->target < result->bound || destructive->target >= result->value)
        next_target(destructive);
    for (int64_t end = trail->work + work; trail->work < end && result->bound < destructive->unrefuted;) {
        int64_t before = destructive->lagrangian.work;
        if (incumbent_optimal(destructive->incumbent))
            return;
        try_multipliers(destructive);
        trail->work += destructive->lagrangian.work - before;
    }
}
