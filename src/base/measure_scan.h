/* What the readers of quantities share: a number with its unit, and how its faults are told. */
#ifndef BASE_MEASURE_SCAN_H
#define BASE_MEASURE_SCAN_H

#include "base/exact.h"
#include "base/err.h"
#include "base/measure_units.h"
#include "base/number_scan.h"

#include <stdbool.h>

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

/* A temperature at *at with its unit, and the blanks behind it. */
bool temperature_scan(const char **at, double *temperature_c, struct err *fault);

#endif
