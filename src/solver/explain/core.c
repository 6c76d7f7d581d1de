#include "solver/explain/core.h"

#include <string.h>

#include "base/arena.h"
#include "solver/engine/analysis.h"
#include "solver/engine/search.h"

enum { SCRATCH_BYTES = 1 << 29 };

static const int64_t DEFAULT_EFFORT = 60000000;

struct explaining {
    const struct network *net;
    struct net_core *told;
    const struct model *model;
    struct search search;
    struct arena *arena;
    int32_t most;
    int64_t effort;
    unsigned char *in, *core; /* per rule: assumed; part of the last refutation */
    bool any_horizon;         /* some refutation holds with any longer horizon */
};

/* Whether a refutation by propagation alone holds with any longer horizon: it rests on rules as they were assumed,
 * and on no latest start that is the horizon. What a learned clause rests on at level 0 is not known any more. */
static bool holds_with_any_horizon(const struct explaining *ex, const struct literals *decisions,
                                   const struct literals *initial)
{
    const struct network *net = ex->model->net;
    if (ex->search.conflicts > (ex->search.engine.refuted ? 1 : 0))
        return false;
    for (size_t i = 0; i < decisions->count; i++)
        if (decisions->items[i].bound % 2 == 1 && decisions->items[i].bound / 2 != ex->model->value)
            return false;
    for (size_t i = 0; i < initial->count; i++) {
        int variable = initial->items[i].bound / 2;
        if (initial->items[i].bound % 2 == 1 && variable < ex->model->value &&
            net->operations[variable].latest == net->horizon)
            return false;
    }
    return true;
}

/* Searches with the rules that are `in`; where refuted, the core is what that rests on. */
static enum outcome attempt(struct explaining *ex)
{
    struct literals *assume = &ex->search.assumptions, rests = {NULL, 0, 0}, initial = {NULL, 0, 0};
    struct engine *engine = &ex->search.engine;
    assume->count = 0;
    if (ex->most < NET_NEVER)
        literals_add(assume, ex->arena, at_most(ex->model->value, ex->most));
    for (size_t r = 0; r < ex->model->rule_count; r++)
        if (ex->in[r])
            literals_add(assume, ex->arena, at_least(ex->model->first_rule + (int)r, 1));
    enum outcome outcome = search_run(&ex->search, INT64_MAX, ex->effort);
    if (outcome != SEARCH_REFUTED)
        return outcome;
    memset(ex->core, 0, ex->model->rule_count);
    if (engine->refuted) {
        analyse_roots(engine, NULL, &rests, &initial);
    } else {
        struct literal failed = assume->items[engine->trail.level], fails = literal_not(failed);
        analyse_roots(engine, &fails, &rests, &initial);
        literals_add(&rests, ex->arena, failed);
    }
    ex->any_horizon = ex->any_horizon || holds_with_any_horizon(ex, &rests, &initial);
    for (size_t i = 0; i < rests.count && !engine->refuted; i++)
        if (rests.items[i].bound / 2 >= ex->model->first_rule)
            ex->core[rests.items[i].bound / 2 - ex->model->first_rule] = 1;
    return outcome;
}

/* Leaves out one rule after the other, the highest number first. False: the effort ended before all were tried. */
static bool shrink(struct explaining *ex)
{
    bool all = true;
    for (size_t r = ex->model->rule_count; r-- > 0;) {
        if (!ex->in[r])
            continue;
        ex->in[r] = 0;
        enum outcome outcome = attempt(ex);
        if (outcome == SEARCH_REFUTED)
            memcpy(ex->in, ex->core, ex->model->rule_count);
        else
            ex->in[r] = 1;
        all = all && outcome != SEARCH_ENDED;
    }
    return all;
}

/* Called again with fewer rules it writes over what it wrote. */
static void tell(const struct explaining *ex)
{
    struct net_core *core = ex->told;
    int *rules = core->rules ? core->rules : ARENA_ARRAY(ex->net->arena, ex->model->rule_count, int);
    core->count = 0;
    for (size_t r = 0; r < ex->model->rule_count; r++)
        if (ex->in[r])
            rules[core->count++] = ex->model->rules[r];
    core->rules = rules;
    core->found = true;
}

static void explain(struct explaining *ex)
{
    memset(ex->in, 1, ex->model->rule_count);
    if (attempt(ex) != SEARCH_REFUTED)
        return;
    memcpy(ex->in, ex->core, ex->model->rule_count);
    tell(ex);
    bool minimal = shrink(ex);
    tell(ex);
    ex->told->minimal = minimal;
    ex->told->any_horizon = ex->any_horizon;
}

static void work(void *call)
{
    struct explaining *ex = call;
    struct arena *arena = arena_make_within(ex->net->arena, SCRATCH_BYTES);
    struct model model;
    model_init(&model, ex->net, arena, MODEL_MAXIMUM | MODEL_DISJUNCTIONS | MODEL_RULES);
    edges_index(&model.edges);
    ex->model = &model;
    ex->arena = arena;
    ex->in = ARENA_ARRAY(arena, model.rule_count, unsigned char);
    ex->core = ARENA_ARRAY(arena, model.rule_count, unsigned char);
    if (search_init(&ex->search, &model, arena)) {
        engine_prepare_overload(&ex->search.engine);
        ex->search.engine.overload_on = true;
        explain(ex);
    } else {
        tell(ex);
        ex->told->minimal = true;
    }
    arena_free_within(ex->net->arena, arena);
}

/* Where memory ends, what was found until then is the answer. */
void net_explain(const struct network *net, int32_t most, int64_t effort, struct net_core *core)
{
    *core = (struct net_core){0};
    struct explaining ex = {
        .net = net, .told = core, .most = most, .effort = effort ? effort : DEFAULT_EFFORT};
    arena_try(net->arena, work, &ex);
}
