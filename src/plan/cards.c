/* Mixing cards: for every batch of coats that needs mixing, how much at a time in the air of that hour. */
#include "plan/plan.h"

#include "base/arena.h"
#include "base/measure.h"
#include "finish/drying.h"
#include "timetable/site.h"

#include <math.h>

/* Coats that are laid from the same mixes: those of a batch. */
struct pots {
    const struct operation *first;
    size_t *applies; /* of the operations */
    size_t count;
    const struct timetable_batch *batch; /* NULL: no date */
    int mixes;
    double volume_l; /* finish and thinner of them all */
    double *each_l;  /* of each mix */
    double temperature_c, working_min;
};

struct carding {
    struct arena *arena;
    const struct timetable *timetable;
    struct mix_cards *cards;
    size_t room, warning_room;
};

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

static int64_t mixed_at(const struct pots *pots, int number)
{
    return pots->batch ? pots->batch->mixes[number - 1].at_min : INT64_MAX;
}

/* Seconds of units, in the order of work, until a mix is used up; without a date the mixes are equal. */
static int64_t served_until(const struct pots *pots, int number)
{
    int64_t seconds = 0;
    for (int i = 0; pots->batch && i < number; i++)
        seconds += pots->batch->mixes[i].seconds;
    if (!pots->batch)
        seconds = (int64_t)pots->first->units.seconds * number / (pots->mixes > 0 ? pots->mixes : 1);
    return seconds;
}

/* The unit of a coat in which a second of it lies; its end belongs to it. */
static size_t unit_at(const struct units *units, int64_t second)
{
    size_t i = 0;
    while (i + 1 < units->count && units->ends_s[i] < second)
        i++;
    return i;
}

/* Share of a coat that is laid after some seconds of it. */
static double laid_after(const struct units *units, int64_t second)
{
    if (units->count == 0 || second >= units->seconds)
        return 1;
    size_t i = unit_at(units, second);
    int64_t from_s = i > 0 ? units->ends_s[i - 1] : 0;
    double from = i > 0 ? units->laid[i - 1] : 0, length_s = (double)(units->ends_s[i] - from_s);
    return length_s > 0 ? from + (units->laid[i] - from) * (double)(second - from_s) / length_s : from;
}

/* Litres of finish and thinner laid until a second of the units. */
static double litres_until(const struct carding *carding, const struct pots *pots, int64_t second)
{
    double volume_l = 0;
    for (size_t i = 0; i < pots->count && second > 0; i++) {
        const struct units *units = &carding->timetable->operations->items[pots->applies[i]].units;
        struct litres litres = plan_litres(carding->timetable, pots->applies[i]);
        volume_l += (litres.likely + litres.thinner) * laid_after(units, second);
        second -= units->seconds;
    }
    return volume_l;
}

/* What of each mix is laid: not by its minutes, as sticks take longer for a litre than flats. */
static void share_out(const struct carding *carding, struct pots *pots)
{
    pots->each_l = ARENA_ARRAY(carding->arena, (size_t)pots->mixes + 1, double);
    double before = 0;
    for (int number = 1; number <= pots->mixes; number++) {
        bool last = number == pots->mixes;
        double until = last ? pots->volume_l : litres_until(carding, pots, served_until(pots, number));
        pots->each_l[number - 1] = until - before;
        before = until;
    }
}

/* Grams of one of the mixes. */
static double mass_of(const struct pots *pots, int number)
{
    const struct step *step = pots->first->of.step;
    return mix_mass_of(step->finish, pots->each_l[number - 1], step->thin);
}

/* Minutes in which one of the mixes, made at a moment, may be laid; a gun is clean before the pot life ends. */
static double working_at(const struct pots *pots, const struct job *job, int64_t minute, int number)
{
    return coat_working_min(&pots->first->pass, &pots->first->of, temperature_at(job, minute),
                            mass_of(pots, number));
}

static void add_apply(const struct carding *carding, struct pots *pots, size_t apply)
{
    struct litres litres = plan_litres(carding->timetable, apply);
    pots->applies[pots->count++] = apply;
    pots->volume_l += litres.likely + litres.thinner;
    if (!pots->first)
        pots->first = &carding->timetable->operations->items[apply];
}

static void finish_pots(const struct carding *carding, struct pots *pots)
{
    const struct job *job = carding->timetable->job;
    pots->mixes = pots->batch ? (int)pots->batch->mix_count : pots->first->detail.mixes;
    share_out(carding, pots);
    int64_t first = pots->mixes > 0 ? mixed_at(pots, 1) : INT64_MAX;
    pots->temperature_c = temperature_at(job, first);
    pots->working_min = working_at(pots, job, first, 1);
}

/* The coats, and the parts of each, that a mix is laid on. */
static void name_served(const struct carding *carding, const struct pots *pots, struct mix_card *card)
{
    struct mix_serves *serves = ARENA_ARRAY(carding->arena, pots->count, struct mix_serves);
    int64_t from = served_until(pots, card->number - 1), to = served_until(pots, card->number), before = 0;
    for (size_t i = 0; i < pots->count; i++) {
        const struct operation *coat = &carding->timetable->operations->items[pots->applies[i]];
        const struct units *units = &coat->units;
        int64_t end = before + units->seconds;
        if (units->count > 0 && before < to && end > from) {
            size_t first = unit_at(units, from > before ? from - before + 1 : 1),
                   last = unit_at(units, to < end ? to - before : units->seconds);
            serves[card->serves_count++] =
                (struct mix_serves){coat, first > 0 ? units->parts[first - 1] + 1 : 1, units->parts[last],
                                    units->parts[units->count - 1]};
        }
        before = end;
    }
    card->serves = serves;
}

bool mix_serves_new_piece(const struct mix_card *card, size_t serves)
{
    for (size_t i = 0; i < serves; i++)
        if (card->serves[i].coat->piece == card->serves[serves].coat->piece)
            return false;
    return true;
}

static void warn(struct carding *carding, struct mix_warning warning)
{
    struct mix_cards *cards = carding->cards;
    cards->warnings = arena_grow(carding->arena, cards->warnings, cards->warning_count,
                                 &carding->warning_room, sizeof *cards->warnings);
    cards->warnings[cards->warning_count++] = warning;
}

static void warn_of_pots(struct carding *carding, const struct pots *pots)
{
    const struct operation *operation = pots->first;
    struct mix_warning warning = {.finish = operation->of.step->finish,
                                  .coat = operation->of.of_finish,
                                  .piece = carding->timetable->job->pieces[operation->piece].name,
                                  .temperature_c = pots->temperature_c};
    if (pots->working_min <= 0) {
        carding->cards->impossible = true;
        warning.kind = MIX_WARNING_DEAD;
        warning.working_min = finish_working_min(warning.finish, pots->temperature_c, mass_of(pots, 1));
        warn(carding, warning);
        return;
    }
    for (size_t i = 0; i < pots->count; i++) {
        operation = &carding->timetable->operations->items[pots->applies[i]];
        if (operation->detail.longest_part <= pots->working_min)
            continue;
        warning.kind = MIX_WARNING_PART;
        warning.piece = carding->timetable->job->pieces[operation->piece].name;
        warning.minutes = operation->detail.longest_part;
        warning.working_min = pots->working_min;
        warn(carding, warning);
        return;
    }
}

static struct mix_card card_of(struct carding *carding, const struct pots *pots, int number)
{
    const struct operation *operation = pots->first;
    const struct step *step = operation->of.step;
    const struct job *job = carding->timetable->job;
    int64_t minute = mixed_at(pots, number);
    struct mix_want want = {pots->each_l[number - 1], step->thin, job->shop.scale_g,
                            temperature_at(job, minute)};
    struct mix *mix = mix_make(carding->arena, step->finish, want);
    mix->working_min = working_at(pots, job, minute, number);
    struct mix_card card = {.finish = step->finish,
                            .coat = operation->coat,
                            .of_finish = operation->of.of_finish,
                            .number = number,
                            .of = pots->mixes,
                            .volume_l = want.volume_l,
                            .by = step->by,
                            .mix = mix,
                            .apply_min =
                                (double)(served_until(pots, number) - served_until(pots, number - 1)) / 60,
                            .mixed_at_min = minute};
    name_served(carding, pots, &card);
    card.step_id = card.serves_count > 0 ? card.serves[0].coat->id : operation->id;
    /* Both run from when it is mixed. */
    card.apply_by_min = plus(minute, MIXING_MIN + step->finish->induction_min + mix->working_min);
    card.pot_life_ends_min = plus(minute, MIXING_MIN + mix->pot_life_min);
    return card;
}

static void add_cards(struct carding *carding, struct pots *pots)
{
    struct mix_cards *cards = carding->cards;
    finish_pots(carding, pots);
    warn_of_pots(carding, pots);
    for (int number = 1; pots->working_min > 0 && number <= pots->mixes; number++) {
        cards->items =
            arena_grow(carding->arena, cards->items, cards->count, &carding->room, sizeof *cards->items);
        struct mix_card *card = &cards->items[cards->count++];
        *card = card_of(carding, pots, number);
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

static void add_batch(struct carding *carding, const struct timetable_batch *batch)
{
    const struct timetable *timetable = carding->timetable;
    struct pots pots = {.applies = ARENA_ARRAY(carding->arena, batch->step_count, size_t), .batch = batch};
    for (size_t i = 0; i < batch->step_count; i++) {
        const struct operation *operation = timetable->steps[batch->steps[i]].operation;
        if (operation_is_mixed(operation))
            add_apply(carding, &pots, (size_t)(operation - timetable->operations->items));
    }
    if (pots.count > 0)
        add_cards(carding, &pots);
}

struct mix_cards *mix_cards_make(struct arena *arena, const struct timetable *timetable)
{
    struct carding carding = {
        .arena = arena, .timetable = timetable, .cards = ARENA_NEW(arena, struct mix_cards)};
    for (size_t i = 0; i < timetable->batch_count; i++)
        add_batch(&carding, &timetable->batches[i]);
    for (size_t i = 0; timetable->step_count == 0 && i < timetable->operations->count; i++) {
        struct pots pots = {.applies = ARENA_ARRAY(arena, 1, size_t)};
        if (!operation_is_mixed(&timetable->operations->items[i]))
            continue;
        add_apply(&carding, &pots, i);
        add_cards(&carding, &pots);
    }
    return carding.cards;
}
