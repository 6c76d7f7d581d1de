#include "solver/bounds/lagrangian.h"

#include <string.h>

#include "base/arena.h"

enum { DEMAND_WHOLE = 1 << 12 };

/* One resource over time; arrays are per slot. */
struct multipliers {
    int64_t *multiplier; /* of the whole capacity */
    int64_t *sum;        /* of the multipliers before */
    int64_t *load;       /* what the cheapest starts hold, as differences */
    int64_t *smoothed;   /* the load smoothed over the steps */
};

/* What an operation holds of one resource, in parts of DEMAND_WHOLE of the capacity, rounded down. */
struct demand {
    int resource;
    int64_t part;
    struct net_map until;
    int32_t exclusive; /* slots that no other use of the same holder shares */
};

/* An operation that looks for its cheapest start. Arrays are per allowed start. */
struct subproblem {
    int operation;
    int next; /* subproblem whose start must wait for this one, NET_NONE */
    const int32_t *starts;
    int32_t count;
    int32_t first, last; /* the window, as places in `starts` */
    int32_t *link;       /* per start of `next`: the last start here that leaves it free, -1: none */
    int64_t *before;     /* least cost of those that must come before */
    int64_t *least;      /* the same with this one, when it starts then or sooner */
    int32_t *cheapest;   /* the place that costs `least` */
    struct demand *demands;
    size_t demand_count;
    int32_t chosen;
};

enum { STARTS_MOST = 2000000 };

static bool is_relaxed_lag(const struct model *model, const struct net_lag *lag)
{
    return !lag->maximum && lag->guard.flag == NET_NONE && model_rule(model, lag->rule).bound < 0 &&
           net_certain(model->net, lag->from) && net_certain(model->net, lag->to);
}

/* Per operation the lag out of it that asks for most, so that no cycle closes; NET_NONE: none. */
static void pick_lags(const struct model *model, const struct trail *trail, int *out)
{
    const struct network *net = model->net;
    for (size_t i = 0; i < net->operation_count; i++)
        out[i] = NET_NONE;
    for (size_t i = 0; i < net->lag_count; i++) {
        const struct net_lag *lag = &net->lags[i];
        int32_t low = trail_low(trail, lag->from);
        int other = out[lag->from];
        if (!is_relaxed_lag(model, lag) || (other != NET_NONE && net_map_at(net, net->lags[other].map, low) >=
                                                                     net_map_at(net, lag->map, low)))
            continue;
        int end = lag->to;
        while (end != lag->from && out[end] != NET_NONE)
            end = net->lags[out[end]].to;
        if (end != lag->from)
            out[lag->from] = (int)i;
    }
}

static int32_t next_start(const struct net_calendar *calendar, int32_t t)
{
    return calendar ? calendar->next[t] : t;
}

static int32_t count_starts(const struct profiles *profiles, const struct trail *trail, int operation)
{
    const struct net_calendar *calendar = profiles->model->edges.calendars[operation];
    int32_t high = trail_high(trail, operation), count = 0;
    for (int32_t t = trail_low(trail, operation); t <= high; count++)
        t = t < high ? next_start(calendar, t + 1) : high + 1;
    return count;
}

static void list_starts(const struct profiles *profiles, const struct trail *trail,
                        struct subproblem *subproblem, struct arena *arena)
{
    const struct net_calendar *calendar = profiles->model->edges.calendars[subproblem->operation];
    int32_t count = count_starts(profiles, trail, subproblem->operation),
            t = trail_low(trail, subproblem->operation);
    int32_t *starts = ARENA_ARRAY(arena, (size_t)count, int32_t);
    for (int32_t k = 0; k < count; k++) {
        starts[k] = t;
        t = k + 1 < count ? next_start(calendar, t + 1) : t;
    }
    subproblem->starts = starts;
    subproblem->count = count;
    subproblem->before = ARENA_ARRAY(arena, (size_t)count, int64_t);
    subproblem->least = ARENA_ARRAY(arena, (size_t)count, int64_t);
    subproblem->cheapest = ARENA_ARRAY(arena, (size_t)count, int32_t);
}

static int32_t demand_end(const struct lagrangian *lagrangian, const struct demand *demand, int32_t start)
{
    int32_t end = net_map_at(lagrangian->net, demand->until, start), most = lagrangian->net->horizon + 1;
    end = end - start > demand->exclusive ? start + demand->exclusive : end;
    return end < start ? start : end < most ? end : most;
}

static void add_demands(struct lagrangian *lagrangian, const struct profiles *profiles,
                        struct subproblem *subproblem, struct arena *arena)
{
    const struct network *net = lagrangian->net;
    int32_t latest = subproblem->starts[subproblem->count - 1];
    subproblem->demands = ARENA_ARRAY(arena, net->resource_count, struct demand);
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *use = &net->uses[i];
        const struct profile *profile = &profiles->items[use->resource];
        if (use->operation != subproblem->operation || profile->capacity == 0 || profile->selector.bound >= 0)
            continue;
        struct demand demand = {use->resource, (int64_t)use->amount * DEMAND_WHOLE / profile->capacity,
                                use->until, use->holder > 0 ? use->exclusive : NET_NEVER};
        int32_t end = demand_end(lagrangian, &demand, latest);
        lagrangian->span = end > lagrangian->span ? end : lagrangian->span;
        subproblem->demands[subproblem->demand_count++] = demand;
    }
}

static int depth_of(const struct network *net, const int *out, int operation)
{
    int depth = 0;
    for (; out[operation] != NET_NONE; operation = net->lags[out[operation]].to)
        depth++;
    return depth;
}

/* Those with the longest path first; `place` becomes the subproblem of each operation. */
static void add_subproblems(struct lagrangian *lagrangian, const int *out, int *place, struct arena *arena)
{
    const struct network *net = lagrangian->net;
    size_t left = 0;
    for (size_t i = 0; i < net->operation_count; i++)
        left += net_certain(net, (int)i);
    lagrangian->subproblems = ARENA_ARRAY(arena, left, struct subproblem);
    for (int depth = (int)net->operation_count; depth >= 0 && lagrangian->count < left; depth--)
        for (size_t i = 0; i < net->operation_count; i++)
            if (net_certain(net, (int)i) && depth_of(net, out, (int)i) == depth) {
                place[i] = (int)lagrangian->count;
                lagrangian->subproblems[lagrangian->count++] =
                    (struct subproblem){.operation = (int)i, .next = NET_NONE};
            }
}

static void add_link(struct lagrangian *lagrangian, struct subproblem *from, const struct net_lag *lag,
                     struct arena *arena)
{
    const struct subproblem *to = &lagrangian->subproblems[from->next];
    int32_t k = 0;
    from->link = ARENA_ARRAY(arena, (size_t)to->count, int32_t);
    for (int32_t i = 0; i < to->count; i++) {
        while (k < from->count && net_map_at(lagrangian->net, lag->map, from->starts[k]) <= to->starts[i])
            k++;
        from->link[i] = k - 1;
    }
}

static void init_subproblems(struct lagrangian *lagrangian, const struct profiles *profiles,
                             const struct trail *trail, struct arena *arena)
{
    const struct network *net = profiles->model->net;
    int *out = ARENA_ARRAY(arena, net->operation_count, int);
    int *place = ARENA_ARRAY(arena, net->operation_count, int);
    int64_t starts = 0;
    for (size_t i = 0; i < net->operation_count; i++)
        starts += count_starts(profiles, trail, (int)i);
    if (starts > STARTS_MOST)
        return;
    pick_lags(profiles->model, trail, out);
    add_subproblems(lagrangian, out, place, arena);
    for (size_t s = 0; s < lagrangian->count; s++) {
        list_starts(profiles, trail, &lagrangian->subproblems[s], arena);
        add_demands(lagrangian, profiles, &lagrangian->subproblems[s], arena);
    }
    for (size_t s = 0; s < lagrangian->count; s++) {
        struct subproblem *subproblem = &lagrangian->subproblems[s];
        int lag = out[subproblem->operation];
        subproblem->next = lag == NET_NONE ? NET_NONE : place[net->lags[lag].to];
        if (subproblem->next != NET_NONE)
            add_link(lagrangian, subproblem, &net->lags[lag], arena);
    }
}

static bool take_window(struct subproblem *subproblem, const struct trail *trail)
{
    int32_t low = trail_low(trail, subproblem->operation), high = trail_high(trail, subproblem->operation);
    subproblem->first = 0;
    subproblem->last = subproblem->count - 1;
    while (subproblem->first < subproblem->count && subproblem->starts[subproblem->first] < low)
        subproblem->first++;
    while (subproblem->last >= 0 && subproblem->starts[subproblem->last] > high)
        subproblem->last--;
    memset(subproblem->before, 0, (size_t)subproblem->count * sizeof *subproblem->before);
    return subproblem->first <= subproblem->last;
}

static bool take_windows(struct lagrangian *lagrangian, const struct trail *trail)
{
    for (size_t s = 0; s < lagrangian->count; s++)
        if (!take_window(&lagrangian->subproblems[s], trail))
            return false;
    return true;
}

/* Small enough that the cost of ten thousand operations fits 64 bits. */
enum { MULTIPLIER_FIRST = 1 << 12, MULTIPLIER_MOST = 1 << 21 };
/* How fast multipliers follow the load, and how their steps shrink; found by trying on shop-like networks. */
enum { SMOOTH_FIRST = 4, SMOOTH_LATER = 4, PACE_FIRST = 2, PACE_LATER = 30, OVER_MOST = 2 };

static const int64_t NO_START = INT64_MAX / 4;

static void init_multipliers(struct lagrangian *lagrangian, struct arena *arena)
{
    size_t slots = (size_t)lagrangian->span + 1;
    lagrangian->resources = ARENA_ARRAY(arena, lagrangian->resource_count, struct multipliers);
    for (size_t r = 0; r < lagrangian->resource_count; r++) {
        lagrangian->resources[r] =
            (struct multipliers){ARENA_ARRAY(arena, slots, int64_t), ARENA_ARRAY(arena, slots, int64_t),
                                 ARENA_ARRAY(arena, slots, int64_t), ARENA_ARRAY(arena, slots, int64_t)};
        for (size_t t = 0; t < slots; t++)
            lagrangian->resources[r].multiplier[t] = MULTIPLIER_FIRST;
    }
}

void lagrangian_init(struct lagrangian *lagrangian, const struct profiles *profiles,
                     const struct trail *trail, struct arena *arena)
{
    *lagrangian = (struct lagrangian){.net = profiles->model->net, .resource_count = profiles->count};
    init_subproblems(lagrangian, profiles, trail, arena);
    init_multipliers(lagrangian, arena);
}

/* The cost of the whole capacity of all slots. */
static int64_t sum_multipliers(struct lagrangian *lagrangian)
{
    int64_t total_capacity = 0;
    for (size_t r = 0; r < lagrangian->resource_count; r++) {
        struct multipliers *multipliers = &lagrangian->resources[r];
        for (int32_t t = 0; t < lagrangian->span; t++)
            multipliers->sum[t + 1] = multipliers->sum[t] + multipliers->multiplier[t];
        total_capacity += multipliers->sum[lagrangian->span] * DEMAND_WHOLE;
    }
    return total_capacity;
}

static int64_t cost(const struct lagrangian *lagrangian, const struct subproblem *subproblem, int32_t start)
{
    int64_t total = 0;
    for (size_t i = 0; i < subproblem->demand_count; i++) {
        const struct demand *demand = &subproblem->demands[i];
        const int64_t *sum = lagrangian->resources[demand->resource].sum;
        total += demand->part * (sum[demand_end(lagrangian, demand, start)] - sum[start]);
    }
    return total;
}

/* The least cost of this one and those before it, by each start. */
static int64_t minimise(struct lagrangian *lagrangian, struct subproblem *subproblem)
{
    int64_t least = NO_START;
    int32_t cheapest = subproblem->first;
    for (int32_t k = subproblem->first; k <= subproblem->last; k++) {
        int64_t here = subproblem->before[k];
        if (here < least)
            here += cost(lagrangian, subproblem, subproblem->starts[k]);
        if (here < least) {
            least = here;
            cheapest = k;
        }
        subproblem->least[k] = least;
        subproblem->cheapest[k] = cheapest;
    }
    lagrangian->work += (subproblem->last - subproblem->first) / 4 + 1;
    return least;
}

static void pass_on(struct lagrangian *lagrangian, const struct subproblem *from)
{
    struct subproblem *to = &lagrangian->subproblems[from->next];
    for (int32_t i = to->first; i <= to->last; i++) {
        int32_t k = from->link[i] < from->last ? from->link[i] : from->last;
        int64_t sum = k < from->first ? NO_START : to->before[i] + from->least[k];
        to->before[i] = sum < NO_START ? sum : NO_START;
    }
}

bool lagrangian_refutes(struct lagrangian *lagrangian, const struct trail *trail)
{
    int64_t total_capacity = sum_multipliers(lagrangian), total = 0;
    if (!take_windows(lagrangian, trail))
        return true;
    for (size_t s = 0; s < lagrangian->count; s++) {
        struct subproblem *subproblem = &lagrangian->subproblems[s];
        int64_t least = minimise(lagrangian, subproblem);
        if (least >= NO_START)
            return true;
        if (subproblem->next != NET_NONE)
            pass_on(lagrangian, subproblem);
        else
            total += least;
    }
    int64_t parts = total / (total_capacity / LAGRANGIAN_WHOLE + 1);
    lagrangian->best = parts > lagrangian->best ? (int32_t)parts : lagrangian->best;
    return total > total_capacity;
}

/* The cheapest starts, from the last operations back. */
static void choose_starts(struct lagrangian *lagrangian)
{
    for (size_t s = lagrangian->count; s-- > 0;) {
        struct subproblem *subproblem = &lagrangian->subproblems[s];
        int32_t k = subproblem->last;
        if (subproblem->next != NET_NONE &&
            subproblem->link[lagrangian->subproblems[subproblem->next].chosen] < k)
            k = subproblem->link[lagrangian->subproblems[subproblem->next].chosen];
        subproblem->chosen = subproblem->cheapest[k];
        for (size_t i = 0; i < subproblem->demand_count; i++) {
            int32_t start = subproblem->starts[subproblem->chosen];
            int64_t *load = lagrangian->resources[subproblem->demands[i].resource].load;
            load[start] += subproblem->demands[i].part;
            load[demand_end(lagrangian, &subproblem->demands[i], start)] -= subproblem->demands[i].part;
        }
    }
}

/* Follows the load of one resource; the highest multiplier. */
static int64_t update_multipliers(const struct lagrangian *lagrangian, struct multipliers *multipliers)
{
    int64_t smooth = SMOOTH_FIRST + lagrangian->steps / SMOOTH_LATER,
            pace = PACE_FIRST + lagrangian->steps / PACE_LATER;
    int64_t held = 0, highest = 1;
    for (int32_t t = 0; t < lagrangian->span; t++) {
        held += multipliers->load[t];
        multipliers->smoothed[t] += (held - multipliers->smoothed[t]) / smooth;
        int64_t over = multipliers->smoothed[t] - DEMAND_WHOLE;
        over = over > OVER_MOST * DEMAND_WHOLE ? OVER_MOST * DEMAND_WHOLE : over;
        int64_t multiplier =
            multipliers->multiplier[t] + multipliers->multiplier[t] * over / DEMAND_WHOLE / pace;
        multipliers->multiplier[t] = multiplier < 1 ? 1 : multiplier;
        highest = multipliers->multiplier[t] > highest ? multipliers->multiplier[t] : highest;
    }
    return highest;
}

void lagrangian_restart(struct lagrangian *lagrangian)
{
    lagrangian->steps = 0;
    lagrangian->best = 0;
}

void lagrangian_step(struct lagrangian *lagrangian)
{
    int64_t highest = 1;
    for (size_t r = 0; r < lagrangian->resource_count; r++)
        memset(lagrangian->resources[r].load, 0, ((size_t)lagrangian->span + 1) * sizeof(int64_t));
    choose_starts(lagrangian);
    for (size_t r = 0; r < lagrangian->resource_count; r++) {
        int64_t top = update_multipliers(lagrangian, &lagrangian->resources[r]);
        highest = top > highest ? top : highest;
    }
    for (size_t r = 0; r < lagrangian->resource_count; r++)
        for (int32_t t = 0; t < lagrangian->span; t++)
            lagrangian->resources[r].multiplier[t] =
                lagrangian->resources[r].multiplier[t] * MULTIPLIER_MOST / highest;
    lagrangian->steps++;
    lagrangian->work += (int64_t)lagrangian->resource_count * lagrangian->span / 4;
}
