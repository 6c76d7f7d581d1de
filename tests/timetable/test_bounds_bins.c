/* How many bins hold so much: Martello and Toth's bound L2 (Discrete Applied Mathematics 28, 1990), worked
 * by hand. */
#include "check.h"

#include "timetable/bounds.h"

enum { SIZES = 8 };

struct bins_row {
    struct row row;
    int64_t sizes[SIZES];
    size_t count;
    int64_t bin, want;
};

static const struct bins_row bins[] = {
    {ROW("nothing"), {0}, 0, 10, 0},
    {ROW("nothing that takes room"), {0, 0}, 2, 10, 0},
    {ROW("one"), {1}, 1, 10, 1},
    {ROW("full to the brim"), {10}, 1, 10, 1},
    {ROW("a whole one leaves no room for the smallest"), {10, 1}, 2, 10, 2},
    {ROW("two halves"), {5, 5}, 2, 10, 1},
    {ROW("three halves"), {5, 5, 5}, 3, 10, 2},
    {ROW("a little over half each"), {6, 6, 6}, 3, 10, 3},
    {ROW("each with what fits beside it"), {6, 4, 6, 4}, 4, 10, 2},
    {ROW("each with a little more than fits beside it"), {6, 5, 6, 5}, 4, 10, 3},
    {ROW("by their sum"), {3, 3, 3, 3}, 4, 10, 2},
    {ROW("by their sum, exactly two"), {4, 4, 4, 4, 4}, 5, 10, 2},
    {ROW("by their sum, one over two"), {4, 4, 4, 4, 5}, 5, 10, 3},
    /* With 4 as the least that counts 7 and 8 are alone, and of 5, 4 and 4 one bin holds two. */
    {ROW("the large are alone, in whatever order"), {4, 8, 5, 7, 4}, 5, 10, 4},
    /* With 3: 8 is alone, beside 6 is room for one 3, and the other two are one bin more; the sum would be
     * 23. */
    {ROW("the middling fill what the large leave"), {3, 3, 8, 6, 3}, 5, 10, 3},
    {ROW("what the large leave is enough"), {3, 3, 7, 7}, 4, 10, 2},
    {ROW("more than a bin is one of its own"), {25, 4}, 2, 10, 2},
    {ROW("the same several times"), {6, 6, 4, 4, 4}, 5, 10, 3},
};

static void bins_are(void **state)
{
    const struct bins_row *r = *state;
    int64_t sizes[SIZES];
    for (size_t i = 0; i < SIZES; i++)
        sizes[i] = r->sizes[i];
    check_int(&r->row, bins_least(sizes, r->count, r->bin), r->want);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(bins, bins_are));
}
