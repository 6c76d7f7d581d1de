#include "base/apportion.h"

#include <assert.h>
#include <stdint.h>

/* Of the parts that were rounded down the one with the largest remainder; SIZE_MAX: none was. */
static size_t largest(const int64_t *parts, size_t count, int64_t per, const int64_t *whole)
{
    size_t found = SIZE_MAX;
    int64_t most = 0;
    for (size_t i = 0; i < count; i++) {
        int64_t left = parts[i] - whole[i] * per;
        if (left <= most)
            continue;
        most = left;
        found = i;
    }
    return found;
}

void apportion(const int64_t *parts, size_t count, int64_t per, int64_t sum, int64_t *whole)
{
    for (size_t i = 0; i < count; i++) {
        whole[i] = parts[i] / per;
        sum -= whole[i];
    }
    assert(sum >= 0);
    for (; sum > 0; sum--) {
        size_t next = largest(parts, count, per, whole);
        assert(next != SIZE_MAX);
        whole[next]++;
    }
}
