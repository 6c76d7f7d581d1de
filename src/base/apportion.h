/* Whole numbers that add up: largest remainder (Hamilton's method; Balinski and Young, Fair Representation, 1982). */
#ifndef BASE_APPORTION_H
#define BASE_APPORTION_H

#include <stddef.h>
#include <stdint.h>

/* Each gets its part divided by `per` and rounded down; what is missing of `sum` goes, one each, to the largest remainders, of
 * equal ones to the first. No part is below 0, per is above 0, and the sum is neither below all rounded down nor above all
 * rounded up. */
void apportion(const int64_t *parts, size_t count, int64_t per, int64_t sum, int64_t *whole);

#endif
