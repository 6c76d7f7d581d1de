#include "solver/explain/critical.h"

#include "base/arena.h"
#include "solver/model/schedule.h"
#include "solver/improve/flow.h"

enum { SCRATCH_BYTES = 1 << 28 };

struct tracing {
    const struct network *net;
    struct schedule schedule;
    unsigned char *visited; /* per operation */
};

/* A reason against start t of one operation, and the first start that it allows. */
struct blocker {
    struct net_link link;
    int32_t first;
};

static bool is_visited(const struct tracing *tr, const struct blocker *blocker)
{
    return blocker->link.earlier != NET_NONE && tr->visited[blocker->link.earlier];
}

/* Keeps the tighter one, but prefers one that leads to an operation not visited yet. */
static void consider(const struct tracing *tr, struct blocker *best, struct blocker blocker, int32_t t)
{
    if (blocker.first <= t)
        return;
    bool fresh = !is_visited(tr, &blocker), had = best->first > t;
    if (!had || (fresh && is_visited(tr, best)) ||
        (fresh == !is_visited(tr, best) && blocker.first > best->first))
        *best = blocker;
}

static void consider_lags(const struct tracing *tr, struct blocker *best, int operation, int32_t t)
{
    const int32_t *start = tr->schedule.start;
    for (size_t i = 0; i < tr->net->lag_count; i++) {
        const struct net_lag *lag = &tr->net->lags[i];
        if ((lag->maximum ? lag->from : lag->to) != operation ||
            !net_lag_holds(tr->net, lag, tr->schedule.flag))
            continue;
        int other = lag->maximum ? lag->to : lag->from;
        int32_t first = lag->maximum ? net_map_first(tr->net, lag->map, start[other])
                                     : net_map_at(tr->net, lag->map, start[other]);
        consider(tr, best, (struct blocker){{operation, other, NET_LINK_LAG, (int)i}, first}, t);
    }
}

static void consider_disjunctions(const struct tracing *tr, struct blocker *best, int operation, int32_t t)
{
    const struct schedule *schedule = &tr->schedule;
    for (int32_t i = schedule->by_operation.from[operation]; i < schedule->by_operation.from[operation + 1];
         i++) {
        const struct disjunct *pair = &schedule->disjuncts[schedule->by_operation.list[i]];
        if (!schedule_present(schedule, pair->other) ||
            net_map_at(tr->net, pair->until, t) <= schedule->start[pair->other])
            continue;
        int32_t first = net_map_at(tr->net, pair->other_until, schedule->start[pair->other]);
        consider(tr, best,
                 (struct blocker){{operation, pair->other, NET_LINK_DISJUNCTION, pair->pair}, first}, t);
    }
}

/* The last slot that the use would overload when started at t, NET_NONE where it fits. `held` counts the use itself
 * at its present start. */
static int32_t overloaded(const struct tracing *tr, const struct net_use *use, int32_t t)
{
    const struct network *net = tr->net;
    int32_t own = tr->schedule.start[use->operation],
            spare = net->resources[use->resource].capacity - use->amount;
    int32_t end = net_map_at(net, use->until, t), own_end = net_map_at(net, use->until, own);
    for (int32_t q = (end > net->horizon ? net->horizon + 1 : end) - 1; q >= t; q--) {
        int32_t mine = q >= own && q < own_end ? use->amount : 0;
        if (tr->schedule.held[use->resource][q] - mine > spare && !schedule_shared(&tr->schedule, use, q))
            return q;
    }
    return NET_NONE;
}

static void consider_holders(const struct tracing *tr, struct blocker *best, const struct net_use *use,
                             int32_t t)
{
    int32_t q = overloaded(tr, use, t);
    if (q == NET_NONE || use->amount == 0)
        return;
    for (size_t i = 0; i < tr->net->use_count; i++) {
        const struct net_use *other = &tr->net->uses[i];
        int32_t start = tr->schedule.start[other->operation], end = net_map_at(tr->net, other->until, start);
        if (other->resource == use->resource && other->operation != use->operation && other->amount > 0 &&
            schedule_present(&tr->schedule, other->operation) && start <= q && end > q)
            consider(
                tr, best,
                (struct blocker){{use->operation, other->operation, NET_LINK_RESOURCE, use->resource}, end},
                t);
    }
}

/* The tightest reason against start t; first <= t where there is none. */
static struct blocker find_blocker(const struct tracing *tr, int operation, int32_t t)
{
    struct blocker best = {{operation, NET_NONE, NET_LINK_RELEASE, NET_NONE},
                           tr->net->operations[operation].earliest};
    if (t < 0) /* nothing begins before the first slot */
        return best;
    consider_lags(tr, &best, operation, t);
    for (int32_t i = tr->schedule.uses.from[operation]; i < tr->schedule.uses.from[operation + 1]; i++)
        consider_holders(tr, &best, &tr->net->uses[tr->schedule.uses.list[i]], t);
    consider_disjunctions(tr, &best, operation, t);
    return best;
}

static int last_goal(const struct tracing *tr, const struct net_result *result)
{
    for (size_t i = 0; i < tr->net->goal_count; i++) {
        const struct net_goal *goal = &tr->net->goals[i];
        if (schedule_present(&tr->schedule, goal->operation) &&
            net_goal_value(tr->net, goal, result->start) == result->value)
            return goal->operation;
    }
    return NET_NONE;
}

static size_t trace(struct tracing *tr, int operation, struct net_link *links)
{
    size_t count = 0;
    while (operation != NET_NONE && !tr->visited[operation]) {
        const struct net_operation *o = &tr->net->operations[operation];
        int32_t t = tr->schedule.start[operation] - 1;
        tr->visited[operation] = 1;
        if (t >= o->earliest && o->calendar != NET_NONE && tr->net->calendars[o->calendar].previous[t] < t) {
            links[count++] = (struct net_link){operation, NET_NONE, NET_LINK_CALENDAR, NET_NONE};
            t = tr->net->calendars[o->calendar].previous[t];
        }
        struct blocker blocker = find_blocker(tr, operation, t);
        if (blocker.first <= t)
            break;
        links[count++] = blocker.link;
        operation = blocker.link.earlier;
    }
    return count;
}

const struct net_link *net_critical_path(const struct network *net, const struct net_result *result,
                                         size_t *count)
{
    *count = 0;
    if (result->status != NET_PLANNED)
        return NULL;
    struct net_link *links = ARENA_ARRAY(net->arena, 2 * net->operation_count, struct net_link);
    struct arena *arena = arena_make_within(net->arena, SCRATCH_BYTES);
    struct tracing tr = {.net = net, .visited = ARENA_ARRAY(arena, net->operation_count, unsigned char)};
    schedule_fill(&tr.schedule, net, arena, result);
    *count = trace(&tr, last_goal(&tr, result), links);
    arena_free_within(net->arena, arena);
    return links;
}

/* The float of an operation: it is pushed later under the plan's resource flow, and whatever it pushes on with it;
 * the farthest push that keeps value and maximum lags is found by doubling and bisection, and is itself a plan. */

struct floating {
    const struct network *net;
    struct model model; /* minimum lags, goals and order: what pushes */
    struct trail trail;
    struct schedule schedule;
};

static bool windows_hold(const struct floating *s)
{
    for (size_t i = 0; i < s->net->lag_count; i++) {
        const struct net_lag *lag = &s->net->lags[i];
        if (lag->maximum && net_lag_holds(s->net, lag, s->schedule.flag) &&
            trail_low(&s->trail, lag->to) > net_map_at(s->net, lag->map, trail_low(&s->trail, lag->from)))
            return false;
    }
    return true;
}

static bool push(struct floating *s, int operation, int32_t start)
{
    trail_push_level(&s->trail);
    size_t head = s->trail.count;
    bool holds = trail_decide(&s->trail, at_least(operation, start)) &&
                 edges_run(&s->model.edges, &s->trail, head) && windows_hold(s);
    trail_backjump(&s->trail, s->trail.level - 1);
    return holds;
}

static int32_t float_in_order(struct floating *s, int operation)
{
    int32_t start = trail_low(&s->trail, operation), low = start, high = trail_high(&s->trail, operation);
    const struct net_calendar *calendar = s->model.edges.calendars[operation];
    for (int32_t step = 1; low + step <= high;
         step *= 2) /* most floats are small, and a long push moves many others */
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

/* The float while all others stay: the flow is one of several that the plan allows, and another may leave more. */
static int32_t float_alone(struct floating *s, int operation, int32_t most)
{
    const struct net_calendar *calendar = s->model.edges.calendars[operation];
    int32_t start = s->schedule.start[operation], low, high, at = start;
    schedule_window(&s->schedule, operation, most, &low, &high);
    schedule_remove(&s->schedule, operation);
    for (int32_t next = start; next <= high && schedule_first(&s->schedule, operation, next, next) == next;) {
        at = next;
        next = calendar && at < high ? calendar->next[at + 1] : at + 1;
    }
    schedule_place(&s->schedule, operation, start);
    return at - start;
}

static int32_t total_float(struct floating *s, int operation, int32_t most)
{
    int32_t slack = float_in_order(s, operation);
    return slack > 0 ? slack : float_alone(s, operation, most);
}

static bool stand_as_planned(struct floating *s, const struct net_result *result)
{
    size_t head = s->trail.count;
    for (size_t i = 0; i < s->net->operation_count; i++)
        if (schedule_present(&s->schedule, (int)i) &&
            !trail_decide(&s->trail, at_least((int)i, result->start[i])))
            return false;
    return edges_run(&s->model.edges, &s->trail, head);
}

const int32_t *net_float(const struct network *net, const struct net_result *result)
{
    if (result->status != NET_PLANNED)
        return NULL;
    int32_t *slack = ARENA_ARRAY(net->arena, net->operation_count, int32_t);
    struct arena *arena = arena_make_within(net->arena, SCRATCH_BYTES);
    struct floating s = {.net = net};
    schedule_fill(&s.schedule, net, arena, result);
    model_init(&s.model, net, arena, 0);
    flow_add(&s.model, &s.schedule, arena);
    edges_index(&s.model.edges);
    if (model_start(&s.model, &s.trail, arena) && flow_fix(&s.model, &s.trail, result->flag, result->value) &&
        stand_as_planned(&s, result))
        for (size_t i = 0; i < net->operation_count; i++)
            slack[i] = schedule_present(&s.schedule, (int)i) ? total_float(&s, (int)i, result->value) : 0;
    arena_free_within(net->arena, arena);
    return slack;
}
