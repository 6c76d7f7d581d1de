/* What fixes the ready moment, the slack of each batch, and what makes a plan impossible. */
#ifndef TIMETABLE_WHY_H
#define TIMETABLE_WHY_H

#include "solver/solve.h"
#include "timetable/dates.h"
#include "timetable/problem.h"

/* Fills chain and why of a dated timetable. The draft is one in which every batch starts as soon as it may: of a plan made as
 * late as the delivery allows, that from which it was made. */
void why_chain(struct dated dated, struct timetable *timetable);
/* The slack of each placed batch: minutes by which it may begin later, all behind it following, before any job is ready later. */
void why_slack(struct draft *draft, int32_t *slack);
/* Fills why where there is no plan: what contradicts itself in the network of the work alone. */
void why_impossible(struct problem *problem, const struct net_result *result, struct timetable *timetable);

#endif
