#include "plan/chance_model.h"

#include "base/arena.h"
#include "timetable/hours.h"

enum { WEEK_MIN = 7 * DAY_MINUTES, BEYOND_MIN = 8 * WEEK_MIN, CLOCK_BEYOND_MIN = 400 * DAY_MINUTES };

struct model_clock {
    const struct finish *finish;
    enum drying_kind kind;
    struct drying_clock *clock;
    struct model_clock *next;
};

static const struct drying_clock *clock_of(struct chance_model *model, const struct finish *finish,
                                           enum drying_kind kind)
{
    for (struct model_clock *c = model->clocks; c; c = c->next)
        if (c->finish == finish && c->kind == kind)
            return c->clock;
    const struct hours *hours = model->problem->hours;
    struct drying_span span = {hours->origin_min, hours_moment(hours, hours->slots) + CLOCK_BEYOND_MIN};
    struct model_clock *made = ARENA_NEW(model->arena, struct model_clock);
    *made = (struct model_clock){
        finish, kind,
        drying_clock_make(model->arena, finish, kind, &model->timetable->job->shop.air, hours->zone, span),
        model->clocks};
    model->clocks = made;
    return made->clock;
}

struct film_mark chance_state(struct chance_model *model, const struct operation *apply,
                              enum finish_state state)
{
    const struct finish *finish = apply->of.step->finish;
    return (struct film_mark){clock_of(model, finish, drying_kind(finish, state)),
                              operation_state_min(apply, state)};
}

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

static int finish_index(struct chance_model *model, const struct operation *operation)
{
    if (operation->doing != DO_APPLY)
        return -1;
    size_t i = 0;
    while (i < model->finish_count && model->finishes[i] != operation->of.step->finish)
        i++;
    if (i == model->finish_count)
        model->finishes[model->finish_count++] = operation->of.step->finish;
    return (int)i;
}

static void add_item(struct chance_model *model, const struct operation *operation, int32_t planned)
{
    const struct problem *problem = model->problem;
    const struct net_operation *net =
        &problem->net.operations[operation - model->timetable->operations->items];
    bool separate = model->timetable->job->shop.dust_separate;
    struct item *item = &model->items[model->count++];
    *item = (struct item){.operation = operation,
                          .next = problem->net.calendars[net->calendar].next,
                          .earliest = net->earliest,
                          .planned = planned,
                          .finish = finish_index(model, operation),
                          .room = separate && operation->piece >= 0 ? operation->piece : 0};
    item->leaves = (struct hold){.from = (int)model->count - 1, .state = STATE_DUST_FREE};
    if (operation->doing == DO_APPLY)
        item->leaves.film = chance_state(model, operation, STATE_DUST_FREE);
    else
        item->leaves.span = separate ? 0 : span_slots_up(model->timetable->job->shop.settle_min);
}

/* Which item an operation is; NET_NONE where the plan left out what may be left out for good. */
static int *add_items(struct chance_model *model)
{
    const struct timetable *timetable = model->timetable;
    const struct operations *operations = timetable->operations;
    int *item_of = ARENA_ARRAY(model->arena, operations->count, int);
    for (size_t i = 0; i < operations->count; i++)
        item_of[i] = NET_NONE;
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        item_of[step->operation - operations->items] = (int)i;
        add_item(model, step->operation, hours_slot_down(model->problem->hours, step->start_min));
    }
    model->planned = model->count;
    for (size_t i = 0; i < operations->count; i++)
        if (item_of[i] == NET_NONE) {
            item_of[i] = (int)model->count;
            add_item(model, &operations->items[i], NET_NONE);
        }
    return item_of;
}

static void add_link(struct chance_model *model, const struct link *link, const int *item_of)
{
    const struct operation *from = &model->timetable->operations->items[link->from];
    int to = item_of[link->to], scuff = link->unless < 0 ? NET_NONE : item_of[link->unless];
    struct hold hold = {.from = item_of[link->from]};
    switch (link->kind) {
    case LINK_END:
        hold.span = span_slots_up(link->span_min);
        break;
    case LINK_STATE:
        hold.film = chance_state(model, from, link->state);
        hold.state = link->state;
        break;
    case LINK_DAY:
        hold.next_day = true;
        break;
    case LINK_POLISH:
        add_limit(model, to, (struct limit){hold.from, link->span_min / SLOT_MIN, {NULL, 0}, NET_NONE});
        return;
    case LINK_WINDOW:
        if (scuff == NET_NONE || model->items[scuff].planned == NET_NONE) {
            struct film_mark film = {clock_of(model, from->of.step->finish, DRYING_WINDOW),
                                     operation_window_min(from)};
            add_limit(model, to, (struct limit){hold.from, 0, film, scuff});
        }
        return;
    }
    chance_add_hold(model, to, hold);
}

static void add_goals(struct chance_model *model, const int *item_of)
{
    const struct operations *operations = model->timetable->operations;
    model->goals = ARENA_ARRAY(model->arena, operations->line_count, struct goal);
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        struct hold hold = {.from = item_of[line->operation], .span = span_slots_up(line->span_min)};
        if (line->is_state) {
            hold.film = chance_state(model, &operations->items[line->operation], line->state);
            hold.state = line->state;
        }
        if (model->items[hold.from].planned != NET_NONE)
            model->goals[model->goal_count++] = (struct goal){hold.from, hold};
    }
}

/* Twice the plan's own time and some weeks: what is not ready by then is late in any case. */
static const struct hours *hours_of(struct arena *arena, const struct timetable *timetable)
{
    const struct job *job = timetable->job;
    int64_t origin = job->start_min / SLOT_MIN * SLOT_MIN;
    int64_t minutes = 2 * (timetable->ready_min - origin) + BEYOND_MIN;
    return hours_make(arena, &job->shop, job->zone, origin, (int32_t)(minutes / SLOT_MIN));
}

struct chance_model *chance_model_make(struct arena *arena, const struct timetable *timetable,
                                       struct chance_options options)
{
    struct chance_model *model = ARENA_NEW(arena, struct chance_model);
    const struct operations *operations = timetable->operations;
    const struct shop *shop = &timetable->job->shop;
    *model = (struct chance_model){.arena = arena, .timetable = timetable, .options = options};
    model->problem = problem_make(arena, operations, hours_of(arena, timetable));
    model->items = ARENA_ARRAY(arena, operations->count, struct item);
    model->finishes = ARENA_ARRAY(arena, operations->count, const struct finish *);
    model->rooms = shop->dust_separate ? timetable->job->piece_count : 1;
    model->due = hours_slot_down(model->problem->hours, timetable->deliver_min);
    model->ready = hours_slot_up(model->problem->hours, timetable->ready_min);
    const int *item_of = add_items(model);
    for (size_t i = 0; i < operations->link_count; i++)
        add_link(model, &operations->links[i], item_of);
    add_goals(model, item_of);
    chance_add_order(model);
    return model;
}
