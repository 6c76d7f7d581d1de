/* A solved network as dated steps: who does what when, what each step waited for, when each piece reaches its states. */
#ifndef TIMETABLE_DATES_H
#define TIMETABLE_DATES_H

#include "solver/solve.h"
#include "timetable/problem.h"
#include "timetable/timetable.h"

/* Fills steps, waits, states, ready, late and spare of a timetable whose job, operations and moments stand. */
void dates_fill(struct problem *problem, const struct net_result *result, struct timetable *timetable);

#endif
