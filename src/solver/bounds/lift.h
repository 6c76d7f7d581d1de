/* Raising the bound without search: a value is supposed, what follows for the windows is drawn, and where that is a
 * clash the bound stands above it (destructive bounds: Klein, Scholl, EJOR 112, 1999). First with the capacities by
 * work (energy.h), then, for what is still open, with prices (relax.h). */
#ifndef SOLVER_BOUNDS_LIFT_H
#define SOLVER_BOUNDS_LIFT_H

#include "solver/engine/engine.h"
#include "solver/model/plan.h"
#include "solver/bounds/relax.h"

struct lift {
    struct engine *engine;
    struct plan *plan;
    struct relax relax;
    bool listed;       /* relax is made when it is first needed */
    int32_t hopeless;  /* prices did not refute this value; NET_NEVER: none yet */
    int32_t supposed;  /* value now under trial */
    int32_t best_then; /* relax.best a while ago */
};

/* On level 0. */
void lift_init(struct lift *lift, struct engine *engine, struct plan *plan);

/* The greatest bound that work alone proves, by bisection below the best plan. Needs level 0, stays there. */
void lift_by_work(struct lift *lift);

/* The same with prices, until so much more work is done or there is nothing more to be had from them. */
void lift_by_prices(struct lift *lift, int64_t work);

#endif
