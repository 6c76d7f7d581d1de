#include "solver/model/plan.h"

#include <string.h>

#include "base/arena.h"
#include "solver/improve/shift.h"

uint32_t plan_draw(struct plan *plan, uint32_t below)
{
    /* splitmix64 */
    uint64_t z = plan->seed += 0x9E3779B97F4A7C15u;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return (uint32_t)((z ^ (z >> 31)) % below);
}

static int count_flags(const struct plan *plan, const unsigned char *flag)
{
    int count = 0;
    for (int f = 0; f < plan->net->flag_count; f++)
        count += flag[f];
    return count;
}

int plan_flags(const struct plan *plan)
{
    return count_flags(plan, plan->result->flag);
}

static int64_t excess(const struct plan *plan, const int32_t *start, const unsigned char *flag)
{
    int64_t sum = 0;
    for (size_t i = 0; i < plan->net->goal_count; i++) {
        const struct net_goal *goal = &plan->net->goals[i];
        int64_t over = (int64_t)net_goal_value(plan->net, goal, start) - plan->result->bound;
        if (over > 0 && net_present(plan->net, goal->operation, flag))
            sum += over * over;
    }
    return sum;
}

/* Below 0: the plan is better than the one at hand. */
static int64_t compare(const struct plan *plan, int32_t value, const int32_t *start,
                       const unsigned char *flag)
{
    if (value != plan->result->value)
        return (int64_t)value - plan->result->value;
    int more = count_flags(plan, flag) - plan_flags(plan);
    if (more != 0)
        return more;
    return excess(plan, start, flag) - excess(plan, plan->result->start, plan->result->flag);
}

bool plan_keep(struct plan *plan, const int32_t *start, const unsigned char *flag)
{
    struct net_result *result = plan->result;
    int32_t value = net_value(plan->net, start, flag);
    if (plan_found(plan) && compare(plan, value, start, flag) >= 0)
        return false;
    if (!result->start) {
        result->start = ARENA_ARRAY(plan->net->arena, plan->net->operation_count, int32_t);
        result->flag = ARENA_ARRAY(plan->net->arena, (size_t)plan->net->flag_count, unsigned char);
    }
    memcpy(result->start, start, plan->net->operation_count * sizeof *start);
    memcpy(result->flag, flag, (size_t)plan->net->flag_count);
    result->value = value;
    result->status = NET_PLANNED;
    return true;
}

void plan_raise_bound(struct plan *plan, int32_t bound)
{
    if (bound > plan->result->bound)
        plan->result->bound = bound;
}
