/* What to search for next: a better plan, a higher bound, a better plan near the best one, each with a share of the
 * effort in turn until value and bound meet; then the fewest flags with the value frozen.
 *
 * A refuted "value at most the bound" raises the bound: destructive bounds, Klein, Scholl, EJOR 112 (1999).
 * Neighbourhoods: Shaw, CP 1998. */
#ifndef SOLVER_ROUNDS_H
#define SOLVER_ROUNDS_H

#include "solver/bounds/lift.h"
#include "solver/improve/neighbour.h"
#include "solver/model/plan.h"
#include "solver/engine/search.h"

struct rounds {
    struct plan *plan;
    struct search search;
    struct lift lift;
    struct neighbour neighbour;
    int32_t *best; /* per variable */
    int64_t effort;
    int64_t number;    /* rounds so far */
    int64_t near_work; /* of the effort, for neighbourhoods */
};

/* Searches until the plan is proven best, impossible, or the effort (in trail.work) is spent; a share of it is kept
 * for the flags. */
void rounds_run(struct rounds *rounds, struct plan *plan, const struct model *model, struct arena *arena,
                int64_t effort);

#endif
