#include "solver/engine/search.h"

#include <assert.h>

#include "base/arena.h"
#include "base/observer.h"
#include "solver/engine/analysis.h"

/* Clauses are reduced after so many more, and then after some more than that. */
enum { CLAUSES_FIRST = 800, CLAUSES_MORE = 30, ASK_WORK = 500000 };

bool search_init(struct search *search, const struct model *model, struct arena *arena)
{
    *search = (struct search){.clause_limit = CLAUSES_FIRST};
    return engine_init(&search->engine, model, arena);
}

int64_t luby(int64_t n)
{
    int64_t size = 1;
    while (size < n + 1)
        size *= 2;
    return size == n + 1 ? size / 2 : luby(n - size / 2 + 1);
}

/* The operation that can start first and is not fixed; of those the one that must start last, then by index. */
static int first_open(const struct search *search)
{
    const struct trail *trail = &search->engine.trail;
    int best = NET_NONE;
    for (int i = 0; i < search->engine.model->value; i++) {
        int32_t low = trail_low(trail, i), high = trail_high(trail, i);
        if (low == high)
            continue;
        if (best == NET_NONE || low < trail_low(trail, best) ||
            (low == trail_low(trail, best) && high < trail_high(trail, best)))
            best = i;
    }
    return best;
}

/* Flags to 0, then operations at their first start, then what is left at its least value. */
static bool plain_decision(const struct search *search, struct literal *decision)
{
    const struct model *model = search->engine.model;
    const struct trail *trail = &search->engine.trail;
    int variable = model->first_flag;
    while (variable < model->flag_sum && trail_low(trail, variable) == trail_high(trail, variable))
        variable++;
    if (variable == model->flag_sum)
        variable = first_open(search);
    for (int v = model->value; variable == NET_NONE && (size_t)v < model->variables; v++)
        if (trail_low(trail, v) < trail_high(trail, v))
            variable = v;
    if (variable == NET_NONE)
        return false;
    *decision = at_most(variable, trail_low(trail, variable));
    return true;
}

static bool choose(struct search *search, struct literal *decision)
{
    if (!atoms_next(&search->engine.atoms, &search->engine.trail, decision))
        return plain_decision(search, decision);
    int variable = decision->bound / 2;
    if (!search->best || search->best[variable] < decision->value)
        *decision = literal_not(*decision);
    return true;
}

/* Takes the next assumption or decision. SEARCH_ENDED: go on propagating. */
static enum outcome decide(struct search *search)
{
    struct engine *engine = &search->engine;
    struct literal decision;
    if (engine->trail.level < search->assumptions.count) {
        decision = search->assumptions.items[engine->trail.level];
        if (trail_fails(&engine->trail, decision))
            return SEARCH_REFUTED;
    } else {
        if (!choose(search, &decision))
            return SEARCH_FOUND;
        search->nodes++;
    }
    trail_push_level(&engine->trail);
    bool open = trail_decide(&engine->trail, decision);
    assert(open);
    return SEARCH_ENDED;
}

static void reduce(struct search *search)
{
    struct engine *engine = &search->engine;
    if (engine->clauses.count < search->clause_limit || engine->refuted)
        return;
    clauses_reduce(&engine->clauses, &engine->trail);
    search->clause_limit =
        engine->clauses.count + CLAUSES_FIRST + CLAUSES_MORE * (size_t)search->reductions++;
}

/* Asks the observer after every so much work. */
static bool is_ended(struct search *search, int64_t work_limit)
{
    struct observer *observer = search->engine.model->net->observer;
    int64_t work = search->engine.trail.work;
    if (work - search->asked < ASK_WORK)
        return observer_ended(observer);
    search->asked = work;
    return observer_ask(observer, work, work_limit);
}

enum outcome search_run(struct search *search, int64_t conflicts, int64_t work_limit)
{
    struct engine *engine = &search->engine;
    engine_backjump(engine, 0);
    if (!engine->refuted && !engine_propagate(engine))
        engine->refuted = true;
    reduce(search);
    while (!engine->refuted) {
        if (!engine_propagate(engine)) {
            search->conflicts++;
            conflicts--;
            if (!analyse_conflict(engine))
                break;
            continue;
        }
        if (conflicts <= 0 || engine->trail.work >= work_limit || is_ended(search, work_limit)) {
            engine_backjump(engine, 0);
            return SEARCH_ENDED;
        }
        enum outcome outcome = decide(search);
        if (outcome != SEARCH_ENDED)
            return outcome;
    }
    return SEARCH_REFUTED;
}
