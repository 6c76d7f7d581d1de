/* From the coats to what each finish needs, and by when its last coat is laid. */
#include "plan/plan.h"

#include "base/arena.h"

struct tally {
    struct need *needs;
    size_t count;
};

static struct need *need_of(struct tally *tally, const struct finish *finish, int64_t day)
{
    for (size_t i = 0; i < tally->count; i++)
        if (tally->needs[i].finish == finish)
            return &tally->needs[i];
    tally->needs[tally->count] = (struct need){.finish = finish, .last_coat_day = day};
    return &tally->needs[tally->count++];
}

static void date_needs(struct tally *tally, const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        if (step->operation->doing != DO_APPLY)
            continue;
        int64_t day = zone_day(timetable->job->zone, step->start_min, NULL);
        struct need *need = need_of(tally, step->operation->of.step->finish, day);
        need->last_coat_day = day; /* steps come by their start */
    }
}

/* Of what was laid already. */
static double used_l(const struct operations *operations, const struct finish *finish)
{
    double litres = 0;
    for (size_t i = 0; i < operations->fact_count; i++) {
        const struct fact *fact = &operations->facts[i];
        if (fact->entry && fact->operation.doing == DO_APPLY && fact->operation.of.step->finish == finish)
            litres += fact_litres(fact);
    }
    return litres;
}

static struct tally tally_of(struct arena *arena, const struct timetable *timetable)
{
    const struct operations *operations = timetable->operations;
    const struct job *job = timetable->job;
    struct tally tally = {ARENA_ARRAY(arena, job->finish_count, struct need), 0};
    int64_t delivery = zone_day(job->zone, job->deliver_min, NULL);
    for (size_t i = 0; i < operations->count; i++) {
        if (operations->items[i].doing != DO_APPLY)
            continue;
        struct litres litres = plan_litres(timetable, i);
        struct need *need = need_of(&tally, operations->items[i].of.step->finish, delivery);
        need->low_l += litres.low;
        need->likely_l += litres.likely;
        need->high_l += litres.high;
    }
    for (size_t i = 0; i < operations->fact_count; i++)
        if (operations->facts[i].entry && operations->facts[i].operation.doing == DO_APPLY)
            (void)need_of(&tally, operations->facts[i].operation.of.step->finish, delivery);
    date_needs(&tally, timetable);
    return tally;
}

struct purchases *plan_purchases(struct arena *arena, const struct timetable *timetable)
{
    struct tally tally = tally_of(arena, timetable);
    for (size_t i = 0; i < tally.count; i++)
        tally.needs[i].used_l = used_l(timetable->operations, tally.needs[i].finish);
    return purchases_make(arena, timetable->job, tally.needs, tally.count);
}

struct purchases *plan_purchases_in_all(struct arena *arena, const struct timetable *timetable)
{
    struct tally tally = tally_of(arena, timetable);
    for (size_t i = 0; i < tally.count; i++) {
        double litres = used_l(timetable->operations, tally.needs[i].finish);
        tally.needs[i].low_l += litres;
        tally.needs[i].likely_l += litres;
        tally.needs[i].high_l += litres;
    }
    return purchases_make(arena, timetable->job, tally.needs, tally.count);
}
