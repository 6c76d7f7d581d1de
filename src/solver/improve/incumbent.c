#include "solver/improve/incumbent.h"

#include <string.h>

#include "base/arena.h"
#include "solver/improve/shift.h"

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
    const struct network *net = model->net;
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
