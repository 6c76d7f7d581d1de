#include "timetable/dates.h"

#include "base/arena.h"

#include <stdlib.h>
#include <string.h>

/* Where each operation stands among the steps, and the links by the operation that waits. */
struct dating {
    struct problem *problem;
    const struct net_result *result;
    struct timetable *timetable;
    size_t *step_of;           /* per operation; SIZE_MAX: left out */
    const struct link **links; /* sorted by `to` */
    size_t *first_link;        /* per operation, count + 1 */
};

static bool present(const struct dating *dating, int operation)
{
    int flag = dating->problem->flag[operation];
    return flag == NET_NONE || dating->result->flag[flag];
}

static int64_t moment_of(const struct dating *dating, struct net_map map, int operation)
{
    int32_t slot = net_map_at(&dating->problem->net, map, dating->result->start[operation]);
    return slot >= NET_NEVER ? INT64_MAX : hours_moment(dating->problem->hours, slot);
}

static int by_start_then_id(const void *a, const void *b)
{
    const struct timetable_step *left = a, *right = b;
    if (left->start_min != right->start_min)
        return left->start_min < right->start_min ? -1 : 1;
    return strcmp(left->operation->id, right->operation->id);
}

static void make_steps(struct dating *dating)
{
    const struct operations *operations = dating->problem->operations;
    struct timetable *timetable = dating->timetable;
    struct arena *arena = dating->problem->arena;
    timetable->steps = ARENA_ARRAY(arena, operations->count, struct timetable_step);
    for (size_t i = 0; i < operations->count; i++) {
        dating->step_of[i] = SIZE_MAX;
        if (!present(dating, (int)i))
            continue;
        const struct operation *operation = &operations->items[i];
        int64_t start = hours_moment(dating->problem->hours, dating->result->start[i]);
        timetable->steps[timetable->step_count++] =
            (struct timetable_step){.operation = operation,
                                    .start_min = start,
                                    .end_min = start + operation->minutes,
                                    .float_min = -1};
    }
    qsort(timetable->steps, timetable->step_count, sizeof *timetable->steps, by_start_then_id);
    for (size_t i = 0; i < timetable->step_count; i++)
        dating->step_of[timetable->steps[i].operation - operations->items] = i;
}

/* The first that is free: with one calendar for all, a capacity that holds is always enough. */
static void name_people(struct dating *dating)
{
    int people = dating->problem->operations->job->shop.people;
    int64_t *free_at = ARENA_ARRAY(dating->problem->arena, (size_t)people, int64_t);
    for (int i = 0; i < people; i++)
        free_at[i] = INT64_MIN;
    for (size_t i = 0; i < dating->timetable->step_count; i++) {
        struct timetable_step *step = &dating->timetable->steps[i];
        int person = 0;
        while (person < people - 1 && free_at[person] > step->start_min)
            person++;
        free_at[person] = step->end_min;
        step->person = person + 1;
    }
}

static void sort_links(struct dating *dating)
{
    const struct operations *operations = dating->problem->operations;
    struct arena *arena = dating->problem->arena;
    dating->links = ARENA_ARRAY(arena, operations->link_count, const struct link *);
    dating->first_link = ARENA_ARRAY(arena, operations->count + 2, size_t);
    for (size_t i = 0; i < operations->link_count; i++)
        dating->first_link[operations->links[i].to + 2]++;
    for (size_t i = 2; i < operations->count + 2; i++)
        dating->first_link[i] += dating->first_link[i - 1];
    for (size_t i = 0; i < operations->link_count; i++)
        dating->links[dating->first_link[operations->links[i].to + 1]++] = &operations->links[i];
}

static bool holds(const struct dating *dating, const struct link *link)
{
    if (!present(dating, link->from) || !present(dating, link->to))
        return false;
    return link->kind != LINK_WINDOW || link->unless < 0 || !present(dating, link->unless);
}

static struct waited waited_of(const struct dating *dating, const struct link *link)
{
    struct waited waited = {dating->step_of[link->from], link, INT64_MIN, INT64_MAX};
    int64_t moment = moment_of(dating, problem_link_map(dating->problem, link), link->from);
    if (link->kind == LINK_WINDOW || link->kind == LINK_POLISH)
        waited.max_until = moment;
    else
        waited.min_until = moment;
    return waited;
}

/* One entry for what is told of one earlier step: the later of two moments, a window joined to its wait. */
static void add_waited(struct timetable_step *step, struct waited *list, struct waited next)
{
    for (size_t i = 0; i < step->after_count; i++) {
        struct waited *old = &list[i];
        if (old->step != next.step)
            continue;
        if (next.min_until > old->min_until) {
            old->min_until = next.min_until;
            old->link = next.link;
        }
        if (next.max_until < old->max_until)
            old->max_until = next.max_until;
        return;
    }
    list[step->after_count++] = next;
}

static void tell_waits(struct dating *dating)
{
    const struct operations *operations = dating->problem->operations;
    for (size_t i = 0; i < dating->timetable->step_count; i++) {
        struct timetable_step *step = &dating->timetable->steps[i];
        size_t operation = (size_t)(step->operation - operations->items);
        size_t from = dating->first_link[operation], to = dating->first_link[operation + 1];
        struct waited *list = ARENA_ARRAY(dating->problem->arena, to - from, struct waited);
        for (size_t k = from; k < to; k++)
            if (holds(dating, dating->links[k]))
                add_waited(step, list, waited_of(dating, dating->links[k]));
        step->after = list;
    }
}

/* The state that a film dries to: the delivery's for a last coat, else the first that a step on it waits for (that it is
 * dust-free matters to others only). */
static enum finish_state next_state(const struct dating *dating, size_t operation, int64_t *window)
{
    const struct operations *operations = dating->problem->operations;
    enum finish_state state = STATE_COUNT;
    *window = INT64_MAX;
    for (size_t i = 0; i < operations->link_count; i++) {
        const struct link *link = &operations->links[i];
        if (link->from != (int)operation || !holds(dating, link))
            continue;
        if (link->kind == LINK_WINDOW)
            *window = moment_of(dating, problem_link_map(dating->problem, link), link->from);
        if (link->kind == LINK_STATE && link->state != STATE_DUST_FREE && link->state < state)
            state = link->state;
    }
    bool last = operations->items[operation].last_coat;
    return last || state == STATE_COUNT ? operations->items[operation].job->deliver_at : state;
}

static void make_waits(struct dating *dating)
{
    struct timetable *timetable = dating->timetable;
    const struct operations *operations = dating->problem->operations;
    timetable->waits = ARENA_ARRAY(dating->problem->arena, timetable->step_count, struct drying_wait);
    for (size_t i = 0; i < timetable->step_count; i++) {
        const struct timetable_step *step = &timetable->steps[i];
        if (step->operation->doing != DO_APPLY)
            continue;
        size_t operation = (size_t)(step->operation - operations->items);
        struct drying_wait wait = {.step = i, .from_min = step->end_min};
        wait.state = next_state(dating, operation, &wait.window_min);
        wait.until_min =
            moment_of(dating, problem_state_map(dating->problem, (int)operation, wait.state), (int)operation);
        wait.outside = films_outside(&dating->problem->films, step->operation->of.step->finish, step->end_min,
                                     wait.until_min);
        timetable->waits[timetable->wait_count++] = wait;
    }
}

/* The states of a piece, the newest in the list; added where it is not there yet. */
static struct piece_state *states_of(struct timetable *timetable, size_t piece)
{
    struct piece_state *end = timetable->states + timetable->state_count;
    if (timetable->state_count && end[-1].piece == piece)
        return end - STATE_COUNT;
    for (int state = 0; state < STATE_COUNT; state++)
        end[state] = (struct piece_state){piece, (enum finish_state)state, INT64_MIN};
    timetable->state_count += STATE_COUNT;
    return end;
}

/* A piece is in a state when the last coats of all its schedules and sides are. */
static void make_states(struct dating *dating)
{
    const struct operations *operations = dating->problem->operations;
    struct timetable *timetable = dating->timetable;
    size_t last_coats = 0;
    for (size_t i = 0; i < operations->count; i++)
        last_coats += operations->items[i].last_coat;
    timetable->states = ARENA_ARRAY(dating->problem->arena, last_coats * STATE_COUNT, struct piece_state);
    for (size_t i = 0; i < operations->count; i++) {
        if (!operations->items[i].last_coat)
            continue;
        struct piece_state *states = states_of(timetable, (size_t)operations->items[i].piece);
        for (int state = 0; state < STATE_COUNT; state++) {
            struct net_map map = problem_state_map(dating->problem, (int)i, (enum finish_state)state);
            int64_t at = moment_of(dating, map, (int)i);
            states[state].at_min = at > states[state].at_min ? at : states[state].at_min;
        }
    }
}

static void make_ready(struct dating *dating)
{
    const struct operations *operations = dating->problem->operations;
    struct timetable *timetable = dating->timetable;
    timetable->ready_min = timetable->start_min;
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct finish_line *line = &operations->lines[i];
        int64_t at = moment_of(dating, problem_line_map(dating->problem, line), line->operation);
        timetable->ready_min = at > timetable->ready_min ? at : timetable->ready_min;
    }
    int64_t spare = timetable->deliver_min - timetable->ready_min;
    timetable->late_min = spare < 0 ? -spare : 0;
    timetable->spare_min = spare > 0 ? spare : 0;
}

void dates_fill(struct problem *problem, const struct net_result *result, struct timetable *timetable)
{
    struct dating dating = {.problem = problem, .result = result, .timetable = timetable};
    dating.step_of = ARENA_ARRAY(problem->arena, problem->operations->count, size_t);
    make_steps(&dating);
    name_people(&dating);
    sort_links(&dating);
    tell_waits(&dating);
    make_waits(&dating);
    make_states(&dating);
    make_ready(&dating);
}
