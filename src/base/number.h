/* Numbers as people write them: `12` `12.5` `3/4` `3 3/4` `3-3/4` `¾` `3¾`. Never the locale, no exponent, no sign
 * but a minus that is told; exact until the one rounding at the end. */
#ifndef BASE_NUMBER_H
#define BASE_NUMBER_H

#include "base/err.h"
#include "base/text.h"

#include <stdint.h>

/* The whole text as a number, 0 or more, correctly rounded. False: *value is untouched, *fault says what was
 * expected (for `1,5`: `a decimal point: write "1.5"`). At most 40 digits. */
bool number_parse(const char *text, double *value, struct err *fault);

/* A count: whole, 1 to `most`. */
bool count_parse(const char *text, int64_t most, int64_t *count, struct err *fault);

/* The fewest digits that read back as the same double, without exponent; finite, |value| below 1e16. */
struct text_short number_format(double value);

/* Rounded to `decimals` places; `number_fixed` keeps trailing zeros ("2.50"), `number_round` drops them ("2.5").
 * Never "-0". */
struct text_short number_fixed(double value, int decimals);
struct text_short number_round(double value, int decimals);

/* a / b towards minus infinity, b above 0. */
static inline int64_t number_floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

#endif
