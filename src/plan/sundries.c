/* From the work of a plan to what it uses up beside finish. */
#include "plan/plan.h"

#include "base/arena.h"

#include <string.h>

/* An enum work; -1: uses nothing up. */
static int work_of(const struct operation *operation)
{
    switch (operation->doing) {
    case DO_SAND:
        return WORK_SAND;
    case DO_SCUFF:
        return WORK_SCUFF;
    case DO_POLISH:
        return WORK_POLISH;
    case DO_RUB:
        return WORK_RUB;
    case DO_APPLY:
        return (int)operation->of.step->by;
    default:
        return -1;
    }
}

/* A mix that coats share counts with the first of them. */
static int mixes_for(const struct mix_cards *mixes, const char *step_id)
{
    int count = 0;
    for (size_t i = 0; i < mixes->count; i++)
        count += strcmp(mixes->items[i].step_id, step_id) == 0;
    return count;
}

static struct hand_use use_of(const struct timetable *timetable, size_t i, const struct mix_cards *mixes)
{
    const struct operations *operations = timetable->operations;
    const struct operation *operation = &operations->items[i];
    struct hand_use use = {.work = work_of(operation),
                           .grit = operation->grit,
                           .area_m2 = pass_area_m2(&operation->pass) /
                                      (operation->parts > 1 ? operation->parts : 1)};
    if (operation->doing != DO_APPLY)
        return use;
    use.finish = operation->of.step->finish;
    use.thinner_l = plan_litres(timetable, i).thinner;
    use.mixes = mixes_for(mixes, operation->id);
    use.wiped = coat_is_wiped(&operation->of);
    return use;
}

/* What is done with one tool in one batch uses it up once: areas, thinner and mixes are added. */
static void add_batch(const struct timetable *timetable, const struct timetable_batch *batch,
                      const struct mix_cards *mixes, struct hand_use *uses, size_t *count)
{
    size_t first = *count;
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = timetable->steps[batch->steps[i]].operation;
        if (work_of(operation) < 0)
            continue;
        struct hand_use use = use_of(timetable, (size_t)(operation - timetable->operations->items), mixes);
        size_t at = first;
        while (at < *count && uses[at].work != use.work)
            at++;
        if (at == *count) {
            uses[(*count)++] = use;
            continue;
        }
        uses[at].area_m2 += use.area_m2;
        uses[at].thinner_l += use.thinner_l;
        uses[at].mixes += use.mixes;
    }
}

struct sundries *plan_sundries(struct arena *arena, const struct timetable *timetable,
                               const struct mix_cards *mixes)
{
    const struct operations *operations = timetable->operations;
    struct hand_use *uses = ARENA_ARRAY(arena, operations->count + 1, struct hand_use);
    size_t count = 0;
    for (size_t i = 0; i < timetable->batch_count; i++)
        add_batch(timetable, &timetable->batches[i], mixes, uses, &count);
    for (size_t i = 0; timetable->step_count == 0 && i < operations->count; i++)
        if (work_of(&operations->items[i]) >= 0 && !operations->items[i].late_scuff)
            uses[count++] = use_of(timetable, i, mixes);
    return sundries_make(arena, timetable->job->sundries, uses, count);
}
