/* Units with their exact factors, and reading a number with its unit: what the readers and writers of quantities
 * (length.h, span.h, measure.h, coverage.h) share. */
#ifndef BASE_UNIT_H
#define BASE_UNIT_H

#include "base/number.h"

/* Every unit with its exact factor to the base unit of its dimension (base/measure.h), as up / down. */
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

/* How many of the unit `name`, which exists, make one base unit. */
double unit_per_base(enum dimension dimension, const char *name);

/* For people: rounded, trailing zeros dropped, with its unit. */
struct text_short unit_round(double value, int decimals, const char *unit);
/* The same with all its decimals, for columns of one kind. */
struct text_short unit_fixed(double value, int decimals, const char *unit);
/* The shortest text that reads back as the very same double: the digits of the base unit with the decimal point moved
 * `shift` places to the right, which costs no rounding. */
struct text_short unit_write(double value, int shift, const char *unit);

/* A kind of quantity as its faults name it. */
struct kind {
    unsigned dimensions;
    const char *noun; /* "a length" */
    const char *such; /* "\"19 mm\" or \"3/4 in\"" */
};

/* `a length such as "19 mm" or "3/4 in"`; false, as fault_say is. */
void kind_fill(const struct kind *kind, struct err *fault);
#define kind_fault(kind, fault) (kind_fill(kind, fault), false)

/* The text folded, with something in it. */
bool kind_fold(const char *text, const struct kind *kind, struct folded *folded, struct err *fault);

/* A number at *at, with the blanks behind it; *at moves on. */
bool kind_number(const char **at, const struct kind *kind, struct exact *number, struct err *fault);

/* The unit named by exactly these characters; an empty name is a missing unit. */
const struct unit *kind_unit(const char *name, size_t length, const struct kind *kind, struct err *fault);

/* How far the name of a unit reaches: to the next number or the end, without the blanks behind it. */
size_t unit_reach(const char *at, const char **next);
/* n, less the blanks that end the first n characters. */
size_t blanks_cut(const char *at, size_t n);

/* Rounds into *value, unless that is a size that cannot be meant. */
bool kind_round(struct exact number, const struct kind *kind, double *value, struct err *fault);
bool kind_sane(double value, const struct kind *kind, struct err *fault);

/* Number and unit to the end of the text, in base units. */
bool kind_single(const char *text, const struct kind *kind, struct exact *number, const struct unit **unit,
                 struct err *fault);

/* Number, unit, `/` or `per`, unit: the number as it stood, not yet multiplied. Each side is looked up among all
 * dimensions of the kind. */
bool kind_per(const char *text, const struct kind *kind, struct exact *number, const struct unit *sides[2],
              struct err *fault);

/* number x a / b in base units of both. */
struct exact exact_per(struct exact number, const struct unit *a, const struct unit *b);

#endif
