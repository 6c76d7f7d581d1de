#include "plan/plan.h"

#include "base/arena.h"

static struct cost_use use_of(const struct operations *operations, size_t i)
{
    const struct operation *operation = &operations->items[i];
    struct cost_use use = {.piece = operation->piece < 0 ? SIZE_MAX : (size_t)operation->piece,
                           .minutes = operation->minutes};
    if (operation->doing != DO_APPLY)
        return use;
    use.finish = operation->of.step->finish;
    use.litres = plan_litres(operations, i).likely;
    return use;
}

struct costs *plan_costs(struct arena *arena, const struct plan *plan)
{
    const struct operations *operations = plan->operations;
    const struct timetable *timetable = plan->timetable;
    struct cost_use *uses = ARENA_ARRAY(arena, operations->count + 1, struct cost_use);
    size_t count = 0;
    for (size_t i = 0; i < timetable->step_count; i++)
        uses[count++] = use_of(operations, (size_t)(timetable->steps[i].operation - operations->items));
    for (size_t i = 0; timetable->step_count == 0 && i < operations->count; i++)
        if (!operations->items[i].late_scuff)
            uses[count++] = use_of(operations, i);
    struct costs *costs = costs_make(arena, plan->job, plan->purchases, uses, count);
    costs->sundries_cents = sundries_cents(plan->sundries);
    if (costs->total.material_cents >= 0)
        costs->total.material_cents += costs->sundries_cents;
    return costs;
}
