#include "plan/day_card.h"

#include "base/arena.h"
#include "base/moment.h"

#include <stdlib.h>

struct choosing {
    struct arena *arena;
    struct day_card *card;
    struct day_batch *all; /* of every plan, one for each set-up */
    size_t count;
};

const struct timetable_batch *day_batch_main(const struct day_batch *batch)
{
    return batch->shares[0].batch;
}

static bool is_together(const struct timetable_batch *a, const struct timetable_batch *b)
{
    return a->person == b->person && a->start_min == b->start_min && a->end_min == b->end_min;
}

static void add_share(struct choosing *choosing, const struct plan *plan, const struct timetable_batch *share)
{
    size_t i = 0;
    while (i < choosing->count && !is_together(day_batch_main(&choosing->all[i]), share))
        i++;
    struct day_batch *batch = &choosing->all[i];
    if (i == choosing->count) {
        choosing->count++;
        *batch = (struct day_batch){
            .shares = ARENA_ARRAY(choosing->arena, choosing->card->plan_count, struct day_share)};
    }
    batch->shares[batch->share_count++] = (struct day_share){plan, share};
}

static int by_start_then_person(const void *a, const void *b)
{
    const struct timetable_batch *left = day_batch_main(a), *right = day_batch_main(b);
    if (left->start_min != right->start_min)
        return left->start_min < right->start_min ? -1 : 1;
    return left->person - right->person;
}

static void gather(struct choosing *choosing)
{
    size_t room = 0;
    for (size_t i = 0; i < choosing->card->plan_count; i++)
        room += choosing->card->plans[i]->timetable->batch_count;
    choosing->all = ARENA_ARRAY(choosing->arena, room, struct day_batch);
    for (size_t i = 0; i < choosing->card->plan_count; i++) {
        const struct plan *plan = choosing->card->plans[i];
        for (size_t k = 0; k < plan->timetable->batch_count; k++)
            add_share(choosing, plan, &plan->timetable->batches[k]);
    }
    qsort(choosing->all, choosing->count, sizeof *choosing->all, by_start_then_person);
}

static const struct timetable_step *step_at(const struct day_step *step)
{
    return &step->plan->timetable->steps[step->step];
}

static int by_start(const void *a, const void *b)
{
    const struct timetable_step *left = step_at(a), *right = step_at(b);
    if (left->start_min != right->start_min)
        return left->start_min < right->start_min ? -1 : 1;
    return left->end_min < right->end_min ? -1 : left->end_min > right->end_min;
}

/* Those of one job are in the order of work already. */
static void fill_steps(struct arena *arena, struct day_batch *batch)
{
    size_t room = 0;
    for (size_t i = 0; i < batch->share_count; i++)
        room += batch->shares[i].batch->step_count;
    batch->steps = ARENA_ARRAY(arena, room, struct day_step);
    for (size_t i = 0; i < batch->share_count; i++)
        for (size_t k = 0; k < batch->shares[i].batch->step_count; k++)
            batch->steps[batch->step_count++] =
                (struct day_step){batch->shares[i].plan, batch->shares[i].batch->steps[k]};
    if (batch->share_count > 1)
        qsort(batch->steps, batch->step_count, sizeof *batch->steps, by_start);
}

/* Said of both in the same words, whatever the piece. */
static bool is_same_need(const struct day_need *a, const struct day_need *b)
{
    const struct operation *left = a->earlier, *right = b->earlier;
    return a->plan == b->plan && a->link->kind == b->link->kind && a->link->state == b->link->state &&
           (a->link->span_min > 0) == (b->link->span_min > 0) && a->link->settles == b->link->settles &&
           left->task == right->task && operation_same_kind(left, right) &&
           left->of.of_finish == right->of.of_finish;
}

static void add_need(struct day_batch *batch, struct day_need need)
{
    for (size_t i = 0; i < batch->need_count; i++)
        if (is_same_need(&batch->needs[i], &need)) {
            if (need.until_min > batch->needs[i].until_min)
                batch->needs[i] = need;
            return;
        }
    batch->needs[batch->need_count++] = need;
}

/* What was done before in the batch itself needs no watching, nor does the day on which it is. */
static void add_planned(struct day_batch *batch, const struct plan *plan, const struct timetable_step *step)
{
    for (size_t i = 0; i < step->after_count; i++) {
        const struct waited *waited = &step->after[i];
        const struct timetable_step *earlier = &plan->timetable->steps[waited->step];
        if (earlier->batch != step->batch && waited->min_until != INT64_MIN && waited->link->kind != LINK_DAY)
            add_need(batch,
                     (struct day_need){plan, earlier->operation, step, waited->link, waited->min_until});
    }
}

static void add_done(struct day_batch *batch, const struct plan *plan, const struct timetable_step *step)
{
    const struct operations *operations = plan->operations;
    for (size_t i = 0; i < operations->wait_count; i++) {
        const struct fact_wait *wait = &operations->waits[i];
        const struct operation *earlier = &operations->facts[wait->fact].operation;
        if (&operations->items[wait->to] == step->operation && wait->link.kind != LINK_DAY)
            add_need(batch, (struct day_need){plan, earlier, step, &wait->link, wait->until_min});
    }
}

static void fill_needs(struct arena *arena, struct day_batch *batch)
{
    size_t room = 0;
    for (size_t i = 0; i < batch->step_count; i++)
        room += step_at(&batch->steps[i])->after_count + batch->steps[i].plan->operations->wait_count;
    batch->needs = ARENA_ARRAY(arena, room, struct day_need);
    for (size_t i = 0; i < batch->step_count; i++) {
        add_planned(batch, batch->steps[i].plan, step_at(&batch->steps[i]));
        add_done(batch, batch->steps[i].plan, step_at(&batch->steps[i]));
    }
}

static bool asks_for_supplied_air(const struct day_card *card)
{
    for (size_t i = 0; i < card->plan_count; i++)
        if (plan_asks_for_supplied_air(card->plans[i]))
            return true;
    return false;
}

static void fill_cautions(struct choosing *choosing, struct day_batch *batch)
{
    bool supplied_air = asks_for_supplied_air(choosing->card);
    for (size_t i = 0; i < batch->share_count; i++) {
        const struct day_share *share = &batch->shares[i];
        size_t count;
        const struct plan_caution *cautions =
            batch_cautions(choosing->arena, share->plan, share->batch, supplied_air, &count);
        for (size_t k = 0; k < count; k++) {
            batch->cautions = arena_grow(choosing->arena, batch->cautions, batch->caution_count,
                                         &batch->caution_room, sizeof *batch->cautions);
            batch->cautions[batch->caution_count++] = (struct day_caution){share->plan, cautions[k]};
        }
    }
}

/* Whether the person has a hand in it: the card of one who only helps to turn a piece says so too. */
static bool concerns(const struct day_batch *batch, int person)
{
    const struct timetable_batch *first = day_batch_main(batch);
    return person == 0 || first->person == person || first->helper == person;
}

static bool has_next(const struct day_card *card, int person)
{
    for (size_t i = 0; i < card->next_count; i++)
        if (day_batch_main(&card->next[i])->person == person)
            return true;
    return false;
}

static void choose(struct choosing *choosing)
{
    struct day_card *card = choosing->card;
    card->batches = ARENA_ARRAY(choosing->arena, choosing->count, struct day_batch);
    card->next = ARENA_ARRAY(choosing->arena, choosing->count, struct day_batch);
    for (size_t i = 0; i < choosing->count; i++) {
        struct day_batch *batch = &choosing->all[i];
        int64_t day = zone_day(card->plans[0]->job->zone, day_batch_main(batch)->start_min, NULL);
        bool next = day > card->day &&
                    (card->person ? card->next_count == 0 : !has_next(card, day_batch_main(batch)->person));
        if (!concerns(batch, card->person) || (day != card->day && !next))
            continue;
        fill_steps(choosing->arena, batch);
        fill_needs(choosing->arena, batch);
        fill_cautions(choosing, batch);
        if (next)
            card->next[card->next_count++] = *batch;
        else
            card->batches[card->count++] = *batch;
    }
}

struct day_card *day_card_make(struct arena *arena, const struct plan *const *plans, size_t count,
                               int64_t day, int person)
{
    struct day_card *card = ARENA_NEW(arena, struct day_card);
    struct choosing choosing = {.arena = arena, .card = card};
    *card = (struct day_card){.plans = plans, .plan_count = count, .day = day, .person = person};
    gather(&choosing);
    choose(&choosing);
    return card;
}
