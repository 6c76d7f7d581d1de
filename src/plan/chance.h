/* The chance to be on time: the plan's work in its order, again and again with drying and hands-on times drawn from stated
 * spreads.
 *
 * In each draw every batch starts as soon as what it waits for allows, but never before a batch that the plan has ahead of it
 * with the same person, on the same lot, in the spray place, on the rack or in the way of its dust. A batch that the plan
 * holds back (for a window, or to be late) is held back until its planned start. A batch begins where its planned minutes fit
 * its person's hours and is finished though it overruns them. A missed recoat window adds the scuff that the finish allows; a
 * window that must not be missed spoils the draw, which then is not on time.
 *
 * The same seed gives the same answer for any number of threads: every draw has a stream of its own. */
#ifndef PLAN_CHANCE_H
#define PLAN_CHANCE_H

#include "timetable/timetable.h"

struct arena;

/* Factors on a time as planned, which is the likeliest (a triangle), or all between the two as likely (`even`). */
struct chance_spread {
    double low, high;
    bool even;
};

struct chance_options {
    uint64_t seed;
    int32_t draws; /* at least 1 */
    int threads;   /* at least 1 */
    struct chance_spread drying, hands;
    double shared; /* of a film's deviation: what all coats of a finish have in common (air, can, wood) */
};

/* Coats of the plan whose minutes the shop has learned (finish->tool_learned): instead of `hands` a batch of them takes
 * the learned factor on its planned minutes, its logarithm normal with half of the tolerance as deviation. */
struct chance_learned {
    const struct finish *finish;
    enum tool tool;
};

struct chance {
    struct chance_options options;
    const struct chance_learned *learned; /* in the order of the plan */
    size_t learned_count;
    int32_t on_time; /* draws that meet the delivery */
    int32_t scuffed; /* draws in which a window was missed and scuffed for */
    int32_t spoiled; /* draws in which a window was missed that must not be */
    /* Ready in half, in nine tenths of the draws; INT64_MAX: not within the time looked at. */
    int64_t half_min, nine_tenths_min;
    /* The wait that drives the risk: of all that the ready moment hung on in the draws that were ready late (where none was:
     * later than planned), the one whose drying added the most. NULL: none. */
    const struct timetable_step *driver; /* the coat that dries */
    enum finish_state driver_state;
    double driver_share;     /* of those draws, in which the ready moment hung on it */
    int64_t driver_adds_min; /* on the average of these */
    bool driver_late;        /* counted over draws that came late */
};

/* The timetable must be planned. */
const struct chance *chance_make(struct arena *arena, const struct timetable *timetable,
                                 struct chance_options options);

/* 10,000 draws; drying 0.8 to 1.3 times its table time, half of the deviation shared; hands-on work 0.8 to 1.4 times its
 * planned minutes. Common practice, from memory: there is no published spread. */
struct chance_options chance_defaults(void);

#endif
