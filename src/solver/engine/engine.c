#include "solver/engine/engine.h"

#include "base/arena.h"
#include "solver/propagators/cumulative.h"

/* How many flags are at 1: a variable that is at least the number of those that surely are. Where no more are
 * allowed, the open ones are at 0. False on a conflict. */
static bool propagate_flag_sum(const struct model *model, struct trail *trail, struct literal *explanation)
{
    size_t set = 0;
    for (int f = 0; f < model->net->flag_count; f++)
        if (trail_low(trail, model->first_flag + f) == 1)
            explanation[set++] = at_least(model->first_flag + f, 1);
    trail->work += 1 + model->net->flag_count / 8;
    if (!trail_infer(trail, at_least(model->flag_sum, (int32_t)set), explanation, set))
        return false;
    if ((int32_t)set < trail_high(trail, model->flag_sum))
        return true;
    explanation[set++] = at_most(model->flag_sum, trail_high(trail, model->flag_sum));
    for (int f = 0; f < model->net->flag_count; f++)
        if (trail_low(trail, model->first_flag + f) == 0) /* so nothing contradicts it */
            trail_infer(trail, at_most(model->first_flag + f, 0), explanation, set);
    return true;
}

void literals_add(struct literals *literals, struct arena *arena, struct literal literal)
{
    literals->items =
        arena_grow(arena, literals->items, literals->count, &literals->capacity, sizeof *literals->items);
    literals->items[literals->count++] = literal;
}

bool engine_init(struct engine *engine, const struct model *model, struct arena *arena)
{
    *engine = (struct engine){.model = model, .arena = arena};
    clauses_init(&engine->clauses, &engine->atoms, arena);
    profiles_init(&engine->profiles, model, arena);
    atoms_init(&engine->atoms, arena, model->variables);
    engine->flag_sum_explanation = ARENA_ARRAY(arena, (size_t)model->net->flag_count + 1, struct literal);
    engine->refuted = !model_start(model, &engine->trail, arena) || !engine_propagate(engine);
    return !engine->refuted;
}

void engine_prepare_overload(struct engine *engine)
{
    overloads_init(&engine->overloads, &engine->profiles, &engine->trail, engine->arena);
}

static bool is_flag(const struct model *model, int32_t bound)
{
    return bound / 2 >= model->first_flag && bound / 2 <= model->flag_sum;
}

static bool wake(struct engine *engine)
{
    struct trail *trail = &engine->trail;
    while (engine->head < trail->count) {
        struct trail_entry entry = trail->entries[engine->head++];
        profiles_notify(&engine->profiles, entry.bound);
        if (trail->now[entry.bound] == entry.now && !edges_wake(&engine->model->edges, trail, entry.bound))
            return false;
        if (is_flag(engine->model, entry.bound) &&
            !propagate_flag_sum(engine->model, trail, engine->flag_sum_explanation))
            return false;
        if (!clauses_wake(&engine->clauses, trail, &entry))
            return false;
    }
    return true;
}

bool engine_propagate(struct engine *engine)
{
    bool idle = false;
    while (!idle)
        if (!wake(engine) || !cumulative_run(&engine->profiles, &engine->trail, &idle))
            return false;
    return !engine->overload_on || overloads_run(&engine->overloads, &engine->trail);
}

void engine_backjump(struct engine *engine, size_t level)
{
    trail_backjump(&engine->trail, level);
    atoms_backjump(&engine->atoms, level);
    if (engine->head > engine->trail.count)
        engine->head = engine->trail.count;
}

static void explain_list(const struct engine *engine, int32_t index, struct literals *into)
{
    const struct literal *list = &engine->trail.lists[index];
    for (int32_t i = 1; i <= list->bound; i++)
        literals_add(into, engine->arena, list[i]);
}

static void explain_clause(const struct engine *engine, int32_t index, struct literal made,
                           struct literals *into)
{
    int32_t size;
    const struct literal *literals = clauses_literals(&engine->clauses, index, &size);
    for (int32_t i = 0; i < size; i++)
        if (literals[i].bound != made.bound)
            literals_add(into, engine->arena, literal_not(literals[i]));
}

void engine_explain(const struct engine *engine, struct literal literal, struct reason reason, int32_t entry,
                    struct literals *into)
{
    struct literal few[ARC_REASONS];
    size_t count = 0;
    if (reason.kind == REASON_LIST)
        explain_list(engine, reason.index, into);
    else if (reason.kind == REASON_CLAUSE)
        explain_clause(engine, reason.index, literal, into);
    else if (reason.kind != REASON_DECISION)
        count = edges_explain(&engine->model->edges, &engine->trail, literal, reason, entry, few);
    for (size_t i = 0; i < count; i++)
        literals_add(into, engine->arena, few[i]);
}
