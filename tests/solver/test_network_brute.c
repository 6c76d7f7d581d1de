/* Random networks against a solver that tries everything. The seed of a failing network is printed: net_random with
 * it makes the same one again. */
#include "check.h"

#include "net_brute.h"
#include "net_draw.h"
#include "net_verify.h"
#include "solver/improve/incumbent.h"

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
        struct net_draw draw;
        struct net_result result;
        net_draw(&draw, HERE, 1000 + (uint64_t)i);
        struct net_brute want = net_brute_solve(&draw.net);
        net_solve(&draw.net, (struct net_options){0}, &result);
        compare(&draw.row, &draw.net, &result, want);
        possible += want.possible;
        net_draw_release(&draw);
    }
    check_true(HERE, possible > NETWORKS / 4 && possible < NETWORKS - NETWORKS / 10, "both kinds are tried");
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(agrees));
}
