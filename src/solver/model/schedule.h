/* A partial schedule: what placed operations hold of each resource, slot by slot, and where one more fits. Where uses
 * of one holder overlap, `held` counts them once.
 *
 * Slots beyond the horizon are left out: intervals that overlap at all overlap where the last of them starts.
 * Because ends are monotone in starts, an overloaded slot rules out every start from the candidate to that slot. */
#ifndef SOLVER_MODEL_SCHEDULE_H
#define SOLVER_MODEL_SCHEDULE_H

#include "solver/network.h"

/* A disjunctive pair as one of the two sees it. */
struct disjunct {
    int pair, other; /* which pair; the other one */
    struct net_map until, other_until;
};

struct schedule {
    const struct network *net;
    int32_t **held;                /* per resource and slot 0..horizon */
    struct net_index uses;         /* by operation */
    int32_t *sibling;              /* per use the next of the same holder, a cyclic list */
    struct disjunct *disjuncts;    /* two per pair */
    struct net_index by_operation; /* disjuncts by the operation that sees them */
    int32_t *start;                /* per operation, NET_NONE: not placed */
    const unsigned char *flag;     /* the caller's, per flag */
    int64_t work;
};

void schedule_init(struct schedule *schedule, const struct network *net, struct arena *arena,
                   const unsigned char *flag);

/* The same with every operation placed as in a plan. */
void schedule_fill(struct schedule *schedule, const struct network *net, struct arena *arena,
                   const struct net_result *result);

bool schedule_present(const struct schedule *schedule, int operation);

/* Takes up, gives back what an operation holds. An absent one holds nothing but has a start all the same. */
void schedule_place(struct schedule *schedule, int operation, int32_t start);
void schedule_remove(struct schedule *schedule, int operation);

/* The first start in low..high that its calendar, the resources and the disjunctive pairs allow (NET_NEVER: none). Lags
 * are the caller's. */
int32_t schedule_first(struct schedule *schedule, int operation, int32_t low, int32_t high);

/* The starts that lags and goals leave one operation while all others stay; all are placed, and no goal of it may
 * give more than `most`. Calendar, resources and disjunctive pairs are not looked at. */
void schedule_window(const struct schedule *schedule, int operation, int32_t most, int32_t *low,
                     int32_t *high);

#endif
