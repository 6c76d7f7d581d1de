#include "solver/improve/shift.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

#include "base/arena.h"
#include "solver/model/schedule.h"
#include "solver/improve/flow.h"

enum { SCRATCH_BYTES = 1 << 28 };

struct shifting {
    const struct network *net;
    struct schedule schedule;
    struct arena *arena;
    unsigned char *flag;
    int32_t most;
    int *order; /* operations in the order in which they are moved */
};

static bool move_one(struct shifting *s, int operation)
{
    if (!schedule_present(&s->schedule, operation))
        return false;
    int32_t low, high, start = s->schedule.start[operation];
    schedule_window(&s->schedule, operation, s->most, &low, &high);
    schedule_remove(&s->schedule, operation);
    int32_t to = schedule_first(&s->schedule, operation, low, start);
    assert(to >= low && to <= start);
    schedule_place(&s->schedule, operation, to);
    return to != start;
}

static void sort_by_start(struct shifting *s)
{
    for (size_t i = 0; i < s->net->operation_count; i++) {
        int32_t start = s->schedule.start[i];
        size_t at = i;
        for (; at > 0; at--) {
            int32_t other = s->schedule.start[s->order[at - 1]];
            if (other <= start)
                break;
            s->order[at] = s->order[at - 1];
        }
        s->order[at] = (int)i;
    }
}

static bool move_singly(struct shifting *s)
{
    bool moved = false;
    sort_by_start(s);
    for (size_t i = 0; i < s->net->operation_count; i++)
        moved = move_one(s, s->order[i]) || moved;
    return moved;
}

static bool fits(const struct schedule *schedule)
{
    for (size_t r = 0; r < schedule->net->resource_count; r++)
        for (int32_t t = 0; t <= schedule->net->horizon; t++)
            if (schedule->held[r][t] > schedule->net->resources[r].capacity)
                return false;
    return true;
}

static void replace_all(struct schedule *schedule, const int32_t *start)
{
    for (size_t i = 0; i < schedule->net->operation_count; i++) {
        schedule_remove(schedule, (int)i);
        schedule_place(schedule, (int)i, start[i]);
    }
}

/* Propagates the order of the plan; no operation has to move beyond where it is now. */
static bool propagate(const struct shifting *s, const struct model *model, struct trail *trail)
{
    if (!model_domains(model, trail, s->arena))
        return false;
    for (size_t i = 0; i < s->net->operation_count; i++) {
        int32_t start = s->schedule.start[i];
        if (schedule_present(&s->schedule, (int)i))
            trail_domain(trail, (int)i, trail_low(trail, (int)i), start);
    }
    return model_propagate(model, trail) && flow_fix(model, trail, s->flag, s->most);
}

/* All at once in the order of the plan. An interval that had no length may get one: then the plan stays. */
static bool move_together(struct shifting *s)
{
    struct model model;
    struct trail trail;
    size_t count = s->net->operation_count;
    int32_t *old = ARENA_ARRAY(s->arena, count, int32_t), *new = ARENA_ARRAY(s->arena, count, int32_t);
    model_init(&model, s->net, s->arena, MODEL_MAXIMUM);
    flow_add(&model, &s->schedule, s->arena);
    edges_index(&model.edges);
    if (!propagate(s, &model, &trail))
        return false;
    bool moved = false;
    for (size_t i = 0; i < count; i++) {
        old[i] = new[i] = s->schedule.start[i];
        if (schedule_present(&s->schedule, (int)i))
            new[i] = trail_low(&trail, (int)i);
        moved = moved || new[i] != old[i];
    }
    replace_all(&s->schedule, new);
    if (fits(&s->schedule))
        return moved;
    replace_all(&s->schedule, old);
    return false;
}

void net_left_shift(const struct network *net, struct net_result *result)
{
    size_t count = net->operation_count;
    if (result->status != NET_PLANNED)
        return;
    struct arena *arena = arena_make_within(net->arena, SCRATCH_BYTES);
    struct shifting s = {.net = net, .arena = arena, .flag = result->flag, .most = result->value};
    s.order = ARENA_ARRAY(arena, count, int);
    schedule_fill(&s.schedule, net, arena, result);
    do {
        move_together(&s);
        while (move_singly(&s))
            ;
    } while (move_together(&s));
    memcpy(result->start, s.schedule.start, count * sizeof *result->start);
    result->value = net_value(net, result->start, result->flag);
    result->proven = result->value == result->bound;
    arena_free_within(net->arena, arena);
}
