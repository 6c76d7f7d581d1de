/* Destructive lower bounds: a value is decided and propagated, and where that is a conflict the bound is above it.
 * First with the energetic overload check (overload.h), then, for what is still open, with Lagrangian multipliers
 * (lagrangian.h). Literature: Klein, Scholl, Computing lower bounds by destructive improvement, EJOR 112 (1999). */
#ifndef SOLVER_BOUNDS_DESTRUCTIVE_H
#define SOLVER_BOUNDS_DESTRUCTIVE_H

#include "solver/bounds/lagrangian.h"
#include "solver/engine/engine.h"
#include "solver/improve/incumbent.h"

struct destructive {
    struct engine *engine;
    struct incumbent *incumbent;
    struct lagrangian lagrangian;
    bool listed;       /* lagrangian is made when it is first needed */
    int32_t unrefuted; /* the multipliers did not refute this value; NET_NEVER: none yet */
    int32_t target;    /* value to be refuted now */
    int32_t best_then; /* lagrangian.best when it was compared last */
};

/* On level 0. */
void destructive_init(struct destructive *destructive, struct engine *engine, struct incumbent *incumbent);

/* The greatest bound that the overload check proves, by bisection below the best plan. Needs level 0, stays there. */
void destructive_by_energy(struct destructive *destructive);

/* The same with multipliers, until so much more work is done or they have stalled at every value. */
void destructive_by_multipliers(struct destructive *destructive, int64_t work);

#endif
