/* Steps placed one after another, in the plan's order, each as soon as it may. */
#include "plan/chance_desk.h"

#include <math.h>

static const double TOLERANCE = 1e-9;

static int32_t slot_of(const struct chance_model *model, int64_t moment)
{
    const struct hours *hours = model->problem->hours;
    return moment == INT64_MAX ? NET_NEVER : hours_slot_down(hours, moment);
}

int32_t chance_film_at(const struct chance_model *model, struct film_mark film, double factor, int32_t from)
{
    const struct hours *hours = model->problem->hours;
    int32_t needed = (int32_t)lround(film.needed_min * factor);
    return slot_of(model, drying_reach(film.clock, hours->origin_min, hours_moment(hours, from), needed));
}

int32_t chance_hold_until(const struct chance_model *model, const struct desk *desk, const struct hold *hold)
{
    if (hold->next_day)
        return model->problem->next_day[desk->start[hold->from]];
    if (hold->film.clock)
        return chance_film_at(model, hold->film, desk->film[hold->from], desk->end[hold->from]);
    return desk->end[hold->from] + hold->span;
}

static int32_t limit_at(const struct chance_model *model, const struct desk *desk, const struct limit *limit)
{
    const struct hours *hours = model->problem->hours;
    if (!limit->film.clock)
        return desk->end[limit->from] + limit->span;
    int32_t allowed = (int32_t)lround(limit->film.needed_min * desk->film[limit->from]);
    return slot_of(model, drying_last(limit->film.clock, hours->origin_min,
                                      hours_moment(hours, desk->end[limit->from]), allowed));
}

static void latest_add(struct latest *latest, int chain, int item, int32_t until)
{
    if (latest->chain == chain && until <= latest->until)
        return;
    if (latest->chain != chain && until > latest->until) {
        latest->other_until = latest->until;
        latest->other_item = latest->item;
    }
    if (latest->chain == chain || until > latest->until) {
        latest->chain = chain;
        latest->item = item;
        latest->until = until;
    } else if (until > latest->other_until) {
        latest->other_item = item;
        latest->other_until = until;
    }
}

/* Wet films keep dust away and dust keeps coats away, those of its own row apart: there links say what waits. */
static void keep_apart(const struct chance_model *model, const struct desk *desk, const struct item *item,
                       struct ready *ready)
{
    if (!item->operation->dusty && item->finish < 0)
        return;
    const struct latest *latest = item->finish < 0 ? &desk->wet[item->room] : &desk->dust[item->room];
    bool own = latest->chain == item->operation->chain;
    int32_t until = own ? latest->other_until : latest->until;
    if (until > ready->slot) {
        ready->slot = until;
        ready->cause = &model->items[own ? latest->other_item : latest->item].leaves;
    }
}

struct ready chance_ready(const struct chance_model *model, const struct desk *desk, int index,
                          int32_t not_before)
{
    const struct item *item = &model->items[index];
    struct ready ready = {item->earliest > not_before ? item->earliest : not_before, NULL};
    for (size_t i = 0; i < item->hold_count; i++) {
        const struct hold *hold = &item->holds[i];
        if (desk->start[hold->from] == NET_NONE)
            continue;
        int32_t until = chance_hold_until(model, desk, hold);
        if (until > ready.slot)
            ready = (struct ready){until, hold};
    }
    keep_apart(model, desk, item, &ready);
    return ready;
}

int32_t chance_allowed(const struct chance_model *model, int item, int32_t slot)
{
    return slot > model->problem->hours->slots ? NET_NEVER : model->items[item].next[slot];
}

bool chance_place_at(const struct chance_model *model, struct desk *desk, int index, struct ready ready)
{
    const struct item *item = &model->items[index];
    int32_t start = chance_allowed(model, index, ready.slot);
    if (start >= NET_NEVER)
        return false;
    double minutes = item->operation->minutes * desk->hands[index];
    desk->start[index] = start;
    desk->end[index] = start + (int32_t)ceil(minutes / SLOT_MIN - TOLERANCE);
    desk->cause[index] = ready.cause;
    if (item->finish >= 0)
        latest_add(&desk->wet[item->room], item->operation->chain, index,
                   chance_hold_until(model, desk, &item->leaves));
    else if (item->operation->dusty)
        latest_add(&desk->dust[item->room], item->operation->chain, index,
                   chance_hold_until(model, desk, &item->leaves));
    return true;
}

/* The limit that a start would miss; NULL: none. */
static const struct limit *missed_limit(const struct chance_model *model, const struct desk *desk, int index,
                                        int32_t start)
{
    const struct item *item = &model->items[index];
    for (size_t i = 0; i < item->limit_count; i++) {
        const struct limit *limit = &item->limits[i];
        bool scuffed = limit->scuff != NET_NONE && desk->start[limit->scuff] != NET_NONE;
        if (desk->start[limit->from] != NET_NONE && !scuffed && start > limit_at(model, desk, limit))
            return limit;
    }
    return NULL;
}

bool chance_place(const struct chance_model *model, struct desk *desk, int index)
{
    struct ready ready = chance_ready(model, desk, index, 0);
    const struct limit *missed = missed_limit(model, desk, index, chance_allowed(model, index, ready.slot));
    if (!missed)
        return chance_place_at(model, desk, index, ready);
    desk->missed = true;
    if (missed->scuff == NET_NONE) {
        desk->ruined = true;
        return chance_place_at(model, desk, index, ready);
    }
    return chance_place_at(model, desk, missed->scuff,
                           chance_ready(model, desk, missed->scuff, ready.slot)) &&
           chance_place_at(model, desk, index, chance_ready(model, desk, index, 0));
}
