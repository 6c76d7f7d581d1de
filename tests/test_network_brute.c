/* Random networks against a solver that tries everything. The seed of a failing network is printed: net_random with
 * it makes the same one again. */
#include "check.h"

#include <stdio.h>

#include "base/arena.h"
#include "net_brute.h"
#include "net_verify.h"
#include "network/chain.h"
#include "network/shift.h"

enum { NETWORKS = 3000 };

static void compare(const struct row *row, const struct network *net, const struct net_result *result,
                    struct net_brute want)
{
    net_verify(row, net, result);
    net_verify_left(row, net, result);
    if (result->status == NET_IMPOSSIBLE)
        check_true(row, !want.possible, "impossible as tried");
    if (result->status != NET_PLANNED)
        return;
    check_true(row, want.possible, "possible as tried");
    check_true(row, result->bound <= want.value, "bound at most the best value");
    check_true(row, result->value >= want.value, "value not under the best one");
}

static void agrees(void **state)
{
    (void)state;
    size_t planned = 0, proven = 0, impossible = 0, possible = 0;
    for (int i = 0; i < NETWORKS; i++) {
        char name[60];
        uint64_t seed = 1000 + (uint64_t)i;
        snprintf(name, sizeof name, "seed %llu", (unsigned long long)seed);
        struct row row = {name, __FILE__, __LINE__};
        struct arena *arena = arena_make(0);
        struct network net;
        struct net_result result;
        net_random(&net, arena, &seed);
        struct net_brute want = net_brute_solve(&net);
        net_solve(&net, (struct net_options){0}, &result);
        compare(&row, &net, &result, want);
        possible += want.possible;
        planned += result.status == NET_PLANNED;
        impossible += result.status == NET_IMPOSSIBLE;
        proven += result.proven;
        arena_free(arena);
    }
    printf("possible %zu: planned %zu, proven %zu; impossible %d: proven %zu\n", possible, planned, proven,
           NETWORKS - (int)possible, impossible);
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(agrees));
}
