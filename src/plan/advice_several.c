#include "plan/advice.h"

#include "base/arena.h"
#include "base/err.h"
#include "base/observer.h"
#include "plan/promise.h"
#include "timetable/planning.h"

#include <stdlib.h>
#include <string.h>

enum { ADVICE_MOST = 12, TRIALS_MOST = 160, SCRATCH_BYTES = 1 << 29 };

/* Counted work for a first look at each alternative, and for all that are planned in full; see advice.c. */
static const int64_t look_effort = 100000, full_effort = 30000000;
enum { LOOK_SHARE = 240, FULL_PERCENT = 160 };

/* An alternative, whose it is, and what becomes of the jobs. */
struct trial {
    const struct alternative *alternative;
    size_t job; /* the job's place; the count of jobs: the shop, which is everyone's */
    size_t number;
    bool planned, full;
    int64_t late_min;                        /* of all jobs together; INT64_MAX: no plan */
    const int64_t *ready_min, *hands_on_min; /* per job */
    int64_t effort;
};

struct advising {
    struct arena *arena;
    struct timetable *const *now;
    size_t count;
    struct timetable_options options;
    int64_t now_min, late_now_min;
    size_t *warnings_now; /* per job */
    struct trial *trials;
    size_t trial_count;
};

static int64_t late_together(struct timetable *const *timetables, size_t count)
{
    int64_t late = 0;
    for (size_t j = 0; j < count; j++) {
        if (timetables[j]->status != TIMETABLE_PLANNED)
            return INT64_MAX;
        late += timetables[j]->late_min;
    }
    return late;
}

static bool of_shop(const struct alternative *alternative)
{
    return alternative_of_shop(alternative->change.kind);
}

static bool is_option(const struct alternative *alternative)
{
    return alternative->change.kind == ALTERNATIVE_SOONEST;
}

/* What is no job's own. */
static bool for_all(const struct alternative *alternative)
{
    return of_shop(alternative) || is_option(alternative);
}

/* The same change of the shop, which other jobs thought of as well. */
static bool same_change(const struct change *a, const struct change *b)
{
    return a->kind == b->kind && a->to_m2 == b->to_m2 && a->heating == b->heating && a->to_c == b->to_c;
}

static bool known(const struct advising *a, const struct alternative *alternative)
{
    for (size_t i = 0; i < a->trial_count; i++)
        if (a->trials[i].job == a->count &&
            same_change(&a->trials[i].alternative->change, &alternative->change))
            return true;
    return false;
}

/* A change that is good for one file only where the others say the same in fewer words. */
static bool fits_all_files(const struct advising *a, size_t job, const struct alternative *alternative)
{
    bool hours =
        alternative->change.kind == ALTERNATIVE_EVENING || alternative->change.kind == ALTERNATIVE_SATURDAY;
    for (size_t j = 0; j < a->count && !is_option(alternative); j++) {
        if (!a->now[j]->job->shop_file != !a->now[job]->job->shop_file)
            return false;
        if (hours && a->now[j]->job->shop.hours_assumed && !a->now[job]->job->shop.hours_assumed)
            return false;
    }
    return true;
}

static void add_trial(struct advising *a, size_t job, const struct alternative *alternative)
{
    bool shared = for_all(alternative);
    bool wanted = shared ? !known(a, alternative) && fits_all_files(a, job, alternative)
                         : alternative_late(a->now[job]);
    if (!wanted || a->trial_count == TRIALS_MOST)
        return;
    a->trials[a->trial_count] =
        (struct trial){.alternative = alternative, .job = shared ? a->count : job, .number = a->trial_count};
    a->trial_count++;
}

static void collect(struct advising *a)
{
    a->trials = ARENA_ARRAY(a->arena, TRIALS_MOST, struct trial);
    for (size_t j = 0; j < a->count; j++) {
        struct alternatives all;
        alternatives_init(&all, a->arena, a->now[j], a->now_min, a->late_now_min > 0);
        for (size_t i = 0; i < all.count; i++)
            add_trial(a, j, &all.items[i]);
    }
}

/* The work of a job as the trial changes it, laid out as for a run on the changed files: the plan at hand may have it in more
 * lots than a new one begins with. NULL: it cannot be. */
static const struct operations *changed_work(struct arena *arena, const struct advising *a,
                                             const struct trial *trial, size_t j)
{
    const struct operations *now = a->now[j]->operations;
    struct job *job = ARENA_NEW(arena, struct job);
    *job = trial->job == j ? trial->alternative->job : *now->job;
    if (of_shop(trial->alternative))
        job->shop = trial->alternative->job.shop;
    return alternative_work(arena, now, job, a->warnings_now[j]);
}

static void plan_trial(struct arena *arena, const struct advising *a, struct trial *trial,
                       struct timetable_options options, int64_t *ready_min, int64_t *hands_on_min)
{
    const struct operations **work = ARENA_ARRAY(arena, a->count, const struct operations *);
    trial->planned = false;
    trial->late_min = INT64_MAX;
    trial->effort = 0;
    for (size_t j = 0; j < a->count; j++)
        if (!(work[j] = changed_work(arena, a, trial, j)))
            return;
    options.aim = alternative_aim(&trial->alternative->change, options.aim);
    struct timetable **each = timetable_several(arena, work, a->count, options);
    trial->late_min = late_together(each, a->count);
    trial->planned = trial->late_min != INT64_MAX;
    trial->effort = each[0]->effort;
    for (size_t j = 0; j < a->count; j++) {
        ready_min[j] = each[j]->ready_min;
        hands_on_min[j] = each[j]->hands_on_min;
    }
}

static void try(const struct advising *a, struct trial *trial, struct timetable_options options)
{
    struct arena *scratch = arena_make_within(a->arena, SCRATCH_BYTES);
    int64_t *ready_min = ARENA_ARRAY(a->arena, a->count, int64_t);
    int64_t *hands_on_min = ARENA_ARRAY(a->arena, a->count, int64_t);
    plan_trial(scratch, a, trial, options, ready_min, hands_on_min);
    trial->ready_min = ready_min;
    trial->hands_on_min = hands_on_min;
    arena_free_within(a->arena, scratch);
}

static int by_lateness(const void *x, const void *y)
{
    const struct trial *left = x, *right = y;
    if (left->late_min != right->late_min)
        return left->late_min < right->late_min ? -1 : 1;
    return left->number < right->number ? -1 : left->number > right->number;
}

/* All with little effort, then the most promising ones in full as long as a fixed sum of work lasts. */
static void plan_trials(struct advising *a)
{
    int64_t effort = a->options.effort, spent = 0;
    int64_t most = effort ? effort / 100 * FULL_PERCENT : full_effort;
    struct timetable_options quick = a->options;
    quick.effort = !effort ? look_effort : effort < LOOK_SHARE ? 1 : effort / LOOK_SHARE;
    for (size_t i = 0; i < a->trial_count; i++) {
        observer_part(quick.observer, OBSERVE_ADVICE, i, a->trial_count);
        if (observer_ended(quick.observer))
            a->trial_count = i;
        else
            try(a, &a->trials[i], quick);
    }
    qsort(a->trials, a->trial_count, sizeof *a->trials, by_lateness);
    for (size_t i = 0; i < a->trial_count && spent <= most; i++) {
        if (!a->trials[i].planned ||
            (!is_option(a->trials[i].alternative) && a->trials[i].late_min >= a->late_now_min))
            break;
        try(a, &a->trials[i], a->options);
        a->trials[i].full = true;
        spent += a->trials[i].effort;
    }
}

static int64_t late_of(const struct advising *a, const struct trial *trial, size_t j)
{
    int64_t late = trial->ready_min[j] - a->now[j]->deliver_min;
    return late > 0 ? late : 0;
}

/* The jobs that it makes later than they are. */
static void give_harms(const struct advising *a, const struct trial *trial, size_t j, struct advice *advice)
{
    struct advice_harm *harms = ARENA_ARRAY(a->arena, a->count, struct advice_harm);
    for (size_t i = 0; i < a->count; i++)
        if (i != j && a->now[i]->status == TIMETABLE_PLANNED && late_of(a, trial, i) > a->now[i]->late_min)
            harms[advice->harm_count++] = (struct advice_harm){a->now[i]->job, late_of(a, trial, i)};
    advice->harms = harms;
}

static const char *file_of(const struct job *job, const struct alternative *alternative)
{
    return of_shop(alternative) && job->shop_file ? job->shop_file : job->file;
}

/* Every file that the change is for. */
static struct advice_change shared_change(const struct advising *a, const struct trial *trial)
{
    const struct alternative *alternative = trial->alternative;
    const char **files = ARENA_ARRAY(a->arena, a->count, const char *);
    struct advice_change change = {alternative->now, &alternative->job,
                                   of_shop(alternative) && alternative->now->shop_file, files, 0};
    for (size_t j = 0; j < a->count; j++) {
        const char *file = file_of(a->now[j]->job, alternative);
        bool listed = trial->job < a->count && trial->job != j;
        for (size_t i = 0; i < change.file_count; i++)
            listed |= strcmp(file, files[i]) == 0;
        if (!listed)
            files[change.file_count++] = file;
    }
    return change;
}

static struct advice_change hold(struct arena *arena, const struct job *job)
{
    struct job *held = ARENA_NEW(arena, struct job);
    const char **files = ARENA_NEW(arena, const char *);
    *held = *job;
    promise_hold(held);
    files[0] = job->file;
    return (struct advice_change){job, held, false, files, 1};
}

/* Other hours hold the delivery of every job. */
static void give_changes(const struct advising *a, const struct trial *trial, struct advice *advice)
{
    struct advice_change *changes = ARENA_ARRAY(a->arena, a->count + 1, struct advice_change);
    advice->changes = changes;
    if (is_option(trial->alternative))
        return;
    changes[advice->change_count++] = shared_change(a, trial);
    for (size_t j = 0; trial->job == a->count && j < a->count; j++)
        if (promise_moves(a->now[j]->job, &trial->alternative->job.shop))
            changes[advice->change_count++] = hold(a->arena, a->now[j]->job);
}

/* A lesser change of the same kind gains this job as much. */
static bool outdone(const struct advising *a, const struct trial *trial, size_t j)
{
    for (size_t i = 0; i < a->trial_count && of_shop(trial->alternative); i++) {
        const struct trial *other = &a->trials[i];
        if (other->full && other->planned &&
            other->alternative->change.kind == trial->alternative->change.kind &&
            other->number < trial->number && late_of(a, other, j) <= late_of(a, trial, j))
            return true;
    }
    return false;
}

/* Few enough that a sort which keeps the order of equals is an insertion. */
static void put_in_order(struct advice *items, size_t count)
{
    for (size_t i = 1; i < count; i++)
        for (size_t k = i; k > 0 && items[k].ready_min < items[k - 1].ready_min; k--) {
            struct advice item = items[k];
            items[k] = items[k - 1];
            items[k - 1] = item;
        }
}

static struct advice_list tell(const struct advising *a, size_t j)
{
    struct advice *items = ARENA_ARRAY(a->arena, a->trial_count, struct advice);
    bool planned = a->now[j]->status == TIMETABLE_PLANNED;
    size_t count = 0;
    for (size_t i = 0; i < a->trial_count; i++) {
        const struct trial *trial = &a->trials[i];
        if (!trial->full || !trial->planned || trial->ready_min[j] >= a->now[j]->ready_min ||
            outdone(a, trial, j))
            continue;
        bool other = trial->job < a->count && trial->job != j;
        items[count] = (struct advice){.change = trial->alternative->change,
                                       .of = other ? a->now[trial->job]->job : NULL,
                                       .changed = a->now[j]->job,
                                       .ready_min = trial->ready_min[j],
                                       .gain_min = planned ? a->now[j]->ready_min - trial->ready_min[j] : 0,
                                       .late_min = late_of(a, trial, j)};
        if (planned)
            items[count].more_work_min = trial->hands_on_min[j] - a->now[j]->hands_on_min;
        give_harms(a, trial, j, &items[count]);
        give_changes(a, trial, &items[count++]);
    }
    put_in_order(items, count);
    return (struct advice_list){items, count < ADVICE_MOST ? count : ADVICE_MOST};
}

struct advice_list *advice_several(struct arena *arena, struct timetable *const *timetables, size_t count,
                                   struct timetable_options options, int64_t now_min)
{
    struct advice_list *lists = ARENA_ARRAY(arena, count, struct advice_list);
    struct advising a = {
        .arena = arena, .now = timetables, .count = count, .options = options, .now_min = now_min};
    bool wanted = false;
    for (size_t j = 0; j < count; j++)
        wanted |= alternative_wanted(timetables[j]);
    if (!wanted)
        return lists;
    a.late_now_min = late_together(timetables, count);
    a.warnings_now = ARENA_ARRAY(arena, count, size_t);
    for (size_t j = 0; j < count; j++)
        a.warnings_now[j] = alternative_warnings(arena, timetables[j]->job);
    collect(&a);
    plan_trials(&a);
    for (size_t j = 0; j < count; j++)
        if (a.late_now_min > 0 ? alternative_late(timetables[j]) : alternative_wanted(timetables[j]))
            lists[j] = tell(&a, j);
    return lists;
}
