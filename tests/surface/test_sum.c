#include "check.h"

#include "surface/sum.h"

#include <math.h>

struct sum_row {
    struct row row;
    double terms[6];
    int count;
    double want;
};

/* The double next to the exact sum, by hand: 2^-53 is half a unit of 1. */
static const struct sum_row sums[] = {
    {ROW("nothing"), {0}, 0, 0},
    {ROW("one"), {0.1}, 1, 0.1},
    {ROW("half a unit, a tie to even"), {1, 0x1p-53}, 2, 1},
    {ROW("a little above the tie"), {1, 0x1p-53, 0x1p-106}, 3, 1 + 0x1p-52},
    {ROW("a little below the tie"), {1 + 0x1p-52, 0x1p-53, -0x1p-106}, 3, 1 + 0x1p-52},
    {ROW("a tie that falls to odd"), {1 + 0x1p-52, 0x1p-53}, 2, 1 + 0x1p-51},
    {ROW("large terms that cancel"), {1e300, 1, 1e-300, -1e300, -1}, 5, 1e-300},
    {ROW("tenths, as doubles"), {0.1, 0.2, 0.3, 0.4}, 4, 1},
    {ROW("far below the unit"), {1e16, 1, 1, 1, 1, -1e16}, 6, 4},
};

/* In every rotation. */
static void sum_is(void **state)
{
    const struct sum_row *r = *state;
    for (int first = 0; first < (r->count ? r->count : 1); first++) {
        struct sum sum = {0};
        for (int i = 0; i < r->count; i++)
            sum_add(&sum, r->terms[(first + i) % r->count]);
        check_double(&r->row, sum_value(&sum) / (r->want != 0 ? r->want : 1), r->want != 0, 0);
    }
}

/* Whole numbers times a power of two add up exactly in 128 bits. */
static void sums_are_exact(void **state)
{
    (void)state;
    __extension__ typedef __int128 wide;
    uint64_t seed = 9;
    for (int round = 0; round < 500; round++) {
        struct sum sum = {0};
        wide exact = 0;
        for (int i = 0; i < 50; i++) {
            int64_t digits = check_random_int(&seed, -(1 << 30), 1 << 30);
            int shift = check_random_int(&seed, 0, 60);
            exact += (wide)digits * ((wide)1 << shift);
            sum_add(&sum, ldexp((double)digits, shift));
        }
        check_double(HERE, sum_value(&sum), (double)exact, 0);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(sums, sum_is), CHECK_TEST(sums_are_exact));
}
