/* The most fresh air that a job asks for at once. */
#include "plan/plan.h"

#include "base/arena.h"

#include <string.h>

/* What gives off vapour from a moment on until its last film is free of dust: the coats of a batch. */
struct cloud {
    const struct timetable *timetable;
    const struct operation **coats;
    size_t coat_count;
    int64_t from_min, until_min;
    struct vapour vapour; /* of them all, which are of one finish */
};

struct airing {
    struct arena *arena;
    struct cloud *clouds;
    size_t count, room;
};

static void add_coat(struct cloud *cloud, const struct operation *coat)
{
    const struct timetable *timetable = cloud->timetable;
    cloud->coats[cloud->coat_count++] = coat;
    struct litres litres = plan_litres(timetable, (size_t)(coat - timetable->operations->items));
    vapour_add(&cloud->vapour, finish_vapour(coat->of.step->finish, litres.likely, litres.thinner));
}

static void add_cloud(struct airing *airing, struct cloud cloud)
{
    if (cloud.vapour.lungs_air_m3 <= 0)
        return;
    airing->clouds =
        arena_grow(airing->arena, airing->clouds, airing->count, &airing->room, sizeof *airing->clouds);
    airing->clouds[airing->count++] = cloud;
}

static void add_batch(struct airing *airing, const struct timetable *timetable,
                      const struct timetable_batch *batch)
{
    struct cloud cloud = {.timetable = timetable, .from_min = batch->start_min, .until_min = batch->end_min};
    cloud.coats = ARENA_ARRAY(airing->arena, batch->step_count, const struct operation *);
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[batch->steps[i]];
        if (step->operation->doing != DO_APPLY)
            continue;
        add_coat(&cloud, step->operation);
        if (step->dust_free_min > cloud.until_min)
            cloud.until_min = step->dust_free_min;
    }
    add_cloud(airing, cloud);
}

static bool go_together(const struct operation *a, const struct operation *b)
{
    return b->doing == DO_APPLY && a->coat == b->coat && operation_same_kind(a, b);
}

/* Without dates all coats that could go into one batch count as one. */
static void add_undated(struct airing *airing, const struct timetable *timetable, size_t first)
{
    const struct operation *items = timetable->operations->items;
    struct cloud cloud = {
        .timetable = timetable, .from_min = (int64_t)first, .until_min = (int64_t)first + 1};
    for (size_t i = 0; i < first; i++)
        if (go_together(&items[first], &items[i]))
            return;
    size_t count = 0;
    for (size_t i = first; i < timetable->operations->count; i++)
        count += go_together(&items[first], &items[i]);
    cloud.coats = ARENA_ARRAY(airing->arena, count, const struct operation *);
    for (size_t i = first; i < timetable->operations->count; i++)
        if (go_together(&items[first], &items[i]))
            add_coat(&cloud, &items[i]);
    add_cloud(airing, cloud);
}

static void add_timetable(struct airing *airing, const struct timetable *timetable)
{
    for (size_t i = 0; i < timetable->batch_count; i++)
        add_batch(airing, timetable, &timetable->batches[i]);
    for (size_t i = 0; timetable->step_count == 0 && i < timetable->operations->count; i++)
        if (timetable->operations->items[i].doing == DO_APPLY)
            add_undated(airing, timetable, i);
}

static bool there_at(const struct cloud *cloud, int64_t minute)
{
    return cloud->from_min <= minute && minute < cloud->until_min;
}

/* Cubic metres for all that is in the air at a moment; 0: nothing of the job's own. */
static double air_at_moment(const struct airing *airing, const struct timetable *own, int64_t minute)
{
    double air_m3 = 0;
    bool mine = false;
    for (size_t i = 0; i < airing->count; i++) {
        if (!there_at(&airing->clouds[i], minute))
            continue;
        air_m3 += airing->clouds[i].vapour.lungs_air_m3;
        mine |= airing->clouds[i].timetable == own;
    }
    return mine ? air_m3 : 0;
}

/* What is in the air at once, as it is named. */
struct named {
    const struct finish **finishes;
    struct vapour *vapours;
    const struct operation **coats;
    size_t finish_count, vapour_count, coat_count;
};

static void name_cloud(struct named *named, const struct cloud *cloud)
{
    const struct finish *finish = cloud->coats[0]->of.step->finish;
    size_t at = 0, solvent = 0;
    while (at < named->finish_count && strcmp(named->finishes[at]->id, finish->id) != 0)
        at++;
    if (at == named->finish_count)
        named->finishes[named->finish_count++] = finish;
    while (solvent < named->vapour_count &&
           strcmp(named->vapours[solvent].counted_as, cloud->vapour.counted_as) != 0)
        solvent++;
    named->vapour_count += solvent == named->vapour_count;
    vapour_add(&named->vapours[solvent], cloud->vapour);
    for (size_t i = 0; i < cloud->coat_count; i++)
        named->coats[named->coat_count++] = cloud->coats[i];
}

static struct plan_caution caution_at(const struct airing *airing, int64_t minute)
{
    size_t most = 0;
    for (size_t i = 0; i < airing->count; i++)
        most += airing->clouds[i].coat_count;
    struct named named = {.finishes = ARENA_ARRAY(airing->arena, airing->count, const struct finish *),
                          .vapours = ARENA_ARRAY(airing->arena, airing->count, struct vapour),
                          .coats = ARENA_ARRAY(airing->arena, most, const struct operation *)};
    for (size_t i = 0; i < airing->count; i++)
        if (there_at(&airing->clouds[i], minute))
            name_cloud(&named, &airing->clouds[i]);
    return (struct plan_caution){.kind = PLAN_CAUTION_VAPOUR,
                                 .finishes = named.finishes,
                                 .finish_count = named.finish_count,
                                 .vapours = named.vapours,
                                 .vapour_count = named.vapour_count,
                                 .coats = named.coats,
                                 .coat_count = named.coat_count};
}

struct plan_caution plan_fresh_air(struct arena *arena, const struct timetable *own,
                                   struct timetable *const *shop, size_t count)
{
    struct airing airing = {.arena = arena};
    for (size_t i = 0; i < count; i++)
        if (shop[i] == own || shop[i]->step_count > 0)
            add_timetable(&airing, shop[i]);
    double most_m3 = 0;
    int64_t worst = INT64_MIN;
    for (size_t i = 0; i < airing.count; i++) {
        double air_m3 = air_at_moment(&airing, own, airing.clouds[i].from_min);
        if (air_m3 <= most_m3)
            continue;
        most_m3 = air_m3;
        worst = airing.clouds[i].from_min;
    }
    return caution_at(&airing, worst);
}
