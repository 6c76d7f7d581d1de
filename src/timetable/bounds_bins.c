/* How many bins hold so much. */
#include "timetable/bounds.h"

#include <stdlib.h>

enum { BINS_EXACT_MOST = 3000 };

static int falling(const void *a, const void *b)
{
    int64_t left = *(const int64_t *)a, right = *(const int64_t *)b;
    return left < right ? 1 : left > right ? -1 : 0;
}

/* L2 for one bound of what counts as small: of those over half a bin each has its own, and the middling fill what is left. */
static int64_t bins_for(const int64_t *sizes, size_t count, int64_t bin, int64_t small)
{
    int64_t alone = 0, over_half = 0, over_half_sum = 0, rest_sum = 0;
    for (size_t i = 0; i < count && sizes[i] >= small; i++) {
        alone += sizes[i] > bin - small;
        bool half = sizes[i] <= bin - small && 2 * sizes[i] > bin;
        over_half += half;
        over_half_sum += half ? sizes[i] : 0;
        rest_sum += 2 * sizes[i] <= bin ? sizes[i] : 0;
    }
    int64_t left = rest_sum - (over_half * bin - over_half_sum);
    return alone + over_half + (left > 0 ? bounds_divide_up(left, bin) : 0);
}

int64_t bins_least(int64_t *sizes, size_t count, int64_t bin)
{
    int64_t most = 0;
    qsort(sizes, count, sizeof *sizes, falling);
    for (size_t i = 0; i <= count; i++) {
        int64_t small = i < count ? sizes[i] : 0;
        if (2 * small > bin || (i > 0 && i < count && (sizes[i] == sizes[i - 1] || count > BINS_EXACT_MOST)))
            continue;
        int64_t bins = bins_for(sizes, count, bin, small);
        most = bins > most ? bins : most;
    }
    return most;
}
