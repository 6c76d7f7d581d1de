/* net_float: each operation is pushed later under the plan's order of work, and whatever it pushes on with it; the
 * farthest push that keeps value, ends and windows is found by doubling and bisection and is itself a plan that was checked. */
#include "solver/explain/chain.h"

#include "base/arena.h"
#include "solver/propagators/order.h"
#include "solver/improve/room.h"

enum { SCRATCH_BYTES = 1 << 28 };

struct slipping {
    const struct network *net;
    struct model model; /* minimum lags, goals and order: what pushes */
    struct trail trail;
    struct usage usage;
};

static bool windows_hold(const struct slipping *s)
{
    for (size_t i = 0; i < s->net->lag_count; i++) {
        const struct net_lag *lag = &s->net->lags[i];
        if (!lag->maximum || !usage_present(&s->usage, lag->from) || !usage_present(&s->usage, lag->to) ||
            (lag->guard.flag != NET_NONE && s->usage.flag[lag->guard.flag] != lag->guard.value))
            continue;
        if (trail_low(&s->trail, lag->to) > net_map_at(s->net, lag->map, trail_low(&s->trail, lag->from)))
            return false;
    }
    return true;
}

static bool push(struct slipping *s, int operation, int32_t start)
{
    trail_deeper(&s->trail);
    size_t head = s->trail.count;
    bool holds = trail_set(&s->trail, at_least(operation, start), (struct reason){REASON_DECISION, 0}) &&
                 edges_run(&s->model.edges, &s->trail, &head) && windows_hold(s);
    trail_back(&s->trail, s->trail.level - 1);
    return holds;
}

static int32_t slip(struct slipping *s, int operation)
{
    int32_t start = trail_low(&s->trail, operation), low = start, high = trail_high(&s->trail, operation);
    const struct net_calendar *calendar = s->model.edges.calendars[operation];
    for (int32_t step = 1; low + step <= high;
         step *= 2) /* most slip little, and a long push moves many others */
        if (push(s, operation, low + step))
            low += step;
        else
            high = low + step - 1;
    while (low < high) {
        int32_t middle = high - (high - low) / 2;
        if (push(s, operation, middle))
            low = middle;
        else
            high = middle - 1;
    }
    return (calendar ? calendar->previous[low] : low) - start;
}

/* As far as it may slip while all others stay: the order hands units on in one of several ways, and another may leave
 * it room. */
static int32_t slip_alone(struct slipping *s, int operation, int32_t most)
{
    const struct net_calendar *calendar = s->model.edges.calendars[operation];
    int32_t start = s->usage.start[operation], low, high, at = start;
    room_among(&s->usage, operation, most, &low, &high);
    usage_lift(&s->usage, operation);
    for (int32_t next = start; next <= high && usage_first(&s->usage, operation, next, next) == next;) {
        at = next;
        next = calendar && at < high ? calendar->next[at + 1] : at + 1;
    }
    usage_place(&s->usage, operation, start);
    return at - start;
}

static int32_t farthest(struct slipping *s, int operation, int32_t most)
{
    int32_t slack = slip(s, operation);
    return slack > 0 ? slack : slip_alone(s, operation, most);
}

static bool stand_as_planned(struct slipping *s, const struct net_result *result)
{
    size_t head = s->trail.count;
    for (size_t i = 0; i < s->net->operation_count; i++)
        if (usage_present(&s->usage, (int)i) &&
            !trail_set(&s->trail, at_least((int)i, result->start[i]), (struct reason){REASON_DECISION, 0}))
            return false;
    return edges_run(&s->model.edges, &s->trail, &head);
}

const int32_t *net_float(const struct network *net, const struct net_result *result)
{
    if (result->status != NET_PLANNED)
        return NULL;
    int32_t *slack = ARENA_ARRAY(net->arena, net->operation_count, int32_t);
    struct arena *arena = arena_make_within(net->arena, SCRATCH_BYTES);
    struct slipping s = {.net = net};
    usage_init(&s.usage, net, arena, result->flag);
    for (size_t i = 0; i < net->operation_count; i++)
        usage_place(&s.usage, (int)i, result->start[i]);
    model_init(&s.model, net, arena, 0);
    order_add(&s.model, &s.usage, arena);
    edges_index(&s.model.edges);
    if (model_start(&s.model, &s.trail, arena) &&
        order_hold(&s.model, &s.trail, result->flag, result->value) && stand_as_planned(&s, result))
        for (size_t i = 0; i < net->operation_count; i++)
            slack[i] = usage_present(&s.usage, (int)i) ? farthest(&s, (int)i, result->value) : 0;
    arena_free_within(net->arena, arena);
    return slack;
}
