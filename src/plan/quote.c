#include "plan/plan.h"

#include "base/apportion.h"
#include "base/arena.h"
#include "timetable/facts.h"
#include "timetable/site.h"

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

/* Set-up, mixing and clean-up of what was done with one set-up: nobody records them, they are as planned. */
static int64_t beside_seconds(const struct operations *operations, size_t first)
{
    int32_t set_up = 0, clean_up = 0, mixing = 0;
    for (size_t i = first; i < operations->fact_count; i++) {
        const struct operation *operation = &operations->facts[i].operation;
        if (operation->work < 0 || !facts_are_one_batch(&operations->facts[first], &operations->facts[i]))
            continue;
        bool coat = operation->doing == DO_APPLY;
        bool two_part = coat && operation->of.step->finish->component_count > 1;
        int32_t own_set_up = units_set_up_min(&operation->job->shop, operation->work);
        int32_t own_clean_up = units_clean_up_min(&operation->job->shop, operation->work, two_part);
        set_up = own_set_up > set_up ? own_set_up : set_up;
        clean_up = own_clean_up > clean_up ? own_clean_up : clean_up;
        mixing = coat && operation_is_mixed(operation) ? MIXING_MIN : mixing;
    }
    return (int64_t)(set_up + clean_up + mixing) * MINUTE_S;
}

/* What was measured, else as planned; both, where it takes two. */
static int64_t fact_seconds(struct arena *arena, const struct fact *fact)
{
    int64_t measured = fact_measured_min(arena, fact) * MINUTE_S;
    int64_t seconds = measured > 0 ? measured : fact->operation.units.seconds;
    return seconds * (fact->operation.people > 1 && fact->operation.job->shop.people > 1 ? 2 : 1);
}

static struct cost_use use_of_fact(const struct fact *fact)
{
    const struct operation *operation = &fact->operation;
    struct cost_use use = {.piece = operation->piece < 0 ? SIZE_MAX : (size_t)operation->piece};
    if (operation->doing == DO_APPLY) {
        use.finish = operation->of.step->finish;
        use.litres = fact_litres(fact);
    }
    return use;
}

static bool is_first_of_batch(const struct operations *operations, size_t fact)
{
    for (size_t i = 0; i < fact; i++)
        if (operations->facts[i].entry &&
            facts_are_one_batch(&operations->facts[i], &operations->facts[fact]))
            return false;
    return operations->facts[fact].entry != NULL;
}

/* Seconds of each fact of one batch: its own, and after these its share of what is beside the work. */
static void share_seconds(struct arena *arena, const struct operations *operations, size_t first,
                          int64_t *seconds)
{
    const struct fact *facts = operations->facts;
    int64_t all = 0, beside = beside_seconds(operations, first);
    for (size_t i = first; i < operations->fact_count; i++)
        if (facts_are_one_batch(&facts[first], &facts[i])) {
            seconds[i] = fact_seconds(arena, &facts[i]);
            all += seconds[i];
        }
    for (size_t i = first; i < operations->fact_count && all > 0; i++)
        if (facts_are_one_batch(&facts[first], &facts[i]))
            seconds[i] += beside * seconds[i] / all;
}

/* What was done costs what it took; minutes are rounded up once, over all of it. */
static void add_facts(struct arena *arena, const struct operations *operations, struct cost_use *uses,
                      size_t *count)
{
    int64_t *seconds = ARENA_ARRAY(arena, operations->fact_count + 1, int64_t), all = 0;
    int64_t *minutes = ARENA_ARRAY(arena, operations->fact_count + 1, int64_t);
    for (size_t i = 0; i < operations->fact_count; i++)
        if (is_first_of_batch(operations, i))
            share_seconds(arena, operations, i, seconds);
    for (size_t i = 0; i < operations->fact_count; i++)
        all += seconds[i];
    apportion(seconds, operations->fact_count, MINUTE_S, (all + MINUTE_S - 1) / MINUTE_S, minutes);
    for (size_t i = 0; i < operations->fact_count; i++) {
        if (!operations->facts[i].entry)
            continue;
        uses[*count] = use_of_fact(&operations->facts[i]);
        uses[(*count)++].minutes = (int32_t)minutes[i];
    }
}

struct costs *plan_costs(struct arena *arena, const struct plan *plan, const struct purchases *purchases)
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
    add_facts(arena, operations, uses, &count);
    struct costs *costs = costs_make(arena, plan->job, purchases, uses, count);
    costs->sundries_cents = sundries_cents(plan->sundries);
    if (costs->total.material_cents >= 0)
        costs->total.material_cents += costs->sundries_cents;
    return costs;
}

struct quote plan_quote(struct arena *arena, const struct plan *plan, const struct plan *first_plan)
{
    const struct purchases *purchases = plan_purchases_in_all(arena, plan->timetable);
    return (struct quote){plan, purchases, plan_costs(arena, plan, purchases), first_plan,
                          first_plan ? plan_costs(arena, first_plan, first_plan->purchases) : NULL};
}

static const struct job *without_log(struct arena *arena, const struct job *job)
{
    struct job *bare = ARENA_NEW(arena, struct job);
    *bare = *job;
    bare->log = (struct log){.file = job->log.file};
    bare->now_min = INT64_MIN;
    bare->shop.air.measured_count = 0;
    return bare;
}

struct plan **plan_without_logs(struct arena *arena, const struct job *const *jobs, size_t count,
                                struct plan_options options)
{
    const struct job **bare = ARENA_ARRAY(arena, count, const struct job *);
    struct err_list *unheard = ARENA_ARRAY(arena, count, struct err_list),
                    **errors = ARENA_ARRAY(arena, count, struct err_list *);
    size_t entries = 0;
    for (size_t i = 0; i < count; i++) {
        entries += jobs[i]->log.count;
        bare[i] = without_log(arena, jobs[i]);
        errors[i] = &unheard[i];
    }
    options.advice = false;
    if (entries == 0)
        return NULL;
    if (count > 1)
        return plan_several(arena, bare, count, options, errors);
    struct plan **plans = ARENA_NEW(arena, struct plan *);
    *plans = plan_make(arena, bare[0], options, errors[0]);
    return *plans ? plans : NULL;
}
