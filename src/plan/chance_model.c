#include "plan/chance_model.h"

#include "base/arena.h"
#include "timetable/hours.h"

enum { BEYOND_MIN = 8 * 7 * DAY_MINUTES };

void chance_add_hold(struct chance_model *model, int item, struct hold hold)
{
    struct item *to = &model->items[item];
    to->holds = arena_grow(model->arena, to->holds, to->hold_count, &to->hold_room, sizeof *to->holds);
    to->holds[to->hold_count++] = hold;
}

static void add_limit(struct chance_model *model, int item, struct limit limit)
{
    struct item *to = &model->items[item];
    to->limits = arena_grow(model->arena, to->limits, to->limit_count, &to->limit_room, sizeof *to->limits);
    to->limits[to->limit_count++] = limit;
}

static bool air_suits(const struct chance_model *model, int operation, int32_t start, int32_t end)
{
    const struct film *film = model->site->rows[operation].film;
    if (!film)
        return true;
    if (site_spell(&film->wet, start, end > start ? end : start + 1))
        return false;
    return !film->until_handle ||
           !site_spell(&film->dry, end, site_state(model->site, operation, end, STATE_HANDLE));
}

/* Starts at which the batch as planned has its person and its air. */
static const int32_t *allowed_starts(struct chance_model *model, const struct batch *batch, int32_t *starts,
                                     int32_t *ends)
{
    int32_t *next = ARENA_ARRAY(model->arena, (size_t)model->slots + 1, int32_t);
    next[model->slots] = SITE_NEVER;
    for (int32_t slot = model->slots - 1; slot >= 0; slot--) {
        struct laying laid = {.mix = NULL};
        bool good = lay_batch(model->site, batch, slot * SLOT_MIN, starts, ends, &laid);
        for (size_t i = 0; good && i < batch->count; i++)
            good = air_suits(model, batch->items[i], starts[batch->items[i]], ends[batch->items[i]]);
        next[slot] = good ? slot * SLOT_MIN : next[slot + 1];
    }
    return next;
}

static struct batch batch_of(struct chance_model *model, const struct timetable_batch *from)
{
    const struct timetable *timetable = model->timetable;
    int *items = ARENA_ARRAY(model->arena, from->step_count, int);
    int kind = SITE_NONE;
    for (size_t i = 0; i < from->step_count; i++) {
        items[i] = (int)(timetable->steps[from->steps[i]].operation - timetable->operations->items);
        const struct operation *operation = &timetable->operations->items[items[i]];
        if (kind == SITE_NONE || operation->doing != DO_FLIP)
            kind = model->site->rows[items[i]].kind;
    }
    return (struct batch){.kind = kind,
                          .person = from->person - 1,
                          .helper = from->helper - 1,
                          .items = items,
                          .count = from->step_count};
}

/* All coats of a batch are of one finish and tool. */
static const struct step *learned_of(const struct chance_model *model, const struct batch *batch)
{
    const struct operation *operations = model->timetable->operations->items;
    for (size_t i = 0; i < batch->count; i++) {
        const struct step *step = operations[batch->items[i]].of.step;
        if (operations[batch->items[i]].doing == DO_APPLY)
            return step->finish->tool_learned[step->by].minutes_factor > 0 ? step : NULL;
    }
    return NULL;
}

static void add_items(struct chance_model *model)
{
    const struct timetable *timetable = model->timetable;
    size_t operations = timetable->operations->count;
    int32_t *starts = ARENA_ARRAY(model->arena, operations, int32_t);
    int32_t *ends = ARENA_ARRAY(model->arena, operations, int32_t);
    for (size_t i = 0; i < operations; i++)
        model->item_of[i] = SITE_NONE;
    for (size_t b = 0; b < timetable->batch_count; b++) {
        struct item *item = &model->items[model->count];
        item->batch = batch_of(model, &timetable->batches[b]);
        item->learned = learned_of(model, &item->batch);
        item->planned = site_minute(model->site, timetable->batches[b].start_min);
        item->next = allowed_starts(model, &item->batch, starts, ends);
        for (size_t i = 0; i < item->batch.count; i++) {
            model->item_of[item->batch.items[i]] = (int)model->count;
            model->step_of[item->batch.items[i]] = &timetable->steps[timetable->batches[b].steps[i]];
            int32_t release = model->site->rows[item->batch.items[i]].release;
            item->earliest = i == 0 && item->batch.count == 1 ? release : item->earliest;
        }
        model->count++;
    }
}

/* What makes good for a window that was missed. */
static int32_t scuff_minutes(const struct chance_model *model, const struct link *link)
{
    if (link->kind != LINK_WINDOW || link->unless < 0)
        return SITE_NONE;
    const struct task_row *row = &model->site->rows[link->unless];
    return row->set_up + row->operation->minutes + model->site->settle;
}

static void add_link(struct chance_model *model, size_t index)
{
    const struct link *link = &model->timetable->operations->links[index];
    int from = model->item_of[link->from], to = model->item_of[link->to];
    bool scuffed = link->unless >= 0 && model->item_of[link->unless] != SITE_NONE;
    if (from == SITE_NONE || to == SITE_NONE || from == to)
        return;
    struct hold hold = {.from = from, .from_step = link->from, .to_step = link->to};
    switch (link->kind) {
    case LINK_END:
        hold.span = link->span_min;
        break;
    case LINK_STATE:
        hold.film = true;
        hold.state = link->state;
        break;
    case LINK_DAY:
        hold.next_day = true;
        break;
    case LINK_POLISH:
    case LINK_WINDOW:
        if (!scuffed)
            add_limit(model, to, (struct limit){(int)index, scuff_minutes(model, link)});
        return;
    }
    chance_add_hold(model, to, hold);
}

static void add_releases(struct chance_model *model)
{
    for (size_t i = 0; i < model->count; i++) {
        struct item *item = &model->items[i];
        int32_t first = model->site->rows[item->batch.items[0]].release;
        for (size_t k = 0; k < item->batch.count; k++) {
            int32_t release = model->site->rows[item->batch.items[k]].release;
            first = release < first ? release : first;
        }
        item->earliest = first;
    }
}

static void add_goals(struct chance_model *model)
{
    const struct operations *operations = model->timetable->operations;
    model->goals = ARENA_ARRAY(model->arena, operations->line_count, struct hold);
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        if (model->item_of[line->operation] == SITE_NONE)
            continue;
        model->goals[model->goal_count++] = (struct hold){.from = model->item_of[line->operation],
                                                          .from_step = line->operation,
                                                          .to_step = SITE_NONE,
                                                          .span = line->span_min,
                                                          .film = line->is_state,
                                                          .state = line->state};
    }
}

/* Twice the plan's own time and some weeks: what is not ready by then is late in any case. */
static int32_t horizon_of(const struct timetable *timetable, int64_t origin)
{
    int64_t minutes = 2 * (timetable->ready_min - origin) + BEYOND_MIN;
    return (int32_t)(minutes / SLOT_MIN);
}

struct chance_model *chance_model_make(struct arena *arena, const struct timetable *timetable,
                                       const struct chance_options *options)
{
    struct chance_model *model = ARENA_NEW(arena, struct chance_model);
    const struct operations *operations = timetable->operations;
    int64_t origin = timetable->job->start_min / SLOT_MIN * SLOT_MIN;
    *model = (struct chance_model){.arena = arena, .timetable = timetable, .options = options};
    model->slots = horizon_of(timetable, origin);
    model->site = site_make(arena, operations, origin, model->slots * SLOT_MIN);
    model->items = ARENA_ARRAY(arena, timetable->batch_count, struct item);
    model->item_of = ARENA_ARRAY(arena, operations->count, int);
    model->step_of = ARENA_ARRAY(arena, operations->count, const struct timetable_step *);
    model->due = site_minute(model->site, timetable->deliver_min);
    model->ready = site_minute(model->site, timetable->ready_min);
    add_items(model);
    add_releases(model);
    for (size_t i = 0; i < operations->link_count; i++)
        add_link(model, i);
    add_goals(model);
    chance_add_order(model);
    return model;
}
