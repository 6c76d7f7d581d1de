/* Raising the bound without search: a value is supposed, what follows for the windows is drawn, and where that is a
 * conflict the bound stands above it (destructive bounds: Klein, Scholl, EJOR 112, 1999). First with the capacities by
 * work (energy.h), then, for what is still open, with prices (relax.h). */
#ifndef SOLVER_BOUNDS_DESTRUCTIVE_H
#define SOLVER_BOUNDS_DESTRUCTIVE_H

#include "solver/bounds/lagrangian.h"
#include "solver/engine/engine.h"
#include "solver/improve/incumbent.h"

struct destructive {
    struct engine *engine;
    struct incumbent *incumbent;
    struct lagrangian lagrangian;
    bool listed;       /* relax is made when it is first needed */
    int32_t unrefuted; /* prices did not refute this value; NET_NEVER: none yet */
    int32_t target;    /* value now under trial */
    int32_t best_then; /* relax.best a while ago */
};

/* On level 0. */
void destructive_init(struct destructive *destructive, struct engine *engine, struct incumbent *incumbent);

/* The greatest bound that work alone proves, by bisection below the best plan. Needs level 0, stays there. */
void destructive_by_energy(struct destructive *destructive);

/* The same with prices, until so much more work is done or there is nothing more to be had from them. */
void destructive_by_multipliers(struct destructive *destructive, int64_t work);

#endif
