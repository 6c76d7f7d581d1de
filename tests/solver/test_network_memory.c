/* Memory that ends while the solver works: the plan found so far is the result, and without one it is an error. */
#include "check.h"

#include <setjmp.h>

#include "base/arena.h"
#include "net_draw.h"
#include "net_jobs.h"
#include "net_verify.h"
#include "solver/explain/core.h"
#include "solver/improve/incumbent.h"
#include "solver/solve.h"

enum { OPERATIONS = 40, SEED = 3, EFFORT = 3000000, CEILING_STEP = 60000, CEILING_MOST = 256 << 20 };

/* What came of one call under a ceiling. */
struct solved {
    bool ran_out;
    size_t made, used; /* bytes once the network is made, and at the end */
    struct net_result result;
    bool core_found, core_minimal;
};

/* Impossible: a piece that needs more rack than there is, beside the rest. */
static void add_oversized(struct network *net)
{
    int rack = net_add_resource(net, (struct net_resource){1, 1000});
    net_add_use(net, (struct net_use){0, rack, 2, net_after(12), 0, 0});
}

static struct solved solve_under(const struct row *row, size_t ceiling, bool impossible)
{
    jmp_buf escape;
    struct solved outcome = {.ran_out = true};
    struct arena *arena = arena_make(ceiling);
    struct network net;
    assert_non_null(arena);
    if (!setjmp(escape)) {
        arena_guard(arena, &escape);
        net_jobs_make(&net, arena, OPERATIONS, SEED);
        if (impossible)
            add_oversized(&net);
        outcome.made = arena_used(arena);
        net_solve(&net, (struct net_options){EFFORT}, &outcome.result);
        outcome.used = arena_used(arena);
        net_verify(row, &net, &outcome.result);
        outcome.ran_out = false;
        outcome.core_found = outcome.result.rule_count == 1 && outcome.result.rules[0] == 1000;
        outcome.core_minimal = outcome.result.rules_minimal;
    }
    check_true(row, ceiling == 0 || arena_used(arena) <= ceiling, "the ceiling holds");
    arena_free(arena);
    return outcome;
}

/* From the bytes of the network alone upwards: first memory ends before there is a plan, then after it but before the
 * search has come to its end, then never. */
static void the_plan_is_kept(void **state)
{
    (void)state;
    struct solved whole = solve_under(HERE, 0, false), now;
    int ran_out = 0, kept = 0, searching = 0;
    size_t ceiling = whole.made + 1;
    check_int(HERE, whole.result.status, NET_PLANNED);
    check_true(HERE, whole.used < whole.made + 4096, "scratch memory is given back");
    do {
        now = solve_under(HERE, ceiling, false);
        bool early = !now.ran_out && now.result.effort < whole.result.effort;
        ran_out += now.ran_out;
        kept += early;
        searching += early && now.result.nodes > 0;
        check_true(HERE, now.ran_out || now.result.status == NET_PLANNED, "a plan or an error");
        check_true(HERE, now.ran_out || now.result.value >= whole.result.bound, "no better than possible");
        ceiling += CEILING_STEP;
    } while ((now.ran_out || now.result.effort < whole.result.effort) && ceiling < CEILING_MOST);
    check_int(HERE, now.result.effort, whole.result.effort);
    check_int(HERE, now.result.value, whole.result.value);
    check_true(HERE, ran_out > 0 && kept > 0 && searching > 0,
               "memory ended before, after and in the search");
}

/* The same while the reason of an impossible network is sought. */
static void a_reason_may_stay_open(void **state)
{
    (void)state;
    struct solved whole = solve_under(HERE, 0, true), now;
    check_int(HERE, whole.result.status, NET_IMPOSSIBLE);
    check_true(HERE, whole.core_found && whole.core_minimal, "the rack alone");
    int ran_out = 0, open = 0;
    size_t ceiling = whole.made + 1;
    do {
        now = solve_under(HERE, ceiling, true);
        ran_out += now.ran_out;
        open += !now.ran_out && !now.core_minimal;
        check_true(HERE, now.ran_out || now.result.status == NET_IMPOSSIBLE, "impossible or an error");
        ceiling += CEILING_STEP;
    } while ((now.ran_out || !now.core_minimal) && ceiling < CEILING_MOST);
    check_true(HERE, now.core_found, "enough memory tells the reason");
    check_true(HERE, ran_out > 0 && open > 0, "memory ended before and in the search for the reason");
}

/* A plan that is moved to the left. */
struct move {
    struct network net;
    struct net_result result;
};

static void move(void *call)
{
    struct move *m = call;
    net_left_shift(&m->net, &m->result);
}

/* One work in slot 5, where nothing keeps it from slot 0. What a slot holds is four bytes: those of slots 0 to 1 << 26 are more than a
 * quarter of a gigabyte, which a move may take; then the plan stays as it is. */
static void a_move_takes_no_more_than_its_share(void **state)
{
    (void)state;
    for (int large = 0; large < 2; large++) {
        struct arena *arena = arena_make(0);
        struct move m;
        int32_t start[] = {5};
        network_init(&m.net, arena, large ? 1 << 26 : 100);
        m.result = (struct net_result){.status = NET_PLANNED, .start = start};
        int machine = net_add_resource(&m.net, (struct net_resource){1, NET_NONE});
        int work = net_add_operation(&m.net, (struct net_operation){1, NET_NONE, 0, 10, NET_ALWAYS});
        net_add_use(&m.net, (struct net_use){work, machine, 1, net_after(1), 0, 0});
        size_t used = arena_used(arena);
        check_int(HERE, arena_try(arena, move, &m), !large);
        check_int(HERE, start[0], large ? 5 : 0);
        check_int(HERE, (intmax_t)arena_used(arena), (intmax_t)used);
        arena_free(arena);
    }
}

int main(void)
{
    return CHECK_ALL(CHECK_TEST(the_plan_is_kept), CHECK_TEST(a_reason_may_stay_open),
                     CHECK_TEST(a_move_takes_no_more_than_its_share));
}
