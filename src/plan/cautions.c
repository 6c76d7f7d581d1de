/* The cautions of a job: each said once, with the finishes it is about, and the vapour of its largest coat. */
#include "plan/plan.h"

#include "base/arena.h"
#include "base/measure.h"
#include "base/number.h"
#include "finish/caution.h"
#include "finish/vapour.h"
#include "plan/voc.h"

#include <string.h>

struct gathering {
    struct arena *arena;
    const struct operations *operations;
    const char **sentences;
    size_t count, room;
};

static void say(struct gathering *gathering, const char *sentence)
{
    gathering->sentences = arena_grow(gathering->arena, gathering->sentences, gathering->count,
                                      &gathering->room, sizeof *gathering->sentences);
    gathering->sentences[gathering->count++] = sentence;
}

/* Mist is a caution of what is sprayed here, not of what could be. */
static bool applies(const struct operations *operations, const struct finish *finish, const char *word)
{
    if (!finish_warns_of(finish, word) || !operations_lay(operations, finish))
        return false;
    bool sprayed = strcmp(word, "spray-mist") != 0;
    for (size_t i = 0; i < operations->count && !sprayed; i++) {
        const struct operation *operation = &operations->items[i];
        sprayed = operation_sprays(operation) && operation->of.step->finish == finish;
    }
    return sprayed;
}

static void say_caution(struct gathering *gathering, const struct caution *caution)
{
    const struct job *job = gathering->operations->job;
    const char *names = NULL;
    for (size_t i = 0; i < job->finish_count; i++) {
        const struct finish *finish = job->finishes[i];
        if (!applies(gathering->operations, finish, caution->word))
            continue;
        names = names ? arena_textf(gathering->arena, "%s, %s", names, finish->name) : finish->name;
    }
    if (names)
        say(gathering, arena_textf(gathering->arena, "%s: %s; %s", names, caution->text, caution_rider()));
}

static void say_dust(struct gathering *gathering)
{
    for (size_t i = 0; i < gathering->operations->count; i++) {
        const struct operation *operation = &gathering->operations->items[i];
        if (!operation->dusty || operation->late_scuff)
            continue;
        say(gathering,
            arena_textf(
                gathering->arena,
                "sanding: wood dust harms the lungs and fine dust burns: extract it at the tool, wear a "
                "mask, keep flames away; %s",
                caution_rider()));
        return;
    }
}

/* Dilution air for the coat that frees the most: 29 CFR 1910.94(c)(6)(ii). */
static void say_vapour(struct gathering *gathering)
{
    const struct operations *operations = gathering->operations;
    const struct operation *worst = NULL;
    struct vapour most = {0};
    for (size_t i = 0; i < operations->count; i++) {
        if (operations->items[i].doing != DO_APPLY)
            continue;
        struct litres litres = plan_litres(operations, i);
        struct vapour vapour =
            finish_vapour(operations->items[i].of.step->finish, litres.likely, litres.thinner);
        if (vapour.air_m3 <= most.air_m3)
            continue;
        most = vapour;
        worst = &operations->items[i];
    }
    if (!worst)
        return;
    say(gathering, arena_textf(gathering->arena,
                               "%s: one coat on %s frees %s of solvent (counted as %s), which takes %s m3 "
                               "of fresh air to keep safe "
                               "from fire, and more for the lungs (29 CFR 1910.94(c)(6)(ii)); %s",
                               worst->of.step->finish->name, worst->job->pieces[worst->piece].name,
                               volume_format(most.solvent_l, UNITS_METRIC).text,
                               most.counted_as ? most.counted_as : "solvent",
                               number_round(most.air_m3, 0).text, caution_rider()));
}

static void say_voc(struct gathering *gathering)
{
    const char *words = voc_words(gathering->arena, gathering->operations);
    if (words)
        say(gathering, arena_textf(gathering->arena, "%s; %s", words, caution_rider()));
}

/* The pot life of what heats itself is that of a small cup (common practice, from memory). */
static void say_exotherm(struct gathering *gathering, const struct mix_cards *mixes)
{
    const struct finish *finish = NULL;
    double most_g = MIX_CUP_G;
    for (size_t i = 0; mixes && i < mixes->count; i++) {
        double mass_g = mix_mass_g(mixes->items[i].mix);
        if (!finish_warns_of(mixes->items[i].finish, "exotherm") || mass_g <= most_g)
            continue;
        most_g = mass_g;
        finish = mixes->items[i].finish;
    }
    if (finish)
        say(gathering,
            arena_textf(gathering->arena,
                        "%s: the largest mix weighs %s; a pot life is that of about %d g in one "
                        "cup, and twice the mass halves it (common practice, from memory); %s",
                        finish->name, mass_format(most_g, UNITS_METRIC).text, MIX_CUP_G, caution_rider()));
}

void plan_add_cautions(struct arena *arena, struct plan *plan)
{
    struct gathering gathering = {.arena = arena, .operations = plan->operations};
    size_t count;
    const struct caution *table = caution_table(&count);
    for (size_t i = 0; i < count; i++)
        say_caution(&gathering, &table[i]);
    say_exotherm(&gathering, plan->mixes);
    say_vapour(&gathering);
    say_voc(&gathering);
    say_dust(&gathering);
    plan->cautions = gathering.sentences;
    plan->caution_count = gathering.count;
}
