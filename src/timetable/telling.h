/* Sentences about a solution, in the user's words. Used by why.c, why_chain.c and why_wait.c only. */
#ifndef TIMETABLE_TELLING_H
#define TIMETABLE_TELLING_H

#include "solver/explain/critical.h"
#include "timetable/problem.h"
#include "timetable/timetable.h"

struct telling {
    struct problem *problem;
    const struct net_result *result;
    struct timetable *timetable;
    const char **sentences;
    size_t count, room;
};

void telling_say(struct telling *telling, const char *sentence);
const struct operation *telling_operation(const struct telling *telling, int index);
/* "coat 2 on top", "coat 1 on case (varnish)", "sanding case to 180", "fit hinges"; of another job than the timetable's:
 * "coat 2 on top (Desk)". */
const char *telling_name(const struct telling *telling, const struct operation *operation);
/* "Fri 5 Mar 08:00". */
const char *telling_when(const struct telling *telling, int32_t slot);

/* What a step of a chain waited for: its links, last first; at most a calendar, and what stood before that. */
const char *telling_wait(struct telling *telling, const struct net_link *links, size_t count);
/* It followed the step before at once: its own work, or the same hands. */
bool telling_follows(const struct telling *telling, const struct net_link *links, size_t count);

#endif
