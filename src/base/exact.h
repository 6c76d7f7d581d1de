/* Numbers and their nearest double, in no locale: decimals as C and JSON write them, and fractions.
 *
 * A fraction is not negative and of whole numbers up to 256 bits, so that "3 3/4 in" is multiplied by its factor exactly and
 * rounded once. The caller keeps the sizes: nothing here detects overflow but by assertion. */
#ifndef BASE_EXACT_H
#define BASE_EXACT_H

#include <stddef.h>
#include <stdint.h>

enum { WIDE_WORDS = 8 };

struct wide {
    uint32_t word[WIDE_WORDS]; /* least first */
};

struct exact {
    struct wide top, bottom;
};

struct wide wide_of(uint64_t value);
struct wide wide_times(struct wide a, uint64_t factor);
struct wide wide_plus(struct wide a, struct wide b);
/* a - b, b not above a. */
struct wide wide_minus(struct wide a, struct wide b);
/* Negative, 0 or positive as a is below, equal to or above b. */
int wide_compare(struct wide a, struct wide b);

struct exact exact_of(uint64_t top, uint64_t bottom);
struct exact exact_times(struct exact a, uint64_t up, uint64_t down);

/* The nearest double, ties to even. The result must lie in the range of normal doubles or be 0. */
double exact_round(struct exact a);

/* A decimal: digits with one point at most, and an exponent; no sign. The bytes read, 0: no number here. Rounded correctly up to
 * 15 digits and to 1e22, beyond that to within half a unit of the last place and one part in 1e13 of it; digits behind the
 * nineteenth are cut; infinity where it is too large. */
size_t decimal_read(const char *text, size_t length, double *value);

#endif
