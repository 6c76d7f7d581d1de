/* Sums that do not depend on the order of their terms: exact partial sums, rounded once when read.
 * J. R. Shewchuk, "Adaptive precision floating-point arithmetic" (1997), growing expansions, as in Python's fsum. */
#ifndef SURFACE_SUM_H
#define SURFACE_SUM_H

/* Doubles span 2098 bits in non-overlapping parts of 53, and one is on its way in. */
enum { SUM_PARTS = 42 };

/* Begin with `struct sum sum = {0}`. */
struct sum {
    int count;
    double part[SUM_PARTS]; /* not overlapping, growing in size */
};

/* Terms must be finite, and so must their sum. */
void sum_add(struct sum *sum, double term);

/* The double next to the exact sum. */
double sum_value(const struct sum *sum);

#endif
