/* Batches placed one after another, in the plan's order, each as soon as it may. */
#include "plan/chance_desk.h"

#include "timetable/hours.h"

#include <math.h>

enum { TRIES = 40 };

int32_t chance_film_at(const struct chance_model *model, const struct desk *desk, const struct hold *hold,
                       double factor)
{
    const struct task_row *row = &model->site->rows[hold->from_step];
    const struct drying_clock *clock = row->film->clock[drying_kind(row->film->finish, hold->state)];
    int32_t needed = (int32_t)lround(operation_state_min(row->operation, hold->state) * factor);
    return site_minute(model->site,
                       drying_reach(clock, model->site->crew->origin_min,
                                    site_moment(model->site, desk->step_end[hold->from_step]), needed));
}

int32_t chance_hold_until(const struct chance_model *model, const struct desk *desk, const struct hold *hold)
{
    if (hold->from_step == SITE_NONE)
        return desk->end[hold->from];
    if (hold->next_day) {
        int64_t day =
            zone_day(model->site->zone, site_moment(model->site, desk->step_start[hold->from_step]), NULL);
        return site_minute(model->site, zone_moment_on(model->site->zone, day + 1, 0));
    }
    if (hold->film)
        return chance_film_at(model, desk, hold, desk->film[hold->from_step]);
    return desk->step_end[hold->from_step] + hold->span;
}

static int32_t limit_at(const struct chance_model *model, const struct desk *desk, const struct limit *limit)
{
    const struct link *link = &model->timetable->operations->links[limit->link];
    const struct task_row *row = &model->site->rows[link->from];
    if (link->kind == LINK_POLISH)
        return desk->step_end[link->from] + link->span_min;
    const struct drying_clock *clock = row->film->clock[DRYING_WINDOW];
    int32_t allowed = (int32_t)lround(operation_window_min(row->operation) * desk->film[link->from]);
    return site_minute(model->site,
                       drying_last(clock, model->site->crew->origin_min,
                                   site_moment(model->site, desk->step_end[link->from]), allowed));
}

int32_t chance_allowed(const struct chance_model *model, int item, int32_t minute)
{
    int32_t slot = site_up(minute > 0 ? minute : 0) / SLOT_MIN;
    return slot >= model->slots ? SITE_NEVER : model->items[item].next[slot];
}

/* Lays the batch from a start; hands that are slower move each step by what they worked before it. */
static void lay(const struct chance_model *model, struct desk *desk, int index, int32_t start)
{
    const struct item *item = &model->items[index];
    struct laying laid = {.mix = NULL};
    const struct kind *kind = &model->site->kinds[item->batch.kind];
    double more = desk->hands[index] - 1,
           worked = lay_set_up(model->site, &item->batch) + (kind->mixed ? MIXING_MIN + kind->induction : 0);
    lay_batch(model->site, &item->batch, start, desk->step_start, desk->step_end, &laid);
    for (size_t i = 0; i < item->batch.count; i++) {
        int step = item->batch.items[i];
        desk->step_start[step] += (int32_t)lround(more * worked);
        worked += model->site->rows[step].operation->units.seconds / 60.0;
        desk->step_end[step] += (int32_t)lround(more * worked);
    }
    desk->start[index] = start;
    desk->end[index] = laid.end + (int32_t)ceil(more * laid.hands_on - 1e-9);
}

/* The hold of a step that is missed by most; NULL: all are kept. */
static const struct hold *most_missed(const struct chance_model *model, const struct desk *desk, int index,
                                      int32_t *by)
{
    const struct item *item = &model->items[index];
    const struct hold *most = NULL;
    *by = 0;
    for (size_t i = 0; i < item->hold_count; i++) {
        const struct hold *hold = &item->holds[i];
        if (hold->to_step == SITE_NONE)
            continue;
        int32_t until = chance_hold_until(model, desk, hold);
        if (until - desk->step_start[hold->to_step] <= *by)
            continue;
        *by = until - desk->step_start[hold->to_step];
        most = hold;
    }
    return most;
}

static int32_t first_start(const struct chance_model *model, struct desk *desk, int index)
{
    const struct item *item = &model->items[index];
    int32_t start = item->earliest;
    desk->cause[index] = NULL;
    for (size_t i = 0; i < item->hold_count; i++) {
        if (item->holds[i].to_step != SITE_NONE)
            continue;
        int32_t until = chance_hold_until(model, desk, &item->holds[i]);
        if (until <= start)
            continue;
        start = until;
        desk->cause[index] = &item->holds[i];
    }
    return start;
}

static bool place_from(const struct chance_model *model, struct desk *desk, int index, int32_t from)
{
    int32_t start = chance_allowed(model, index, from), by;
    for (int i = 0; i < TRIES && start < SITE_NEVER; i++) {
        lay(model, desk, index, start);
        const struct hold *missed = most_missed(model, desk, index, &by);
        if (!missed)
            return true;
        desk->cause[index] = missed;
        start = chance_allowed(model, index, start + by);
    }
    return false;
}

/* Whether a limit is missed; *scuff: minutes that make good for it. */
static bool misses(const struct chance_model *model, const struct desk *desk, int index, int32_t *scuff)
{
    const struct item *item = &model->items[index];
    bool missed = false;
    *scuff = 0;
    for (size_t i = 0; i < item->limit_count; i++) {
        const struct limit *limit = &item->limits[i];
        const struct link *link = &model->timetable->operations->links[limit->link];
        if (desk->step_start[link->to] <= limit_at(model, desk, limit))
            continue;
        missed = true;
        if (limit->scuff == SITE_NONE)
            *scuff = SITE_NONE;
        else if (*scuff != SITE_NONE && limit->scuff > *scuff)
            *scuff = limit->scuff;
    }
    return missed;
}

bool chance_place(const struct chance_model *model, struct desk *desk, int index)
{
    int32_t scuff;
    if (!place_from(model, desk, index, first_start(model, desk, index)))
        return false;
    if (!misses(model, desk, index, &scuff))
        return true;
    desk->missed = true;
    desk->ruined |= scuff == SITE_NONE;
    return scuff == SITE_NONE || place_from(model, desk, index, desk->start[index] + scuff);
}
