/* Reads what a formula says in numbers: "2 x (3 + 4)^2 - sqrt(2) x pi / 4". */
#ifndef TESTS_SUMS_H
#define TESTS_SUMS_H

#include <stdbool.h>

/* The value, and where its text ends; false: that is no such formula. */
bool sums_read(const char *text, double *value, const char **rest);

#endif
