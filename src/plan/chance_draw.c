#include "plan/chance_desk.h"

/* When all is ready, and the hold that says so. */
struct ready {
    int32_t minute;
    const struct hold *cause;
};

static struct ready run(const struct chance_model *model, struct desk *desk)
{
    struct ready ready = {0, NULL};
    for (size_t i = 0; i < model->count; i++)
        if (!chance_place(model, desk, (int)i))
            return (struct ready){SITE_NEVER, NULL};
    for (size_t i = 0; i < model->goal_count; i++) {
        int32_t until = chance_hold_until(model, desk, &model->goals[i]);
        if (until > ready.minute)
            ready = (struct ready){until < SITE_NEVER ? until : SITE_NEVER, &model->goals[i]};
    }
    return ready;
}

/* Back from the ready moment: every drying that it hung on, with the minutes that it took beyond the table's. */
static void trace(const struct chance_model *model, struct desk *desk, const struct hold *hold, bool late,
                  bool slow)
{
    for (; hold; hold = desk->cause[hold->from]) {
        if (!hold->film)
            continue;
        struct tally *tally = &desk->tally[(size_t)hold->from_step * STATE_COUNT + hold->state];
        int32_t adds = chance_hold_until(model, desk, hold) - chance_film_at(model, desk, hold, 1);
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
        desk->missed = desk->ruined = false;
        struct ready last = run(model, desk);
        bool late = last.minute > model->due, slow = last.minute > model->ready;
        ready[draw] = last.minute;
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
    for (size_t i = 0; i < model->timetable->operations->count; i++)
        desk->film[i] = 1;
    for (size_t i = 0; i < model->count; i++) {
        struct item *item = &model->items[i];
        desk->hands[i] = 1;
        if (!chance_place(model, desk, (int)i))
            return;
        if (desk->start[i] >= item->planned)
            continue;
        item->earliest = item->planned;
        if (!chance_place(model, desk, (int)i))
            return;
    }
}
