#include "plan/advice.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/observer.h"
#include "plan/promise.h"
#include "timetable/planning.h"

#include <stdlib.h>

enum { ADVICE_MOST = 12, SCRATCH_BYTES = 1 << 29 };

/* Counted work of the solver for a first look at each alternative, and for all second looks together; of an effort that
 * the user chose these shares. Of a job that cannot be planned at all it is enough to know what makes it possible, and
 * that soon: a shorter first look, and no second one. */
static const int64_t look_effort = 300000, second_looks_effort = 15000000;
enum { LOOK_SHARE = 60, SECOND_LOOKS_PERCENT = 67, IMPOSSIBLE_SHARE = 2 };

/* An alternative, and how it was planned. */
struct trial {
    const struct alternative *alternative;
    size_t number;
    bool planned, exact;
    int64_t ready_min, hands_on_min, no_earlier_than_min, effort;
};

struct advising {
    struct arena *arena;
    const struct timetable *now;
    struct timetable_options options;
    int64_t look, second_looks; /* counted work */
    size_t warnings_now;
    struct trial *trials;
    size_t trial_count;
};

static void plan_trial(struct arena *arena, struct advising *advising, struct trial *trial,
                       struct timetable_options options)
{
    *trial = (struct trial){.alternative = trial->alternative, .number = trial->number, .exact = true};
    const struct operations *operations =
        alternative_work(arena, advising->now->operations, &trial->alternative->job, advising->warnings_now);
    if (!operations)
        return;
    options.aim = alternative_aim(&trial->alternative->change, options.aim);
    const struct timetable *timetable = timetable_make(arena, operations, options);
    trial->planned = timetable->status == TIMETABLE_PLANNED;
    trial->exact = timetable->ready_proven || timetable->status == TIMETABLE_IMPOSSIBLE;
    trial->ready_min = timetable->ready_min;
    trial->hands_on_min = timetable->hands_on_min;
    trial->no_earlier_than_min = timetable->no_earlier_than_min;
    trial->effort = timetable->effort;
}

static void try(struct advising *advising, struct trial *trial, struct timetable_options options)
{
    struct arena *scratch = arena_make_within(advising->arena, SCRATCH_BYTES);
    plan_trial(scratch, advising, trial, options);
    arena_free_within(advising->arena, scratch);
}

static int by_ready(const void *a, const void *b)
{
    const struct trial *left = a, *right = b;
    if (left->planned != right->planned)
        return left->planned ? -1 : 1;
    if (left->planned && left->ready_min != right->ready_min)
        return left->ready_min < right->ready_min ? -1 : 1;
    return left->number < right->number ? -1 : left->number > right->number;
}

static void sort(struct advising *advising)
{
    qsort(advising->trials, advising->trial_count, sizeof *advising->trials, by_ready);
}

static void share_effort(struct advising *advising)
{
    int64_t effort = advising->options.effort;
    advising->look = effort == 0 ? look_effort : effort < LOOK_SHARE ? 1 : effort / LOOK_SHARE;
    advising->second_looks = effort == 0 ? second_looks_effort : effort / 100 * SECOND_LOOKS_PERCENT;
    if (advising->now->status != TIMETABLE_PLANNED) {
        advising->look = advising->look / IMPOSSIBLE_SHARE + 1;
        advising->second_looks = 0;
    }
}

static void look(struct advising *advising, const struct alternatives *all)
{
    struct timetable_options quick = advising->options;
    quick.effort = advising->look;
    advising->trials = ARENA_ARRAY(advising->arena, all->count, struct trial);
    advising->trial_count = all->count;
    for (size_t i = 0; i < all->count; i++) {
        advising->trials[i].alternative = &all->items[i];
        advising->trials[i].number = i;
        observer_part(quick.observer, OBSERVE_ADVICE, i, all->count);
        if (observer_ended(quick.observer)) {
            advising->trial_count = i;
            return;
        }
        try(advising, &advising->trials[i], quick);
        advising->trials[i].exact |= quick.effort == advising->options.effort;
    }
}

/* Of several starts the latest that is in time is told, else the one that gains most. */
static bool other_start(const struct advising *advising, const struct trial *trial, const struct trial *other)
{
    return trial->alternative->change.kind == ALTERNATIVE_START && other->ready_min < trial->ready_min &&
           trial->ready_min > advising->now->deliver_min;
}

/* A greater change of the same kind that gains no more, or is not needed. */
static bool outdone(const struct advising *advising, const struct trial *trial)
{
    enum alternative_kind kind = trial->alternative->change.kind;
    if (kind == ALTERNATIVE_COATS || kind == ALTERNATIVE_FINISH)
        return false;
    for (size_t i = 0; i < advising->trial_count; i++) {
        const struct trial *other = &advising->trials[i];
        bool enough = other->ready_min <= trial->ready_min || other->ready_min <= advising->now->deliver_min;
        bool same = other->alternative->change.kind == kind &&
                    other->alternative->change.position == trial->alternative->change.position;
        if (other->planned && same &&
            ((other->number < trial->number && enough) || other_start(advising, trial, other)))
            return true;
    }
    return false;
}

/* What the first look left open is planned as a run on the changed file would plan it. */
static void look_again(struct advising *advising)
{
    int64_t spent = 0;
    for (size_t i = 0; i < advising->trial_count && spent < advising->second_looks; i++) {
        struct trial *trial = &advising->trials[i];
        if (observer_ended(advising->options.observer))
            return;
        if (trial->exact || outdone(advising, trial) ||
            (trial->planned && trial->no_earlier_than_min >= advising->now->ready_min))
            continue;
        try(advising, trial, advising->options);
        trial->exact = true;
        spent += trial->effort;
    }
}

static const char *const *one_file(struct arena *arena, const char *file)
{
    const char **files = ARENA_NEW(arena, const char *);
    *files = file;
    return files;
}

static struct advice_change change_job(struct arena *arena, const struct job *job, const struct job *changed,
                                       bool hold)
{
    struct job *held = ARENA_NEW(arena, struct job);
    *held = *changed;
    if (hold)
        promise_hold(held);
    return (struct advice_change){job, held, false, one_file(arena, job->file), 1};
}

/* One change where both are for the job's file. */
static void give_changes(struct arena *arena, const struct job *job, const struct alternative *alternative,
                         struct advice *advice)
{
    if (alternative->change.kind == ALTERNATIVE_SOONEST)
        return;
    struct advice_change *changes = ARENA_ARRAY(arena, 2, struct advice_change);
    bool hold = promise_moves(job, &alternative->job.shop);
    bool in_shop = alternative_of_shop(alternative->change.kind) && job->shop_file;
    if (in_shop)
        changes[advice->change_count++] =
            (struct advice_change){job, &alternative->job, true, one_file(arena, job->shop_file), 1};
    if (!in_shop || hold)
        changes[advice->change_count++] = change_job(arena, job, in_shop ? job : &alternative->job, hold);
    advice->changes = changes;
}

static struct advice advice_of(const struct advising *advising, const struct trial *trial)
{
    const struct job *job = advising->now->job;
    bool planned = advising->now->status == TIMETABLE_PLANNED;
    int64_t late = trial->ready_min - advising->now->deliver_min;
    struct advice advice = {
        .change = trial->alternative->change,
        .changed = &trial->alternative->job,
        .ready_min = trial->ready_min,
        .gain_min = planned ? advising->now->ready_min - trial->ready_min : 0,
        .late_min = late > 0 ? late : 0,
        .more_work_min = planned && trial->exact ? trial->hands_on_min - advising->now->hands_on_min : 0,
        .at_latest = !trial->exact};
    give_changes(advising->arena, job, trial->alternative, &advice);
    return advice;
}

static struct advice_list advice_all(const struct advising *advising)
{
    struct advice *items = ARENA_ARRAY(advising->arena, ADVICE_MOST, struct advice);
    struct advice_list list = {items, 0};
    for (size_t i = 0; i < advising->trial_count && list.count < ADVICE_MOST; i++) {
        const struct trial *trial = &advising->trials[i];
        bool gains = trial->planned && trial->ready_min < advising->now->ready_min;
        if (gains && !outdone(advising, trial))
            items[list.count++] = advice_of(advising, trial);
    }
    return list;
}

struct advice_list advice_make(struct arena *arena, const struct timetable *timetable,
                               struct timetable_options options, int64_t now_min)
{
    struct advising advising = {.arena = arena, .now = timetable, .options = options};
    struct alternatives all;
    if (!alternative_wanted(timetable))
        return (struct advice_list){NULL, 0};
    share_effort(&advising);
    advising.warnings_now = alternative_warnings(arena, timetable->job);
    alternatives_init(&all, arena, timetable, now_min, alternative_late(timetable));
    look(&advising, &all);
    sort(&advising);
    look_again(&advising);
    sort(&advising);
    return advice_all(&advising);
}
