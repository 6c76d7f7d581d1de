/* What fixes the ready moment, and what makes a plan impossible. */
#ifndef TIMETABLE_WHY_H
#define TIMETABLE_WHY_H

#include "solver/solve.h"
#include "timetable/problem.h"
#include "timetable/timetable.h"

/* Fills chain and why of a dated timetable. The result is one that is shifted left: of a plan made as late as the delivery
 * allows, that from which it was made. */
void why_chain(struct problem *problem, const struct net_result *result, struct timetable *timetable);
/* Fills the steps' float. */
void why_float(struct problem *problem, const struct net_result *result, struct timetable *timetable);
/* Fills why where there is no plan. */
void why_impossible(struct problem *problem, const struct net_result *result, struct timetable *timetable);

#endif
