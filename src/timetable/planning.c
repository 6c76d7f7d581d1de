#include "timetable/planning.h"

#include "base/arena.h"
#include "timetable/attempt.h"
#include "timetable/dates.h"
#include "timetable/why.h"
#include "timetable/work.h"

enum { MOST_OPERATIONS = 1200 };

static int32_t longest_stretch_min(struct arena *arena, const struct job *job, int64_t origin_min)
{
    const struct hours *hours =
        hours_make(arena, &job->shop, job->zone, origin_min, HORIZON_MARGIN_MIN / SLOT_MIN);
    if (hours->longest == 0)
        hours = hours_make(arena, &job->shop, job->zone, origin_min, HORIZON_MOST_MIN / SLOT_MIN);
    return hours->longest * SLOT_MIN;
}

static enum timetable_status status_of(enum net_status status)
{
    return status == NET_PLANNED      ? TIMETABLE_PLANNED
           : status == NET_IMPOSSIBLE ? TIMETABLE_IMPOSSIBLE
                                      : TIMETABLE_UNKNOWN;
}

/* In time and as late as the delivery allows, a plan depends on the delivery alone. */
static void fill_why(struct attempt *last, struct timetable *timetable, bool late)
{
    why_float(last->problem, &last->result, timetable);
    if (!late || timetable->late_min > 0)
        why_chain(last->problem, &last->early, timetable);
}

void timetable_fill(struct attempt *last, struct timetable *timetable, bool late)
{
    const struct net_result *result = &last->result;
    timetable->status = status_of(result->status);
    timetable->effort = result->effort;
    timetable->nodes = result->nodes;
    timetable->ended = result->ended;
    if (timetable->status != TIMETABLE_PLANNED) {
        why_impossible(last->problem, result, timetable);
        return;
    }
    dates_fill(last->problem, result, timetable);
    timetable->proven = result->value == result->bound;
    int32_t due = hours_slot_down(last->problem->hours, timetable->deliver_min);
    timetable->no_earlier_than_min = last->problem->net.goal_count
                                         ? hours_moment(last->problem->hours, due + result->bound)
                                         : timetable->ready_min;
    fill_why(last, timetable, late);
}

static void refuse_size(struct arena *arena, struct timetable *timetable)
{
    struct reason *why = ARENA_NEW(arena, struct reason);
    *why =
        (struct reason){.kind = REASON_SIZE, .count = timetable->operations->count, .most = MOST_OPERATIONS};
    timetable->status = TIMETABLE_UNKNOWN;
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

bool timetable_attempt(struct arena *arena, struct timetable *timetable, struct timetable_options options,
                       struct attempt *solved)
{
    if (timetable->operations->count > MOST_OPERATIONS) {
        refuse_size(arena, timetable);
        return false;
    }
    attempt_solve(arena, timetable->operations, options, solved);
    return true;
}

struct timetable *timetable_make(struct arena *arena, const struct operations *operations,
                                 struct timetable_options options)
{
    struct timetable *timetable = timetable_blank(arena, operations);
    struct attempt solved;
    if (timetable_attempt(arena, timetable, options, &solved))
        timetable_fill(&solved, timetable, options.late);
    return timetable;
}
