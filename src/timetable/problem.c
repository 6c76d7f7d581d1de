#include "timetable/problem.h"

#include "base/arena.h"
#include "solver/network.h"

#include <math.h>
#include <string.h>

int problem_add_rule(struct problem *problem, enum rule_kind kind, size_t index)
{
    problem->rules = arena_grow(problem->arena, problem->rules, problem->rule_count, &problem->rule_room,
                                sizeof *problem->rules);
    problem->rules[problem->rule_count] = (struct rule){kind, index};
    return (int)problem->rule_count++;
}

static int32_t slots_of(int32_t minutes)
{
    return minutes / SLOT_MIN;
}

static const struct operation *operation_at(const struct problem *problem, int index)
{
    return &problem->operations->items[index];
}

/* Tables are by the end of a coat; moved by its length they are by its start. */
static struct net_map from_start(const struct operation *apply, const int32_t *by_end)
{
    return (struct net_map){by_end + slots_of(apply->minutes), 0};
}

struct net_map problem_state_map(struct problem *problem, int apply, enum finish_state state)
{
    const struct operation *operation = operation_at(problem, apply);
    return from_start(operation, films_state(&problem->films, operation, state));
}

/* The first slot of the next day on the wall, by slot. */
static const int32_t *next_day_table(const struct problem *problem)
{
    const struct hours *hours = problem->hours;
    int32_t *table = ARENA_ARRAY(problem->arena, (size_t)hours->slots + 1, int32_t), until = -1;
    for (int32_t s = 0; s <= hours->slots; s++) {
        if (s >= until) {
            int64_t day = zone_day(hours->zone, hours_moment(hours, s), NULL);
            until = hours_slot_up(hours, zone_moment_on(hours->zone, day + 1, 0));
        }
        table[s] = until;
    }
    return table;
}

struct net_map problem_link_map(struct problem *problem, const struct link *link)
{
    const struct operation *from = operation_at(problem, link->from);
    switch (link->kind) {
    case LINK_END:
        return net_after(slots_of(from->minutes) + span_slots_up(link->span_min));
    case LINK_STATE:
        return problem_state_map(problem, link->from, link->state);
    case LINK_WINDOW:
        return from_start(from, films_window(&problem->films, from));
    case LINK_POLISH:
        return net_after(slots_of(from->minutes) + slots_of(link->span_min));
    case LINK_DAY:
        return (struct net_map){problem->next_day, 0};
    }
    return net_after(0);
}

struct net_map problem_line_map(struct problem *problem, const struct finish_line *line)
{
    if (line->is_state)
        return problem_state_map(problem, line->operation, line->state);
    return net_after(slots_of(operation_at(problem, line->operation)->minutes) +
                     span_slots_up(line->span_min));
}

/* next and previous allowed start by slot, from what is allowed. */
static struct net_calendar calendar_of(struct problem *problem, const bool *allowed)
{
    int32_t slots = problem->hours->slots;
    int32_t *next = ARENA_ARRAY(problem->arena, (size_t)slots + 1, int32_t);
    int32_t *previous = ARENA_ARRAY(problem->arena, (size_t)slots + 1, int32_t);
    int32_t last = -1, first = NET_NEVER;
    for (int32_t s = 0; s <= slots; s++) {
        last = allowed[s] ? s : last;
        previous[s] = last;
    }
    for (int32_t s = slots; s >= 0; s--) {
        first = allowed[s] ? s : first;
        next[s] = first;
    }
    return (struct net_calendar){next, previous};
}

static void within_hours(const struct hours *hours, int32_t length, bool *open)
{
    memset(open, 0, (size_t)hours->slots + 1);
    /* Units may pause: what counts is that somebody is at work when the first begins. */
    (void)length;
    for (size_t i = 0; i < hours->count; i++)
        for (int32_t s = hours->stretches[i].from; s < hours->stretches[i].to; s++)
            open[s] = true;
}

/* Operations of the same length and finish share their calendar. */
struct calendar_key {
    int32_t minutes;
    const struct finish *finish; /* NULL: no air is asked for */
    int32_t handle_min;
    int calendar;
};

static struct calendar_key key_of(const struct operation *operation)
{
    bool applies = operation->doing == DO_APPLY;
    return (struct calendar_key){operation->minutes, applies ? operation->of.step->finish : NULL,
                                 applies ? operation_state_min(operation, STATE_HANDLE) : 0, NET_NONE};
}

static int add_calendar(struct problem *problem, const struct operation *operation)
{
    size_t count = (size_t)problem->hours->slots + 1;
    bool *open = ARENA_ARRAY(problem->arena, count, bool), *suits = ARENA_ARRAY(problem->arena, count, bool);
    within_hours(problem->hours, slots_of(operation->minutes), open);
    if (operation->doing == DO_APPLY) {
        films_allowed(&problem->films, operation, suits);
        for (size_t s = 0; s < count; s++)
            open[s] = open[s] && suits[s];
    }
    return net_add_calendar(&problem->net, calendar_of(problem, open));
}

static int32_t earliest_of(const struct problem *problem, const struct operation *operation)
{
    int32_t earliest = hours_slot_up(problem->hours, operation_release_min(operation));
    return earliest > problem->hours->slots ? problem->hours->slots : earliest;
}

static void add_operation(struct problem *problem, const struct operation *operation, int calendar)
{
    int index = (int)(operation - problem->operations->items);
    struct net_guard presence = NET_ALWAYS;
    problem->flag[index] = NET_NONE;
    if (operation->late_scuff) {
        problem->flag[index] = net_add_flag(&problem->net);
        presence = (struct net_guard){problem->flag[index], 1};
    }
    net_add_operation(&problem->net, (struct net_operation){.duration = slots_of(operation->minutes),
                                                            .calendar = calendar,
                                                            .earliest = earliest_of(problem, operation),
                                                            .latest = problem->hours->slots,
                                                            .presence = presence});
    if (!operation->late_scuff && problem->net.calendars[calendar].next[0] >= NET_NEVER && problem->never < 0)
        problem->never = index;
}

static void add_operations(struct problem *problem)
{
    const struct operations *operations = problem->operations;
    struct calendar_key *keys = ARENA_ARRAY(problem->arena, operations->count, struct calendar_key);
    size_t key_count = 0;
    for (size_t i = 0; i < operations->count; i++) {
        struct calendar_key key = key_of(&operations->items[i]);
        for (size_t k = 0; k < key_count && key.calendar == NET_NONE; k++)
            if (keys[k].minutes == key.minutes && keys[k].finish == key.finish &&
                keys[k].handle_min == key.handle_min)
                key.calendar = keys[k].calendar;
        if (key.calendar == NET_NONE) {
            key.calendar = add_calendar(problem, &operations->items[i]);
            keys[key_count++] = key;
        }
        add_operation(problem, &operations->items[i], key.calendar);
    }
}

static void add_links(struct problem *problem)
{
    const struct operations *operations = problem->operations;
    for (size_t i = 0; i < operations->link_count; i++) {
        const struct link *link = &operations->links[i];
        bool maximum = link->kind == LINK_WINDOW || link->kind == LINK_POLISH;
        struct net_guard guard = NET_ALWAYS;
        if (link->kind == LINK_WINDOW && link->unless >= 0)
            guard = (struct net_guard){problem->flag[link->unless], 0};
        net_add_lag(&problem->net, (struct net_lag){.from = link->from,
                                                    .to = link->to,
                                                    .maximum = maximum,
                                                    .map = problem_link_map(problem, link),
                                                    .guard = guard,
                                                    .rule = problem_add_rule(problem, RULE_LINK, i)});
    }
    for (size_t i = 0; i < operations->line_count; i++) {
        const struct job *job = operation_at(problem, operations->lines[i].operation)->job;
        net_add_goal(&problem->net,
                     (struct net_goal){.operation = operations->lines[i].operation,
                                       .map = problem_line_map(problem, &operations->lines[i]),
                                       .due = hours_slot_down(problem->hours, job->deliver_min)});
    }
}

struct problem *problem_make(struct arena *arena, const struct operations *operations,
                             const struct hours *hours)
{
    struct problem *problem = ARENA_NEW(arena, struct problem);
    int32_t longest = 0;
    for (size_t i = 0; i < operations->count; i++)
        longest = operations->items[i].minutes > longest ? operations->items[i].minutes : longest;
    problem->arena = arena;
    problem->operations = operations;
    problem->hours = hours;
    problem->never = -1;
    problem->flag = ARENA_ARRAY(arena, operations->count, int);
    films_init(&problem->films, arena, &operations->job->shop, hours, slots_of(longest));
    problem->next_day = next_day_table(problem);
    network_init(&problem->net, arena, hours->slots);
    add_operations(problem);
    add_links(problem);
    problem_add_capacities(problem);
    net_find_exclusive(&problem->net);
    return problem;
}

struct relaxed relaxed_solve(struct arena *arena, const struct operations *operations, int32_t slots,
                             int64_t effort)
{
    const struct job *job = operations->job;
    int64_t origin = job->start_min / SLOT_MIN * SLOT_MIN;
    struct relaxed relaxed = {
        .problem = problem_make(arena, operations, hours_make(arena, &job->shop, job->zone, origin, slots))};
    relaxed.result.status = NET_IMPOSSIBLE;
    if (relaxed.problem->never < 0)
        net_solve(&relaxed.problem->net, (struct net_options){.effort = effort}, &relaxed.result);
    return relaxed;
}
