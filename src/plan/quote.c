#include "plan/plan.h"

#include "base/apportion.h"
#include "base/arena.h"

static struct cost_use use_of(const struct timetable *timetable, size_t i)
{
    const struct operation *operation = &timetable->operations->items[i];
    struct cost_use use = {.piece = operation->piece < 0 ? SIZE_MAX : (size_t)operation->piece,
                           .minutes = operation->minutes};
    if (operation->doing != DO_APPLY)
        return use;
    use.finish = operation->of.step->finish;
    use.litres = plan_litres(timetable, i).likely;
    return use;
}

/* Whoever works is paid from set-up to clean-up, two where two are needed. The steps of a batch share that after the time of
 * their units. */
static void add_batch(struct arena *arena, const struct timetable *timetable,
                      const struct timetable_batch *batch, struct cost_use *uses, size_t *count)
{
    int64_t units = 0, paid = batch->hands_on_min * (batch->helper > 0 ? 2 : 1);
    int64_t *parts = ARENA_ARRAY(arena, batch->step_count, int64_t);
    int64_t *shares = ARENA_ARRAY(arena, batch->step_count, int64_t);
    for (size_t i = 0; i < batch->step_count; i++) {
        int64_t own = timetable->steps[batch->steps[i]].operation->units.seconds;
        units += own;
        parts[i] = own * paid;
    }
    if (units == 0)
        parts[0] = paid;
    apportion(parts, batch->step_count, units > 0 ? units : 1, paid, shares);
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = timetable->steps[batch->steps[i]].operation;
        struct cost_use *use = &uses[(*count)++];
        *use = use_of(timetable, (size_t)(operation - timetable->operations->items));
        use->minutes = (int32_t)shares[i];
    }
}

/* What was done costs what it took. */
static struct cost_use use_of_fact(const struct fact *fact)
{
    const struct operation *operation = &fact->operation;
    struct cost_use use = {.piece = operation->piece < 0 ? SIZE_MAX : (size_t)operation->piece,
                           .minutes = (int32_t)(fact->done_min - fact->began_min)};
    if (operation->doing == DO_APPLY) {
        use.finish = operation->of.step->finish;
        use.litres = fact_litres(fact);
    }
    return use;
}

struct costs *plan_costs(struct arena *arena, const struct plan *plan)
{
    const struct operations *operations = plan->operations;
    const struct timetable *timetable = plan->timetable;
    struct cost_use *uses =
        ARENA_ARRAY(arena, operations->count + operations->fact_count + 1, struct cost_use);
    size_t count = 0;
    for (size_t i = 0; i < timetable->batch_count; i++)
        add_batch(arena, timetable, &timetable->batches[i], uses, &count);
    for (size_t i = 0; timetable->step_count == 0 && i < operations->count; i++)
        if (!operations->items[i].late_scuff)
            uses[count++] = use_of(timetable, i);
    for (size_t i = 0; i < operations->fact_count; i++)
        if (operations->facts[i].entry)
            uses[count++] = use_of_fact(&operations->facts[i]);
    struct costs *costs = costs_make(arena, plan->job, plan->purchases, uses, count);
    costs->sundries_cents = sundries_cents(plan->sundries);
    if (costs->total.material_cents >= 0)
        costs->total.material_cents += costs->sundries_cents;
    return costs;
}
