/* How many draws, and from which spreads. */
#ifndef PLAN_CHANCE_OPTIONS_H
#define PLAN_CHANCE_OPTIONS_H

#include <stdbool.h>
#include <stdint.h>

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

/* 10,000 draws; drying 0.8 to 1.3 times its table time, half of the deviation shared; hands-on work 0.8 to 1.4 times its
 * planned minutes. Common practice, from memory: there is no published spread. */
struct chance_options chance_defaults(void);

#endif
