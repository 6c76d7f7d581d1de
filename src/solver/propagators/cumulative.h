/* Cumulative resources by timetable consistency. Per resource a profile: the sum of compulsory parts.
 *
 * Between its latest start and its earliest end an operation holds its amount whatever its start (its compulsory
 * part); ends follow from starts by any monotone map. The segments of the sum are split at every event. Where
 * compulsory parts together exceed the capacity there is a conflict; where one more would, the operation cannot run.
 * An explanation names one moment: each compulsory part starts no later than it and ends after it.
 *
 * Literature: Schutt, Feydy, Stuckey, Wallace, Explaining the cumulative propagator, Constraints 16 (2011). */
#ifndef SOLVER_PROPAGATORS_CUMULATIVE_H
#define SOLVER_PROPAGATORS_CUMULATIVE_H

#include "solver/model/model.h"

struct task {
    int operation;
    int32_t amount;
    struct net_map until;
    struct literal presence; /* bound -1: always */
    int holder;              /* as in struct net_use */
    int32_t exclusive;       /* the same; NET_NEVER without a holder */
};

/* The height of the profile from `from` until the next segment. */
struct segment {
    int32_t from, height;
};

struct profile {
    int32_t capacity;
    struct task *tasks;
    size_t count;
    struct segment *segments;
    size_t segment_count;
    /* Per task its compulsory part, but for what the same holder holds by a task that begins before; none where
     * begin >= end. */
    int32_t *begin, *end;
    bool holders;               /* some tasks have one */
    int32_t *by_begin, *by_end; /* orders of tasks, kept between calls: they change little */
    struct literal selector;    /* bound -1: always in force */
    bool dirty;                 /* its segments and what follows from them are out of date */
    bool overload_dirty;        /* the same for the overload check */
};

struct profiles {
    const struct model *model;
    struct profile *items;
    size_t count;
    struct net_index by_variable;
    struct literal *explanation; /* explanation under construction */
};

void profiles_init(struct profiles *profiles, const struct model *model, struct arena *arena);

/* A bound rose: its profiles are dirty. */
void profiles_notify(struct profiles *profiles, int32_t bound);

/* The end of a task from a start. */
static inline int32_t profile_until(const struct profiles *profiles, const struct task *task, int32_t start)
{
    return net_map_at(profiles->model->net, task->until, start);
}

/* Whether two tasks of a profile count once where they overlap. */
static inline bool same_holder(const struct task *a, const struct task *b)
{
    return a->holder > 0 && a->holder == b->holder;
}

/* A presence: it holds or there is none. */
static inline bool surely_holds(const struct trail *trail, struct literal literal)
{
    return literal.bound < 0 || trail_holds(trail, literal);
}

static inline bool surely_fails(const struct trail *trail, struct literal literal)
{
    return literal.bound >= 0 && trail_fails(trail, literal);
}

/* Propagates one dirty profile; *idle where there is none. False on a conflict (in the trail). */
bool cumulative_run(struct profiles *profiles, struct trail *trail, bool *idle);

#endif
