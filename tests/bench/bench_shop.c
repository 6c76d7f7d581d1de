/* bench_shop [SEEDS]: networks like a shop's jobs (net_jobs.h) of 40 to 200 operations. Prints, for each size, how many were
 * planned and proven, the mean and the worst gap between plan and bound, and the time of the search; for 200 operations of the first
 * plan alone. */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "base/arena.h"
#include "net_jobs.h"
#include "solver/solve.h"

static double seconds(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return (double)now.tv_sec + (double)now.tv_nsec * 1e-9;
}

struct tally {
    int planned, proven, impossible;
    double sum_gap, worst_gap, sum_s, worst_s;
};

/* The bound and the plan are counted from slot 0: the goals of these networks are due there. */
static void solve_one(int operations, uint64_t seed, int64_t effort, struct tally *tally)
{
    struct arena *arena = arena_make(0);
    struct network net;
    struct net_result result;
    net_jobs_make(&net, arena, operations, seed);
    int32_t due = net.goal_count ? net.goals[0].due : 0;
    double before = seconds();
    net_solve(&net, (struct net_options){effort}, &result);
    double spent = seconds() - before;
    tally->sum_s += spent;
    tally->worst_s = spent > tally->worst_s ? spent : tally->worst_s;
    tally->impossible += result.status == NET_IMPOSSIBLE;
    if (result.status == NET_PLANNED) {
        double bound = (double)result.bound + due, value = (double)result.value + due;
        double gap = bound > 0 ? 100 * (value - bound) / bound : 0;
        tally->planned++;
        tally->proven += result.proven;
        tally->sum_gap += gap;
        tally->worst_gap = gap > tally->worst_gap ? gap : tally->worst_gap;
    }
    arena_free(arena);
}

int main(int argc, char **argv)
{
    static const int sizes[] = {40, 80, 120, 160, 200};
    int seeds = argc > 1 ? (int)strtol(argv[1], NULL, 10) : 10;
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++) {
        struct tally tally = {0};
        bool first_only = sizes[i] == 200;
        for (int seed = 1; seed <= seeds; seed++)
            solve_one(sizes[i], (uint64_t)seed, first_only ? 1 : 0, &tally);
        printf(
            "%d operations%s: %d of %d planned, %d proven, %d impossible, mean gap %.1f %%, worst %.1f %%, "
            "mean %.3f s, worst %.3f s\n",
            sizes[i], first_only ? ", first plan alone" : "", tally.planned, seeds, tally.proven,
            tally.impossible, tally.planned ? tally.sum_gap / tally.planned : 0, tally.worst_gap,
            tally.sum_s / seeds, tally.worst_s);
        fflush(stdout);
    }
    return 0;
}
