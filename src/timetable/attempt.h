/* One problem solved within a horizon that is guessed, and lengthened where no plan fits it. */
#ifndef TIMETABLE_ATTEMPT_H
#define TIMETABLE_ATTEMPT_H

#include "solver/solve.h"
#include "timetable/problem.h"
#include "timetable/timetable.h"

enum {
    WEEK_MIN = 7 * DAY_MINUTES,
    HORIZON_MARGIN_MIN = 3 * WEEK_MIN,
    HORIZON_MOST_MIN = 104 * WEEK_MIN, /* no plan looks further ahead */
};

struct attempt {
    struct problem *problem;
    struct net_result result;
    struct net_result early; /* as it was before it was shifted right */
};

/* The last attempt: with a plan, or at the longest horizon. */
void attempt_solve(struct arena *arena, const struct operations *operations, struct timetable_options options,
                   struct attempt *last);

/* The same network, or one like it, within the horizon that it has. */
void attempt_network(const struct network *net, struct timetable_options options, struct net_result *result);
/* As late as the goals of a network allow, which is the problem's but for them. Later coats may come close enough to those
 * beneath them that no window is missed any more: then nothing is scuffed for, and the place of the scuff is free for the
 * others. */
void attempt_make_late(struct problem *problem, const struct network *net, struct net_result *result);
/* A result of its own, in the network's arena. */
struct net_result attempt_copy(const struct network *net, const struct net_result *result);

#endif
