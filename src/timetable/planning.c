#include "timetable/planning.h"

#include "base/arena.h"
#include "timetable/dates.h"
#include "timetable/why.h"
#include "timetable/work.h"

#include <string.h>

enum {
    WEEK_MIN = 7 * DAY_MINUTES,
    MARGIN_MIN = 3 * WEEK_MIN,
    LONGEST_MIN = 104 * WEEK_MIN, /* no plan looks further ahead */
    MOST_OPERATIONS = 3000,
    COLD_FACTOR =
        2, /* films take twice their time ten degrees below reference: a guess of the horizon only */
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

static int32_t longest_stretch_min(struct arena *arena, const struct job *job, int64_t origin_min)
{
    const struct hours *hours = hours_make(arena, &job->shop, job->zone, origin_min, MARGIN_MIN / SLOT_MIN);
    if (hours->longest == 0)
        hours = hours_make(arena, &job->shop, job->zone, origin_min, LONGEST_MIN / SLOT_MIN);
    return hours->longest * SLOT_MIN;
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
    int64_t guess = MARGIN_MIN + path_guess_min(arena, operations) + closed;
    guess += open > 0 ? hands_on * WEEK_MIN / open : 0;
    if (late && job->deliver_min - job->start_min + WEEK_MIN > guess)
        guess = job->deliver_min - job->start_min + WEEK_MIN;
    return (int32_t)((guess < LONGEST_MIN ? guess : LONGEST_MIN) / SLOT_MIN);
}

struct attempt {
    struct problem *problem;
    struct net_result result;
};

static void attempt(struct arena *arena, const struct operations *operations,
                    struct timetable_options options, int32_t slots, struct attempt *attempt)
{
    const struct job *job = operations->job;
    int64_t origin = job->start_min / SLOT_MIN * SLOT_MIN;
    const struct hours *hours = hours_make(arena, &job->shop, job->zone, origin, slots);
    attempt->problem = problem_make(arena, operations, hours);
    memset(&attempt->result, 0, sizeof attempt->result);
    attempt->result.status = NET_IMPOSSIBLE;
    if (attempt->problem->never >= 0)
        return;
    net_solve(&attempt->problem->net, (struct net_options){.effort = options.effort}, &attempt->result);
}

static void solve(struct arena *arena, const struct operations *operations, struct timetable_options options,
                  struct attempt *last)
{
    int32_t slots = horizon_guess(arena, operations, options.late);
    attempt(arena, operations, options, slots, last);
    while (last->result.status != NET_PLANNED && slots < LONGEST_MIN / SLOT_MIN) {
        slots = slots * 4 < LONGEST_MIN / SLOT_MIN ? slots * 4 : LONGEST_MIN / SLOT_MIN;
        attempt(arena, operations, options, slots, last);
    }
}

static enum timetable_status status_of(enum net_status status)
{
    return status == NET_PLANNED      ? TIMETABLE_PLANNED
           : status == NET_IMPOSSIBLE ? TIMETABLE_IMPOSSIBLE
                                      : TIMETABLE_UNKNOWN;
}

static void fill(struct attempt *last, struct timetable *timetable)
{
    const struct net_result *result = &last->result;
    timetable->status = status_of(result->status);
    timetable->effort = result->effort;
    timetable->nodes = result->nodes;
    timetable->ready_min = INT64_MAX;
    timetable->no_earlier_than_min = INT64_MAX;
    if (timetable->status != TIMETABLE_PLANNED) {
        why_impossible(last->problem, result, timetable);
        return;
    }
    dates_fill(last->problem, result, timetable);
    timetable->proven = result->proven;
    int32_t due = hours_slot_down(last->problem->hours, timetable->deliver_min);
    timetable->no_earlier_than_min = last->problem->net.goal_count
                                         ? hours_moment(last->problem->hours, due + result->bound)
                                         : timetable->ready_min;
    why_chain(last->problem, result, timetable);
}

static void refuse_size(struct arena *arena, struct timetable *timetable)
{
    const char **why = ARENA_NEW(arena, const char *);
    why[0] = arena_textf(
        arena,
        "%zu steps are more than the %d that one timetable holds: give parts that go through finishing "
        "together the same piece",
        timetable->operations->count, MOST_OPERATIONS);
    timetable->status = TIMETABLE_UNKNOWN;
    timetable->ready_min = timetable->no_earlier_than_min = INT64_MAX;
    timetable->why = why;
    timetable->why_count = 1;
}

const struct operations *timetable_operations(struct arena *arena, const struct job *job,
                                              const struct surfaces *surfaces, struct err_list *errors)
{
    int64_t origin = job->start_min / SLOT_MIN * SLOT_MIN;
    int64_t until = job->deliver_min > job->start_min ? job->deliver_min : job->start_min;
    struct shop_limits limits = {longest_stretch_min(arena, job, origin),
                                 shop_warmest_c(&job->shop, job->zone, job->start_min, until)};
    return operations_make(arena, job, surfaces, limits, errors);
}

struct timetable *timetable_make(struct arena *arena, const struct operations *operations,
                                 struct timetable_options options)
{
    const struct job *job = operations->job;
    struct timetable *timetable = ARENA_NEW(arena, struct timetable);
    timetable->job = job;
    timetable->operations = operations;
    timetable->start_min = job->start_min;
    timetable->deliver_min = job->deliver_min;
    if (operations->count > MOST_OPERATIONS) {
        refuse_size(arena, timetable);
        return timetable;
    }
    struct attempt last;
    solve(arena, operations, options, &last);
    fill(&last, timetable);
    return timetable;
}
