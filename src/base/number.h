/* Numbers as people write them: `12` `12.5` `3/4` `3 3/4` `3-3/4` `¾` `3¾`. Never the locale, no exponent, no sign
 * but a minus that is told; exact until the one rounding at the end. */
#ifndef BASE_NUMBER_H
#define BASE_NUMBER_H

#include "base/err.h"
#include "base/exact.h"
#include "base/text.h"

#include <stdint.h>

/* The whole text as a number, 0 or more, correctly rounded. False: *value is untouched, *fault says what was
 * expected (for `1,5`: `a decimal point: write "1.5"`). At most 40 digits. */
bool number_parse(const char *text, double *value, struct err *fault);

/* A count: whole, 1 to `most`. */
bool count_parse(const char *text, int64_t most, int64_t *count, struct err *fault);

/* The fewest digits that read back as the same double, without exponent; finite, |value| below 1e16. */
struct text_short number_format(double value);

/* The same of the number to 15 digits: the noise of the last bits would differ from machine to machine and says nothing. */
struct text_short number_quiet(double value);

/* Rounded to so many significant digits (1 to 15), trailing zeros dropped. */
struct text_short number_significant(double value, int digits);

/* Rounded to `decimals` places; `number_fixed` keeps trailing zeros ("2.50"), `number_round` drops them ("2.5").
 * Never "-0". */
struct text_short number_fixed(double value, int decimals);
struct text_short number_round(double value, int decimals);

/* a / b towards minus infinity, b above 0. */
static inline int64_t number_floor_div(int64_t a, int64_t b)
{
    return a / b - (a % b < 0);
}

/* Below: reading a number in the middle of a text, for the readers of quantities in this room. */

/* A text with its UTF-8 signs turned into ASCII: ¾ to "3/4" (after a digit " 3/4"), ′ ″ to ' and ", ² ³ to ^2 ^3, × to
 * x, µ to u, ° to deg, the minus sign and no-break spaces; blanks around it gone. */
enum { FOLDED_SIZE = 128 };
struct folded {
    char text[FOLDED_SIZE];
};
/* False if it is too long or holds any other sign beyond ASCII, or a control character. */
bool text_fold(const char *text, struct folded *folded);

enum scan {
    SCAN_READ,     /* *at is behind the number */
    SCAN_NOT,      /* no number here */
    SCAN_NEGATIVE, /* a minus before a digit */
    SCAN_COMMA,    /* 1,5 */
    SCAN_EXPONENT, /* 1e400 */
    SCAN_LONG,     /* too many digits */
};

enum { NUMBER_DIGITS = 48, FRACTION_DIGITS = 9, COUNT_DIGITS = 18 };

/* Digits alone, at most so many (COUNT_DIGITS suit any): a count, or whole feet. */
bool whole_scan(const char **at, size_t most_digits, uint64_t *value);

/* Every form of a number. *at moves only when it was read. */
enum scan number_scan(const char **at, struct exact *number);

/* The fewest digits that read back as value, with the decimal point moved `shift` places to the right. */
struct text_short number_shifted(double value, int shift);

/* Says what is wrong with a number at `at`; `noun` with its article ("a length"), `such` the usual sentence. */
void number_fill(enum scan scan, const char *at, const char *noun, const char *such, struct err *fault);
#define number_fault(...) (number_fill(__VA_ARGS__), false)

#endif
