/* What little effort reaches on networks like a shop's: a plan no later than this, a bound no lower. Effort is counted, so that
 * every machine comes as far. Where value and bound are equal the optimum is proven within the effort. What gets better passes; after
 * a change that is worth what another network loses, its row is set anew. */
#include "check.h"

#include "base/arena.h"
#include "net_jobs.h"
#include "net_verify.h"
#include "solver/solve.h"

struct reached_row {
    struct row row;
    int operations;
    uint64_t seed;
    int64_t effort;
    int32_t value, bound;
};

static const struct reached_row reached[] = {
    {ROW("30 operations"), 30, 2, 2000000, 1583, 1583},
    {ROW("30, soon proven"), 30, 3, 90000, 2123, 2123},
    {ROW("30, another"), 30, 4, 190000, 1543, 1543},
    {ROW("50 operations"), 50, 1, 950000, 2129, 2129},
    {ROW("50, of which the bound comes last"), 50, 2, 2400000, 1868, 1868},
    {ROW("50, a later one"), 50, 3, 1000000, 3562, 3562},
    {ROW("50, another"), 50, 4, 1400000, 2448, 2448},
    {ROW("60, proven"), 60, 10, 15000000, 2139, 2139},
    {ROW("70, proven"), 70, 3, 3400000, 3562, 3562},
    {ROW("70, open"), 70, 1, 8000000, 3046, 2606},
    {ROW("70, near its bound"), 70, 5, 8000000, 2446, 2430},
    {ROW("90 operations"), 90, 3, 8000000, 4781, 3053},
    {ROW("90, another"), 90, 6, 8000000, 2696, 2126},
    {ROW("110 operations"), 110, 2, 8000000, 3883, 3570},
    {ROW("110, another"), 110, 6, 8000000, 3561, 2693},
    {ROW("110, a later one"), 110, 4, 20000000, 4139, 3367},
    {ROW("130, with dust in the room"), 130, 5, 20000000, 5306, 4433},
};

static void no_less_is_reached(void **state)
{
    const struct reached_row *r = *state;
    struct arena *arena = arena_make(0);
    struct network net;
    struct net_result result;
    net_jobs_make(&net, arena, r->operations, r->seed);
    net_solve(&net, (struct net_options){r->effort}, &result);
    net_verify(&r->row, &net, &result);
    check_int(&r->row, result.status, NET_PLANNED);
    check_int(&r->row, result.value > r->value ? result.value : r->value, r->value);
    check_int(&r->row, result.bound < r->bound ? result.bound : r->bound, r->bound);
    arena_free(arena);
}

int main(void)
{
    return CHECK_ALL(CHECK_ROWS(reached, no_less_is_reached));
}
