#include "timetable/several.h"

#include "base/arena.h"
#include "solver/improve/shift.h"
#include "timetable/dates.h"
#include "timetable/relieve.h"
#include "timetable/why.h"

/* All jobs' operations as one list; those of job j begin at offset[j]. */
struct shared {
    struct arena *arena;
    const struct operations *const *jobs;
    size_t job_count;
    struct job
        shop_job; /* the first job, from the earliest start to the last delivery: the shop is the same */
    struct operations all;
    size_t *offset; /* job_count + 1 */
};

static void add_job(struct shared *shared, const struct operations *job)
{
    struct operations *all = &shared->all;
    int offset = (int)all->count;
    for (size_t i = 0; i < job->count; i++) {
        struct operation *copy = &all->items[all->count++];
        *copy = job->items[i];
        copy->chain += offset;
    }
    for (size_t i = 0; i < job->link_count; i++) {
        struct link *copy = &all->links[all->link_count++];
        *copy = job->links[i];
        copy->from += offset;
        copy->to += offset;
        copy->unless += copy->unless >= 0 ? offset : 0;
    }
    for (size_t i = 0; i < job->line_count; i++) {
        all->lines[all->line_count] = job->lines[i];
        all->lines[all->line_count++].operation += offset;
    }
}

static void share(struct shared *shared)
{
    size_t operations = 0, links = 0, lines = 0;
    shared->shop_job = *shared->jobs[0]->job;
    shared->offset = ARENA_ARRAY(shared->arena, shared->job_count + 1, size_t);
    for (size_t j = 0; j < shared->job_count; j++) {
        const struct operations *job = shared->jobs[j];
        shared->offset[j] = operations;
        operations += job->count;
        links += job->link_count;
        lines += job->line_count;
        if (job->job->start_min < shared->shop_job.start_min)
            shared->shop_job.start_min = job->job->start_min;
        if (job->job->deliver_min > shared->shop_job.deliver_min)
            shared->shop_job.deliver_min = job->job->deliver_min;
    }
    shared->offset[shared->job_count] = operations;
    shared->all = (struct operations){.job = &shared->shop_job,
                                      .items = ARENA_ARRAY(shared->arena, operations, struct operation),
                                      .links = ARENA_ARRAY(shared->arena, links, struct link),
                                      .lines = ARENA_ARRAY(shared->arena, lines, struct finish_line)};
    for (size_t j = 0; j < shared->job_count; j++)
        add_job(shared, shared->jobs[j]);
}

static struct job_rows rows_of(const struct shared *shared)
{
    return (struct job_rows){shared->offset, shared->job_count};
}

/* Which job an operation of the shared list belongs to. */
static size_t job_of(const struct shared *shared, size_t operation)
{
    size_t job = 0;
    while (operation >= shared->offset[job + 1])
        job++;
    return job;
}

/* The same solution, seen as a plan of one job alone. */
static void date_one(const struct shared *shared, struct attempt *solved, size_t j,
                     struct timetable *timetable)
{
    struct problem part = *solved->problem;
    struct net_result result = solved->result;
    part.operations = shared->jobs[j];
    part.flag += shared->offset[j];
    result.start += shared->offset[j];
    dates_fill(&part, &result, timetable);
}

/* Persons and floats can only be told with all jobs in view. */
static void share_view(const struct shared *shared, const struct timetable *all, struct timetable **each)
{
    for (size_t i = 0; i < all->step_count; i++) {
        size_t operation = (size_t)(all->steps[i].operation - shared->all.items),
               j = job_of(shared, operation);
        size_t step = timetable_step_of(each[j], &shared->jobs[j]->items[operation - shared->offset[j]]);
        each[j]->steps[step].person = all->steps[i].person;
        each[j]->steps[step].float_min = all->steps[i].float_min;
    }
}

/* A step may slip until any job would be later than it is. */
static void tell_float(const struct shared *shared, const struct attempt *solved, struct timetable *all)
{
    struct problem problem = *solved->problem;
    struct net_result result = solved->result;
    problem.net = relieve_due_when_ready(&solved->problem->net, rows_of(shared), &result, INT32_MIN);
    result.value = 0;
    why_float(&problem, &result, all);
}

/* The chain that makes one job ready when it is leads through the work of others, which its reasons name. */
static void tell_chain(const struct shared *shared, const struct attempt *solved, size_t j,
                       const struct timetable *all, struct timetable *timetable, bool late)
{
    struct problem problem = *solved->problem;
    struct net_result result = attempt_copy(&problem.net, &solved->result);
    struct timetable view = *timetable;
    if (late) /* late steps wait for nothing: reasons are read off early ones */
        net_left_shift(&problem.net, &result);
    view.steps = all->steps;
    view.step_count = all->step_count;
    problem.net = relieve_goals_of(&solved->problem->net, rows_of(shared), j);
    result.value = net_value(&problem.net, result.start, result.flag);
    why_chain(&problem, &result, &view);
    size_t *chain = ARENA_ARRAY(shared->arena, view.chain_count, size_t);
    for (size_t i = 0; i < view.chain_count; i++) {
        size_t operation = (size_t)(all->steps[view.chain[i]].operation - shared->all.items);
        if (job_of(shared, operation) == j)
            chain[timetable->chain_count++] =
                timetable_step_of(timetable, &shared->jobs[j]->items[operation - shared->offset[j]]);
    }
    timetable->chain = chain;
    timetable->why = view.why;
    timetable->why_count = view.why_count;
}

static void bound_alone(struct arena *arena, struct timetable *timetable)
{
    struct timetable_options quick = {.effort = 1};
    const struct timetable *alone = timetable_make(arena, timetable->operations, quick);
    timetable->no_earlier_than_min = alone->no_earlier_than_min;
    timetable->proven = timetable->ready_min == timetable->no_earlier_than_min;
}

static void date_all(const struct shared *shared, struct attempt *solved, struct timetable *all,
                     struct timetable **each, bool late)
{
    tell_float(shared, solved, all);
    for (size_t j = 0; j < shared->job_count; j++) {
        date_one(shared, solved, j, each[j]);
        bound_alone(shared->arena, each[j]);
        if (!late || each[j]->late_min > 0)
            tell_chain(shared, solved, j, all, each[j], late);
    }
    share_view(shared, all, each);
}

struct timetable **several_make(struct arena *arena, const struct operations *const *jobs, size_t count,
                                struct timetable_options options)
{
    struct shared *shared = ARENA_NEW(arena, struct shared);
    struct timetable **each = ARENA_ARRAY(arena, count, struct timetable *);
    *shared = (struct shared){.arena = arena, .jobs = jobs, .job_count = count};
    share(shared);
    struct timetable *all = timetable_blank(arena, &shared->all);
    struct attempt solved;
    if (timetable_attempt(arena, all, options, &solved)) {
        if (solved.result.status == NET_PLANNED)
            relieve(&solved, rows_of(shared), options);
        timetable_fill(&solved, all, options.late);
    }
    for (size_t j = 0; j < count; j++) {
        each[j] = timetable_blank(arena, jobs[j]);
        each[j]->status = all->status;
        each[j]->effort = all->effort;
        each[j]->nodes = all->nodes;
        each[j]->ended = all->ended;
        each[j]->why = all->why;
        each[j]->why_count = all->why_count;
    }
    if (all->status == TIMETABLE_PLANNED)
        date_all(shared, &solved, all, each, options.late);
    return each;
}
