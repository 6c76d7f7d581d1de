#include "timetable/bounds.h"

#include "base/arena.h"

int32_t bounds_line(const struct site *site, int item, int32_t end)
{
    int32_t ready = 0;
    for (int line = site->rows[item].line; line != SITE_NONE; line = site->next_line[line]) {
        int32_t at = end >= SITE_NEVER ? SITE_NEVER : site_line(site, &site->operations->lines[line], end);
        ready = at > ready ? at : ready;
    }
    return ready;
}

/* When the job is ready by the first ends of its items; SITE_NONE as job: all jobs. */
static int32_t ready_by_ends(const struct site *site, int job, const int32_t *end)
{
    int32_t ready = 0;
    for (size_t i = 0; i < site->count; i++) {
        if ((job != SITE_NONE && site->rows[i].job != job) || site->rows[i].optional)
            continue;
        int32_t at = bounds_line(site, (int)i, end[i]);
        ready = at > ready ? at : ready;
    }
    for (int j = 0; j < site->job_count; j++)
        if (job == SITE_NONE || j == job)
            ready = site->jobs[j].floor > ready ? site->jobs[j].floor : ready;
    return ready;
}

int32_t bounds_ready(const struct site *site, int job)
{
    int32_t *start = ARENA_ARRAY(site->arena, site->count, int32_t);
    int32_t *end = ARENA_ARRAY(site->arena, site->count, int32_t);
    bounds_first(site, start, end);
    return ready_by_ends(site, job, end);
}

int32_t bounds_begin(const struct site *site)
{
    int32_t begin = SITE_NEVER;
    for (int j = 0; j < site->job_count; j++)
        begin = site->jobs[j].from < begin ? site->jobs[j].from : begin;
    return begin;
}

int64_t bounds_work(const struct site *site, const int32_t *ready_by)
{
    struct arena *scratch = arena_make_within(site->arena, 0);
    int32_t *start = ARENA_ARRAY(scratch, site->count, int32_t);
    int32_t *end = ARENA_ARRAY(scratch, site->count, int32_t);
    int32_t *last = ARENA_ARRAY(scratch, site->count, int32_t);
    bounds_first(site, start, end);
    bounds_last(site, ready_by, last);
    int64_t work = fewest_work(scratch, site, (struct windows){start, last});
    arena_free_within(site->arena, scratch);
    return work;
}

struct least bounds_of(const struct site *site)
{
    struct least least = {0, 0};
    int32_t *any = ARENA_ARRAY(site->arena, (size_t)site->job_count, int32_t);
    int32_t *start = ARENA_ARRAY(site->arena, site->count, int32_t);
    int32_t *end = ARENA_ARRAY(site->arena, site->count, int32_t);
    for (int j = 0; j < site->job_count; j++)
        any[j] = SITE_NEVER;
    least.work = bounds_work(site, any);
    bounds_first(site, start, end);
    int32_t ends = ready_by_ends(site, SITE_NONE, end), hands = bounds_hands_ready(site, start, least.work);
    least.ready = hands > ends ? hands : ends;
    return least;
}
