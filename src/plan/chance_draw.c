#include "plan/chance_desk.h"

static struct ready run(const struct chance_model *model, struct desk *desk)
{
    struct ready ready = {0, NULL};
    for (size_t i = 0; i < model->planned; i++)
        if (!chance_place(model, desk, (int)i))
            return (struct ready){NET_NEVER, NULL};
    for (size_t i = 0; i < model->goal_count; i++) {
        int32_t until = chance_hold_until(model, desk, &model->goals[i].hold);
        if (until > ready.slot)
            ready = (struct ready){until < NET_NEVER ? until : NET_NEVER, &model->goals[i].hold};
    }
    return ready;
}

/* Back from the ready moment: every drying that it hung on, with the slots that it took beyond the table's. */
static void trace(const struct chance_model *model, struct desk *desk, const struct hold *hold, bool late,
                  bool slow)
{
    for (; hold; hold = desk->cause[hold->from]) {
        if (!hold->film.clock)
            continue;
        struct tally *tally = &desk->tally[(size_t)hold->from * STATE_COUNT + hold->state];
        int32_t adds = chance_hold_until(model, desk, hold) -
                       chance_film_at(model, hold->film, 1, desk->end[hold->from]);
        tally->late_count += late;
        tally->late_adds += late ? adds : 0;
        tally->slow_count += slow;
        tally->slow_adds += slow ? adds : 0;
    }
}

void chance_draw_range(const struct chance_model *model, struct desk *desk, int32_t first, int32_t end,
                       int32_t *ready)
{
    for (int32_t draw = first; draw < end; draw++) {
        chance_draw_factors(model, desk, draw);
        chance_desk_clear(model, desk);
        struct ready last = run(model, desk);
        bool late = last.slot > model->due, slow = last.slot > model->ready;
        ready[draw] = last.slot;
        trace(model, desk, last.cause, late, slow);
        desk->on_time += !late && !desk->ruined;
        desk->late += late;
        desk->slow += slow;
        desk->scuffed += desk->missed && !desk->ruined;
        desk->spoiled += desk->ruined;
    }
}

void chance_settle_floors(struct chance_model *model, struct desk *desk)
{
    chance_desk_clear(model, desk);
    for (size_t i = 0; i < model->count; i++)
        desk->film[i] = desk->hands[i] = 1;
    for (size_t i = 0; i < model->planned; i++) {
        struct item *item = &model->items[i];
        struct ready ready = chance_ready(model, desk, (int)i, 0);
        if (chance_allowed(model, (int)i, ready.slot) < item->planned) {
            item->earliest = item->planned;
            ready = chance_ready(model, desk, (int)i, 0);
        }
        if (!chance_place_at(model, desk, (int)i, ready))
            return;
    }
}
