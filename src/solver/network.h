/* A scheduling problem in whole slots, without trade words: operations that may not be interrupted, lags between
 * their starts, allowed starts, capacities, and pairs that exclude each other. Solved by net_solve (solve.h).
 *
 * An operation is its start, an integer in 0..horizon. Everything that depends on changing conditions is a map: a
 * monotone function of a start, either a constant offset or a table over 0..horizon. Times beyond the horizon and
 * "never" are NET_NEVER. All storage comes from the arena and from the caller's tables, which must outlive it.
 *
 * Literature: Neumann, Schwindt, Zimmermann, Project Scheduling with Time Windows (2003); Franck, Neumann, Schwindt,
 * Project scheduling with calendars, OR Spektrum 23 (2001).
 */
#ifndef SOLVER_NETWORK_H
#define SOLVER_NETWORK_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

struct arena;
struct observer;

enum {
    NET_NEVER = INT32_MAX / 4,
    NET_NONE = -1, /* no calendar, no flag */
};

/* t -> table[t] where there is a table (horizon + 1 entries, never decreasing), else t + offset. */
struct net_map {
    const int32_t *table;
    int32_t offset;
};

static inline struct net_map net_after(int32_t offset)
{
    return (struct net_map){0, offset};
}

/* Holds only while `flag` is at `value`; flag NET_NONE: always. */
struct net_guard {
    int flag;
    int value;
};

#define NET_ALWAYS ((struct net_guard){NET_NONE, 0})

/* Allowed starts: next[t] the first at or after t (NET_NEVER: none), previous[t] the last at or before (-1: none). */
struct net_calendar {
    const int32_t *next, *previous;
};

struct net_operation {
    int32_t duration; /* slots; resources that last it use this */
    int calendar;     /* from net_add_calendar, or NET_NONE */
    int32_t earliest; /* release, at least 0 */
    int32_t latest;   /* last allowed start, at most the horizon */
    /* Absent: it uses nothing, no lag, disjunction or goal holds, its start means nothing. */
    struct net_guard presence;
};

/* start(to) >= map(start(from)), or <= map(start(from)) for a maximum lag. Holds while the guard does and both
 * operations, which are two, are present. */
struct net_lag {
    int from, to;
    bool maximum;
    struct net_map map;
    struct net_guard guard;
    int rule; /* the caller's own number, given back in explanations; NET_NONE: none */
};

/* From its start until map(start) the operation holds `amount` of a resource (nothing where that is not later).
 * It names a resource at most once. Uses of one resource with the same holder, all of one amount, are of the same
 * thing: where they overlap they count once. */
struct net_use {
    int operation, resource;
    int32_t amount;
    struct net_map until;
    int holder; /* above 0; 0: by itself */
    /* With a holder: no other use of it begins within so many slots from the start (net_find_exclusive). */
    int32_t exclusive;
};

/* A disjunctive pair: [start a, until_a) and [start b, until_b) may not meet: start b >= until_a(start a) or start a
 * >= until_b(start b). */
struct net_disjunction {
    int a, b;
    struct net_map until_a, until_b;
    int rule;
};

/* The value to be made small is the largest map(start) - due over all goals of present operations; not below 0 where
 * no goal is sure to count. A start whose map is NET_NEVER is not allowed. */
struct net_goal {
    int operation;
    struct net_map map;
    int32_t due;
};

struct net_resource {
    int32_t capacity;
    int rule;
};

/* Growing arrays; read them, add through the functions below. */
struct network {
    struct arena *arena;
    struct observer *observer; /* asked now and then whether to go on; NULL: nobody */
    int32_t horizon;
    struct net_operation *operations;
    struct net_lag *lags;
    struct net_use *uses;
    struct net_disjunction *disjunctions;
    struct net_goal *goals;
    struct net_resource *resources;
    struct net_calendar *calendars;
    size_t operation_count, lag_count, use_count, disjunction_count, goal_count, resource_count,
        calendar_count;
    size_t operation_capacity, lag_capacity, use_capacity, disjunction_capacity, goal_capacity,
        resource_capacity, calendar_capacity;
    int flag_count; /* 0..1 choices; after the goal, as few as possible are 1 */
};

void network_init(struct network *net, struct arena *arena, int32_t horizon);

/* Each returns the index by which it is named from then on. */
int net_add_calendar(struct network *net, struct net_calendar calendar);
int net_add_operation(struct network *net, struct net_operation operation);
int net_add_flag(struct network *net);
int net_add_resource(struct network *net, struct net_resource resource);

void net_add_lag(struct network *net, struct net_lag lag);
void net_add_use(struct network *net, struct net_use use);
/* Whether two uses count once where they overlap. */
bool net_same_holder(const struct net_use *a, const struct net_use *b);
void net_add_disjunction(struct network *net, struct net_disjunction pair);
void net_add_goal(struct network *net, struct net_goal goal);

/* Whether an operation is there with these flags; whether it is with any. */
bool net_present(const struct network *net, int operation, const unsigned char *flag);
bool net_certain(const struct network *net, int operation);

/* What a goal gives in a plan: map(start) - due. */
int32_t net_goal_value(const struct network *net, const struct net_goal *goal, const int32_t *start);

/* map(t); NET_NEVER for t beyond the horizon. An offset map may well give a time beyond it. */
int32_t net_map_at(const struct network *net, struct net_map map, int32_t t);
/* The first t in 0..horizon with map(t) >= value (horizon + 1: none); the last with map(t) <= value (-1: none). */
int32_t net_map_first(const struct network *net, struct net_map map, int32_t value);
int32_t net_map_last(const struct network *net, struct net_map map, int32_t value);

/* Sets `exclusive` of every use with a holder, from the longest paths through the minimum lags that hold in every
 * plan; after the last net_add_lag. Where lags leave the order of two uses open, only the first of them counts.
 * Without this call `exclusive` is what the caller wrote, and 0 is always true. */
void net_find_exclusive(struct network *net);

/* The next allowed start after t; beyond the horizon where there is none. */
int32_t net_next_start(const struct network *net, int calendar, int32_t t);

/* The starts of an operation that its own window and calendar allow; false: none. */
bool net_window(const struct network *net, int operation, int32_t *low, int32_t *high);

/* Whether a use holds its resource with every allowed start. */
bool net_always_holds(const struct network *net, const struct net_use *use);

/* The network and, as disjunctions, the pairs of uses that exceed a capacity together: nothing new, but their orders
 * become something that a search may decide and learn from. What is added lives in `arena`. */
struct network net_with_pairs(const struct network *net, struct arena *arena);

/* Whether a lag is in force in a plan with these flags: its guard holds and both operations are present. */
bool net_lag_holds(const struct network *net, const struct net_lag *lag, const unsigned char *flag);

/* Whether the first of a pair that excludes each other comes first in a plan. */
bool net_first_of_pair(const struct network *net, const struct net_disjunction *pair, const int32_t *start);

/* Largest map(start) - due of a plan: what net_result.value holds. */
int32_t net_value(const struct network *net, const int32_t *start, const unsigned char *flag);

/* The operations of a plan, or the first so many of them, in the order of their starts, then by index. */
void net_by_start(const int32_t *start, size_t count, int *order);

/* What solving gives. */
enum net_status {
    NET_PLANNED,
    NET_IMPOSSIBLE, /* proven */
    NET_UNKNOWN,    /* effort ended before a plan or a proof */
};

struct net_result {
    enum net_status status;
    int32_t *start; /* per operation, in the network's arena; NULL without a plan */
    unsigned char *flag;
    int32_t value;    /* largest map(start) - due over the goals */
    int32_t bound;    /* no plan of this network has a smaller value */
    bool proven;      /* value == bound */
    bool ended;       /* by the observer or the end of memory, before proof or effort: the best plan so far */
    int64_t effort;   /* work done */
    int64_t nodes;    /* decisions of the search, 0 where bounds sufficed */
    const int *rules; /* where impossible: rules that cannot all hold */
    size_t rule_count;
    bool any_horizon;   /* shown for any longer horizon, too */
    bool rules_minimal; /* dropping any one of them was shown to make the rest possible */
};

/* Items by key: those of key k are list[from[k]] .. list[from[k + 1] - 1], in the order in which they were given. For
 * uses by operation, edges by bound, and the like. */
struct net_index {
    int32_t *from, *list;
};

struct net_index_pair {
    int32_t key, item;
};

struct net_index net_index_make(struct arena *arena, size_t keys, const struct net_index_pair *pairs,
                                size_t count);

#endif
