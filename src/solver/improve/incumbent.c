#include "solver/improve/incumbent.h"

#include "base/arena.h"
#include "solver/improve/flow.h"
#include "solver/model/schedule.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

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

static bool move_singly(struct shifting *s)
{
    bool moved = false;
    net_by_start(s->schedule.start, s->net->operation_count, s->order);
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

uint32_t incumbent_random(struct incumbent *incumbent, uint32_t below)
{
    /* splitmix64 */
    uint64_t z = incumbent->seed += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (uint32_t)((z ^ (z >> 31)) % below);
}

static int count_flags(const struct incumbent *incumbent, const unsigned char *flag)
{
    int count = 0;
    for (int f = 0; f < incumbent->net->flag_count; f++)
        count += flag[f];
    return count;
}

int incumbent_flags(const struct incumbent *incumbent)
{
    return count_flags(incumbent, incumbent->result->flag);
}

static int64_t excess(const struct incumbent *incumbent, const int32_t *start, const unsigned char *flag)
{
    int64_t sum = 0;
    for (size_t i = 0; i < incumbent->net->goal_count; i++) {
        const struct net_goal *goal = &incumbent->net->goals[i];
        int64_t over = (int64_t)net_goal_value(incumbent->net, goal, start) - incumbent->result->bound;
        if (over > 0 && net_present(incumbent->net, goal->operation, flag))
            sum += over * over;
    }
    return sum;
}

/* Below 0: the plan is better than the one at hand. */
static int64_t compare(const struct incumbent *incumbent, int32_t value, const int32_t *start,
                       const unsigned char *flag)
{
    if (value != incumbent->result->value)
        return (int64_t)value - incumbent->result->value;
    int more = count_flags(incumbent, flag) - incumbent_flags(incumbent);
    if (more != 0)
        return more;
    return excess(incumbent, start, flag) -
           excess(incumbent, incumbent->result->start, incumbent->result->flag);
}

bool incumbent_update(struct incumbent *incumbent, const int32_t *start, const unsigned char *flag)
{
    struct net_result *result = incumbent->result;
    int32_t value = net_value(incumbent->net, start, flag);
    if (incumbent_found(incumbent) && compare(incumbent, value, start, flag) >= 0)
        return false;
    if (!result->start) {
        result->start = ARENA_ARRAY(incumbent->net->arena, incumbent->net->operation_count, int32_t);
        result->flag = ARENA_ARRAY(incumbent->net->arena, (size_t)incumbent->net->flag_count, unsigned char);
    }
    memcpy(result->start, start, incumbent->net->operation_count * sizeof *start);
    memcpy(result->flag, flag, (size_t)incumbent->net->flag_count);
    result->value = value;
    result->status = NET_PLANNED;
    return true;
}

bool incumbent_take(struct incumbent *incumbent, const struct search *search)
{
    const struct trail *trail = &search->engine.trail;
    const struct model *model = search->engine.model;
    const struct network *net = incumbent->net;
    struct arena *arena = search->engine.arena;
    struct net_result found = {.status = NET_PLANNED, .bound = incumbent->result->bound};
    found.start = ARENA_ARRAY(arena, net->operation_count, int32_t);
    found.flag = ARENA_ARRAY(arena, (size_t)net->flag_count, unsigned char);
    for (int i = 0; i < model->value; i++)
        found.start[i] = trail_low(trail, i);
    for (int f = 0; f < net->flag_count; f++)
        found.flag[f] = (unsigned char)trail_low(trail, model->first_flag + f);
    found.value = net_value(net, found.start, found.flag);
    net_left_shift(net, &found);
    return incumbent_update(incumbent, found.start, found.flag);
}

void incumbent_raise_bound(struct incumbent *incumbent, int32_t bound)
{
    if (bound > incumbent->result->bound)
        incumbent->result->bound = bound;
}
