#include "plan/plan.h"

#include "base/arena.h"

/* The coat's loss belongs to its first pass: on a piece of two sides the back's. */
struct litres plan_litres(const struct operations *operations, size_t apply)
{
    const struct operation *operation = &operations->items[apply];
    bool first = true;
    for (size_t i = apply; i > 0 && first; i--) {
        const struct operation *earlier = &operations->items[i - 1];
        if (earlier->chain != operation->chain)
            break;
        first = earlier->doing != DO_APPLY || earlier->schedule != operation->schedule ||
                earlier->coat != operation->coat;
    }
    return coat_litres(&operation->pass, &operation->of, first);
}

struct plan *plan_make(struct arena *arena, const struct job *job, struct plan_options options,
                       struct err_list *errors)
{
    struct plan *plan = ARENA_NEW(arena, struct plan);
    plan->job = job;
    plan->surfaces = surfaces_make(arena, job, errors);
    if (!plan->surfaces)
        return NULL;
    plan->operations = timetable_operations(arena, job, plan->surfaces, errors);
    if (!plan->operations)
        return NULL;
    plan->timetable = timetable_make(arena, plan->operations, options.timetable);
    plan->mixes = mix_cards_make(arena, plan->timetable);
    plan->purchases = plan_purchases(arena, plan->timetable);
    plan_add_cautions(arena, plan);
    return plan;
}
