/* Mixing cards: for every coat that needs mixing, how much at a time in the air of that hour; coats of one finish that
 * stand within one working time share a mix. */
#include "plan/plan.h"

#include "base/arena.h"
#include "base/measure.h"
#include "finish/drying.h"

#include <math.h>

enum { MIXING_MIN = 5 }; /* per mix: contract of the coat's minutes */

/* Applies that share one mix, or one apply that takes several. */
struct batch {
    const struct operation *first;
    size_t apply;               /* index of the first in the operations */
    int64_t start_min, end_min; /* INT64_MAX: no date */
    double volume_l, laying_min;
    size_t *pieces;
    size_t piece_count;
    double temperature_c;
    double working_min;
    int mixes;
};

struct carding {
    struct arena *arena;
    const struct timetable *timetable;
    struct batch *batches;
    size_t batch_count;
    struct mix_cards *cards;
    size_t room, warning_room;
};

static bool needs_mixing(const struct operation *operation)
{
    return operation->doing == DO_APPLY &&
           (operation->of.step->finish->component_count > 1 || operation->of.step->thin > 0);
}

static double temperature_at(const struct job *job, int64_t minute)
{
    int64_t until;
    if (minute == INT64_MAX)
        return shop_warmest_c(&job->shop, job->zone, job->start_min, job->deliver_min);
    return air_at(&job->shop.air, job->zone, minute, &until).temperature_c;
}

static int64_t plus(int64_t moment, double minutes)
{
    return moment == INT64_MAX || minutes >= (double)SPAN_NEVER ? INT64_MAX
                                                                : moment + (int64_t)floor(minutes);
}

/* When mix `number` of a batch is made: the first as the step begins, each later one when the one before is laid. */
static int64_t mixed_at(const struct batch *batch, int number, int mixes)
{
    double laying = batch->laying_min / mixes;
    double after = number == 1 ? 0 : batch->first->detail.set_up + (number - 1) * (laying + MIXING_MIN);
    return plus(batch->start_min, after);
}

/* Grams of one of so many equal mixes. */
static double mass_of(const struct batch *batch, int mixes)
{
    const struct step *step = batch->first->of.step;
    return mix_mass_of(step->finish, batch->volume_l, step->thin) / (mixes > 0 ? mixes : 1);
}

/* Minutes in which one of so many mixes, made at a moment, may be laid; a gun is clean before the pot life ends. */
static double working_at(const struct batch *batch, const struct job *job, int64_t minute, int mixes)
{
    return coat_working_min(&batch->first->pass, &batch->first->of, temperature_at(job, minute),
                            mass_of(batch, mixes));
}

/* Whether each of so many mixes can be laid in the air of its own hour. */
static bool all_can_be_laid(const struct batch *batch, const struct job *job, int mixes)
{
    for (int number = 1; number <= mixes; number++)
        if (mix_count(batch->laying_min / mixes,
                      working_at(batch, job, mixed_at(batch, number, mixes), mixes)) != 1)
            return false;
    return true;
}

/* The number for which the step has time is that of the warmest hour: it is never too small. */
static int mixes_of(const struct batch *batch, const struct job *job)
{
    int mixes = coat_mix_count(&batch->first->pass, &batch->first->of, batch->temperature_c,
                               mass_of(batch, 1), batch->laying_min);
    while (mixes > 0 && mixes < batch->first->detail.mixes && !all_can_be_laid(batch, job, mixes))
        mixes++;
    return mixes;
}

static struct batch batch_of(const struct carding *carding, size_t apply, int64_t start_min)
{
    const struct operations *operations = carding->timetable->operations;
    const struct operation *operation = &operations->items[apply];
    const struct job *job = carding->timetable->job;
    struct litres litres = plan_litres(operations, apply);
    struct batch batch = {.first = operation,
                          .apply = apply,
                          .start_min = start_min,
                          .end_min = start_min == INT64_MAX ? INT64_MAX : start_min + operation->minutes,
                          .volume_l = litres.likely + litres.thinner,
                          .laying_min = operation->detail.laying,
                          .temperature_c = temperature_at(job, start_min)};
    batch.mixes = mixes_of(&batch, job);
    batch.working_min = working_at(&batch, job, start_min, batch.mixes);
    batch.pieces = ARENA_ARRAY(carding->arena, job->piece_count, size_t);
    batch.pieces[batch.piece_count++] = (size_t)operation->piece;
    return batch;
}

/* The later coat's whole application must lie within the working time of the mix that the earlier one opens. */
static bool shares(const struct batch *open, const struct batch *next)
{
    const struct step *a = open->first->of.step, *b = next->first->of.step;
    if (a->finish != b->finish || a->thin != b->thin || open->start_min == INT64_MAX)
        return false;
    if (open->mixes != 1 || next->mixes != 1)
        return false;
    double mass_g = mass_of(open, 1) + mass_of(next, 1);
    double alive = a->finish->induction_min + finish_working_min(a->finish, open->temperature_c, mass_g);
    return (double)(next->end_min - open->start_min) <= alive;
}

static void join(struct batch *open, const struct batch *next)
{
    open->volume_l += next->volume_l;
    open->laying_min += next->laying_min;
    open->end_min = next->end_min;
    for (size_t i = 0; i < open->piece_count; i++)
        if (open->pieces[i] == next->pieces[0])
            return;
    open->pieces[open->piece_count++] = next->pieces[0];
}

static void add_batch(struct carding *carding, struct batch batch)
{
    for (size_t i = carding->batch_count; i > 0; i--) {
        struct batch *open = &carding->batches[i - 1];
        if (open->first->of.step->finish != batch.first->of.step->finish)
            continue;
        if (!shares(open, &batch))
            break;
        join(open, &batch);
        return;
    }
    carding->batches[carding->batch_count++] = batch;
}

static void collect(struct carding *carding)
{
    const struct timetable *timetable = carding->timetable;
    const struct operations *operations = timetable->operations;
    carding->batches = ARENA_ARRAY(carding->arena, operations->count, struct batch);
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct operation *operation = timetable->steps[i].operation;
        if (needs_mixing(operation))
            add_batch(carding, batch_of(carding, (size_t)(operation - operations->items),
                                        timetable->steps[i].start_min));
    }
    for (size_t i = 0; timetable->step_count == 0 && i < operations->count; i++)
        if (needs_mixing(&operations->items[i]))
            add_batch(carding, batch_of(carding, i, INT64_MAX));
}

static void warn(struct carding *carding, struct mix_warning warning)
{
    struct mix_cards *cards = carding->cards;
    cards->warnings = arena_grow(carding->arena, cards->warnings, cards->warning_count,
                                 &carding->warning_room, sizeof *cards->warnings);
    cards->warnings[cards->warning_count++] = warning;
}

static void warn_of_batch(struct carding *carding, const struct batch *batch)
{
    const struct operation *operation = batch->first;
    struct mix_warning warning = {.finish = operation->of.step->finish,
                                  .coat = operation->of.of_finish,
                                  .piece = carding->timetable->job->pieces[operation->piece].name,
                                  .temperature_c = batch->temperature_c};
    if (batch->working_min <= 0) {
        carding->cards->impossible = true;
        warning.kind = MIX_WARNING_DEAD;
        warning.working_min = finish_working_min(warning.finish, batch->temperature_c, 0);
        warn(carding, warning);
    } else if (operation->detail.longest_part > batch->working_min) {
        warning.kind = MIX_WARNING_PART;
        warning.minutes = operation->detail.longest_part;
        warning.working_min = batch->working_min;
        warn(carding, warning);
    }
}

static struct mix_card card_of(struct carding *carding, const struct batch *batch, int number)
{
    const struct operation *operation = batch->first;
    const struct step *step = operation->of.step;
    const struct job *job = carding->timetable->job;
    int64_t minute = mixed_at(batch, number, batch->mixes);
    struct mix_want want = {batch->volume_l / batch->mixes, step->thin, job->shop.scale_g,
                            temperature_at(job, minute)};
    struct mix *mix = mix_make(carding->arena, step->finish, want);
    mix->working_min =
        coat_working_min(&operation->pass, &operation->of, want.temperature_c, mix_mass_g(mix));
    struct mix_card card = {.finish = step->finish,
                            .coat = operation->coat,
                            .of_finish = operation->of.of_finish,
                            .pieces = batch->pieces,
                            .piece_count = batch->piece_count,
                            .number = number,
                            .of = batch->mixes,
                            .volume_l = want.volume_l,
                            .by = step->by,
                            .mix = mix,
                            .apply_min = batch->laying_min / batch->mixes,
                            .mixed_at_min = minute,
                            .step_id = operation->id};
    card.apply_by_min = plus(minute, step->finish->induction_min + mix->working_min);
    card.pot_life_ends_min = plus(minute, mix->pot_life_min);
    return card;
}

static void add_cards(struct carding *carding, const struct batch *batch)
{
    struct mix_cards *cards = carding->cards;
    warn_of_batch(carding, batch);
    for (int number = 1; batch->working_min > 0 && number <= batch->mixes; number++) {
        cards->items =
            arena_grow(carding->arena, cards->items, cards->count, &carding->room, sizeof *cards->items);
        struct mix_card *card = &cards->items[cards->count++];
        *card = card_of(carding, batch, number);
        struct mix_warning hot;
        if (mix_warns_of_cup(card->finish, card->mix, &hot))
            warn(carding, hot);
        if (card->mix->within)
            continue;
        cards->impossible = true;
        warn(carding, (struct mix_warning){.kind = MIX_WARNING_SCALE,
                                           .finish = card->finish,
                                           .coat = card->of_finish,
                                           .scale_g = carding->timetable->job->shop.scale_g});
    }
}

struct mix_cards *mix_cards_make(struct arena *arena, const struct timetable *timetable)
{
    struct carding carding = {
        .arena = arena, .timetable = timetable, .cards = ARENA_NEW(arena, struct mix_cards)};
    collect(&carding);
    for (size_t i = 0; i < carding.batch_count; i++)
        add_cards(&carding, &carding.batches[i]);
    return carding.cards;
}
