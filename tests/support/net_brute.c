#include "net_brute.h"

#include "net_draw.h"
#include "net_verify.h"

struct trying {
    const struct network *net;
    int32_t start[NET_DRAW_OPERATIONS];
    unsigned char flag[NET_DRAW_FLAGS + 1];
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
    unsigned holds[NET_DRAW_SLOTS + 1] = {0}; /* per slot the holders, as bits */
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
    for (size_t i = 0; i < t->net->disjunction_count; i++) {
        const struct net_disjunction *p = &t->net->disjunctions[i];
        if ((p->a > p->b ? p->a : p->b) == last && present(t, p->a) && present(t, p->b) &&
            net_verify_map(t->net, p->until_a, t->start[p->a]) > t->start[p->b] &&
            net_verify_map(t->net, p->until_b, t->start[p->b]) > t->start[p->a])
            return false;
    }
    return true;
}

static bool keeps_all(const struct trying *t, int last)
{
    int32_t held[NET_DRAW_SLOTS + 1];
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
