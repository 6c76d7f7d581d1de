/* Everything that binds two variables by a monotone map, and the calendars of single ones.
 *
 * An edge says to >= map(from) + shift, or to <= map(from) + shift, while its guards hold. Each edge is two arcs: one
 * raises a bound of `to` from a bound of `from`, the other goes back by the map's inverse. An arc whose map is an
 * offset is bound[target] >= bound[source] + weight. An edge with one undecided guard that its bounds already
 * violate makes that guard false.
 *
 * Explanations are made when asked for and are lifted: not "the source was where it was" but the least source
 * that still gives the value asked for. Literature: Schutt, Feydy, Stuckey, Wallace, Solving RCPSP/max by lazy
 * clause generation, J. Scheduling 16 (2013); calendars: Kreter, Schutt, Stuckey, CP 2015.
 */
#ifndef SOLVER_PROPAGATORS_EDGES_H
#define SOLVER_PROPAGATORS_EDGES_H

#include "solver/engine/trail.h"
#include "solver/network.h"

enum { EDGE_GUARDS = 4, ARC_REASONS = EDGE_GUARDS + 2 };

/* Where an edge comes from. */
enum edge_origin { EDGE_LAG, EDGE_GOAL, EDGE_DISJUNCTION, EDGE_RESOURCE };

struct edge {
    int from, to;
    bool maximum;
    struct net_map map;
    int32_t shift;
    int guard_count;
    struct literal guards[EDGE_GUARDS];
    enum edge_origin origin;
};

struct arc {
    int32_t source, target; /* bounds */
    int32_t weight;         /* where the map is an offset */
    bool table;
};

struct edges {
    const struct network *net;
    struct arena *arena;
    struct edge *items;
    struct arc *arcs; /* 2e forward, 2e + 1 back */
    size_t count, capacity;
    struct net_index by_source;            /* arcs by source bound */
    struct net_index by_guard;             /* edges by the bound of a guard */
    const struct net_calendar **calendars; /* per variable, NULL: every start */
    size_t variables;
};

void edges_init(struct edges *edges, const struct network *net, struct arena *arena, size_t variables);
/* Drops edges whose guards contradict each other. */
void edges_add(struct edges *edges, struct edge edge);
/* Builds the lists by bound; after the last edges_add, before the rest. */
void edges_index(struct edges *edges);

/* Draws all conclusions of a bound's rise. False on a conflict (in the trail). */
bool edges_wake(const struct edges *edges, struct trail *trail, int32_t bound);
/* Evaluates every edge and calendar once: the start of propagation on level 0. */
bool edges_start(const struct edges *edges, struct trail *trail);
/* Draws conclusions until nothing changes, from entry `head` on. */
bool edges_run(const struct edges *edges, struct trail *trail, size_t head);

/* The literals from which a literal follows, set at entry `entry` (trail->count for the conflict) for an arc, guard
 * or calendar reason; returns their number, at most ARC_REASONS. */
size_t edges_explain(const struct edges *edges, const struct trail *trail, struct literal literal,
                     struct reason reason, int32_t entry, struct literal *into);

#endif
