/* A decimal number as C and JSON write it -> the nearest double, in no locale. */
#ifndef BASE_DECIMAL_H
#define BASE_DECIMAL_H

#include <stddef.h>

/* Digits with one point at most, and an exponent; no sign. The bytes read, 0: no number here. Rounded correctly up to
 * 15 digits and to 1e22, beyond that to within half a unit of the last place and one part in 1e13 of it; digits behind the
 * nineteenth are cut; infinity where it is too large. */
size_t decimal_read(const char *text, size_t length, double *value);

#endif
