#include "timetable/planning.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/observer.h"
#include "timetable/batching.h"
#include "timetable/bounds.h"
#include "timetable/crew.h"
#include "timetable/dates.h"
#include "timetable/facts.h"
#include "timetable/lot.h"
#include "timetable/site.h"
#include "timetable/why.h"
#include "timetable/work.h"

#include <string.h>

enum {
    MOST_OPERATIONS = 20000,
    LOTS_TRIED = 4,
    RELAXED_OPERATIONS = 400,
    STRETCH_DAYS = 21,
    LITTLE_SOONER_MIN = 30, /* for which a search in more lots is worth a part of the effort */
    LITTLE_SHARE = 4
};

/* Counted work where the user chose none; for a proof that nothing is possible, which is not looked for with less. */
static const int64_t usual_effort = 6000000, relaxed_effort = 4000000, relaxed_least = 1000000;

static struct shop_limits limits_of(struct arena *arena, const struct job *job)
{
    int64_t origin = job->start_min / SLOT_MIN * SLOT_MIN;
    int64_t until = job->deliver_min > job->start_min ? job->deliver_min : job->start_min;
    const struct crew *crew = crew_make(arena, &job->shop, job->zone, origin, STRETCH_DAYS * DAY_MINUTES);
    if (crew->longest_duty == 0)
        crew = crew_make(arena, &job->shop, job->zone, origin, HORIZON_MOST_MIN);
    struct shop_limits limits = {.longest_min = crew->longest_duty,
                                 .break_min = INT32_MAX,
                                 .off_min = INT32_MAX,
                                 .warmest_c = shop_warmest_c(&job->shop, job->zone, job->start_min, until)};
    for (int i = 0; i < crew->count; i++) {
        const struct worker *worker = &crew->workers[i];
        int32_t off = worker->gap_least < worker->night_least ? worker->gap_least : worker->night_least;
        limits.break_min = worker->gap_least < limits.break_min ? worker->gap_least : limits.break_min;
        limits.off_min = off < limits.off_min ? off : limits.off_min;
    }
    return limits;
}

const struct operations *timetable_operations(struct arena *arena, const struct job *job,
                                              const struct surfaces *surfaces, struct err_list *errors)
{
    struct shop_limits limits = limits_of(arena, job);
    const struct operations *all =
        operations_make(arena, job, surfaces, limits, lots_least(arena, job, surfaces, limits), errors);
    const struct operations *left = all ? facts_settle(arena, all) : NULL;
    return left && operations_fit(left, limits, errors) ? left : NULL;
}

/* One way to plan jobs together: their work in certain lots, and the best draft of it. */
struct attempt {
    const struct operations **jobs;
    size_t count;
    struct joined *joined;
    const struct site *site;
    struct batching batching;
    int32_t slots;
};

static void attempt_within(struct arena *arena, struct attempt *attempt, struct timetable_options options)
{
    const struct operations *all = &attempt->joined->all;
    int64_t origin = attempt->joined->shop_job->start_min / SLOT_MIN * SLOT_MIN;
    attempt->site = site_make(arena, all, origin, attempt->slots * SLOT_MIN);
    attempt->batching = (struct batching){.site = attempt->site,
                                          .aim = options.aim,
                                          .observer = options.observer,
                                          .effort = options.effort > 0 ? options.effort : usual_effort};
    attempt->batching.least = bounds_of(attempt->site);
    batching_start(&attempt->batching);
}

/* The first plan, within a horizon that is lengthened until there is one. */
static void attempt_make(struct arena *arena, struct attempt *attempt, struct timetable_options options)
{
    attempt->joined = ARENA_NEW(arena, struct joined);
    operations_join(arena, attempt->jobs, attempt->count, attempt->joined);
    facts_settle_dust(&attempt->joined->all);
    attempt->slots = operations_horizon(arena, &attempt->joined->all, false);
    attempt_within(arena, attempt, options);
    while (!attempt->batching.score.whole && attempt->slots < HORIZON_MOST_MIN / SLOT_MIN &&
           attempt->batching.spent < batching_first_effort(&attempt->batching)) {
        int64_t spent = attempt->batching.spent;
        attempt->slots = attempt->slots * 4 < HORIZON_MOST_MIN / SLOT_MIN ? attempt->slots * 4
                                                                          : HORIZON_MOST_MIN / SLOT_MIN;
        attempt_within(arena, attempt, options);
        attempt->batching.spent += spent;
    }
}

static const struct operations *again_with(struct arena *arena, const struct operations *operations,
                                           const int *lots)
{
    struct err_list *errors = ARENA_NEW(arena, struct err_list);
    const struct operations *all = operations_make(arena, operations->job, operations->surfaces,
                                                   limits_of(arena, operations->job), lots, errors);
    return all ? facts_settle(arena, all) : NULL;
}

/* How many lots each piece has in its operations. */
static int *lots_in(struct arena *arena, const struct operations *operations)
{
    int *lots = ARENA_ARRAY(arena, operations->job->piece_count, int);
    for (size_t i = 0; i < operations->job->piece_count; i++)
        lots[i] = 1;
    for (size_t i = 0; i < operations->count; i++)
        if (operations->items[i].piece >= 0)
            lots[operations->items[i].piece] = operations->items[i].lots;
    return lots;
}

/* The same jobs with up to so many lots a piece; false: nothing can be divided so far. */
static bool attempt_lots(struct arena *arena, const struct attempt *base, int most, struct attempt *more)
{
    bool raised = false;
    *more = (struct attempt){.jobs = ARENA_ARRAY(arena, base->count, const struct operations *),
                             .count = base->count};
    for (size_t j = 0; j < base->count; j++) {
        const struct operations *job = base->jobs[j];
        const int *least = lots_in(arena, job);
        int *lots = ARENA_ARRAY(arena, job->job->piece_count, int);
        bool own = lots_raise(arena, job->job, least, most, lots);
        more->jobs[j] = own ? again_with(arena, job, lots) : job;
        if (!more->jobs[j])
            return false;
        raised |= own;
    }
    return raised;
}

static bool wants_lots(const struct attempt *attempt, enum timetable_aim aim)
{
    const struct score *score = &attempt->batching.score;
    if (!score->whole && attempt->batching.spent >= batching_first_effort(&attempt->batching))
        return false;
    return !score->whole || aim == AIM_SOONEST || score->late > 0;
}

static size_t operations_in(const struct attempt *attempt)
{
    size_t count = 0;
    for (size_t j = 0; j < attempt->count; j++)
        count += attempt->jobs[j]->count;
    return count;
}

/* What is wanted soonest is worth the effort of a plan each time, and a part of it where it cannot be ready much sooner. */
static int64_t effort_sooner(const struct attempt *best, const struct attempt *more)
{
    int64_t effort = more->batching.effort;
    bool little = best->batching.score.whole &&
                  best->batching.score.ready - more->batching.least.ready <= LITTLE_SOONER_MIN;
    return little && effort > LITTLE_SHARE ? effort / LITTLE_SHARE : effort;
}

/* Pieces in more lots: where without them there is no plan, a job is late, or everything is wanted soonest. The first two share the
 * effort of one plan. */
static void try_lots(struct arena *arena, struct attempt *best, struct timetable_options options)
{
    const struct attempt base = *best;
    int64_t left = base.batching.effort;
    size_t tried = operations_in(&base);
    bool first_only = options.effort == 1;
    for (int most = 2; most <= LOTS_TRIED && wants_lots(best, options.aim); most++) {
        struct attempt more;
        if (!attempt_lots(arena, &base, most, &more))
            return;
        if (options.aim == AIM_SOONEST && operations_in(&more) == tried) /* the same lots once more */
            continue;
        tried = operations_in(&more);
        if (options.aim != AIM_SOONEST)
            options.effort = left > LOTS_TRIED ? left / (LOTS_TRIED + 1 - most) : 1;
        attempt_make(arena, &more, options);
        if (options.aim == AIM_SOONEST)
            more.batching.effort = effort_sooner(best, &more);
        if (!first_only)
            batching_improve(&more.batching);
        left -= more.batching.spent;
        more.batching.spent += best->batching.spent;
        if (score_compare(&more.batching.score, &best->batching.score, options.aim) < 0)
            *best = more;
    }
}

/* What is ready as soon may take less work: as if each job were due when it is ready now, the search is late on its way where that
 * takes less work. */
static void save_work(struct arena *arena, struct attempt *best, enum timetable_aim aim)
{
    size_t count = (size_t)best->site->job_count;
    struct site *site =
        site_make(arena, &best->joined->all, best->site->crew->origin_min, best->slots * SLOT_MIN);
    struct batching batching = best->batching;
    int32_t *ready = ARENA_ARRAY(arena, count, int32_t);
    for (size_t j = 0; j < count; j++)
        site->jobs[j].due = site->jobs[j].aim = ready[j] = draft_ready(best->batching.best->draft, (int)j);
    batching.least = (struct least){bounds_work(site, ready), best->batching.score.ready};
    if (best->batching.score.work <= batching.least.work)
        return;
    batching.site = site;
    batching.aim = AIM_LEAST_WORK;
    batching.trades = true;
    batching.spent = 0;
    batching_again(&batching);
    best->batching.spent += batching.spent;
    best->batching.nodes = batching.nodes;
    best->batching.ended |= batching.ended;
    for (size_t j = 0; j < count; j++)
        site->jobs[j] = best->site->jobs[j];
    batching.score = score_of(batching.best);
    if (score_compare(&batching.score, &best->batching.score, aim) >= 0)
        return;
    best->site = best->batching.site = site;
    best->batching.best = batching.best;
    best->batching.score = batching.score;
}

static void refuse_size(struct arena *arena, struct timetable *timetable, size_t count)
{
    struct reason *reason = ARENA_NEW(arena, struct reason);
    *reason = (struct reason){.kind = REASON_SIZE, .count = count, .most = MOST_OPERATIONS};
    timetable->status = TIMETABLE_UNKNOWN;
    timetable->why = reason;
    timetable->why_count = 1;
}

/* What fixes a moment is told of the plan in which nothing is held back; in time and as late as may be, a plan depends on the
 * delivery alone. */
struct drafts {
    struct draft *plan, *early;
    int32_t *slack;
};

/* The same plan where there is time up to the delivery. It was searched for without that time, so that it takes no more work. */
static struct draft *with_time(struct arena *arena, const struct attempt *attempt)
{
    const struct operations *all = &attempt->joined->all;
    const struct draft *plan = attempt->batching.best->draft;
    int32_t slots = operations_horizon(arena, all, true);
    slots = slots > attempt->slots ? slots : attempt->slots;
    const struct site *site = site_make(arena, all, attempt->site->crew->origin_min, slots * SLOT_MIN);
    struct draft *draft = draft_make(arena, site);
    memcpy(draft->left_out, plan->left_out, site->count * sizeof *draft->left_out);
    for (size_t i = 0; i < plan->count; i++)
        draft_add(draft, &plan->placed[i]);
    return draft;
}

static struct drafts drafts_of(struct arena *arena, const struct attempt *attempt, enum timetable_aim aim)
{
    struct drafts drafts = {attempt->batching.best->draft, attempt->batching.best->draft, NULL};
    if (aim == AIM_LATEST) {
        drafts.plan = with_time(arena, attempt);
        draft_shift_late(drafts.plan);
    }
    drafts.slack = ARENA_ARRAY(arena, drafts.plan->count, int32_t);
    why_slack(drafts.plan, drafts.slack);
    return drafts;
}

static void fill_slack(const struct drafts *drafts, struct dated dated, struct timetable *timetable)
{
    const struct operations *operations = timetable->operations;
    for (size_t i = 0; i < timetable->step_count; i++) {
        struct timetable_step *step = &timetable->steps[i];
        size_t item = dated.first + (size_t)(step->operation - operations->items);
        step->float_min = drafts->slack[dated.draft->batch_of[item]];
        timetable->batches[step->batch].float_min = step->float_min;
    }
}

/* Of all plans that are no later than this one, or ready no later where that comes first; in seconds. */
static int64_t work_least(const struct attempt *attempt, enum timetable_aim aim)
{
    const struct site_job *job = &attempt->site->jobs[0];
    int32_t ready = attempt->batching.score.ready;
    int32_t by = aim == AIM_SOONEST  ? ready
                 : ready <= job->aim ? job->aim
                 : ready <= job->due ? job->due
                                     : ready;
    return bounds_work(attempt->site, &by);
}

static void prove(const struct attempt *attempt, size_t j, struct timetable *timetable)
{
    const struct least *least = &attempt->batching.least;
    int32_t ready = attempt->count == 1 ? least->ready : bounds_ready(attempt->site, (int)j);
    timetable->no_earlier_than_min = site_moment(attempt->site, ready);
    if (timetable->no_earlier_than_min > timetable->ready_min)
        timetable->no_earlier_than_min = timetable->ready_min;
    timetable->ready_proven = timetable->ready_min == timetable->no_earlier_than_min;
    timetable->no_less_work_min = attempt->count == 1 ? (work_least(attempt, timetable->aim) + 59) / 60 : 0;
    timetable->work_proven = timetable->hands_on_min == timetable->no_less_work_min;
}

static void fill(const struct attempt *attempt, const struct drafts *drafts, size_t j,
                 struct timetable *timetable)
{
    struct dated dated = {drafts->plan, attempt->joined->first[j]};
    struct dated early = {drafts->early, attempt->joined->first[j]};
    dates_fill(dated, timetable);
    fill_slack(drafts, dated, timetable);
    prove(attempt, j, timetable);
    if (timetable->aim != AIM_LATEST || timetable->late_min > 0)
        why_chain(early, timetable);
}

static struct timetable *blank(struct arena *arena, const struct attempt *attempt, size_t j,
                               enum timetable_aim aim)
{
    struct timetable *timetable = timetable_blank(arena, attempt->jobs[j]);
    timetable->aim = aim;
    timetable->aim_min = job_aims_at_min(attempt->jobs[j]->job);
    timetable->status = attempt->batching.score.whole ? TIMETABLE_PLANNED : TIMETABLE_UNKNOWN;
    timetable->effort = attempt->batching.spent;
    timetable->nodes = attempt->batching.nodes;
    timetable->ended = attempt->batching.ended || observer_ended(attempt->batching.observer);
    return timetable;
}

static void say_not_found(struct arena *arena, struct timetable *timetable)
{
    struct reason *reason = ARENA_NEW(arena, struct reason);
    *reason = (struct reason){.kind = REASON_EFFORT};
    timetable->why = reason;
    timetable->why_count = 1;
}

/* Where no plan was found the work alone, without set-ups, may show that there is none, if there is not too much of it and more
 * than a quick look is wanted. */
static void refute(struct arena *arena, const struct attempt *attempt, int64_t effort,
                   struct timetable **each)
{
    if (attempt->joined->all.count > RELAXED_OPERATIONS || (effort > 1 && effort < relaxed_least)) {
        for (size_t j = 0; j < attempt->count; j++)
            say_not_found(arena, each[j]);
        return;
    }
    struct relaxed relaxed =
        relaxed_solve(arena, &attempt->joined->all, HORIZON_MOST_MIN / SLOT_MIN, relaxed_effort);
    for (size_t j = 0; j < attempt->count; j++) {
        each[j]->effort += relaxed.result.effort;
        each[j]->status = relaxed.result.status == NET_IMPOSSIBLE ? TIMETABLE_IMPOSSIBLE : TIMETABLE_UNKNOWN;
        why_impossible(relaxed.problem, &relaxed.result, each[j]);
    }
}

struct timetable **timetable_several(struct arena *arena, const struct operations *const *jobs, size_t count,
                                     struct timetable_options options)
{
    struct timetable **each = ARENA_ARRAY(arena, count, struct timetable *);
    struct attempt best = {.jobs = ARENA_ARRAY(arena, count, const struct operations *), .count = count};
    size_t operations = 0;
    for (size_t j = 0; j < count; j++) {
        best.jobs[j] = jobs[j];
        operations += jobs[j]->count;
    }
    if (operations > MOST_OPERATIONS) {
        for (size_t j = 0; j < count; j++)
            refuse_size(arena, each[j] = blank(arena, &best, j, options.aim), operations);
        return each;
    }
    attempt_make(arena, &best, options);
    if (options.effort != 1)
        batching_improve(&best.batching);
    try_lots(arena, &best, options);
    if (options.aim == AIM_SOONEST && options.effort != 1 && best.batching.score.whole)
        save_work(arena, &best, options.aim);
    for (size_t j = 0; j < count; j++)
        each[j] = blank(arena, &best, j, options.aim);
    if (!best.batching.score.whole) {
        refute(arena, &best, options.effort, each);
        return each;
    }
    struct drafts drafts = drafts_of(arena, &best, options.aim);
    for (size_t j = 0; j < count; j++)
        fill(&best, &drafts, j, each[j]);
    return each;
}

struct timetable *timetable_make(struct arena *arena, const struct operations *operations,
                                 struct timetable_options options)
{
    return timetable_several(arena, &operations, 1, options)[0];
}
