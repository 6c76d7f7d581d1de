/* Learning from a conflict: the first unique implication point, made shorter by recursive minimisation.
 *
 * Each requirement belongs to the trail entry that first met it. A requirement is dropped only on the strength of
 * requirements of EARLIER entries: letting a later, stronger bound of the same variable stand in for it would be
 * circular and prove things that are not so. Only what survives is merged by bound.
 *
 * Literature: Marques-Silva, Sakallah, GRASP, IEEE ToC 48 (1999); Sorensson, Biere, Minimizing learned clauses,
 * SAT 2009; on integer bounds: Feydy, Schutt, Stuckey, Semantic learning for lazy clause generation (2013). */
#ifndef SOLVER_ENGINE_ANALYSIS_H
#define SOLVER_ENGINE_ANALYSIS_H

#include "solver/engine/engine.h"

/* After a conflict: goes back to the level on which the learned clause sets its first literal, and sets it. False:
 * the conflict holds on level 0 (engine->refuted). */
bool analyse_conflict(struct engine *engine);

/* What a true literal rests on (NULL: the conflict), appended: decisions, clauses of one literal among them, and
 * literals that hold initially. An oversized use rests on its guards alone. */
void analyse_roots(struct engine *engine, const struct literal *literal, struct literals *decisions,
                   struct literals *initial);

#endif
