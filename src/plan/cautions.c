/* The cautions of a job: each once, with the finishes that it is about. */
#include "plan/plan.h"

#include "base/arena.h"
#include "base/text.h"
#include "finish/caution.h"

#include <math.h>
#include <string.h>

struct gathering {
    struct arena *arena;
    const struct timetable *timetable;
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

static bool is_sprayed(const struct operations *operations, const struct finish *finish)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operation_sprays(&operations->items[i]) && operations->items[i].of.step->finish == finish)
            return true;
    return false;
}

static bool is_brushed(const struct operations *operations, const struct finish *finish)
{
    for (size_t i = 0; i < operations->count; i++)
        if (operations->items[i].doing == DO_APPLY && !operation_sprays(&operations->items[i]) &&
            operations->items[i].of.step->finish == finish)
            return true;
    return false;
}

/* What does not burn by itself does when it is thinned with what does. */
static bool is_thinned_flammable(const struct operations *operations, const struct finish *finish)
{
    for (size_t i = 0; i < operations->count; i++) {
        const struct operation *operation = &operations->items[i];
        if (operation->doing == DO_APPLY && operation->of.step->finish == finish &&
            operation->of.step->thin > 0 && solvent_is_flammable(finish->solvent))
            return true;
    }
    return false;
}

/* The coldest air of the plan's days. */
static double coldest_c(const struct job *job)
{
    double coldest = INFINITY;
    int64_t until;
    for (int64_t at = job->start_min; at <= job->deliver_min; at = until) {
        coldest = fmin(coldest, air_at(&job->shop.air, job->zone, at, &until).temperature_c);
        if (until == INT64_MAX)
            break;
    }
    return coldest;
}

/* Mist is a caution of what is sprayed here, not of what could be; frost one of air that freezes. */
static bool applies(const struct operations *operations, const struct finish *finish, const char *word)
{
    if (!operations_lay(operations, finish))
        return false;
    if (strcmp(word, "flammable") == 0 && is_thinned_flammable(operations, finish))
        return true;
    if (!finish_warns_of(finish, word))
        return false;
    if (strcmp(word, "frost") == 0)
        return coldest_c(operations->job) < 0;
    return strcmp(word, "spray-mist") != 0 || is_sprayed(operations, finish);
}

/* The finishes of a job for which a question is answered with yes, in its order. */
struct chosen {
    const struct finish **items;
    size_t count;
};

static void choose(struct gathering *gathering, struct chosen *chosen, const struct finish *finish)
{
    if (!chosen->items)
        chosen->items =
            ARENA_ARRAY(gathering->arena, gathering->operations->job->finish_count, const struct finish *);
    chosen->items[chosen->count++] = finish;
}

static void add_named(struct gathering *gathering, const char *name)
{
    const struct job *job = gathering->operations->job;
    struct plan_caution caution = {.kind = PLAN_CAUTION_FINISH, .name = name};
    struct chosen chosen = {NULL, 0};
    for (size_t i = 0; i < job->finish_count; i++) {
        if (!applies(gathering->operations, job->finishes[i], name))
            continue;
        choose(gathering, &chosen, job->finishes[i]);
        caution.sprayed |= is_sprayed(gathering->operations, job->finishes[i]);
    }
    caution.finishes = chosen.items;
    caution.finish_count = chosen.count;
    if (chosen.count > 0)
        add(gathering, caution);
}

/* What the plan asks to be breathed through for a finish; supplied air serves for all that is done with it. */
static enum breathing breathing_of(const struct operations *operations, const struct finish *finish)
{
    enum breathing most = BREATHING_FREE;
    if (is_brushed(operations, finish))
        most = finish_breathing(finish, false);
    if (is_sprayed(operations, finish) && finish_breathing(finish, true) > most)
        most = finish_breathing(finish, true);
    return most;
}

static bool needs_supplied_air(const struct operations *operations)
{
    const struct job *job = operations->job;
    for (size_t i = 0; i < job->finish_count; i++)
        if (breathing_of(operations, job->finishes[i]) == BREATHING_SUPPLIED)
            return true;
    return false;
}

/* One kind for each exposure. Where isocyanate is sprayed no other kind is named at all: it would be taken for enough. */
static void add_breathing(struct gathering *gathering)
{
    const struct operations *operations = gathering->operations;
    bool supplied = needs_supplied_air(operations);
    for (enum breathing kind = BREATHING_SUPPLIED; kind > BREATHING_FREE; kind--) {
        struct chosen chosen = {NULL, 0};
        for (size_t i = 0; i < operations->job->finish_count && (!supplied || kind == BREATHING_SUPPLIED);
             i++)
            if (breathing_of(operations, operations->job->finishes[i]) == kind)
                choose(gathering, &chosen, operations->job->finishes[i]);
        if (chosen.count > 0)
            add(gathering, (struct plan_caution){.kind = PLAN_CAUTION_BREATHING,
                                                 .breathing = kind,
                                                 .finishes = chosen.items,
                                                 .finish_count = chosen.count});
    }
}

/* A scuff for a missed recoat window raises some where it is planned. */
static bool raises_dust(const struct timetable *timetable, const struct operation *operation)
{
    return operation->dusty &&
           (!operation->late_scuff || timetable_step_of(timetable, operation) != SIZE_MAX);
}

static void add_dust(struct gathering *gathering)
{
    const struct operations *operations = gathering->operations;
    for (size_t i = 0; i < operations->count; i++) {
        if (!raises_dust(gathering->timetable, &operations->items[i]))
            continue;
        add(gathering,
            (struct plan_caution){.kind = PLAN_CAUTION_DUST, .supplied_air = needs_supplied_air(operations)});
        return;
    }
}

static bool sands_a_film(const struct gathering *gathering)
{
    const struct operations *operations = gathering->operations;
    for (size_t i = 0; i < operations->count; i++)
        if (raises_dust(gathering->timetable, &operations->items[i]) && operations->items[i].coat > 0)
            return true;
    return false;
}

/* Dust of a drying oil or an oil varnish, and its overspray, heat up as rags do; beside lacquer they take fire. */
static void add_self_heating(struct gathering *gathering)
{
    const struct operations *operations = gathering->operations;
    struct chosen oils = {NULL, 0}, lacquers = {NULL, 0};
    bool sprayed = false;
    for (size_t i = 0; i < operations->job->finish_count; i++) {
        const struct finish *finish = operations->job->finishes[i];
        bool mist = is_sprayed(operations, finish);
        if (operations_lay(operations, finish) && finish_heats_its_dust(finish))
            choose(gathering, &oils, finish);
        sprayed = sprayed || (mist && finish_heats_its_dust(finish));
        if (mist && finish_is_lacquer(finish))
            choose(gathering, &lacquers, finish);
    }
    struct plan_caution caution = {.kind = PLAN_CAUTION_SELF_HEATING,
                                   .sprayed = sprayed,
                                   .finishes = oils.items,
                                   .finish_count = oils.count};
    if (oils.count > 0 && (sprayed || sands_a_film(gathering)))
        add(gathering, caution);
    caution.kind = PLAN_CAUTION_ONE_BOOTH;
    caution.lacquers = lacquers.items;
    caution.lacquer_count = lacquers.count;
    if (oils.count > 0 && sprayed && lacquers.count > 0)
        add(gathering, caution);
}

bool task_strips(const struct operation *task)
{
    return task->words && (text_holds(task->words, "strip") || text_holds(task->words, "old paint"));
}

static void add_stripping(struct gathering *gathering)
{
    for (size_t i = 0; i < gathering->operations->count; i++)
        if (task_strips(&gathering->operations->items[i])) {
            add(gathering, (struct plan_caution){.kind = PLAN_CAUTION_STRIPPING});
            return;
        }
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
static double voc_of_all(const struct timetable *timetable)
{
    const struct operations *operations = timetable->operations;
    double grams = 0;
    for (size_t i = 0; i < operations->count; i++) {
        if (operations->items[i].doing != DO_APPLY)
            continue;
        struct litres litres = plan_litres(timetable, i);
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
                                   .country = shop_country(&job->shop, job->zone),
                                   .mass_g = voc_of_all(gathering->timetable)};
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

void plan_add_cautions(struct arena *arena, struct plan *plan, struct timetable *const *shop, size_t count)
{
    struct plan_caution air = plan_fresh_air(arena, plan->timetable, shop, count);
    struct gathering gathering = {
        .arena = arena, .timetable = plan->timetable, .operations = plan->operations};
    for (size_t i = 0; i < CAUTION_COUNT; i++)
        add_named(&gathering, caution_names[i]);
    add_breathing(&gathering);
    if (air.coat_count > 0)
        add(&gathering, air);
    add_voc(&gathering);
    add_dust(&gathering);
    add_self_heating(&gathering);
    add_stripping(&gathering);
    plan->cautions = gathering.items;
    plan->caution_count = gathering.count;
}
