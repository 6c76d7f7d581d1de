/* Conflict-driven search under assumptions: decide, propagate, learn, backjump; restarts keep what was learned.
 *
 * Decisions take the most active atom, with the phase of the best plan; without one the operation that can
 * start first starts at once. Literature: Een, Sorensson, MiniSat, SAT 2003 (assumptions); Luby, Sinclair,
 * Zuckerman, IPL 47 (1993); phases: Pipatsrisawat, Darwiche, SAT 2007. */
#ifndef SOLVER_ENGINE_SEARCH_H
#define SOLVER_ENGINE_SEARCH_H

#include "solver/engine/engine.h"

enum outcome {
    SEARCH_FOUND,   /* every variable is fixed in the trail */
    SEARCH_REFUTED, /* not under these assumptions; engine->refuted: not at all */
    SEARCH_ENDED,   /* the budget did */
};

struct search {
    struct engine engine;
    const int32_t *best; /* per variable its value in the best plan, NULL: none */
    struct literals assumptions;
    int64_t conflicts, nodes;
    int64_t asked; /* trail.work at which the observer was asked last */
    size_t clause_limit, reductions;
};

bool search_init(struct search *search, const struct model *model, struct arena *arena);

/* Until a plan, a refutation, so many more conflicts, so much work (in trail.work), or the observer of the network
 * ends it. Leaves the trail where it ended: at the plan, at the refuted assumption, else on level 0. */
enum outcome search_run(struct search *search, int64_t conflicts, int64_t work_limit);

/* 1 1 2 1 1 2 4 1 ... for n = 1, 2, ... */
int64_t luby(int64_t n);

#endif
