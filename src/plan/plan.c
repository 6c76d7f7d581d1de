#include "plan/plan.h"

#include "base/arena.h"
#include "plan/advice.h"

struct litres plan_litres(const struct timetable *timetable, size_t apply)
{
    const struct operation *operation = &timetable->operations->items[apply];
    return coat_litres(&operation->pass, &operation->of, timetable->loss_share[apply]);
}

double fact_litres(const struct fact *fact)
{
    const struct operation *operation = &fact->operation;
    return fact->entry->used_l >= 0 ? fact->entry->used_l
                                    : coat_litres(&operation->pass, &operation->of, fact->loss_share).likely;
}

/* The arrows before the timetable; false when something was added to `errors`. */
static bool lay_out(struct arena *arena, const struct job *job, struct plan *plan, struct err_list *errors)
{
    plan->job = job;
    plan->surfaces = surfaces_of(arena, job, errors);
    if (plan->surfaces)
        plan->operations = timetable_operations(arena, job, plan->surfaces, errors);
    return plan->operations != NULL;
}

/* The arrows behind it. */
static void work_out(struct arena *arena, struct plan *plan, struct timetable *const *shop, size_t count)
{
    plan->mixes = mix_cards_make(arena, plan->timetable);
    plan->purchases = plan_purchases(arena, plan->timetable);
    plan->sundries = plan_sundries(arena, plan->timetable, plan->mixes);
    plan_add_cautions(arena, plan, shop, count);
}

/* Jobs that share a shop stand in one air: what was measured for one of them goes for all. */
static const struct job **share_air(struct arena *arena, const struct job *const *jobs, size_t count)
{
    const struct job **own = ARENA_ARRAY(arena, count, const struct job *);
    size_t measured = 0;
    for (size_t j = 0; j < count; j++)
        measured += jobs[j]->shop.air.measured_count;
    struct air_measured *all = ARENA_ARRAY(arena, measured + 1, struct air_measured);
    measured = 0;
    for (size_t j = 0; j < count; j++)
        for (size_t i = 0; i < jobs[j]->shop.air.measured_count; i++)
            all[measured++] = jobs[j]->shop.air.measured[i];
    air_sort_measured(all, measured);
    for (size_t j = 0; j < count; j++) {
        struct job *job = ARENA_NEW(arena, struct job);
        *job = *jobs[j];
        job->shop.air.measured = all;
        job->shop.air.measured_count = measured;
        own[j] = job;
    }
    return own;
}

struct plan **plan_several(struct arena *arena, const struct job *const *jobs, size_t count,
                           struct plan_options options, struct err_list *const *errors)
{
    struct plan **plans = ARENA_ARRAY(arena, count, struct plan *);
    jobs = share_air(arena, jobs, count);
    const struct operations **operations = ARENA_ARRAY(arena, count, const struct operations *);
    bool sound = true;
    for (size_t j = 0; j < count; j++) {
        plans[j] = ARENA_NEW(arena, struct plan);
        sound = lay_out(arena, jobs[j], plans[j], errors[j]) && sound;
        operations[j] = plans[j]->operations;
    }
    if (!sound)
        return NULL;
    struct timetable **each = timetable_several(arena, operations, count, options.timetable);
    struct advice_list *advice =
        options.advice ? advice_several(arena, each, count, options.timetable, options.now_min) : NULL;
    for (size_t j = 0; j < count; j++) {
        if (advice)
            plans[j]->advice = advice[j];
        plans[j]->timetable = each[j];
        plans[j]->operations = each[j]->operations;
        work_out(arena, plans[j], each, count);
    }
    return plans;
}

struct plan *plan_make(struct arena *arena, const struct job *job, struct plan_options options,
                       struct err_list *errors)
{
    struct plan *plan = ARENA_NEW(arena, struct plan);
    if (!lay_out(arena, job, plan, errors))
        return NULL;
    struct timetable *timetable = timetable_make(arena, plan->operations, options.timetable);
    if (options.advice)
        plan->advice = advice_make(arena, timetable, options.timetable, options.now_min);
    plan->timetable = timetable;
    plan->operations = timetable->operations;
    work_out(arena, plan, &timetable, 1);
    return plan;
}
