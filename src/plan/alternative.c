#include "plan/alternative.h"

#include "base/arena.h"
#include "base/err.h"
#include "timetable/planning.h"

enum { LARGE_OPERATIONS = 2000 };

bool alternative_of_shop(enum alternative_kind kind)
{
    return kind < ALTERNATIVE_SOONEST;
}

void alternatives_add_job(struct alternatives *all, struct change change, const struct job *job)
{
    if (all->count < ALTERNATIVES_MOST)
        all->items[all->count++] = (struct alternative){change, all->job, *job};
}

void alternatives_add_to_shop(struct alternatives *all, struct change change, const struct shop *shop)
{
    struct job job = *all->job;
    job.shop = *shop;
    alternatives_add_job(all, change, &job);
}

bool alternative_late(const struct timetable *timetable)
{
    return timetable->status != TIMETABLE_PLANNED || timetable->late_min > 0;
}

/* More steps than a timetable may have, or so many that the whole effort found no plan: the reason says so, and a try of each
 * change, with a part of that effort, would only find it once more. */
static bool is_too_large(const struct timetable *timetable)
{
    return (timetable->why_count > 0 && timetable->why[0].kind == REASON_SIZE) ||
           (timetable->status == TIMETABLE_UNKNOWN && timetable->operations->count > LARGE_OPERATIONS);
}

bool alternative_wanted(const struct timetable *timetable)
{
    if (is_too_large(timetable))
        return false;
    return alternative_late(timetable) ||
           (timetable->aim == AIM_LEAST_WORK && timetable->ready_min > timetable->aim_min);
}

enum timetable_aim alternative_aim(const struct change *change, enum timetable_aim aim)
{
    return change->kind == ALTERNATIVE_SOONEST ? AIM_SOONEST : aim;
}

/* In the order in which equal gains are told: what costs the customer nothing first. A late plan is as early as it can be
 * already, whatever the aim. */
void alternatives_init(struct alternatives *all, struct arena *arena, const struct timetable *timetable,
                       int64_t now_min, bool late)
{
    *all = (struct alternatives){.arena = arena,
                                 .job = timetable->job,
                                 .timetable = timetable,
                                 .operations = timetable->operations,
                                 .now_min = now_min};
    all->items = ARENA_ARRAY(arena, ALTERNATIVES_MOST, struct alternative);
    if (!late) {
        alternatives_add_job(all, (struct change){.kind = ALTERNATIVE_SOONEST}, all->job);
        return;
    }
    alternatives_add_start(all);
    alternatives_add_pieces(all);
    alternatives_add_shop(all);
    alternatives_add_air(all);
    alternatives_add_coats(all);
    alternatives_add_delivery(all);
    alternatives_add_finishes(all);
}

static bool job_sound(struct arena *arena, const struct job *job, size_t *warnings)
{
    struct err_list *lists = ARENA_ARRAY(arena, 2, struct err_list);
    job_check(arena, job, &lists[0], &lists[1]);
    *warnings = lists[1].count + lists[1].dropped;
    return lists[0].count == 0;
}

size_t alternative_warnings(struct arena *arena, const struct job *job)
{
    size_t warnings;
    job_sound(arena, job, &warnings);
    return warnings;
}

const struct operations *alternative_work(struct arena *arena, const struct operations *now,
                                          const struct job *changed, size_t warnings_now)
{
    size_t warnings;
    if (!job_sound(arena, changed, &warnings) || warnings > warnings_now)
        return NULL;
    return timetable_operations(arena, changed, now->surfaces, ARENA_NEW(arena, struct err_list));
}
