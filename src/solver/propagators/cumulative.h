/* Per resource a profile: what operations surely hold of it, whatever their start.
 *
 * Between its latest start and its earliest end an operation surely holds its amount; ends follow from starts by any
 * monotone map. The steps of the sum are split at every event. */
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

/* Between `from` and the next step's `from` the sure holders hold `height`. */
struct segment {
    int32_t from, height;
};

struct profile {
    int32_t capacity;
    struct task *tasks;
    size_t count;
    struct segment *segments;
    size_t segment_count;
    int32_t *begin,
        *end;     /* per task its compulsory part, but for what the same holder holds by a task that begins
                                   before; begin >= end: none */
    bool holders; /* some tasks have one */
    int32_t *by_begin, *by_end; /* orders of tasks, kept between calls: they change little */
    struct literal selector;    /* bound -1: always in force */
    bool dirty;                 /* its steps and conclusions are old */
    bool overload_dirty;        /* the same for its energy */
};

struct profiles {
    const struct model *model;
    struct profile *items;
    size_t count;
    int32_t *touch_from, *touch_list; /* profiles by variable */
    struct literal *explanation;      /* explanation under construction */
};

void profiles_init(struct profiles *profiles, const struct model *model, struct arena *arena);

/* A bound rose: its profiles must be looked at again. */
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

/* Draws conclusions from one profile that was touched; *idle where none was. False on a conflict (in the trail). */
bool cumulative_run(struct profiles *profiles, struct trail *trail, bool *idle);

#endif
