/* Wiping off in lots: a wet oil is laid and wiped a lot at a time, so that every spot is wiped between two times after
 * it was wetted (contract, section 8; method, section 2). */
#ifndef AMOUNT_LOTS_H
#define AMOUNT_LOTS_H

#include <stdbool.h>

struct lots {
    int count; /* 0: nothing is wiped off */
    double area_m2;
    double minutes; /* laying and wiping of all lots together */
    bool possible;  /* false: not in its time at these rates, however small the lot */
};

/* `laying` and `wiping` minutes of the whole; each spot wiped `least` to `most` minutes after it was wetted.
 * n equal lots of l = laying/n and w = wiping/n take max(l, least) + w each; n is the least for which l <= most and
 * max(l, least) + w - l <= most. `area_m2` is left at 0. */
struct lots lots_make(double laying, double wiping, double least, double most);

#endif
