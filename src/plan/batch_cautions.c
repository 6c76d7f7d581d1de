/* Which cautions of a plan belong to which hour: those of one batch. */
#include "plan/plan.h"

#include "base/arena.h"

#include <string.h>

static bool is_of(const struct plan_caution *caution, const struct finish *finish)
{
    for (size_t i = 0; i < caution->finish_count; i++)
        if (caution->finishes[i] == finish)
            return true;
    for (size_t i = 0; i < caution->lacquer_count; i++)
        if (caution->lacquers[i] == finish)
            return true;
    return false;
}

/* The first of these finishes that the schedule of a sanded film holds; NULL: none. */
static const struct finish *sanded_film(const struct plan_caution *caution, const struct operation *operation)
{
    if (operation->schedule < 0 || operation->coat == 0)
        return NULL;
    const struct schedule *schedule = &operation->job->schedules[operation->schedule];
    for (size_t i = 0; i < schedule->step_count; i++)
        if (schedule->steps[i].kind == STEP_COAT && is_of(caution, schedule->steps[i].finish))
            return schedule->steps[i].finish;
    return NULL;
}

/* What it lays or works with: turning over is a part of that. */
static const struct operation *main_step(const struct timetable *timetable,
                                         const struct timetable_batch *batch)
{
    for (size_t i = 0; i < batch->step_count; i++)
        if (timetable->steps[batch->steps[i]].operation->doing != DO_FLIP)
            return timetable->steps[batch->steps[i]].operation;
    return timetable->steps[batch->steps[0]].operation;
}

static bool holds_any(const struct timetable *timetable, const struct timetable_batch *batch,
                      const struct plan_caution *caution)
{
    for (size_t i = 0; i < batch->step_count; i++)
        for (size_t k = 0; k < caution->coat_count; k++)
            if (timetable->steps[batch->steps[i]].operation == caution->coats[k])
                return true;
    return false;
}

/* Mist is a caution of what is sprayed in this hour. */
static bool warns_of(const struct plan_caution *caution, const struct finish *finish, bool sprays)
{
    return finish && is_of(caution, finish) && (sprays || strcmp(caution->name, "spray-mist") != 0);
}

/* Whether a caution of the plan is one of a batch with this main step and, where that is a coat, this finish. */
static bool concerns(const struct plan_caution *caution, const struct timetable *timetable,
                     const struct timetable_batch *batch, const struct finish *finish)
{
    const struct operation *work = main_step(timetable, batch);
    bool sprays = operation_sprays(work);
    switch (caution->kind) {
    case PLAN_CAUTION_FINISH:
        return warns_of(caution, finish, sprays);
    case PLAN_CAUTION_VAPOUR:
        return holds_any(timetable, batch, caution);
    case PLAN_CAUTION_DUST:
        return work->dusty;
    case PLAN_CAUTION_SELF_HEATING:
        return (work->dusty && sanded_film(caution, work)) || (finish && sprays && is_of(caution, finish));
    case PLAN_CAUTION_ONE_BOOTH:
        return finish && sprays && is_of(caution, finish);
    case PLAN_CAUTION_STRIPPING:
        return task_strips(work);
    case PLAN_CAUTION_BREATHING:
    case PLAN_CAUTION_VOC:
        break;
    }
    return false;
}

bool plan_asks_for_supplied_air(const struct plan *plan)
{
    for (size_t i = 0; i < plan->caution_count; i++)
        if (plan->cautions[i].kind == PLAN_CAUTION_BREATHING &&
            plan->cautions[i].breathing == BREATHING_SUPPLIED)
            return true;
    return false;
}

struct plan_caution *batch_cautions(struct arena *arena, const struct plan *plan,
                                    const struct timetable_batch *batch, bool supplied_air, size_t *count)
{
    const struct operation *work = main_step(plan->timetable, batch);
    const struct finish **finish = ARENA_ARRAY(arena, 1, const struct finish *);
    struct plan_caution *own = ARENA_ARRAY(arena, plan->caution_count + 1, struct plan_caution);
    *finish = work->doing == DO_APPLY ? work->of.step->finish : NULL;
    *count = 0;
    for (size_t i = 0; i < plan->caution_count; i++) {
        if (!concerns(&plan->cautions[i], plan->timetable, batch, *finish))
            continue;
        own[*count] = plan->cautions[i];
        if (own[*count].kind == PLAN_CAUTION_FINISH) {
            own[*count].finishes = finish;
            own[*count].finish_count = 1;
        }
        ++*count;
    }
    enum breathing breathing = *finish ? finish_breathing(*finish, operation_sprays(work)) : BREATHING_FREE;
    if (breathing != BREATHING_FREE && (breathing == BREATHING_SUPPLIED || !supplied_air))
        own[(*count)++] = (struct plan_caution){
            .kind = PLAN_CAUTION_BREATHING, .breathing = breathing, .finishes = finish, .finish_count = 1};
    return own;
}
