#include "net_brute.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/arena.h"
#include "check.h"
#include "net_verify.h"
#include "network/own.h"

enum { MOST_OPERATIONS = 7, MOST_FLAGS = 2, MOST_SLOTS = 14 };

static struct net_calendar random_calendar(struct arena *arena, int32_t horizon, uint64_t *seed)
{
    unsigned char open[MOST_SLOTS + 2];
    for (int32_t t = 0; t <= horizon; t++)
        open[t] = 1;
    for (int holes = check_random_int(seed, 0, 3); holes > 0; holes--) {
        int32_t at = check_random_int(seed, 0, horizon);
        for (int32_t t = at; t <= horizon && t <= at + check_random_int(seed, 0, 3); t++)
            open[t] = 0;
    }
    int32_t *next = ARENA_ARRAY(arena, (size_t)horizon + 1, int32_t);
    int32_t *previous = ARENA_ARRAY(arena, (size_t)horizon + 1, int32_t);
    for (int32_t t = 0; t <= horizon; t++)
        previous[t] = open[t] ? t : t > 0 ? previous[t - 1] : -1;
    for (int32_t t = horizon; t >= 0; t--)
        next[t] = open[t] ? t : t < horizon ? next[t + 1] : NET_NEVER;
    return (struct net_calendar){next, previous};
}

static struct net_map random_map(struct network *net, int low, int high, uint64_t *seed)
{
    if (check_random_int(seed, 0, 2))
        return net_after(check_random_int(seed, low, high));
    int32_t *table = ARENA_ARRAY(net->arena, (size_t)net->horizon + 1, int32_t);
    int32_t at = check_random_int(seed, low, high);
    for (int32_t t = 0; t <= net->horizon; t++) {
        at += check_random_int(seed, 0, 2);
        table[t] = at < t + low ? t + low : at;
        at = table[t];
    }
    if (!check_random_int(seed, 0, 3))
        for (int32_t t = net->horizon - check_random_int(seed, 0, 4); t <= net->horizon; t++)
            if (t >= 0)
                table[t] = NET_NEVER;
    return (struct net_map){table, 0};
}

static struct net_guard random_guard(const struct network *net, int odds, uint64_t *seed)
{
    if (!net->flag_count || check_random_int(seed, 0, odds))
        return NET_ALWAYS;
    return (struct net_guard){check_random_int(seed, 0, net->flag_count - 1), check_random_int(seed, 0, 1)};
}

static void random_operations(struct network *net, uint64_t *seed)
{
    for (int count = check_random_int(seed, 1, MOST_OPERATIONS); count > 0; count--) {
        bool late = !check_random_int(seed, 0, 4), early = !check_random_int(seed, 0, 5);
        struct net_operation o = {.duration = check_random_int(seed, 0, 4), .latest = net->horizon};
        o.calendar = check_random_int(seed, -1, (int)net->calendar_count - 1);
        o.earliest = late ? check_random_int(seed, 0, 5) : 0;
        o.latest = early ? check_random_int(seed, 0, net->horizon) : net->horizon;
        o.presence = random_guard(net, 5, seed);
        net_add_operation(net, o);
    }
}

static void random_lags(struct network *net, uint64_t *seed)
{
    int count = (int)net->operation_count;
    for (int lags = count > 1 ? check_random_int(seed, 0, 2 * count) : 0; lags > 0; lags--) {
        int from = check_random_int(seed, 0, count - 1), to = check_random_int(seed, 0, count - 1);
        if (from == to)
            continue;
        bool maximum = !check_random_int(seed, 0, 2);
        if (!maximum && from > to && check_random_int(seed, 0, 4)) {
            int swap = from;
            from = to;
            to = swap;
        }
        net_add_lag(net, (struct net_lag){.from = from,
                                          .to = to,
                                          .maximum = maximum,
                                          .map = random_map(net, maximum ? -1 : -3, maximum ? 6 : 4, seed),
                                          .guard = random_guard(net, 1, seed),
                                          .rule = lags});
    }
}

/* Some uses are of one thing, all with the amount of its first. */
static int random_holder(const struct network *net, int resource, int32_t *amount, uint64_t *seed)
{
    int holder = check_random_int(seed, -1, 2);
    if (holder > 0)
        *amount = check_random_int(seed, 1, net->resources[resource].capacity);
    for (size_t i = 0; i < net->use_count && holder > 0; i++)
        if (net->uses[i].resource == resource && net->uses[i].holder == holder)
            *amount = net->uses[i].amount;
    return holder > 0 ? holder : 0;
}

static void random_uses(struct network *net, uint64_t *seed)
{
    for (int r = check_random_int(seed, 0, 2); r > 0; r--) {
        int resource = net_add_resource(net, (struct net_resource){check_random_int(seed, 1, 3), 100 + r});
        bool things = !check_random_int(seed, 0, 2);
        for (size_t i = 0; i < net->operation_count; i++) {
            if (!check_random_int(seed, 0, 3))
                continue;
            int32_t amount = check_random_int(seed, 0, 2);
            int holder = things ? random_holder(net, resource, &amount, seed) : 0;
            struct net_map until = check_random_int(seed, 0, 2) ? net_after(net->operations[i].duration)
                                                                : random_map(net, 0, 3, seed);
            net_add_use(net, (struct net_use){(int)i, resource, amount, until, holder, 0});
        }
    }
}

static void random_pairs(struct network *net, uint64_t *seed)
{
    int count = (int)net->operation_count;
    for (int pairs = check_random_int(seed, 0, 3); pairs > 0; pairs--) {
        int a = check_random_int(seed, 0, count - 1), b = check_random_int(seed, 0, count - 1);
        if (a != b)
            net_add_apart(net, (struct net_apart){a, b, random_map(net, 0, 3, seed),
                                                  random_map(net, 0, 3, seed), 200 + pairs});
    }
    for (int goals = check_random_int(seed, 0, 4); goals > 0; goals--)
        net_add_goal(net, (struct net_goal){check_random_int(seed, 0, count - 1), random_map(net, 0, 6, seed),
                                            check_random_int(seed, 0, 9)});
}

void net_random(struct network *net, struct arena *arena, uint64_t *seed)
{
    network_init(net, arena, check_random_int(seed, 4, MOST_SLOTS));
    for (int calendars = check_random_int(seed, 0, 2); calendars > 0; calendars--)
        net_add_calendar(net, random_calendar(arena, net->horizon, seed));
    for (int flags = check_random_int(seed, 0, MOST_FLAGS); flags > 0; flags--)
        net_add_flag(net);
    random_operations(net, seed);
    random_lags(net, seed);
    random_uses(net, seed);
    net_find_own(net);
    random_pairs(net, seed);
}

void net_draw(struct net_draw *draw, const struct row *where, uint64_t seed)
{
    snprintf(draw->name, sizeof draw->name, "seed %llu", (unsigned long long)seed);
    draw->row = (struct row){draw->name, where->file, where->line};
    draw->arena = arena_make(0);
    net_random(&draw->net, draw->arena, &seed);
}

void net_draw_release(struct net_draw *draw)
{
    arena_free(draw->arena);
}

struct trying {
    const struct network *net;
    int32_t start[MOST_OPERATIONS];
    unsigned char flag[MOST_FLAGS + 1];
    struct net_brute best;
    int flags;
};

static bool is_on(struct net_guard guard, const unsigned char *flag)
{
    return guard.flag < 0 || flag[guard.flag] == guard.value;
}

/* Whether operations 0..last keep every constraint among themselves that the last one is part of. */
static bool keeps_lags(const struct trying *t, int last)
{
    for (size_t i = 0; i < t->net->lag_count; i++) {
        const struct net_lag *lag = &t->net->lags[i];
        int most = lag->from > lag->to ? lag->from : lag->to;
        if (most != last || !is_on(lag->guard, t->flag) ||
            !is_on(t->net->operations[lag->from].presence, t->flag) ||
            !is_on(t->net->operations[lag->to].presence, t->flag))
            continue;
        int32_t limit = net_verify_map(t->net, lag->map, t->start[lag->from]);
        if (lag->maximum ? t->start[lag->to] > limit : t->start[lag->to] < limit)
            return false;
    }
    return true;
}

/* Where only a smaller value, or the same with fewer flags, is of interest. */
static bool keeps_goals(const struct trying *t, int last)
{
    for (size_t i = 0; i < t->net->goal_count; i++) {
        const struct net_goal *goal = &t->net->goals[i];
        if (goal->operation != last)
            continue;
        int32_t at = net_verify_map(t->net, goal->map, t->start[last]);
        if (at >= NET_NEVER)
            return false;
        if (t->best.possible && at - goal->due > t->best.value - (t->flags >= t->best.flags))
            return false;
    }
    return true;
}

static bool present(const struct trying *t, int operation)
{
    return is_on(t->net->operations[operation].presence, t->flag);
}

static bool keeps_capacity(const struct trying *t, int last, const struct net_resource *resource,
                           int32_t *held)
{
    unsigned holds[MOST_SLOTS + 1] = {0}; /* per slot the holders, as bits */
    for (int32_t slot = 0; slot <= t->net->horizon; slot++)
        held[slot] = 0;
    for (size_t i = 0; i < t->net->use_count; i++) {
        const struct net_use *use = &t->net->uses[i];
        if (use->operation > last || &t->net->resources[use->resource] != resource ||
            !present(t, use->operation))
            continue;
        int32_t start = t->start[use->operation], end = net_verify_map(t->net, use->until, start);
        for (int32_t slot = start; slot < end && slot <= t->net->horizon; slot++) {
            bool again = use->holder > 0 && (holds[slot] & 1u << use->holder);
            holds[slot] |= 1u << use->holder;
            held[slot] += again ? 0 : use->amount;
            if (held[slot] > resource->capacity && use->amount > 0)
                return false;
        }
    }
    return true;
}

static bool keeps_pairs(const struct trying *t, int last)
{
    for (size_t i = 0; i < t->net->apart_count; i++) {
        const struct net_apart *p = &t->net->aparts[i];
        if ((p->a > p->b ? p->a : p->b) == last && present(t, p->a) && present(t, p->b) &&
            net_verify_map(t->net, p->until_a, t->start[p->a]) > t->start[p->b] &&
            net_verify_map(t->net, p->until_b, t->start[p->b]) > t->start[p->a])
            return false;
    }
    return true;
}

static bool keeps_all(const struct trying *t, int last)
{
    int32_t held[MOST_SLOTS + 1];
    if (!keeps_goals(t, last) || !keeps_lags(t, last) || !keeps_pairs(t, last))
        return false;
    for (size_t r = 0; r < t->net->resource_count; r++)
        if (!keeps_capacity(t, last, &t->net->resources[r], held))
            return false;
    return true;
}

static void judge(struct trying *t)
{
    char broken[120];
    int32_t value = net_verify_plan(t->net, t->start, t->flag, broken);
    if (*broken)
        return;
    if (!t->best.possible || value < t->best.value || (value == t->best.value && t->flags < t->best.flags))
        t->best = (struct net_brute){true, value, t->flags};
}

static bool settled(const struct trying *t)
{
    return t->best.possible && t->net->goal_count == 0 && t->best.flags <= t->flags;
}

static void try_from(struct trying *t, int operation)
{
    if ((size_t)operation == t->net->operation_count) {
        judge(t);
        return;
    }
    const struct net_operation *o = &t->net->operations[operation];
    if (!is_on(o->presence, t->flag)) {
        try_from(t, operation + 1);
        return;
    }
    for (int32_t s = o->earliest; s <= o->latest && !settled(t); s++) {
        if (o->calendar >= 0 && t->net->calendars[o->calendar].next[s] != s)
            continue;
        t->start[operation] = s;
        if (keeps_all(t, operation))
            try_from(t, operation + 1);
    }
}

struct net_brute net_brute_solve(const struct network *net)
{
    struct trying t = {.net = net};
    for (int choice = 0; choice < 1 << net->flag_count; choice++) {
        t.flags = 0;
        for (int f = 0; f < net->flag_count; f++) {
            t.flag[f] = (unsigned char)(choice >> f & 1);
            t.flags += t.flag[f];
        }
        try_from(&t, 0);
    }
    return t.best;
}
