/* Sums worked by hand, and the classic example: a house of 10 seats for votes of 47, 16, 15.8, 12, 6.1 and 3.1 thousand gives
 * 5, 2, 1, 1, 1, 0 by the largest remainder (Balinski and Young; the figures, from memory, are those of most textbooks). */
#include "base/apportion.h"
#include "check.h"

static void add_up_to(const struct row *row, const int64_t *parts, size_t count, int64_t per, int64_t sum,
                      const int64_t *want)
{
    int64_t got[8];
    apportion(parts, count, per, sum, got);
    for (size_t i = 0; i < count; i++)
        check_int(row, got[i], want[i]);
}

static void seats(void **state)
{
    (void)state;
    const int64_t votes[] = {47000, 16000, 15800, 12000, 6100, 3100}, want[] = {5, 2, 1, 1, 1, 0};
    add_up_to(HERE, votes, 6, 10000, 10, want);
}

static void seconds_to_minutes(void **state)
{
    (void)state;
    /* 10:20, 10:40 and 5:00 are 26 min: the 20 s go to the 40. */
    const int64_t seconds[] = {620, 640, 300}, want[] = {10, 11, 5};
    add_up_to(HERE, seconds, 3, 60, 26, want);
}

static void equal_remainders_go_to_the_first(void **state)
{
    (void)state;
    const int64_t thirds[] = {100, 100, 100}, want[] = {34, 33, 33};
    add_up_to(HERE, thirds, 3, 3, 100, want);
}

static void nothing_is_shared(void **state)
{
    (void)state;
    const int64_t parts[] = {0, 7}, want[] = {0, 7};
    add_up_to(HERE, parts, 2, 1, 7, want);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(seats), CHECK_TEST(seconds_to_minutes),
                     CHECK_TEST(equal_remainders_go_to_the_first), CHECK_TEST(nothing_is_shared));
}
