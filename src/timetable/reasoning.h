/* The reasons of a solution while they are collected. Used by why.c, why_chain.c and reasoning.c only. */
#ifndef TIMETABLE_REASONING_H
#define TIMETABLE_REASONING_H

#include "solver/explain/critical.h"
#include "timetable/problem.h"
#include "timetable/timetable.h"

struct reasoning {
    struct problem *problem;
    const struct net_result *result;
    struct timetable *timetable;
    struct reason *items;
    size_t count, room;
};

void reasoning_add(struct reasoning *reasoning, struct reason reason);
/* Gives the collected reasons to the timetable. */
void reasoning_keep(struct reasoning *reasoning);

const struct operation *reasoning_operation(const struct reasoning *reasoning, int index);
/* The moment of a slot; INT64_MAX from NET_NEVER on. */
int64_t reasoning_moment(const struct reasoning *reasoning, int32_t slot);

/* What a step of a chain waited for: its links, last first; at most a calendar, and what stood before that. */
struct cause reasoning_cause(const struct reasoning *reasoning, const struct net_link *links, size_t count);
/* It followed the step before at once: its own work, or the same person. */
bool reasoning_follows(const struct reasoning *reasoning, const struct net_link *links, size_t count);

#endif
