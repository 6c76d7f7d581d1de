#include "solver/improve/insertion.h"

#include <assert.h>
#include <string.h>

#include "base/arena.h"

enum { CHOICE_WORK = 8 }; /* so many operations and edges looked at cost as much as one edge propagated */

static size_t operations(const struct insertion *in)
{
    return in->model->net->operation_count;
}

static bool propagate(struct insertion *in, size_t from)
{
    return edges_run(&in->model->edges, &in->trail, from);
}

/* The latest start of each operation that still gives the value its bound: what is due first goes first. */
static void find_keys(struct insertion *in)
{
    trail_push_level(&in->trail);
    size_t from = in->trail.count;
    int value = in->model->value;
    if (trail_decide(&in->trail, at_most(value, trail_low(&in->trail, value))))
        propagate(in, from);
    for (size_t i = 0; i < operations(in); i++)
        in->key[i] = trail_high(&in->trail, (int)i);
    trail_backjump(&in->trail, 0);
}

bool insertion_init(struct insertion *in, const struct model *model, struct arena *arena)
{
    const struct network *net = model->net;
    *in = (struct insertion){.model = model};
    in->flag = ARENA_ARRAY(arena, (size_t)net->flag_count, unsigned char);
    in->try_one_first = ARENA_ARRAY(arena, (size_t)net->flag_count, unsigned char);
    in->release = ARENA_ARRAY(arena, net->operation_count, int32_t);
    in->key = ARENA_ARRAY(arena, net->operation_count, int32_t);
    in->noise = ARENA_ARRAY(arena, net->operation_count, int32_t);
    in->waits = ARENA_ARRAY(arena, net->operation_count, unsigned char);
    in->placed = ARENA_ARRAY(arena, net->operation_count, int);
    if (!model_start(model, &in->trail, arena))
        return false;
    schedule_init(&in->schedule, net, arena, in->flag);
    find_keys(in);
    return true;
}

static bool try_flag(struct insertion *in, int flag, int value)
{
    int variable = in->model->first_flag + flag;
    trail_push_level(&in->trail);
    size_t from = in->trail.count;
    in->flag[flag] = (unsigned char)value;
    if (trail_decide(&in->trail, value ? at_least(variable, 1) : at_most(variable, 0)) && propagate(in, from))
        return true;
    trail_backjump(&in->trail, in->trail.level - 1);
    return false;
}

static bool set_flags(struct insertion *in)
{
    for (int f = 0; f < in->model->net->flag_count; f++) {
        int first = in->try_one_first[f];
        if (!try_flag(in, f, first) && !try_flag(in, f, 1 - first))
            return false;
    }
    in->flags = in->trail.level;
    return true;
}

/* What keeps an upper bound where it is: the placed operation whose later start would raise it as far as needed. */
struct culprit {
    int operation; /* NET_NONE: nothing that was placed */
    int32_t needs; /* the start it would have to have at least */
    int flag;      /* the last flag on the way whose being 0 matters, NET_NONE */
};

static void note_flags(const struct insertion *in, const struct literal *guards, size_t count,
                       struct culprit *culprit)
{
    for (size_t g = 0; g < count; g++)
        if (guards[g].bound % 2 == 1)
            culprit->flag = guards[g].bound / 2 - in->model->first_flag;
}

static void follow(const struct insertion *in, struct literal literal, struct culprit *culprit)
{
    const struct trail *trail = &in->trail;
    for (int32_t at; (at = trail_find(trail, literal)) >= 0 && trail->entries[at].level > 0;) {
        const struct trail_entry *entry = &trail->entries[at];
        if (entry->reason.kind == REASON_DECISION) {
            culprit->operation = literal.bound / 2;
            culprit->needs = 1 - literal.value;
            return;
        }
        struct literal explanation[ARC_REASONS];
        size_t count = edges_explain(&in->model->edges, trail, literal, entry->reason, at, explanation);
        note_flags(in, explanation, count - 1, culprit);
        literal = explanation[count - 1];
    }
}

/* The culprit of a conflict: of the two bounds that crossed, the upper one is to be raised to the lower one. */
static struct culprit culprit_of_conflict(const struct insertion *in)
{
    struct culprit culprit = {NET_NONE, 0, NET_NONE};
    const struct trail *trail = &in->trail;
    struct literal conflict = trail->conflict;
    if (conflict.bound % 2 == 0) {
        int32_t low = conflict.value;
        follow(in, (struct literal){conflict.bound ^ 1, 1 - low}, &culprit);
        return culprit;
    }
    conflict.value = 1 - trail->now[conflict.bound ^ 1];
    if (trail->conflict_reason.kind == REASON_DECISION)
        return culprit;
    struct literal explanation[ARC_REASONS];
    size_t count = edges_explain(&in->model->edges, trail, conflict, trail->conflict_reason,
                                 (int32_t)trail->count, explanation);
    note_flags(in, explanation, count - 1, &culprit);
    follow(in, explanation[count - 1], &culprit);
    return culprit;
}

static void unschedule_down_to(struct insertion *in, size_t count)
{
    while (in->count > count)
        schedule_remove(&in->schedule, in->placed[--in->count]);
    trail_backjump(&in->trail, in->flags + count);
}

/* Unschedules the culprit and everything placed since; it must start later. False: there is none. */
static bool unschedule(struct insertion *in, struct culprit culprit)
{
    if (culprit.operation == NET_NONE || culprit.needs > in->model->net->horizon) {
        if (culprit.flag != NET_NONE)
            in->try_one_first[culprit.flag] = 1;
        return false;
    }
    size_t at = 0;
    while (at < in->count && in->placed[at] != culprit.operation)
        at++;
    unschedule_down_to(in, at);
    in->release[culprit.operation] = culprit.needs;
    return true;
}

static bool waits_for(const struct insertion *in, const struct edge *edge)
{
    if (edge->maximum || edge->origin != EDGE_LAG || edge->from == edge->to ||
        in->schedule.start[edge->from] != NET_NONE)
        return false;
    for (int g = 0; g < edge->guard_count; g++)
        if (!trail_holds(&in->trail, edge->guards[g]))
            return false;
    int32_t low = trail_low(&in->trail, edge->from);
    return net_map_at(in->model->net, edge->map, low) >= low;
}

static void mark_waiting(struct insertion *in)
{
    unsigned char *waits = in->waits;
    memset(waits, 0, operations(in));
    for (size_t e = 0; e < in->model->edges.count; e++) {
        const struct edge *edge = &in->model->edges.items[e];
        if (edge->origin == EDGE_LAG && waits_for(in, edge))
            waits[edge->to] = 1;
    }
}

static int64_t urgency(const struct insertion *in, size_t i)
{
    int64_t key = (int64_t)in->key[i] + in->noise[i];
    int32_t high = trail_high(&in->trail, (int)i);
    return key < high ? key : high;
}

/* The most urgent operation all of whose predecessors are placed; in a cycle of waits, just the most urgent. */
static int choose(struct insertion *in)
{
    int best = NET_NONE;
    mark_waiting(in);
    in->trail.work += (int64_t)(operations(in) + in->model->edges.count) / CHOICE_WORK;
    for (size_t i = 0; i < operations(in); i++) {
        if (in->schedule.start[i] != NET_NONE)
            continue;
        int64_t better = best == NET_NONE ? 1 : in->waits[best] - in->waits[i];
        if (better == 0)
            better = urgency(in, (size_t)best) - urgency(in, i);
        if (better > 0)
            best = (int)i;
    }
    return best;
}

static bool put(struct insertion *in, int operation, int32_t start)
{
    trail_push_level(&in->trail);
    size_t from = in->trail.count;
    schedule_place(&in->schedule, operation, start);
    in->placed[in->count++] = operation;
    return trail_decide(&in->trail, at_least(operation, start)) &&
           trail_decide(&in->trail, at_most(operation, start)) && propagate(in, from);
}

/* Places one operation. False: `culprit` is to be unscheduled. */
static bool insert(struct insertion *in, int operation, struct culprit *culprit)
{
    int32_t low = trail_low(&in->trail, operation), high = trail_high(&in->trail, operation);
    if (in->release[operation] > low)
        low = in->release[operation];
    int32_t first = schedule_first(&in->schedule, operation, low, in->model->net->horizon);
    if (first <= high) {
        if (put(in, operation, first))
            return true;
        *culprit = culprit_of_conflict(in);
        return false;
    }
    *culprit = (struct culprit){NET_NONE, 0, NET_NONE};
    if (first != NET_NEVER)
        follow(in, at_most(operation, first - 1), culprit);
    return false;
}

int64_t insertion_work(const struct insertion *in)
{
    return in->trail.work + in->schedule.work;
}

bool insertion_run(struct insertion *in, size_t patience, int64_t work_limit)
{
    for (size_t i = 0; i < operations(in); i++)
        if (in->schedule.start[i] != NET_NONE)
            schedule_remove(&in->schedule, (int)i);
    in->count = 0;
    trail_backjump(&in->trail, 0);
    memset(in->release, 0, operations(in) * sizeof *in->release);
    if (!set_flags(in))
        return false;
    while (in->count < operations(in)) {
        if (insertion_work(in) >= work_limit)
            return false;
        int operation = choose(in);
        struct culprit culprit;
        if (insert(in, operation, &culprit))
            continue;
        in->stuck = (size_t)operation;
        if (culprit.flag != NET_NONE && patience == 0)
            in->try_one_first[culprit.flag] = 1;
        if (patience-- == 0 || !unschedule(in, culprit))
            return false;
    }
    return true;
}
