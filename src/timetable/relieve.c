#include "timetable/relieve.h"

#include "base/arena.h"
#include "solver/improve/shift.h"

#include <string.h>

struct network relieve_goals_of(const struct network *net, struct job_rows rows, size_t job)
{
    struct network part = *net;
    part.goals = ARENA_ARRAY(net->arena, net->goal_count, struct net_goal);
    part.goal_count = part.goal_capacity = 0;
    for (size_t i = 0; i < net->goal_count; i++) {
        size_t operation = (size_t)net->goals[i].operation;
        if (operation >= rows.begin[job] && operation < rows.begin[job + 1])
            part.goals[part.goal_count++] = net->goals[i];
    }
    return part;
}

struct network relieve_due_when_ready(const struct network *net, struct job_rows rows,
                                      const struct net_result *result, int32_t least)
{
    struct network due = *net;
    due.goals = ARENA_ARRAY(net->arena, net->goal_count, struct net_goal);
    due.goal_count = 0;
    for (size_t j = 0; j < rows.count; j++) {
        struct network own = relieve_goals_of(net, rows, j);
        int32_t value = net_value(&own, result->start, result->flag);
        for (size_t i = 0; i < own.goal_count; i++) {
            own.goals[i].due += value > least ? value : least;
            due.goals[due.goal_count++] = own.goals[i];
        }
    }
    return due;
}

/* Counted work of a round, shared by its trials, where the user chose none. */
static const int64_t round_effort = 240000000;

struct relieving {
    const struct network *net;
    struct job_rows rows;
    struct network *own; /* per job: its goals alone */
    bool *held;          /* may be as late as `most`, no later, and counts no more */
    int32_t *most;       /* per job */
    size_t held_count;
};

static int32_t value_of(const struct relieving *r, const struct net_result *result, size_t job)
{
    return net_value(&r->own[job], result->start, result->flag);
}

/* The first of the worst that are not held; rows.count: all are. */
static size_t worst_job(const struct relieving *r, const struct net_result *result)
{
    size_t worst = r->rows.count;
    for (size_t j = 0; j < r->rows.count; j++)
        if (!r->held[j] && (worst == r->rows.count || value_of(r, result, j) > value_of(r, result, worst)))
            worst = j;
    return worst;
}

/* How late the worst is that is not held; 0 where all are in time. */
static int32_t lateness(const struct relieving *r, const struct net_result *result)
{
    size_t worst = worst_job(r, result);
    int32_t value = worst < r->rows.count ? value_of(r, result, worst) : 0;
    return value > 0 ? value : 0;
}

static void hold(struct relieving *r, size_t job, int32_t most)
{
    r->held[job] = true;
    r->most[job] = most;
    r->held_count++;
}

static void let_go(struct relieving *r, size_t job)
{
    r->held[job] = false;
    r->held_count--;
}

/* The network in which the jobs that are held end no later than they may, and the goals of the others count. */
static struct network rest_of(const struct relieving *r)
{
    const struct network *net = r->net;
    struct network rest = *net;
    rest.operations = ARENA_ARRAY(net->arena, net->operation_count, struct net_operation);
    memcpy(rest.operations, net->operations, net->operation_count * sizeof *net->operations);
    rest.goals = ARENA_ARRAY(net->arena, net->goal_count, struct net_goal);
    rest.goal_count = 0;
    for (size_t j = 0; j < r->rows.count; j++) {
        for (size_t i = 0; i < r->own[j].goal_count; i++) {
            const struct net_goal *goal = &r->own[j].goals[i];
            struct net_operation *operation = &rest.operations[goal->operation];
            int32_t last = net_map_last(net, goal->map, goal->due + r->most[j]);
            if (!r->held[j])
                rest.goals[rest.goal_count++] = *goal;
            else if (last < operation->latest)
                operation->latest = last;
        }
    }
    return rest;
}

static int32_t try_holding(struct relieving *r, size_t job, int32_t most, struct timetable_options options,
                           struct net_result *result)
{
    hold(r, job, most);
    struct network rest = rest_of(r);
    attempt_network(&rest, options, result);
    int32_t late = result->status == NET_PLANNED ? lateness(r, result) : INT32_MAX;
    let_go(r, job);
    return late;
}

/* One job may be as late as the worst is: the one that leaves the rest least late, the worst itself first. */
static void relieve_round(struct relieving *r, struct timetable_options options, struct net_result *best)
{
    size_t worst = worst_job(r, best), chosen = worst;
    int32_t most = value_of(r, best, worst);
    hold(r, worst, most);
    int32_t least = lateness(r, best);
    let_go(r, worst);
    for (size_t k = 0; k <= r->rows.count && least > 0; k++) {
        size_t job = k == 0 ? worst : k - 1;
        struct net_result again;
        if (r->held[job] || (k > 0 && job == worst))
            continue;
        int32_t late = try_holding(r, job, most, options, &again);
        best->effort += again.effort;
        best->nodes += again.nodes;
        if (late >= least)
            continue;
        least = late;
        chosen = job;
        best->start = again.start;
        best->flag = again.flag;
    }
    hold(r, chosen, most);
}

/* What the rounds left: a job that is late less than the worst has its own place to shift to, and scuffs to lose. */
static void make_late(struct attempt *solved, struct job_rows rows)
{
    struct net_result *result = &solved->result;
    struct network due = relieve_due_when_ready(&solved->problem->net, rows, result, 0);
    result->value = net_value(&due, result->start, result->flag);
    attempt_make_late(solved->problem, &due, result);
}

void relieve(struct attempt *solved, struct job_rows rows, struct timetable_options options)
{
    const struct network *net = &solved->problem->net;
    struct relieving r = {.net = net, .rows = rows};
    r.own = ARENA_ARRAY(net->arena, rows.count, struct network);
    for (size_t j = 0; j < rows.count; j++)
        r.own[j] = relieve_goals_of(net, rows, j);
    r.held = ARENA_ARRAY(net->arena, rows.count, bool);
    r.most = ARENA_ARRAY(net->arena, rows.count, int32_t);
    while (r.held_count + 1 < rows.count && lateness(&r, &solved->result) > 0) {
        struct timetable_options share = options;
        int64_t effort = options.effort ? options.effort : round_effort;
        int64_t each = effort / (int64_t)(rows.count - r.held_count);
        share.effort = each > 0 ? each : 1;
        relieve_round(&r, share, &solved->result);
    }
    if (options.late)
        make_late(solved, rows);
    solved->result.value = net_value(net, solved->result.start, solved->result.flag);
}
