#include "timetable/attempt.h"

#include "base/arena.h"
#include "solver/improve/shift.h"

#include <string.h>

enum {
    COLD_FACTOR = 2, /* films take twice their time ten degrees below reference: for the guess only */
    /* Beyond these a search finds nothing better in its time, and the first plan stands. */
    MOST_SEARCHED = 1000,
    MOST_PAIRS_SEARCHED = 60000,
};

/* Open minutes in a plain week. */
static int32_t week_open_min(const struct shop *shop)
{
    int32_t open = 0;
    for (int day = 0; day < 7; day++)
        for (size_t i = 0; i < shop->hours[day].count; i++)
            open += shop->hours[day].stretches[i].to_min - shop->hours[day].stretches[i].from_min;
    return open;
}

static int64_t link_guess_min(const struct operations *operations, const struct link *link)
{
    const struct operation *from = &operations->items[link->from];
    switch (link->kind) {
    case LINK_END:
        return from->minutes + link->span_min;
    case LINK_STATE:
        return from->minutes + (int64_t)COLD_FACTOR * operation_state_min(from, link->state);
    case LINK_DAY:
        return DAY_MINUTES;
    default:
        return 0;
    }
}

/* The longest path of waits, each guessed; links mostly point forward, so a few rounds settle it. */
static int64_t path_guess_min(struct arena *arena, const struct operations *operations)
{
    int64_t *at = ARENA_ARRAY(arena, operations->count, int64_t), longest = 0;
    bool moved = true;
    for (int round = 0; round < 50 && moved; round++) {
        moved = false;
        for (size_t i = 0; i < operations->link_count; i++) {
            const struct link *link = &operations->links[i];
            int64_t then = at[link->from] + link_guess_min(operations, link);
            if (then > at[link->to]) {
                at[link->to] = then;
                moved = true;
            }
        }
    }
    for (size_t i = 0; i < operations->count; i++)
        longest = at[i] > longest ? at[i] : longest;
    return longest;
}

/* Enough slots for any sensible plan; tried again with more where none is found. */
static int32_t horizon_guess(struct arena *arena, const struct operations *operations, bool late)
{
    const struct job *job = operations->job;
    int64_t hands_on = 0, closed = 0, open = week_open_min(&job->shop);
    for (size_t i = 0; i < operations->count; i++)
        hands_on += operations->items[i].minutes;
    for (size_t i = 0; i < job->shop.closed_count; i++)
        if (job->shop.closed[i].last_day >= zone_day(job->zone, job->start_min, NULL))
            closed += (job->shop.closed[i].last_day - job->shop.closed[i].first_day + 1) * DAY_MINUTES;
    int64_t guess = HORIZON_MARGIN_MIN + path_guess_min(arena, operations) + closed;
    guess += open > 0 ? hands_on * WEEK_MIN / open : 0;
    if (late && job->deliver_min - job->start_min + WEEK_MIN > guess)
        guess = job->deliver_min - job->start_min + WEEK_MIN;
    return (int32_t)((guess < HORIZON_MOST_MIN ? guess : HORIZON_MOST_MIN) / SLOT_MIN);
}

void attempt_network(const struct network *net, struct timetable_options options, struct net_result *result)
{
    bool large = net->operation_count > MOST_SEARCHED || net->disjunction_count > MOST_PAIRS_SEARCHED;
    net_solve(net, (struct net_options){.effort = large ? 1 : options.effort}, result);
    if (options.late && result->status == NET_PLANNED)
        net_right_shift(net, result, result->value > 0 ? result->value : 0);
}

/* Whether one of the windows that a scuff opens would be missed without it. */
static bool scuff_needed(struct problem *problem, const struct net_result *result, int scuff)
{
    const struct operations *operations = problem->operations;
    for (size_t i = 0; i < operations->link_count; i++) {
        const struct link *link = &operations->links[i];
        if (link->kind == LINK_WINDOW && link->unless == scuff &&
            result->start[link->to] >
                net_map_at(&problem->net, problem_link_map(problem, link), result->start[link->from]))
            return true;
    }
    return false;
}

static bool drop_scuffs(struct problem *problem, struct net_result *result)
{
    bool dropped = false;
    for (size_t i = 0; i < problem->operations->count; i++) {
        int flag = problem->flag[i];
        if (!problem->operations->items[i].late_scuff || flag == NET_NONE || !result->flag[flag] ||
            scuff_needed(problem, result, (int)i))
            continue;
        result->flag[flag] = 0;
        dropped = true;
    }
    return dropped;
}

struct net_result attempt_copy(const struct network *net, const struct net_result *result)
{
    struct net_result copy = *result;
    copy.start = ARENA_ARRAY(net->arena, net->operation_count, int32_t);
    copy.flag = ARENA_ARRAY(net->arena, (size_t)net->flag_count, unsigned char);
    memcpy(copy.start, result->start, net->operation_count * sizeof *copy.start);
    memcpy(copy.flag, result->flag, (size_t)net->flag_count * sizeof *copy.flag);
    return copy;
}

void attempt_make_late(struct problem *problem, const struct network *net, struct net_result *result)
{
    int32_t most = result->value > 0 ? result->value : 0;
    do
        net_right_shift(net, result, most);
    while (drop_scuffs(problem, result));
}

static void attempt_once(struct arena *arena, const struct operations *operations,
                         struct timetable_options options, int32_t slots, struct attempt *attempt)
{
    const struct job *job = operations->job;
    int64_t origin = job->start_min / SLOT_MIN * SLOT_MIN;
    const struct hours *hours = hours_make(arena, &job->shop, job->zone, origin, slots);
    attempt->problem = problem_make(arena, operations, hours);
    memset(&attempt->result, 0, sizeof attempt->result);
    attempt->result.status = NET_IMPOSSIBLE;
    attempt->early = attempt->result;
    if (attempt->problem->never >= 0)
        return;
    attempt->problem->net.observer = options.observer;
    struct timetable_options soon = options;
    soon.late = false;
    const struct network *net = &attempt->problem->net;
    attempt_network(net, soon, &attempt->result);
    attempt->early = attempt->result;
    if (options.late && attempt->result.status == NET_PLANNED) {
        attempt->early = attempt_copy(net, &attempt->result);
        attempt_make_late(attempt->problem, net, &attempt->result);
    }
}

void attempt_solve(struct arena *arena, const struct operations *operations, struct timetable_options options,
                   struct attempt *last)
{
    int32_t slots = horizon_guess(arena, operations, options.late);
    attempt_once(arena, operations, options, slots, last);
    while (last->result.status != NET_PLANNED && !last->result.any_horizon &&
           slots < HORIZON_MOST_MIN / SLOT_MIN) {
        slots = slots * 4 < HORIZON_MOST_MIN / SLOT_MIN ? slots * 4 : HORIZON_MOST_MIN / SLOT_MIN;
        attempt_once(arena, operations, options, slots, last);
    }
}
