#include "plan/alternative.h"

#include "base/arena.h"
#include "base/err.h"
#include "timetable/planning.h"

void alternatives_add_job(struct alternatives *all, enum alternative_kind kind, const char *words,
                          const struct job *job, const char *change)
{
    if (all->count < ALTERNATIVES_MOST)
        all->items[all->count++] =
            (struct alternative){.kind = kind, .words = words, .job = *job, .change = change};
}

void alternatives_add_to_shop(struct alternatives *all, enum alternative_kind kind, const char *words,
                              const struct shop *shop, const char *change)
{
    struct job job = *all->job;
    job.shop = *shop;
    size_t before = all->count;
    if (!job.shop_file)
        change = arena_textf(all->arena, "{\"shop\": %s}", change);
    alternatives_add_job(all, kind, words, &job, change);
    if (all->count > before)
        all->items[before].in_shop = job.shop_file != NULL;
}

/* In the order in which equal gains are told: what costs the customer nothing first. */
void alternatives_init(struct alternatives *all, struct arena *arena, const struct operations *operations)
{
    *all = (struct alternatives){.arena = arena, .job = operations->job, .operations = operations};
    all->items = ARENA_ARRAY(arena, ALTERNATIVES_MOST, struct alternative);
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
