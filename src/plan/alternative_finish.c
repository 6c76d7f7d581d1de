/* Another finish of the same family that dries faster, wherever the job lays the one. */
#include "plan/alternative.h"

#include "base/arena.h"

#include <string.h>

enum { FOR_WEATHER = 2 }; /* the mark from which a finish is meant for outdoors */

/* In one state at least that this job waits for. */
static bool dries_faster(const struct finish *other, const struct finish *than, enum finish_state deliver_at)
{
    const enum finish_state states[] = {STATE_HANDLE, STATE_RECOAT, STATE_SAND, deliver_at};
    for (size_t i = 0; i < sizeof states / sizeof states[0]; i++)
        if (other->first.after_min[states[i]] < than->first.after_min[states[i]] ||
            other->later.after_min[states[i]] < than->later.after_min[states[i]])
            return true;
    return false;
}

static bool between_is_usual(const struct step *step)
{
    const struct finish *finish = step->finish;
    if (!step->between || finish->between_grit == 0)
        return !step->between;
    enum step_kind usual = finish->between_scuff ? STEP_SCUFF : STEP_SAND;
    return step->between->kind == usual && step->between->grit == finish->between_grit;
}

static bool same_solvent(const struct finish *a, const struct finish *b)
{
    return a->solvent && b->solvent && strcmp(a->solvent, b->solvent) == 0;
}

/* What was usual for the one becomes what is usual for the other; the rest stays as far as the other bears it. */
static void swap_finish(struct arena *arena, struct step *step, const struct finish *other)
{
    const struct finish *finish = step->finish;
    if (step->coats == finish->coats_usual)
        step->coats = other->coats_usual;
    if (step->coats > other->coats_most)
        step->coats = other->coats_most;
    if (!other->by[step->by])
        step->by = other->usual_tool;
    if (between_is_usual(step))
        step->between = step_usual_between(arena, other, step->by);
    if (!same_solvent(finish, other))
        step->thin = 0;
    step->finish = other;
}

static void swap_steps(struct arena *arena, struct schedule *schedule, const struct finish *finish,
                       const struct finish *other)
{
    struct step *steps = ARENA_ARRAY(arena, schedule->step_count, struct step);
    for (size_t i = 0; i < schedule->step_count; i++) {
        steps[i] = schedule->steps[i];
        if (steps[i].kind == STEP_COAT && steps[i].finish == finish)
            swap_finish(arena, &steps[i], other);
    }
    schedule->steps = steps;
}

/* Weather matters to what is made for it only. */
static bool weaker(const struct finish *other, const struct finish *than, int against)
{
    bool matters = against != RESISTS_OUTDOORS || than->resists[against] >= FOR_WEATHER;
    return matters && other->resists[against] < than->resists[against];
}

/* Bits of what it resists less. */
static unsigned resists_less(const struct finish *other, const struct finish *than)
{
    unsigned less = 0;
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        less |= weaker(other, than, i) ? 1u << i : 0;
    return less;
}

/* No stand-in for what is much tougher: a sealer of the family is no top coat. */
static bool tough_enough(const struct finish *other, const struct finish *than)
{
    for (int i = 0; i < RESISTANCE_COUNT; i++)
        if (weaker(other, than, i) && (other->resists[i] == 0 || other->resists[i] < than->resists[i] - 1))
            return false;
    return true;
}

/* Who lays it by hand may have no gun. */
static bool tools_at_hand(const struct job *job, const struct finish *finish, const struct finish *other)
{
    for (size_t i = 0; i < job->schedule_count; i++)
        for (size_t k = 0; k < job->schedules[i].step_count; k++) {
            const struct step *step = &job->schedules[i].steps[k];
            if (step->kind == STEP_COAT && step->finish == finish && !other->by[step->by] &&
                tool_sprays(other->usual_tool) && !tool_sprays(step->by))
                return false;
        }
    return true;
}

static bool for_weather(const struct finish *finish)
{
    return finish->resists[RESISTS_OUTDOORS] >= FOR_WEATHER;
}

/* A finish that colours is chosen for its colour, one for outdoors for the weather: only its like stands in for it. */
static bool stands_in(const struct job *job, const struct finish *finish, const struct finish *other)
{
    return other != finish && strcmp(other->family, finish->family) == 0 &&
           other->colours == finish->colours && for_weather(other) == for_weather(finish) &&
           dries_faster(other, finish, job->deliver_at) && tough_enough(other, finish) &&
           tools_at_hand(job, finish, other);
}

static void add_finish(struct alternatives *all, const struct finish *finish, const struct finish *other)
{
    struct job job = *all->job;
    struct schedule *schedules = ARENA_ARRAY(all->arena, job.schedule_count, struct schedule);
    for (size_t i = 0; i < job.schedule_count; i++) {
        schedules[i] = job.schedules[i];
        swap_steps(all->arena, &schedules[i], finish, other);
    }
    job.schedules = schedules;
    alternatives_add_job(all,
                         (struct change){.kind = ALTERNATIVE_FINISH,
                                         .finish = other,
                                         .instead_of = finish,
                                         .less_resistant = resists_less(other, finish)},
                         &job);
}

void alternatives_add_finishes(struct alternatives *all)
{
    const struct job *job = all->job;
    for (size_t i = 0; i < job->finish_count; i++)
        for (size_t k = 0; operations_lay(all->operations, job->finishes[i]) && k < job->finish_count; k++)
            if (stands_in(job, job->finishes[i], job->finishes[k]))
                add_finish(all, job->finishes[i], job->finishes[k]);
}
