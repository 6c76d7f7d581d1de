/* Circles in `after` and `before`: a walk in depth over pieces and tasks, that never goes the same way twice. */
#include "job/job_check.h"

#include "base/arena.h"
#include "base/buf.h"

#include <assert.h>
#include <stdio.h>

/* Pieces come first, then tasks. Where an edge is written: in the list of a piece or a task. */
struct edge {
    size_t to;
    bool by_task;  /* written below /tasks, else below /pieces */
    bool before;   /* in a task's `before` */
    size_t writer; /* index of that piece or task */
    size_t entry;
};

struct walk {
    const struct job *job;
    struct err_list *errors;
    size_t count;
    char *seen;         /* 0 not yet, 1 on the way, 2 done */
    size_t *way;        /* nodes on the way */
    struct edge *taken; /* the edge by which way[i] was left */
    size_t depth;
};

static const char *node_name(const struct job *job, size_t node)
{
    return node < job->piece_count ? job->pieces[node].name : job->tasks[node - job->piece_count].name;
}

static size_t node_of(const struct job *job, const struct after *after)
{
    return after->is_task ? job->piece_count + after->index : after->index;
}

/* The n-th thing that a node waits for; false after the last. */
static bool edge_at(const struct job *job, size_t node, size_t n, struct edge *edge)
{
    bool is_task = node >= job->piece_count;
    size_t own = is_task ? node - job->piece_count : node;
    size_t count = is_task ? job->tasks[own].after_count : job->pieces[own].after_count;
    const struct after *after = is_task ? job->tasks[own].after : job->pieces[own].after;
    if (n < count) {
        *edge = (struct edge){node_of(job, &after[n]), is_task, false, own, n};
        return true;
    }
    n -= count;
    for (size_t t = 0; !is_task && t < job->task_count; t++)
        for (size_t k = 0; k < job->tasks[t].before_count; k++)
            if (job->tasks[t].before[k] == own && n-- == 0) {
                *edge = (struct edge){job->piece_count + t, true, true, t, k};
                return true;
            }
    return false;
}

/* The place in the file that a loop begins at: pieces in the order of the job's file, then tasks. */
static size_t rank(const struct job *job, size_t node)
{
    if (node >= job->piece_count)
        return job->piece_count + node;
    return job->pieces[node].entry >= 0 ? (size_t)job->pieces[node].entry
                                        : job->piece_count + job->task_count + node;
}

static void tell_circle(struct arena *arena, struct walk *w, size_t first)
{
    size_t length = w->depth - first, start = 0;
    assert(length > 0);
    for (size_t i = 1; i < length; i++)
        if (rank(w->job, w->way[first + i]) < rank(w->job, w->way[first + start]))
            start = i;
    struct buf loop;
    buf_init(&loop, arena);
    for (size_t i = 0; i <= length; i++)
        buf_addf(&loop, "%s%s", i > 0 ? " -> " : "", node_name(w->job, w->way[first + (start + i) % length]));
    const struct edge *edge = &w->taken[first + start];
    char pointer[80];
    if (edge->by_task)
        snprintf(pointer, sizeof pointer, "/tasks/%zu/%s/%zu", edge->writer,
                 edge->before ? "before" : "after", edge->entry);
    else
        snprintf(pointer, sizeof pointer, "/pieces/%d/after/%zu", w->job->pieces[edge->writer].entry,
                 edge->entry);
    err_add(w->errors, ERR_INPUT, w->job->file, pointer, "no circle in `after`", loop.text);
}

static size_t place_on_way(const struct walk *w, size_t node)
{
    size_t i = 0;
    while (w->way[i] != node)
        i++;
    return i;
}

/* Walks on from the last node of the way until the way is empty again; next[i] is the edge to try at depth i. */
static void walk_on(struct arena *arena, struct walk *w, size_t *next)
{
    while (w->depth > 0) {
        size_t top = w->depth - 1, node = w->way[top];
        if (!edge_at(w->job, node, next[top]++, &w->taken[top])) {
            w->seen[node] = 2;
            w->depth--;
            continue;
        }
        size_t to = w->taken[top].to;
        if (w->seen[to] == 1) {
            tell_circle(arena, w, place_on_way(w, to));
        } else if (w->seen[to] == 0) {
            w->seen[to] = 1;
            w->way[w->depth] = to;
            next[w->depth++] = 0;
        }
    }
}

void job_check_circles(struct arena *arena, const struct job *job, struct err_list *errors)
{
    size_t count = job->piece_count + job->task_count;
    struct walk w = {job,
                     errors,
                     count,
                     ARENA_ARRAY(arena, count, char),
                     ARENA_ARRAY(arena, count, size_t),
                     ARENA_ARRAY(arena, count, struct edge),
                     0};
    size_t *next = ARENA_ARRAY(arena, count, size_t);
    for (size_t node = 0; node < count; node++) {
        if (w.seen[node] != 0)
            continue;
        w.seen[node] = 1;
        w.way[0] = node;
        next[0] = 0;
        w.depth = 1;
        walk_on(arena, &w, next);
    }
}
