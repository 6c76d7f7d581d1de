#include "net_verify.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { BROKEN_SIZE = 120 };

int32_t net_verify_map(const struct network *net, struct net_map map, int32_t t)
{
    if (t > net->horizon)
        return NET_NEVER;
    return map.table ? map.table[t] : t + map.offset;
}

static bool on(struct net_guard guard, const unsigned char *flag)
{
    return guard.flag < 0 || flag[guard.flag] == guard.value;
}

static bool here(const struct network *net, int operation, const unsigned char *flag)
{
    return on(net->operations[operation].presence, flag);
}

static void note(char *broken, const char *what, size_t index)
{
    if (!*broken)
        snprintf(broken, BROKEN_SIZE, "%s %zu", what, index);
}

static void judge_windows(const struct network *net, const int32_t *start, const unsigned char *flag,
                          char *broken)
{
    for (size_t i = 0; i < net->operation_count; i++) {
        const struct net_operation *o = &net->operations[i];
        if (!on(o->presence, flag))
            continue;
        if (start[i] < o->earliest || start[i] > o->latest)
            note(broken, "window of operation", i);
        else if (o->calendar >= 0 && (net->calendars[o->calendar].next[start[i]] != start[i] ||
                                      net->calendars[o->calendar].previous[start[i]] != start[i]))
            note(broken, "calendar of operation", i);
    }
}

static void judge_lags(const struct network *net, const int32_t *start, const unsigned char *flag,
                       char *broken)
{
    for (size_t i = 0; i < net->lag_count; i++) {
        const struct net_lag *lag = &net->lags[i];
        if (!on(lag->guard, flag) || !here(net, lag->from, flag) || !here(net, lag->to, flag))
            continue;
        int32_t limit = net_verify_map(net, lag->map, start[lag->from]);
        if (lag->maximum ? start[lag->to] > limit : start[lag->to] < limit)
            note(broken, "lag", i);
    }
}

static bool holds_at(const struct network *net, const struct net_use *use, const int32_t *start,
                     const unsigned char *flag, int32_t t)
{
    int32_t s = start[use->operation];
    return here(net, use->operation, flag) && s <= t && net_verify_map(net, use->until, s) > t;
}

/* Whether an earlier use of the same thing holds it then: it counts once. */
static bool counted(const struct network *net, size_t k, const int32_t *start, const unsigned char *flag,
                    int32_t t)
{
    const struct net_use *use = &net->uses[k];
    for (size_t i = 0; i < k && use->holder > 0; i++)
        if (net->uses[i].holder == use->holder && net->uses[i].resource == use->resource &&
            holds_at(net, &net->uses[i], start, flag, t))
            return true;
    return false;
}

static void judge_resources(const struct network *net, const int32_t *start, const unsigned char *flag,
                            char *broken)
{
    /* Usage only rises at starts: it is enough to count there. */
    for (size_t i = 0; i < net->use_count; i++) {
        const struct net_use *at = &net->uses[i];
        int64_t sum = 0;
        int32_t t = start[at->operation];
        if (!here(net, at->operation, flag) || net_verify_map(net, at->until, t) <= t)
            continue;
        for (size_t k = 0; k < net->use_count; k++) {
            const struct net_use *u = &net->uses[k];
            if (u->resource == at->resource && holds_at(net, u, start, flag, t) &&
                !counted(net, k, start, flag, t))
                sum += u->amount;
        }
        if (at->amount > 0 && sum > net->resources[at->resource].capacity)
            note(broken, "capacity at use", i);
    }
}

static void judge_aparts(const struct network *net, const int32_t *start, const unsigned char *flag,
                         char *broken)
{
    for (size_t i = 0; i < net->disjunction_count; i++) {
        const struct net_disjunction *p = &net->disjunctions[i];
        if (here(net, p->a, flag) && here(net, p->b, flag) &&
            net_verify_map(net, p->until_a, start[p->a]) > start[p->b] &&
            net_verify_map(net, p->until_b, start[p->b]) > start[p->a])
            note(broken, "apart", i);
    }
}

static int32_t judge_goals(const struct network *net, const int32_t *start, const unsigned char *flag,
                           char *broken)
{
    int32_t value = INT32_MIN;
    bool sure = false;
    for (size_t i = 0; i < net->goal_count; i++) {
        const struct net_goal *goal = &net->goals[i];
        sure = sure || net->operations[goal->operation].presence.flag < 0;
        if (!here(net, goal->operation, flag))
            continue;
        int32_t at = net_verify_map(net, goal->map, start[goal->operation]);
        if (at >= NET_NEVER)
            note(broken, "goal never reached", i);
        value = at - goal->due > value ? at - goal->due : value;
    }
    return !sure && value < 0 ? 0 : value;
}

int32_t net_verify_plan(const struct network *net, const int32_t *start, const unsigned char *flag,
                        char *broken)
{
    *broken = 0;
    judge_windows(net, start, flag, broken);
    if (*broken)
        return 0;
    judge_lags(net, start, flag, broken);
    judge_resources(net, start, flag, broken);
    judge_aparts(net, start, flag, broken);
    return judge_goals(net, start, flag, broken);
}

void net_verify(const struct row *row, const struct network *net, const struct net_result *result)
{
    char broken[BROKEN_SIZE];
    if (result->status != NET_PLANNED) {
        check_true(row, !result->proven && !result->start, "no plan, nothing proven of it");
        return;
    }
    int32_t value = net_verify_plan(net, result->start, result->flag, broken);
    check_text(row, broken, "");
    check_int(row, result->value, value);
    check_true(row, result->bound <= result->value, "bound at most the value");
    check_true(row, result->proven == (result->bound == result->value), "proven means value == bound");
}

void net_verify_left(const struct row *row, const struct network *net, const struct net_result *result)
{
    char broken[BROKEN_SIZE];
    if (result->status != NET_PLANNED)
        return;
    for (size_t i = 0; i < net->operation_count; i++) {
        int32_t stands = result->start[i];
        if (!here(net, (int)i, result->flag))
            continue;
        for (int32_t t = 0; t < stands; t++) {
            result->start[i] = t;
            int32_t value = net_verify_plan(net, result->start, result->flag, broken);
            if (!*broken && value <= result->value)
                fail_msg("%s:%d: %s: operation %zu could start at %d, not %d", row->file, row->line,
                         row->name, i, (int)t, (int)stands);
        }
        result->start[i] = stands;
    }
}
