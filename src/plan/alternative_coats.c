/* Fewer coats, and delivery while the film is younger. */
#include "plan/alternative.h"

#include "base/arena.h"

#include <string.h>

static void add_delivery(struct alternatives *all, enum finish_state state)
{
    struct job job = *all->job;
    job.deliver_at = state;
    alternatives_add_job(all, (struct change){.kind = ALTERNATIVE_DELIVERY, .state = state}, &job);
}

/* Those that a customer can be told; which of them comes first depends on the finish. */
void alternatives_add_delivery(struct alternatives *all)
{
    static const enum finish_state states[] = {STATE_LIGHT_USE, STATE_WRAP, STATE_HANDLE};
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++)
        if (states[i] != all->job->deliver_at)
            add_delivery(all, states[i]);
}

static bool schedule_used(const struct operations *operations, size_t schedule)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operations->items[i].schedule == (int)schedule)
            return true;
    return false;
}

/* The last step that lays more than one coat; NULL: none. */
static const struct step *coats_to_spare(const struct schedule *schedule)
{
    for (size_t i = schedule->step_count; i > 0; i--)
        if (schedule->steps[i - 1].kind == STEP_COAT && schedule->steps[i - 1].coats > 1)
            return &schedule->steps[i - 1];
    return NULL;
}

static void add_coat_less(struct alternatives *all, size_t at)
{
    struct job job = *all->job;
    const struct schedule *schedule = &job.schedules[at];
    const struct step *many = coats_to_spare(schedule);
    if (!many)
        return;
    struct step *steps = ARENA_ARRAY(all->arena, schedule->step_count, struct step);
    struct schedule *schedules = ARENA_ARRAY(all->arena, job.schedule_count, struct schedule);
    memcpy(steps, schedule->steps, schedule->step_count * sizeof *steps);
    memcpy(schedules, job.schedules, job.schedule_count * sizeof *schedules);
    int coats = --steps[many - schedule->steps].coats;
    schedules[at].steps = steps;
    job.schedules = schedules;
    alternatives_add_job(all,
                         (struct change){.kind = ALTERNATIVE_COATS,
                                         .finish = many->finish,
                                         .coats = coats,
                                         .instead_of_coats = many->coats,
                                         .schedule = schedule->name},
                         &job);
}

void alternatives_add_coats(struct alternatives *all)
{
    for (size_t i = 0; i < all->job->schedule_count; i++)
        if (schedule_used(all->operations, i))
            add_coat_less(all, i);
}
