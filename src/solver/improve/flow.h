/* The resource flow of a plan, as edges: who follows whom on each resource, and which of a disjunctive pair comes
 * first.
 *
 * Units of a resource flow from one operation to the next; while every flow edge holds, so does the capacity. Under a
 * fixed flow all constraints are monotone, so that a least and a greatest plan exist and plain propagation finds
 * them. Literature: Artigues, Michelon, Reusser, Insertion techniques for static and dynamic resource-constrained
 * project scheduling, EJOR 149 (2003). */
#ifndef SOLVER_IMPROVE_FLOW_H
#define SOLVER_IMPROVE_FLOW_H

#include "solver/model/model.h"
#include "solver/model/schedule.h"

/* Adds the flow of a schedule with every operation placed to a model made without the disjunctive pairs. */
void flow_add(struct model *model, const struct schedule *schedule, struct arena *arena);

/* The same for the resources alone, and for the operations that are placed. */
void flow_add_resources(struct model *model, const struct schedule *schedule, struct arena *arena);

/* On a new level: the flags of the plan, and the value at most `most`. False on a conflict. */
bool flow_fix(const struct model *model, struct trail *trail, const unsigned char *flag, int32_t most);

#endif
