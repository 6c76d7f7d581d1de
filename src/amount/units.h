/* The hand's work on a pass, unit by unit: a unit is one part on one side at one step and is never interrupted. A wet oil is
 * laid and wiped off in sections: small parts share one, a part that is larger than one has several and stays one unit.
 *
 * Units are of fractions of a minute. They end at the sum of those before them in whole seconds, so that a batch carries the
 * fraction from one to the next, and whoever tells a moment rounds up to a whole minute once. */
#ifndef AMOUNT_UNITS_H
#define AMOUNT_UNITS_H

#include "amount/coat.h"

struct units {
    const int32_t *ends_s; /* seconds from the start of the work, rising; the last is its length */
    /* Of a coat, until the end of each unit: the share of it (0 to 1) that is laid, and how many parts are done. */
    const double *laid;
    const int32_t *parts;
    size_t count;
    int32_t seconds;   /* ends_s[count - 1] */
    int32_t longest_s; /* of a unit */
    int sections;      /* of a finish that is wiped off; 0: nothing is */
    bool possible;     /* false: some part is not wiped off in its time, however small the sections */
};

/* Sanding, scuffing, rubbing, polishing, raising: an enum work. No set-up. */
struct units units_of_work(struct arena *arena, const struct pass *pass, int work);
/* A coat, sections counted at `temperature_c`. No set-up, mixing or clean-up. */
struct units units_of_coat(struct arena *arena, const struct pass *pass, const struct coat *coat,
                           double temperature_c);
/* One unit of so many minutes, and one a part of so many each; either may be 0. */
struct units units_of_span(struct arena *arena, double once_min, int32_t each_min, int parts);

/* Minutes of set-up and clean-up, whole, of an enum work; `two_part`: of a finish with several components. */
int32_t units_set_up_min(const struct shop *shop, int work);
int32_t units_clean_up_min(const struct shop *shop, int work, bool two_part);

#endif
