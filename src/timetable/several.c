#include "timetable/several.h"

#include "base/arena.h"
#include "timetable/attempt.h"
#include "timetable/dates.h"

#include <string.h>

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

/* Persons, floats and the chain can only be told with all jobs in view. */
static void share_view(const struct shared *shared, const struct timetable *all, struct timetable **each)
{
    for (size_t i = 0; i < all->step_count; i++) {
        size_t operation = (size_t)(all->steps[i].operation - shared->all.items),
               j = job_of(shared, operation);
        size_t step = timetable_step_of(each[j], &shared->jobs[j]->items[operation - shared->offset[j]]);
        each[j]->steps[step].person = all->steps[i].person;
        each[j]->steps[step].float_min = all->steps[i].float_min;
    }
    for (size_t j = 0; j < shared->job_count; j++) {
        size_t *chain = ARENA_ARRAY(shared->arena, all->chain_count, size_t);
        for (size_t i = 0; i < all->chain_count; i++) {
            size_t operation = (size_t)(all->steps[all->chain[i]].operation - shared->all.items);
            if (job_of(shared, operation) == j)
                chain[each[j]->chain_count++] =
                    timetable_step_of(each[j], &shared->jobs[j]->items[operation - shared->offset[j]]);
        }
        each[j]->chain = chain;
        if (each[j]->late_min > 0) {
            each[j]->why = all->why;
            each[j]->why_count = all->why_count;
        }
    }
}

static void bound_alone(struct arena *arena, struct timetable *timetable)
{
    struct timetable_options quick = {.effort = 1};
    const struct timetable *alone = timetable_make(arena, timetable->operations, quick);
    timetable->no_earlier_than_min = alone->no_earlier_than_min;
    timetable->proven = timetable->ready_min == timetable->no_earlier_than_min;
}

struct timetable **several_make(struct arena *arena, const struct operations *const *jobs, size_t count,
                                struct timetable_options options)
{
    struct shared *shared = ARENA_NEW(arena, struct shared);
    struct timetable **each = ARENA_ARRAY(arena, count, struct timetable *);
    *shared = (struct shared){.arena = arena, .jobs = jobs, .job_count = count};
    share(shared);
    for (size_t j = 0; j < count; j++)
        each[j] = timetable_blank(arena, jobs[j]);
    struct timetable *all = timetable_blank(arena, &shared->all);
    struct attempt solved;
    timetable_solve(arena, all, options, &solved);
    for (size_t j = 0; j < count; j++) {
        each[j]->status = all->status;
        each[j]->why = all->why;
        each[j]->why_count = all->status == TIMETABLE_PLANNED ? 0 : all->why_count;
        if (all->status != TIMETABLE_PLANNED)
            continue;
        date_one(shared, &solved, j, each[j]);
        bound_alone(arena, each[j]);
    }
    if (all->status == TIMETABLE_PLANNED)
        share_view(shared, all, each);
    return each;
}
