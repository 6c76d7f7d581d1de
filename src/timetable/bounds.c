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

/* The last minute up to which a rising function says no more than `limit`; SITE_NONE: none. */
struct rising {
    const struct site *site;
    const struct link *link; /* or NULL and */
    const struct finish_line *line;
};

static int32_t says(const struct rising *rising, int32_t end)
{
    return rising->link ? site_link(rising->site, rising->link, end, end)
                        : site_line(rising->site, rising->line, end);
}

static int32_t last_within(const struct rising *rising, int32_t limit)
{
    int32_t low = SITE_NONE, high = limit;
    while (low < high) {
        int32_t middle = low + (high - low + 1) / 2;
        if (says(rising, middle) <= limit)
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}

/* The last minute, no later, at which somebody who can is at work or has just ended it. */
static int32_t on_duty_by(const struct site *site, unsigned needs, int32_t at)
{
    int32_t last = SITE_NONE;
    for (int p = 0; p < site->crew->count; p++) {
        const struct worker *worker = &site->crew->workers[p];
        size_t duty = crew_duty_at(worker, at);
        if (!worker_can(worker, needs))
            continue;
        bool within = duty < worker->duty_count && worker->duties[duty].from <= at;
        int32_t then = within ? at : duty > 0 ? worker->duties[duty - 1].to : SITE_NONE;
        last = then > last ? then : last;
    }
    return last;
}

static int32_t last_end(const struct site *site, int item, const int32_t *last, int32_t limit)
{
    const struct task_row *row = &site->rows[item];
    int32_t end = limit;
    for (int line = row->line; line != SITE_NONE; line = site->next_line[line]) {
        struct rising rising = {site, NULL, &site->operations->lines[line]};
        int32_t at = last_within(&rising, limit);
        end = at < end ? at : end;
    }
    for (size_t k = 0; k < row->out_count; k++) {
        const struct link *link = &site->operations->links[row->out[k]];
        const struct operation *to = site->rows[link->to].operation;
        if (site_link_is_limit(link) || link->kind == LINK_DAY || site->rows[link->to].optional ||
            last[link->to] >= SITE_NEVER)
            continue;
        struct rising rising = {site, link, NULL};
        int32_t start = on_duty_by(site, site->kinds[site->rows[link->to].kind].needs,
                                   last[link->to] - to->units.seconds / 60);
        int32_t at = last_within(&rising, start);
        end = at < end ? at : end;
    }
    return on_duty_by(site, site->kinds[row->kind].needs, end);
}

/* Waits alone, from the end: against the order of the list, in which links mostly point forward. */
static void pass_backward(const struct site *site, const int32_t *ready_by, int32_t *last)
{
    for (size_t i = 0; i < site->count; i++)
        last[i] = SITE_NEVER;
    for (size_t i = site->count; i > 0; i--) {
        int32_t limit = ready_by[site->rows[i - 1].job];
        if (limit < SITE_NEVER && !site->rows[i - 1].optional)
            last[i - 1] = last_end(site, (int)i - 1, last, limit);
    }
}

int64_t bounds_work(const struct site *site, const int32_t *ready_by)
{
    struct arena *scratch = arena_make_within(site->arena, 0);
    int32_t *start = ARENA_ARRAY(scratch, site->count, int32_t);
    int32_t *end = ARENA_ARRAY(scratch, site->count, int32_t);
    int32_t *last = ARENA_ARRAY(scratch, site->count, int32_t);
    bounds_first(site, start, end);
    pass_backward(site, ready_by, last);
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
