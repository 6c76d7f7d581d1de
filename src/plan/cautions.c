/* The cautions of a job: each once, with the finishes that it is about, and the vapour of its largest coat. */
#include "plan/plan.h"

#include "base/arena.h"
#include "finish/caution.h"

#include <string.h>

struct gathering {
    struct arena *arena;
    const struct operations *operations;
    struct plan_caution *items;
    size_t count, room;
};

static void add(struct gathering *gathering, struct plan_caution caution)
{
    gathering->items = arena_grow(gathering->arena, gathering->items, gathering->count, &gathering->room,
                                  sizeof *gathering->items);
    gathering->items[gathering->count++] = caution;
}

static bool sprayed_here(const struct operations *operations, const struct finish *finish)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operation_sprays(&operations->items[i]) && operations->items[i].of.step->finish == finish)
            return true;
    return false;
}

/* Mist is a caution of what is sprayed here, not of what could be. */
static bool applies(const struct operations *operations, const struct finish *finish, const char *name)
{
    bool mist = strcmp(name, "spray-mist") == 0, breathed = mist || strcmp(name, "vapour") == 0;
    if (!finish_warns_of(finish, name) || !operations_lay(operations, finish))
        return false;
    bool sprayed = sprayed_here(operations, finish);
    bool supplied_air = sprayed && finish_warns_of(finish, "isocyanate");
    return (sprayed || !mist) && !(breathed && supplied_air);
}

static void add_named(struct gathering *gathering, const char *name)
{
    const struct job *job = gathering->operations->job;
    const struct finish **finishes = ARENA_ARRAY(gathering->arena, job->finish_count, const struct finish *);
    struct plan_caution caution = {.kind = PLAN_CAUTION_FINISH, .name = name, .finishes = finishes};
    for (size_t i = 0; i < job->finish_count; i++) {
        if (!applies(gathering->operations, job->finishes[i], name))
            continue;
        finishes[caution.finish_count++] = job->finishes[i];
        caution.sprayed |= sprayed_here(gathering->operations, job->finishes[i]);
    }
    if (caution.finish_count > 0)
        add(gathering, caution);
}

static void add_dust(struct gathering *gathering)
{
    for (size_t i = 0; i < gathering->operations->count; i++) {
        const struct operation *operation = &gathering->operations->items[i];
        if (!operation->dusty || operation->late_scuff)
            continue;
        add(gathering, (struct plan_caution){.kind = PLAN_CAUTION_DUST});
        return;
    }
}

/* Dilution air for the coat that frees the most: 29 CFR 1910.94(c)(6)(ii). */
static void add_vapour(struct gathering *gathering)
{
    const struct operations *operations = gathering->operations;
    struct plan_caution worst = {.kind = PLAN_CAUTION_VAPOUR};
    for (size_t i = 0; i < operations->count; i++) {
        if (operations->items[i].doing != DO_APPLY)
            continue;
        struct litres litres = plan_litres(operations, i);
        struct vapour vapour =
            finish_vapour(operations->items[i].of.step->finish, litres.likely, litres.thinner);
        if (vapour.air_m3 <= worst.vapour.air_m3)
            continue;
        worst.vapour = vapour;
        worst.coat = &operations->items[i];
    }
    if (worst.coat)
        add(gathering, worst);
}

/* The most that a finish is thinned here; -1: it is not applied. */
static double most_thinned(const struct operations *operations, const struct finish *finish)
{
    double thin = -1;
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->doing == DO_APPLY && operation->of.step->finish == finish &&
            operation->of.step->thin > thin)
            thin = operation->of.step->thin;
    }
    return thin;
}

/* Grams of VOC of all coats, thinner counted; finishes whose VOC is not known count for nothing. */
static double voc_of_all(const struct operations *operations)
{
    double grams = 0;
    for (size_t i = 0; i < operations->count; i++) {
        if (operations->items[i].doing != DO_APPLY)
            continue;
        struct litres litres = plan_litres(operations, i);
        grams += finish_vapour(operations->items[i].of.step->finish, litres.likely, litres.thinner).voc_g;
    }
    return grams;
}

static void add_voc(struct gathering *gathering)
{
    const struct job *job = gathering->operations->job;
    const struct finish **finishes = ARENA_ARRAY(gathering->arena, job->finish_count, const struct finish *);
    double *thin = ARENA_ARRAY(gathering->arena, job->finish_count, double);
    struct plan_caution caution = {.kind = PLAN_CAUTION_VOC,
                                   .finishes = finishes,
                                   .thin = thin,
                                   .mass_g = voc_of_all(gathering->operations)};
    for (size_t i = 0; i < job->finish_count; i++) {
        double most = most_thinned(gathering->operations, job->finishes[i]);
        if (most < 0 || finish_voc_thinned(job->finishes[i], most) == 0)
            continue;
        finishes[caution.finish_count] = job->finishes[i];
        thin[caution.finish_count++] = most;
    }
    if (caution.finish_count > 0 && caution.mass_g > 0)
        add(gathering, caution);
}

/* The pot life of what heats itself is that of a small cup (common practice, from memory). */
static void add_cup(struct gathering *gathering, const struct mix_cards *mixes)
{
    const struct finish **finish = ARENA_NEW(gathering->arena, const struct finish *);
    struct plan_caution caution = {.kind = PLAN_CAUTION_CUP, .finishes = finish, .mass_g = MIX_CUP_G};
    for (size_t i = 0; mixes && i < mixes->count; i++) {
        double mass_g = mix_mass_g(mixes->items[i].mix);
        if (!finish_warns_of(mixes->items[i].finish, "exotherm") || mass_g <= caution.mass_g)
            continue;
        caution.mass_g = mass_g;
        finish[0] = mixes->items[i].finish;
        caution.finish_count = 1;
    }
    if (caution.finish_count > 0)
        add(gathering, caution);
}

void plan_add_cautions(struct arena *arena, struct plan *plan)
{
    struct gathering gathering = {.arena = arena, .operations = plan->operations};
    for (size_t i = 0; i < CAUTION_COUNT; i++)
        add_named(&gathering, caution_names[i]);
    add_cup(&gathering, plan->mixes);
    add_vapour(&gathering);
    add_voc(&gathering);
    add_dust(&gathering);
    plan->cautions = gathering.items;
    plan->caution_count = gathering.count;
}
