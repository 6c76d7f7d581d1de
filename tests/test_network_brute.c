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

static int flags_of(const struct network *net, const struct net_result *result)
{
    int count = 0;
    for (int f = 0; f < net->flag_count; f++)
        count += result->flag[f];
    return count;
}

static void compare(const struct row *row, const struct network *net, const struct net_result *result,
                    struct net_brute want)
{
    net_verify(row, net, result);
    net_verify_left(row, net, result);
    check_int(row, result->status, want.possible ? NET_PLANNED : NET_IMPOSSIBLE);
    if (!want.possible)
        return;
    check_true(row, result->proven, "proven: none of these is hard");
    check_int(row, result->value, want.value);
    check_int(row, flags_of(net, result), want.flags);
}

static void agrees(void **state)
{
    (void)state;
    int possible = 0;
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
        arena_free(arena);
    }
    check_true(HERE, possible > NETWORKS / 4 && possible < NETWORKS - NETWORKS / 10, "both kinds are tried");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(agrees));
}
