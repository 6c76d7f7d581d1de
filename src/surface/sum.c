#include "surface/sum.h"

#include <math.h>

void sum_add(struct sum *sum, double term)
{
    int kept = 0;
    for (int i = 0; i < sum->count; i++) {
        double other = sum->part[i];
        if (fabs(term) < fabs(other)) {
            double swap = term;
            term = other;
            other = swap;
        }
        double high = term + other, low = other - (high - term);
        if (low != 0)
            sum->part[kept++] = low;
        term = high;
    }
    sum->part[kept++] = term;
    sum->count = kept;
}

double sum_value(const struct sum *sum)
{
    int i = sum->count;
    if (i == 0)
        return 0;
    double high = sum->part[--i], low = 0;
    while (i > 0 && low == 0) {
        double before = high, next = sum->part[--i];
        high = before + next;
        low = next - (high - before);
    }
    /* A tie was rounded to even; the parts below decide it. */
    if (i > 0 && ((low < 0) == (sum->part[i - 1] < 0))) {
        double twice = 2 * low, up = high + twice;
        if (twice == up - high)
            high = up;
    }
    return high;
}
