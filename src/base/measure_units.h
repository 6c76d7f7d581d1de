/* Every unit with its exact factor to the base unit of its dimension (base/measure.h), as up / down. */
#ifndef BASE_MEASURE_UNITS_H
#define BASE_MEASURE_UNITS_H

#include <stddef.h>
#include <stdint.h>

enum dimension {
    DIM_LENGTH = 1,
    DIM_THIN = 2, /* lengths that only a film has */
    DIM_AREA = 4,
    DIM_VOLUME = 8,
    DIM_MASS = 16,
    DIM_SPAN = 32,
    DIM_SHARE = 64,
};

enum { UNIT_NAMES = 8 };

struct unit {
    enum dimension dimension;
    uint64_t up, down;
    const char *names[UNIT_NAMES]; /* the usual one first */
};

/* All units, grouped by dimension, small to large within the metric and the US ones. */
const struct unit *unit_table(size_t *count);

/* The unit of one of the dimensions (a set of bits) that goes by this name: any case, dots after letters, runs of
 * blanks and ^ before an exponent do not matter; words may carry an s. */
const struct unit *unit_find(unsigned dimensions, const char *name, size_t length);

/* Did you mean: a name of a unit of these dimensions, or NULL. */
const char *unit_nearest(unsigned dimensions, const char *name, size_t length);

#endif
