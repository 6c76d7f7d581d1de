#include "amount/lots.h"

#include <math.h>

enum { LOTS_MOST = 100000 };

/* At least one, rounded up, a rounding error forgiven. */
static double count_up(double lots)
{
    return fmax(ceil(lots - 1e-9), 1);
}

/* Where a lot is laid in `least` minutes or more, the two conditions are laying <= most and wiping <= most. Where it is
 * laid sooner, the person waits, and least + (wiping - laying)/n <= most asks for more lots. */
static double lots_needed(double laying, double wiping, double least, double most)
{
    double n = count_up(fmax(laying, wiping) / most);
    if (laying / n >= least || wiping <= laying)
        return n;
    return most > least ? fmax(n, count_up((wiping - laying) / (most - least))) : INFINITY;
}

struct lots lots_make(double laying, double wiping, double least, double most)
{
    double n = most >= least ? lots_needed(laying, wiping, least, most) : INFINITY;
    struct lots lots = {.possible = n <= LOTS_MOST};
    lots.count = lots.possible ? (int)n : 1;
    lots.minutes = lots.count * fmax(laying / lots.count, least) + wiping;
    return lots;
}
